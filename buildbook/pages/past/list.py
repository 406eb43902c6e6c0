"""PastWork: the jobs of a book as a list, for the maker. Private.

Made from the entries that bound jobs left.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from itertools import groupby

from buildbook.left.model import Entry
from buildbook.words import Words

_PLAIN_WOOD = ("#b98d5b", "#8a6136")


@dataclass(frozen=True, kw_only=True, slots=True)
class ListedJob(Entry):
    """A job as the list shows it. `mark` says why its pages are not of the last binding, empty when they are;
    `delivered_said` is the day as the language writes it.
    """

    mark: str = ""
    delivered_said: str = ""
    has_handover: bool = True


@dataclass(frozen=True)
class Year:
    year: str
    entries: tuple[ListedJob, ...]


@dataclass(frozen=True)
class PastWork:
    """Every job by year, the newest first."""

    language: str
    shop: str
    years: tuple[Year, ...]
    count: int
    wood_colours: tuple[str, str] = _PLAIN_WOOD


def listed(entry: Entry, words: Words, mark: str = "") -> ListedJob:
    """A job that has left a record."""
    left = {field.name: getattr(entry, field.name) for field in fields(entry)}
    return ListedJob(**left, mark=mark, delivered_said=words.short_day(entry.delivered))


def without_entry(key: str, mark: str, *, has_handover: bool) -> ListedJob:
    """A job that has left none: there is only its name."""
    return ListedJob(key=key, title=key, mark=mark, has_handover=has_handover)


def past_work(entries: Sequence[ListedJob], *, language: str, shop: str) -> PastWork:
    """The list by year: newest delivered first, what has no date at the end."""
    ordered = sorted(entries, key=lambda e: e.key)
    ordered.sort(key=lambda e: (e.year, e.delivered or e.begun), reverse=True)
    years = tuple(Year(year, tuple(group)) for year, group in groupby(ordered, key=lambda e: e.year))
    return PastWork(language, shop, years, len(ordered))

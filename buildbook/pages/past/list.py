"""PastWork: the jobs of a book as a list, for the maker. Private.

Each bound job leaves an `Entry` beside its log; the list is made from those, so that binding one job needs no other.
"""

from __future__ import annotations

from dataclasses import asdict, dataclass, replace
from itertools import groupby
from typing import Any

from buildbook.job.model import Job
from buildbook.pages.client.piece import Picture
from buildbook.pages.materials import material_name
from buildbook.pages.phrases import Phrases
from buildbook.summary.model import Summary

_PLAIN_WOOD = ("#b98d5b", "#8a6136")


@dataclass(frozen=True)
class Entry:
    """What the list shows of one job. `mark` says why its pages are not of the last binding, empty when they are."""

    key: str
    title: str
    number: str
    piece: str
    year: str
    begun: str
    delivered: str
    size: str
    woods: tuple[str, ...]
    tags: tuple[str, ...]
    hours: str
    picture: Picture | None
    has_handover: bool
    mark: str = ""

    def as_json(self) -> dict[str, Any]:
        return asdict(self)

    @classmethod
    def from_json(cls, facts: dict[str, Any]) -> Entry:
        """Raises KeyError or TypeError for what is no entry."""
        picture = facts["picture"]
        return cls(
            **{
                **facts,
                "picture": Picture(**picture) if picture else None,
                "woods": tuple(facts["woods"]),
                "tags": tuple(facts["tags"]),
            }
        )


@dataclass(frozen=True)
class Year:
    year: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True)
class PastWork:
    """Every job by year, the newest first."""

    language: str
    shop: str
    years: tuple[Year, ...]
    count: int
    wood_colours: tuple[str, str] = _PLAIN_WOOD


def entry_of(job: Job, summary: Summary, phrases: Phrases, picture: Picture | None) -> Entry:
    """The entry of a job that was bound."""
    woods = dict.fromkeys(material_name(p, phrases) for p in job.parts if p.kind == "wood")
    last = job.last_day
    return Entry(
        key=job.key,
        title=job.title or job.key,
        number=job.number,
        piece=job.piece,
        year=str(last.year) if last else "",
        begun=job.begun.isoformat() if job.begun else "",
        delivered=job.delivered.isoformat() if job.delivered else "",
        size=phrases.style.size(*job.overall.metres),
        woods=tuple(woods),
        tags=job.tags,
        hours=phrases.style.hours(summary.hours.total_h) if summary.hours.total_h else "",
        picture=picture,
        has_handover=True,
    )


def marked(entry: Entry, why: str) -> Entry:
    """The entry with a word on why its pages are not of the last binding."""
    return replace(entry, mark=why)


def past_work(entries: list[Entry], *, language: str, shop: str) -> PastWork:
    """The list by year: newest delivered first, what has no date at the end."""
    ordered = sorted(entries, key=lambda e: e.key)
    ordered.sort(key=lambda e: (e.year, e.delivered or e.begun), reverse=True)
    years = tuple(Year(year, tuple(group)) for year, group in groupby(ordered, key=lambda e: e.year))
    return PastWork(language, shop, years, len(entries))

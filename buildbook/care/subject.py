"""What a fact is true of: a wood, a finish, a part, by the name that a page may show."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeVar

from buildbook.job.model import Job, Part
from buildbook.signs import small_first
from buildbook.trade.lookup import Table
from buildbook.trade.records import Named
from buildbook.words import Words

T = TypeVar("T", bound=Named)


@dataclass(frozen=True)
class Subject:
    """A name, and whether the client may read it: what only stands in a row marked `client: no` may not
    leave.
    """

    name: str
    public: bool = True


Found = tuple[str, Subject | None]
"""One finding: the name of a fact, and what it is true of."""


def in_piece(job: Job) -> tuple[Part, ...]:
    """The parts that stay in the piece: all but supplies."""
    return tuple(part for part in job.parts if part.kind != "supply")


def by_name(part: Part, words: Words) -> Subject:
    """A part by the maker's name for it, as it stands inside a sentence."""
    name = part.name if part.name.isupper() else small_first(part.name, words)
    return Subject(name, part.for_client)


def record(table: Table[T], names: Iterable[str]) -> T | None:
    """The row of a table that the first fitting name means: its key, or any name that makers use; else
    None.
    """
    for name in names:
        if name in table:
            return table[name]
        if name and (hit := table.find(name)):
            return hit.record
    return None

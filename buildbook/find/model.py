"""What is searched of a job, as records: `record` makes them of one, `index` an index of many."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from buildbook.find.counting import Counts, counts_of, edition
from buildbook.find.excerpt import Excerpt

FACETS = ("piece", "wood", "finish", "joinery", "metal")
"""Facets whose values are words of the job; year, hours and size are worked out from figures."""


@dataclass(frozen=True, slots=True)
class FindRecord:
    """What is searched of one job. `day` is that of delivery, else of the last dated thing, as ISO 8601, maybe empty.

    hours_h those of one piece, so that six chairs are found among the chairs and not among the dressers.
    sides   overall sizes that are known, in tenths of a millimetre. facets: values by the names of `FACETS`.
    counts  how often each word stands in each field; counted: the edition of counting that they are of.
    """

    key: str
    title: str
    day: str
    hours_h: float
    sides: tuple[int, ...]
    facets: dict[str, tuple[str, ...]]
    counted: str
    counts: Counts

    @property
    def year(self) -> str:
        return self.day[:4]

    def recounted(self, passages: Iterable[Excerpt]) -> FindRecord:
        """The record with the counts of this edition. passages: the words that it was made from."""
        return replace(self, counted=edition(), counts=counts_of(passages))

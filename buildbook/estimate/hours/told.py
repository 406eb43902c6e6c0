"""What each past job tells of a stage: how far its hours lay off the stage's line, and how much that counts.

Laid out as columns over the jobs in order of being done, so that a piece is quoted from the first so many of them by a
few sums of products. Pure.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate
from operator import mul
from typing import NamedTuple

from buildbook.estimate.hours.fit import FittedLine, Point, off_line
from buildbook.estimate.settings import method


@dataclass(frozen=True)
class StageColumn:
    """A stage against a driver, over jobs in order.

    zs, vs   logarithms of driver and hours; None where a job has none
    weights  how much each job counts by its age
    could    which jobs have what the stage goes with
    """

    zs: Sequence[float | None]
    vs: Sequence[float | None]
    weights: Sequence[float]
    could: Sequence[bool]

    @cached_property
    def did(self) -> list[bool]:
        """Which jobs could have booked the stage, and did."""
        return [
            could and z is not None and v is not None
            for could, z, v in zip(self.could, self.zs, self.vs, strict=True)
        ]

    @cached_property
    def _did_by(self) -> list[int]:
        return list(accumulate(self.did, initial=0))

    @cached_property
    def _could_by(self) -> list[int]:
        return list(accumulate(self.could, initial=0))

    def told(self, count: int) -> int:
        """How many of the first so many jobs booked the stage."""
        return self._did_by[count]

    def points(self, count: int) -> list[Point]:
        """What these tell, as points for a line."""
        columns = zip(self.zs[:count], self.vs, self.weights, self.could, strict=False)
        return [
            (z, v, weight) for z, v, weight, could in columns if could and z is not None and v is not None
        ]

    def share(self, alike: Sequence[float]) -> float:
        """The share of jobs that booked the stage, of those that could, the likest counting most."""
        count, rules = len(alike), method()
        if not self._could_by[count]:
            return 0.0
        plain = self._did_by[count] / self._could_by[count]
        if plain == 1:
            return 1.0
        could, did = sum(map(mul, alike, self.could)), sum(map(mul, alike, self.did))
        share = (did + rules.fit.like_jobs * plain) / (could + rules.fit.like_jobs)
        return 1.0 if share >= rules.range.always else share


class Shifts(NamedTuple):
    """How far jobs lay off a line, no further than Huber's bound, by how much they count; and how much they count."""

    off: Sequence[float]
    counts: Sequence[float]

    def by(self, alike: Sequence[float], aged: float) -> float:
        """How much more or less the likest jobs took than the line says, as far as there are any. aged: what the
        weights have fallen to since they were made.
        """
        off, weight = aged * sum(map(mul, alike, self.off)), aged * sum(map(mul, alike, self.counts))
        return off / (weight + method().fit.like_jobs)


def shifts_of(column: StageColumn, line: FittedLine) -> Shifts:
    """How far each job of a column lay off a line."""
    off, counts = [], []
    for z, v, weight, did in zip(column.zs, column.vs, column.weights, column.did, strict=True):
        if did and z is not None and v is not None:
            off.append(weight * off_line(line, z, v))
            counts.append(weight)
        else:
            off.append(0.0)
            counts.append(0.0)
    return Shifts(off, counts)

"""Puts lettering and dimensions beside an outline into rows, so that nothing lies over a figure.

In: intervals along a line. Out: the row of each, 0 nearest to the outline; None for what has no room in any.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

MOST_ROWS = 10
_CLEAR = 2.0  # between what stands in one row, and from a line to a figure
_APART = 8.0  # between two names in one row
_MOST_TRIED = 4_000  # arrangements, before what is left is put one below the other


@dataclass(frozen=True)
class Span:
    """A dimension from `start` to `end`, with how wide its figure is and how far its arrows reach out."""

    start: float
    end: float
    figure: float
    reach: float

    @property
    def middles(self) -> tuple[float, ...]:
        """Where its figure may stand: over its middle; where that is too short, beyond one of its arrows too; else to
        either side of the middle.
        """
        middle = (self.start + self.end) / 2
        if self.end - self.start < self.figure + 2 * _CLEAR:
            beyond = self.reach + self.figure / 2
            return middle, self.end + beyond, self.start - beyond
        room = (self.end - self.start - self.figure) / 2 - _CLEAR
        return middle, middle - room / 2, middle + room / 2, middle - room, middle + room


@dataclass(frozen=True)
class Stacked:
    """A dimension in its row, with its figure over `middle`."""

    span: Span
    row: int
    middle: float

    @property
    def lettered(self) -> tuple[float, float]:
        half = self.span.figure / 2 + _CLEAR
        return self.middle - half, self.middle + half

    @property
    def taken(self) -> tuple[float, float]:
        """All that it takes of its row, with the line that carries a figure beyond its arrows."""
        low, high = self.lettered
        return min(low, self.span.start - self.span.reach), max(high, self.span.end + self.span.reach)


def stacked(
    spans: Sequence[Span], bounds: tuple[float, float] = (-math.inf, math.inf)
) -> list[Stacked | None]:
    """Each in its row: the shortest nearest. No extension line goes through a figure, no figure out of the bounds.

    One that finds no room is tried before the others, until all have some or each was tried.
    """
    order = sorted(range(len(spans)), key=lambda at: (spans[at].end - spans[at].start, spans[at].start))
    best: list[Stacked | None] = []
    for _ in spans:
        found = _in_order(spans, order, bounds)
        if not best or found.count(None) < best.count(None):
            best = found
        if None not in found:
            break
        lost = next(at for at in order if found[at] is None)
        order = [lost, *(at for at in order if at != lost)]
    return best


def _in_order(
    spans: Sequence[Span], order: Sequence[int], bounds: tuple[float, float]
) -> list[Stacked | None]:
    found: list[Stacked | None] = [None] * len(spans)
    placed: list[Stacked] = []
    for place, at in enumerate(order):
        tries = (Stacked(spans[at], row, middle) for row in range(MOST_ROWS) for middle in spans[at].middles)
        fitting = [
            one for one in tries if _inside(one, bounds) and all(_clear_of(one, other) for other in placed)
        ]
        later = [spans[other] for other in order[place + 1 :]]
        found[at] = best = min(fitting, key=lambda one: (_crossed(one, later), one.row), default=None)
        if best:
            placed.append(best)
    return found


def _inside(one: Stacked, bounds: tuple[float, float]) -> bool:
    low, high = one.lettered
    return bounds[0] <= low and high <= bounds[1]


def _clear_of(one: Stacked, other: Stacked) -> bool:
    if one.row == other.row:
        return not _overlap(one.taken, other.taken)
    inner, outer = sorted((one, other), key=lambda each: each.row)
    return not any(_within(line, inner.lettered) for line in (outer.span.start, outer.span.end))


def _crossed(one: Stacked, later: Sequence[Span]) -> int:
    """How many extension lines of longer dimensions, which stand farther out, would go through its figure."""
    return sum(_within(line, one.lettered) for span in later for line in (span.start, span.end))


def _overlap(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return one[0] < other[1] and other[0] < one[1]


def _within(at: float, interval: tuple[float, float]) -> bool:
    return interval[0] < at < interval[1]


@dataclass(frozen=True)
class Name:
    """A name below a place: where its leader comes down, and how wide it is."""

    at: float
    width: float


@dataclass(frozen=True)
class Set:
    """Where a name begins, and in which row. `led`: whether a leader goes to its place without crossing another."""

    left: float
    row: int
    led: bool = True


def named(names: Sequence[Name], bounds: tuple[float, float]) -> list[Set]:
    """Where each name stands within the bounds, so that none lies over another and no leader goes through one."""
    order = sorted(range(len(names)), key=lambda at: (names[at].at, at))
    for rows in range(1, MOST_ROWS):
        tries = [_MOST_TRIED]
        if found := _arranged([names[at] for at in order], bounds, rows, [], tries):
            return [found[order.index(at)] for at in range(len(names))]
    return [
        Set(bounds[0], row, led=False) for row in range(len(names))
    ]  # places too close: one below the other


def _lefts(name: Name, bounds: tuple[float, float]) -> list[float]:
    """Where a name may begin below its place."""
    low, high = bounds[0], max(bounds[1] - name.width, bounds[0])
    tries = (name.at - name.width / 2, name.at - 2, name.at - name.width + 2, name.at - name.width / 4)
    return list(dict.fromkeys(min(max(left, low), high) for left in tries))


def _arranged(
    names: Sequence[Name], bounds: tuple[float, float], rows: int, done: list[Set], tries: list[int]
) -> list[Set]:
    if len(done) == len(names):
        return list(done)
    tries[0] -= 1
    if tries[0] < 0:
        return []
    name = names[len(done)]
    lefts = _lefts(name, bounds)
    for row in range(rows):
        for left in lefts:
            here = Set(left, row)
            if all(_clear(name, here, other, at) for other, at in zip(names, done, strict=False)):
                done.append(here)
                if found := _arranged(names, bounds, rows, done, tries):
                    return found
                done.pop()
    return []


def _clear(one: Name, here: Set, other: Name, there: Set) -> bool:
    box, its = (here.left, here.left + one.width), (there.left, there.left + other.width)
    if here.row == there.row:
        return box[1] + _APART <= its[0] or its[1] + _APART <= box[0]
    upper, leader = (box, other.at) if here.row < there.row else (its, one.at)
    return not _within(leader, (upper[0] - _CLEAR, upper[1] + _CLEAR))

"""Puts lettering and dimensions beside an outline into rows, so that nothing lies over a figure.

In: intervals along a line. Out: the row of each, 0 nearest to the outline; None for what has no room in any.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

MOST_ROWS = 10
_CLEAR = 3.0  # between what stands in one row, and from a line to a figure
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
    def middle(self) -> float:
        return (self.start + self.end) / 2

    @property
    def lettered(self) -> tuple[float, float]:
        return self.middle - self.figure / 2 - _CLEAR, self.middle + self.figure / 2 + _CLEAR

    @property
    def taken(self) -> tuple[float, float]:
        low, high = self.lettered
        return min(low, self.start - self.reach), max(high, self.end + self.reach)


def stacked(spans: Sequence[Span]) -> list[int | None]:
    """The row of each: the shortest nearest. No extension line goes through a figure."""
    rows: list[int | None] = [None] * len(spans)
    order = sorted(range(len(spans)), key=lambda at: (spans[at].end - spans[at].start, spans[at].start))
    placed: list[tuple[int, Span]] = []
    for at in order:
        row = next((row for row in range(MOST_ROWS) if _fits(spans[at], row, placed)), None)
        rows[at] = row
        if row is not None:
            placed.append((row, spans[at]))
    return rows


def _fits(span: Span, row: int, placed: Sequence[tuple[int, Span]]) -> bool:
    for other_row, other in placed:
        if other_row == row and _overlap(span.taken, other.taken):
            return False
        inner, outer = (other, span) if other_row < row else (span, other)
        if other_row != row and any(_within(line, inner.lettered) for line in (outer.start, outer.end)):
            return False
    return True


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
    """Where a name begins, and in which row."""

    left: float
    row: int


def named(names: Sequence[Name], width: float) -> list[Set]:
    """Where each name stands, so that none lies over another and no leader goes through one."""
    order = sorted(range(len(names)), key=lambda at: (names[at].at, at))
    for rows in range(1, MOST_ROWS):
        tries = [_MOST_TRIED]
        if found := _arranged([names[at] for at in order], width, rows, [], tries):
            return [found[order.index(at)] for at in range(len(names))]
    return [Set(min(max(name.at - name.width, 0.0), width), row) for row, name in enumerate(names)]


def _arranged(names: Sequence[Name], width: float, rows: int, done: list[Set], tries: list[int]) -> list[Set]:
    if len(done) == len(names):
        return list(done)
    tries[0] -= 1
    if tries[0] < 0:
        return []
    name = names[len(done)]
    room = max(width - name.width, 0.0)
    lefts = dict.fromkeys(
        min(max(left, 0.0), room)
        for left in (
            name.at - name.width / 2,
            name.at - 2,
            name.at - name.width + 2,
            name.at - name.width / 4,
        )
    )
    for row in range(rows):
        for left in lefts:
            here = Set(left, row)
            if all(_clear(name, here, other, at) for other, at in zip(names, done, strict=False)):
                done.append(here)
                if found := _arranged(names, width, rows, done, tries):
                    return found
                done.pop()
    return []


def _clear(one: Name, here: Set, other: Name, there: Set) -> bool:
    box, its = (here.left, here.left + one.width), (there.left, there.left + other.width)
    if here.row == there.row:
        return box[1] + _APART <= its[0] or its[1] + _APART <= box[0]
    upper, leader = (box, other.at) if here.row < there.row else (its, one.at)
    return not _within(leader, (upper[0] - _CLEAR, upper[1] + _CLEAR))

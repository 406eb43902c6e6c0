"""Picks few cases so that everything meets everything: each wanted combination of levels is in at least one case.

Greedy: a case begins with a combination that is still wanted, and each further axis takes the level that brings most
of what is still wanted. The same cases every time. Combinations of mixed size, which is why no library does it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import combinations

Case = Mapping[str, str]
Combination = frozenset[tuple[str, str]]
"""Levels of a few axes that must meet: {("kind", "chair"), ("glass", "none")}."""


def cover(
    axes: Mapping[str, Sequence[str]], wanted: Iterable[Combination], possible: Callable[[Case], bool]
) -> Iterator[dict[str, str]]:
    """Cases that hold every wanted combination that is possible.

    `possible` says of a case of which some axes are still open whether it can be completed so far.
    """
    open_ones = dict.fromkeys(one for one in wanted if possible(dict(one)))
    sizes = sorted({len(one) for one in open_ones}, reverse=True)
    while open_ones:
        case = dict(next(iter(open_ones)))
        for axis in axes:
            if axis not in case:
                case[axis] = _best(axis, case, axes, open_ones, possible)
        for one in _within(case, sizes):
            open_ones.pop(one, None)
        yield {axis: case[axis] for axis in axes}


def _best(
    axis: str,
    case: dict[str, str],
    axes: Mapping[str, Sequence[str]],
    open_ones: Mapping[Combination, None],
    possible: Callable[[Case], bool],
) -> str:
    """The possible level with most pairs that are still wanted; of equal ones the one that has turned up least."""
    chosen, most = None, -1
    for level in axes[axis]:
        if possible({**case, axis: level}):
            brings = sum(frozenset(((axis, level), other)) in open_ones for other in case.items())
            if brings > most:
                chosen, most = level, brings
    assert chosen is not None, f"no {axis} for {case}"
    return chosen


def _within(case: Case, sizes: Iterable[int]) -> Iterator[Combination]:
    for size in sizes:
        yield from map(frozenset, combinations(case.items(), size))

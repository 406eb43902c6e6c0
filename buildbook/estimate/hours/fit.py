"""A line through the logarithms of hours and their driver, that a few odd jobs cannot pull away.

log hours = a + b * (log driver - middle), by weighted least squares, reweighted by Huber's function so that a job far
off the line counts less (P. J. Huber, "Robust estimation of a location parameter", Ann. Math. Statist. 35 (1964)
73-101; as regression in Huber, Robust Statistics, Wiley 1981, ch. 7). The exponent b is drawn towards what is
believed before the shop's past speaks, as a normal prior does (ridge regression: A. E. Hoerl and R. W. Kennard,
Technometrics 12 (1970) 55-67). Pure.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from statistics import median
from typing import NamedTuple

from buildbook.estimate.settings import method


class Point(NamedTuple):
    """A past job in one stage: logarithms of its driver and its hours, and how much it counts."""

    z: float
    v: float
    weight: float


@dataclass(frozen=True)
class FittedLine:
    """A fit. `at(z)` is the logarithm of the hours; `spread` that of the past about it, in logarithms."""

    middle: float
    level: float
    exponent: float
    spread: float

    def at(self, z: float) -> float:
        return self.level + self.exponent * (z - self.middle)


def fit_line(points: Sequence[Point], start: FittedLine | None = None) -> FittedLine:
    """The line through some points; at least one. `start`: a line to begin from, such as that of fewer jobs."""
    rules = method().fit
    total = math.fsum(point.weight for point in points)
    middle = math.fsum(point.weight * point.z for point in points) / total
    xs = [point.z - middle for point in points]
    if start:
        slope, level = start.exponent, start.at(middle)
    else:
        slope = rules.exponent
        level = _median([(p.v - slope * x, p.weight) for p, x in zip(points, xs, strict=True)])
    for number in range(rules.rounds):
        off = [point.v - level - slope * x for point, x in zip(points, xs, strict=True)]
        if number < rules.scale_rounds:
            spread = _spread(off, points)
        new_level, new_slope = _step(points, xs, off, spread)
        moved = abs(new_level - level) + abs(new_slope - slope)
        level, slope = new_level, new_slope
        if moved < rules.still:
            break
    off = [point.v - level - slope * x for point, x in zip(points, xs, strict=True)]
    return FittedLine(middle, level, slope, _spread(off, points))


def _step(
    points: Sequence[Point], xs: Sequence[float], off: Sequence[float], spread: float
) -> tuple[float, float]:
    """Level and slope by least squares, each point counting by how far it lay off the line before."""
    rules = method().fit
    bound = rules.huber * spread
    s = sx = sv = sxx = sxv = 0.0
    for (_, v, weight), x, r in zip(points, xs, off, strict=True):
        w = weight if -bound <= r <= bound else weight * bound / abs(r)
        wx = w * x
        s += w
        sx += wx
        sv += w * v
        sxx += wx * x
        sxv += wx * v
    pull = (spread / rules.exponent_sd) ** 2
    centred = sxx - sx * sx / s + pull
    slope = min(max((sxv - sx * sv / s + pull * rules.exponent) / centred, 0.0), rules.most_exponent)
    return (sv - slope * sx) / s, slope


def _spread(off: Sequence[float], points: Sequence[Point]) -> float:
    """How far the past lies about a line: median absolute deviation, joined with what is usual."""
    rules = method().fit
    mad = rules.mad * _median([(abs(r), point.weight) for r, point in zip(off, points, strict=True)])
    n = len(points)
    joined = (rules.spread_jobs * rules.spread**2 + n * mad**2) / (rules.spread_jobs + n)
    return float(max(joined**0.5, rules.floor))


def huber_weight(off: float) -> float:
    """How much a point counts that lies so many spreads off: wholly up to Huber's bound, then ever less."""
    bound = method().fit.huber
    return 1.0 if abs(off) <= bound else bound / abs(off)


def _median(values: Sequence[tuple[float, float]]) -> float:
    """The value that half of the weight lies below."""
    ordered = sorted(values)
    half, below = math.fsum(weight for _, weight in ordered) / 2, 0.0
    for place, (value, weight) in enumerate(ordered):
        below += weight
        if below > half:
            return value
        if below == half:
            return (value + ordered[min(place + 1, len(ordered) - 1)][0]) / 2
    return ordered[-1][0]


def median_slope(points: Sequence[tuple[float, float]]) -> float | None:
    """The median of the slopes between all pairs of points (Theil 1950, Sen 1968); None without two places.

    H. Theil, Proc. Kon. Ned. Akad. v. Wetensch. A 53 (1950) 386-392; P. K. Sen, J. Am. Stat. Assoc. 63 (1968)
    1379-1389.
    """
    slopes = [
        (later - sooner) / (until - since)
        for (since, sooner), (until, later) in combinations(points, 2)
        if until != since
    ]
    return median(slopes) if slopes else None

"""A line through the logarithms of hours and their driver, that a few odd jobs cannot pull away.

log hours = a + b * (log driver - middle), by weighted least squares, reweighted by Huber's function so that a job far
off the line counts less (P. J. Huber, "Robust estimation of a location parameter", Ann. Math. Statist. 35 (1964)
73-101; as regression in Huber, Robust Statistics, Wiley 1981, ch. 7). The exponent b is drawn towards what is
believed before the shop's past speaks, as a normal prior does (ridge regression: A. E. Hoerl and R. W. Kennard,
Technometrics 12 (1970) 55-67). Pure.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, combinations
from operator import mul
from statistics import median

from buildbook.estimate.settings import method

_EXACTLY = 1e-12  # sums of weights are the same that differ by rounding only
_FEW = 150  # points of which each slope is made: eleven thousand
_BETWEEN = 8  # slopes a point that are made, the others being counted only


Point = tuple[float, float, float]
"""A past job in one stage: logarithms of its driver and its hours, and how much it counts."""


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
    zs, vs, weights = zip(*points, strict=True)
    middle = math.fsum(map(mul, weights, zs)) / math.fsum(weights)
    xs = [z - middle for z in zs]
    if start:
        slope, level = start.exponent, start.at(middle)
    else:
        slope = rules.exponent
        level = _median([v - slope * x for v, x in zip(vs, xs, strict=True)], weights)
    for number in range(rules.rounds):
        off = [v - level - slope * x for v, x in zip(vs, xs, strict=True)]
        if number < rules.scale_rounds:
            spread = _spread(off, weights)
        new_level, new_slope = _step(xs, vs, weights, off, spread)
        moved = abs(new_level - level) + abs(new_slope - slope)
        level, slope = new_level, new_slope
        if moved < rules.still:
            break
    off = [v - level - slope * x for v, x in zip(vs, xs, strict=True)]
    return FittedLine(middle, level, slope, _spread(off, weights))


def _step(
    xs: Sequence[float], vs: Sequence[float], weights: Sequence[float], off: Sequence[float], spread: float
) -> tuple[float, float]:
    """Level and slope by least squares, each point counting by how far it lay off the line before.

    Sums of products, not a loop: it is most of an estimate's time.
    """
    rules = method().fit
    bound = rules.huber * spread
    ws = [
        weight if -bound <= r <= bound else weight * bound / abs(r)
        for weight, r in zip(weights, off, strict=True)
    ]
    wx = list(map(mul, ws, xs))
    s, sx, sv = sum(ws), sum(wx), sum(map(mul, ws, vs))
    sxx, sxv = sum(map(mul, wx, xs)), sum(map(mul, wx, vs))
    pull = (spread / rules.exponent_sd) ** 2
    centred = sxx - sx * sx / s + pull
    slope = min(max((sxv - sx * sv / s + pull * rules.exponent) / centred, 0.0), rules.most_exponent)
    return (sv - slope * sx) / s, slope


def _spread(off: Sequence[float], weights: Sequence[float]) -> float:
    """How far the past lies about a line: median absolute deviation, joined with what is usual."""
    rules = method().fit
    mad = rules.mad * _median(list(map(abs, off)), weights)
    n = len(off)
    joined = (rules.spread_jobs * rules.spread**2 + n * mad**2) / (rules.spread_jobs + n)
    return float(max(joined**0.5, rules.floor))


def huber_weight(off: float) -> float:
    """How much a point counts that lies so many spreads off: wholly up to Huber's bound, then ever less."""
    bound = method().fit.huber
    return 1.0 if abs(off) <= bound else bound / abs(off)


def off_line(line: FittedLine, z: float, v: float) -> float:
    """How far a job lies off a line, no further than Huber's bound."""
    bound = method().fit.huber * line.spread
    return min(max(v - line.at(z), -bound), bound)


def _median(values: Sequence[float], weights: Sequence[float]) -> float:
    """The value that half of the weight lies below; between two where exactly half does."""
    order = sorted(range(len(values)), key=values.__getitem__)
    below = list(accumulate(map(weights.__getitem__, order)))
    half = below[-1] / 2
    place = min(bisect_right(below, half * (1 - _EXACTLY)), len(order) - 1)
    value = values[order[place]]
    if below[place] <= half * (1 + _EXACTLY):
        return (value + values[order[min(place + 1, len(order) - 1)]]) / 2
    return value


def median_slope(points: Sequence[tuple[float, float]]) -> float | None:
    """The median of the slopes between all pairs of points (Theil 1950, Sen 1968); None without two places.

    Of few points each slope is made. Of many, those near the median are, once it is known how many lie below them: as
    many as there are pairs that a line of such a slope puts in the wrong order (R. Cole, J. Salowe, W. Steiger and
    E. Szemeredi, SIAM J. Comput. 18 (1989) 792-810).

    H. Theil, Proc. Kon. Ned. Akad. v. Wetensch. A 53 (1950) 386-392; P. K. Sen, J. Am. Stat. Assoc. 63 (1968)
    1379-1389.
    """
    ordered = sorted(points)
    if len(ordered) <= _FEW:
        slopes = _slopes(ordered)
        return median(slopes) if slopes else None
    together = Counter(t for t, _ in ordered)
    count = math.comb(len(ordered), 2) - sum(math.comb(many, 2) for many in together.values())
    if not count:
        return None
    return _median_counted(ordered, count)


def _slopes(ordered: Sequence[tuple[float, float]]) -> list[float]:
    return [
        (later - sooner) / (until - since)
        for (since, sooner), (until, later) in combinations(ordered, 2)
        if until != since
    ]


def _median_counted(ordered: Sequence[tuple[float, float]], count: int) -> float:
    """The median of so many slopes: two slopes around it are drawn closer, then those between are made."""
    ranks = ((count - 1) // 2, count // 2)
    some = sorted(_slopes(ordered[:: -(-len(ordered) // _FEW)])) or [0.0]
    low, high = some[2 * len(some) // 5], some[3 * len(some) // 5]
    reach = (high - low) or 1.0
    while (below := _below(ordered, low)) > ranks[0]:
        low, reach = low - reach, 2 * reach
    while (until := _below(ordered, high)) <= ranks[1]:
        high, reach = high + reach, 2 * reach
    while until - below > _BETWEEN * len(ordered) and low < (middle := (low + high) / 2) < high:
        found = _below(ordered, middle)
        if found <= ranks[0]:
            low, below = middle, found
        elif found > ranks[1]:
            high, until = middle, found
        else:  # it parts the two middle ones
            break
    # by rounding, a pair may be counted below the lower and not below the higher
    between = _between(ordered, low, high) or [(low + high) / 2]
    sooner, later = (between[min(rank - below, len(between) - 1)] for rank in ranks)
    return (sooner + later) / 2


def _below(ordered: Sequence[tuple[float, float]], slope: float) -> int:
    """How many pairs have less than a slope between them."""
    count, seen = 0, list[float]()
    for t, v in reversed(ordered):  # of one time, the higher first: no pair of these counts
        off = v - slope * t
        place = bisect_left(seen, off)
        count += place
        seen.insert(place, off)
    return count


def _between(ordered: Sequence[tuple[float, float]], low: float, high: float) -> list[float]:
    """The slopes from one up to, without, another; sorted."""
    out, seen = list[float](), list[tuple[float, float, float]]()
    for _, t, v in sorted((v - low * t, t, v) for t, v in ordered):
        here = (v - high * t, t, v)
        place = bisect_right(seen, (here[0], math.inf))
        out += [(v - was) / (t - since) for _, since, was in seen[place:]]
        seen.insert(place, here)
    return sorted(out)

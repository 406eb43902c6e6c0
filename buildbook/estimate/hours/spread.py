"""How far a truth may lie from an estimate: a range calibrated on how far past truths lay from theirs.

With enough past quotes the range is conformal: as wide as the (n + 1) * 80 % smallest of the past misses, which holds
four truths in five whatever their law, if quotes are alike in kind (V. Vovk, A. Gammerman, G. Shafer, Algorithmic
Learning in a Random World, Springer 2005; J. Lei and others, J. Am. Stat. Assoc. 113 (2018) 1094-1111). With few, it
leans on a usual spread: Student's t with the past misses and so many usual ones pooled. In between it is mixed.
Misses are logarithms of truth over estimate. Pure.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist, median

from buildbook.estimate.model import Range
from buildbook.estimate.settings import method


@dataclass(frozen=True)
class Miss:
    """By how much one past truth was over its estimate, as a logarithm, and how many jobs that one was from."""

    log: float
    from_jobs: int


@dataclass(frozen=True)
class Spread:
    """What past misses say of the next: the factor that sets the median right, and half the range, as logarithms."""

    shift: float
    half: float
    misses: int

    def around(self, estimate: float) -> Range:
        middle = estimate * math.exp(self.shift)
        return Range(middle * math.exp(-self.half), middle, middle * math.exp(self.half))


def unsureness(from_jobs: int) -> float:
    """How much wider a quote from so many jobs misses than one from very many."""
    return math.sqrt(1 + method().range.few / max(from_jobs, 1))


def spread_of(misses: Sequence[Miss], usual: float, from_jobs: int) -> Spread:
    """The spread of a quote from so many jobs. `usual`: the spread where no past speaks, as a logarithm."""
    rules = method().range
    n = len(misses)
    shift = median([m.log for m in misses]) * n / (n + rules.shrink) if misses else 0.0
    off = sorted(abs(m.log - shift) / unsureness(m.from_jobs) for m in misses)
    pooled = (rules.total_jobs * usual**2 + math.fsum(x * x for x in off)) / (rules.total_jobs + n)
    leaning = student_quantile((1 + rules.coverage) / 2, rules.total_jobs + n) * math.sqrt(pooled)
    share = min(n, rules.conformal) / rules.conformal if n >= rules.least else 0.0
    half = share * _conformal(off) + (1 - share) * leaning if share else leaning
    return Spread(shift, half * unsureness(from_jobs), n)


def _conformal(off: Sequence[float]) -> float:
    """The (n + 1) * 80 % smallest of the sorted misses."""
    place = math.ceil((len(off) + 1) * method().range.coverage)
    return off[min(place, len(off)) - 1]


def student_quantile(p: float, freedom: float) -> float:
    """Student's t by its expansion about the normal law (Abramowitz and Stegun 1964, 26.7.5); for four degrees of
    freedom and more it is right to one per cent.
    """
    x = NormalDist().inv_cdf(p)
    terms = (
        (x**3 + x) / 4,
        (5 * x**5 + 16 * x**3 + 3 * x) / 96,
        (3 * x**7 + 19 * x**5 + 17 * x**3 - 15 * x) / 384,
        (79 * x**9 + 776 * x**7 + 1482 * x**5 - 1920 * x**3 - 945 * x) / 92160,
    )
    return x + math.fsum(term / freedom ** (k + 1) for k, term in enumerate(terms))

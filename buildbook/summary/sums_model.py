"""What must come out, reckoned: each sum with its terms and its difference from the size. SI, as all figures."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class SumTerm:
    """One term: `each_m` taken `times` over, below zero where it is taken away. words: as the maker wrote it."""

    words: str
    times: float
    each_m: float
    all_m: float


@dataclass(frozen=True)
class SumCheck:
    """A sum of `adds`. `size_m` is what it must come out at, `sum_m` what it comes to; `difference_m` is below zero
    where the sum falls short. ok: the difference is no more than `within_m`.
    """

    words: str
    size: str
    size_m: float
    sum_m: float
    difference_m: float
    within_m: float
    ok: bool
    terms: tuple[SumTerm, ...]

"""The sums of a job, reckoned. In: a `Job` whose sums were held against its parts. Out: each with its difference."""

from __future__ import annotations

import math

from buildbook.job.adds_model import Add, Term
from buildbook.job.model import Job
from buildbook.job.parts.adding import size_m, within
from buildbook.summary.sums_model import SumCheck, SumTerm

_HAIR_M = 1e-9  # what floats add to a difference


def sums_of(job: Job) -> tuple[SumCheck, ...]:
    """Every sum that can be reckoned, in the order of job.toml."""
    allowed_m = within(job.units).m
    found = (_sum(add, job, allowed_m) for add in job.adds)
    return tuple(one for one in found if one is not None)


def _sum(add: Add, job: Job, allowed_m: float) -> SumCheck | None:
    size = size_m(job, add.size)
    terms = [found for term in add.terms if (found := _term(term, job)) is not None]
    if size is None or len(terms) < len(add.terms):
        return None
    total = math.fsum(term.all_m for term in terms)
    difference = total - size
    return SumCheck(
        words=add.words,
        size=f"{add.size.part} {add.size.dimension}".strip(),
        size_m=size,
        sum_m=total,
        difference_m=0.0 if abs(difference) < _HAIR_M else difference,
        within_m=allowed_m,
        ok=abs(difference) <= allowed_m + _HAIR_M,
        terms=tuple(terms),
    )


def _term(term: Term, job: Job) -> SumTerm | None:
    each = size_m(job, term.size) if term.size else term.m
    if each is None:
        return None
    words = f"{term.label} {term.written}".strip()
    return SumTerm(words, term.times, each, term.times * each)

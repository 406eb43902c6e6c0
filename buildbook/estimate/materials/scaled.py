"""Amounts of an enquiry that has no parts, scaled from the likest past jobs by the size of the piece.

Geometry: an amount goes with the ratio of lengths to the power of data/scaling.toml. In: the enquiry, past jobs, how
like they are. Out: weighted medians with their ranges. Pure.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from buildbook.estimate.model import Like, Range
from buildbook.estimate.money.prices import Sides
from buildbook.estimate.past import PastFacts
from buildbook.estimate.rules import scaling_rules
from buildbook.job.model import Job

T = TypeVar("T")


@dataclass(frozen=True)
class ScaledFrom(Generic[T]):
    """A past job to scale from: what is known of it, how much it weighs, the enquiry's length over its own."""

    job: PastFacts
    known: T
    weight: float
    ratio: float


def length_ratio(here: Sides, there: Sides) -> float | None:
    """The geometric mean of the ratios of the sides that both have; None where they have none in common."""
    both = [(ours, theirs) for ours, theirs in zip(here, there, strict=True) if ours and theirs]
    return math.exp(math.fsum(math.log(ours / theirs) for ours, theirs in both) / len(both)) if both else None


def sources(
    enquiry: Job, past: Iterable[tuple[PastFacts, T]], like: Sequence[Like]
) -> tuple[ScaledFrom[T], ...]:
    """The likest past jobs that have parts and a side in common with the enquiry, likest first."""
    likeness = {found.job: found.likeness for found in like}
    found = [
        ScaledFrom(job, known, likeness[job.key], ratio)
        for job, known in past
        if job.piece.has_parts
        and likeness.get(job.key, 0) > 0
        and (ratio := length_ratio(enquiry.overall.metres, job.piece.size))
    ]
    return tuple(sorted(found, key=lambda source: (-source.weight, source.job.key))[: scaling_rules().jobs])


def scaled_range(
    amounts: Sequence[Mapping[float, float]], weights: Sequence[float], ratios: Sequence[float]
) -> Range:
    """The range of an amount: of each job, so much by exponent, scaled; then their weighted quantiles.

    With few jobs it is at least a share either way (data/scaling.toml).
    """
    rules = scaling_rules()
    scaled = [
        math.fsum(amount * ratio**exponent for exponent, amount in of_job.items())
        for of_job, ratio in zip(amounts, ratios, strict=True)
    ]
    low, middle, high = (weighted_quantile(scaled, weights, at) for at in (rules.low, 0.5, rules.high))
    if len(scaled) < rules.few:
        low = min(low, middle * (1 - rules.few_share))
        high = max(high, middle * (1 + rules.few_share))
    return Range(low, middle, high)


def weighted_quantile(values: Sequence[float], weights: Sequence[float], share: float) -> float:
    """The value below which a share of the weight lies. Each value stands in the middle of its own weight; between
    them it is interpolated, beyond the ends it is the end. Equal weights give the usual median.
    """
    pairs = sorted(zip(values, weights, strict=True))
    wanted, below = share * math.fsum(weights), 0.0
    before: tuple[float, float] | None = None
    for value, weight in pairs:
        here = below + weight / 2
        if wanted <= here:
            if before is None:
                return value
            return before[0] + (value - before[0]) * (wanted - before[1]) / (here - before[1])
        before, below = (value, here), below + weight
    return pairs[-1][0]


def scaled_drivers(
    enquiry: Job, past: Iterable[tuple[PastFacts, Mapping[str, float]]], like: Sequence[Like]
) -> dict[str, Range]:
    """The drivers of hours of an enquiry without parts, scaled from those of the likest past jobs.

    What the enquiry states (doors and drawers, joints) goes before. A driver that cannot be told is not there.
    """
    found = sources(enquiry, past, like)
    weights, ratios = [source.weight for source in found], [source.ratio for source in found]
    out = {
        driver: scaled_range([{exponent: source.known.get(driver, 0.0)} for source in found], weights, ratios)
        for driver, exponent in scaling_rules().drivers.items()
        if found
    }
    out["none"] = Range(1.0, 1.0, 1.0)
    if enquiry.doors or enquiry.drawers:
        out["doors_drawers"] = _stated((enquiry.doors or 0) + (enquiry.drawers or 0))
    if enquiry.joints is not None:
        out["joints"] = _stated(enquiry.joints)
    return out


def _stated(count: int) -> Range:
    return Range(float(count), float(count), float(count))

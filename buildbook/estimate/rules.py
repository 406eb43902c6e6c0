"""data/prices.toml and data/scaling.toml read once into frozen records."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from buildbook.estimate.settings import read_data


@dataclass(frozen=True)
class PriceRules:
    """All of prices.toml. per: the units that a kind may be priced by, those that convert together in one tuple."""

    fresh_days: int
    least_years: float
    most_pct: float
    year_days: float
    waste_prior: float
    per: Mapping[str, tuple[tuple[str, ...], ...]]
    sides: Mapping[str, tuple[str, ...]]
    other_size_kinds: frozenset[str]
    other_size_units: frozenset[str]


@dataclass(frozen=True)
class ScalingRules:
    """All of scaling.toml."""

    exponent: Mapping[str, float]
    block_least: float
    jobs: int
    low: float
    high: float
    few: int
    few_share: float
    drivers: Mapping[str, float]


@cache
def price_rules() -> PriceRules:
    read = read_data("prices.toml")
    return PriceRules(
        fresh_days=read["fresh_days"],
        **read["trend"],
        waste_prior=read["waste"]["prior"],
        per={kind: tuple(tuple(group) for group in groups) for kind, groups in read["per"].items()},
        sides={unit: tuple(sides) for unit, sides in read["sides"].items()},
        other_size_kinds=frozenset(read["other_size"]["kinds"]),
        other_size_units=frozenset(read["other_size"]["units"]),
    )


@cache
def scaling_rules() -> ScalingRules:
    read = read_data("scaling.toml")
    like = read["like"]
    return ScalingRules(
        exponent=read["exponent"],
        block_least=read["block"]["least"],
        jobs=like["jobs"],
        low=like["low"],
        high=like["high"],
        few=like["few"],
        few_share=like["few_pct"] / 100,
        drivers=read["drivers"],
    )

"""The data files of the method read once into frozen records."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any


@dataclass(frozen=True)
class Fit:
    """How the hours of a stage are fitted; data/method.toml says what each is."""

    huber: float
    mad: float
    rounds: int
    scale_rounds: int
    still: float
    exponent: float
    exponent_sd: float
    most_exponent: float
    spread: float
    spread_jobs: int
    floor: float
    like_jobs: float
    like_power: float
    half_life_y: float


@dataclass(frozen=True)
class Choice:
    from_jobs: int
    better: float


@dataclass(frozen=True)
class Drift:
    from_jobs: int
    from_years: float
    sd_per_year: float
    sen: float


@dataclass(frozen=True)
class LearningRules:
    rate: float
    exponent_sd: float
    least_rate: float
    most_rate: float
    last: int


@dataclass(frozen=True)
class RangeRules:
    coverage: float
    total: float
    stage: float
    total_jobs: int
    conformal: int
    least: int
    few: float
    learnt: int
    shrink: float
    rare: float
    always: float


@dataclass(frozen=True)
class TrialRules:
    """Which past jobs are tried, and when what the past says is found anew for them."""

    last: int
    anew: float
    drivers: float


@dataclass(frozen=True)
class Method:
    """All of data/method.toml."""

    fit: Fit
    choice: Choice
    drift: Drift
    learning: LearningRules
    range: RangeRules
    trial: TrialRules


@dataclass(frozen=True)
class Trait:
    """A trait of a piece: its weight in the likeness, how it is compared, whether it weighs past hours too."""

    name: str
    weight: float
    compare: str
    hours: bool


@dataclass(frozen=True)
class Likeness:
    traits: tuple[Trait, ...]
    family_alike: float
    same_head: float
    smallest_range: float


@dataclass(frozen=True)
class Drivers:
    """Which driver a stage goes with, and which is done once for a set, by its names; how joints and hardware are
    counted.
    """

    of_stage: dict[str, str]
    once: frozenset[str]
    stick_ratio: float
    ends: int
    not_counted: tuple[str, ...]


def read_data(name: str) -> dict[str, Any]:
    """A file of data/ as it is written."""
    return tomllib.loads(resources.files(__package__).joinpath("data", name).read_text("utf-8"))


@cache
def method() -> Method:
    read = read_data("method.toml")
    return Method(
        Fit(**read["fit"]),
        Choice(**read["choice"]),
        Drift(**read["drift"]),
        LearningRules(**read["learning"]),
        RangeRules(**read["range"]),
        TrialRules(**read["trial"]),
    )


@cache
def likeness_rules() -> Likeness:
    read = read_data("likeness.toml")
    traits = tuple(
        Trait(name, facts["weight"], facts["compare"], facts["hours"])
        for name, facts in read["trait"].items()
    )
    return Likeness(traits, **read["rules"])


@cache
def driver_rules() -> Drivers:
    read = read_data("drivers.toml")
    of_stage = {name: facts["driver"] for facts in read["stage"].values() for name in facts["names"]}
    once = frozenset(name for facts in read["stage"].values() if facts.get("once") for name in facts["names"])
    return Drivers(of_stage, once, **read["joints"], not_counted=tuple(read["hardware"]["not_counted"]))

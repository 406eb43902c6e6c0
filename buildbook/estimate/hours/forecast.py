"""What is known of a job that is done, what is asked of a piece, and what is forecast for it: medians, before any range
is put around them. `shop_past` makes the forecast. Pure.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property, lru_cache

from buildbook.estimate.hours.learning import Learning
from buildbook.estimate.likeness.traits import Traits
from buildbook.estimate.settings import driver_rules
from buildbook.folding import folded

NONE = "none"


@dataclass(frozen=True)
class Past:
    """A job that is done: what it was, what it took. `hours` by stage, of all its `pieces`; `drivers` of one of them;
    `day`: the day it was done.
    """

    key: str
    title: str
    day: date | None
    begun: date | None
    traits: Traits
    drivers: Mapping[str, float]
    hours: Mapping[str, float]
    board_feet: float
    pieces: int = 1

    @cached_property
    def total_h(self) -> float:
        return math.fsum(self.hours.values())

    @cached_property
    def log_hours(self) -> dict[str, float]:
        """The logarithm of the hours of each stage that was booked."""
        return {stage: math.log(hours) for stage, hours in self.hours.items() if hours > 0}

    @cached_property
    def log_drivers(self) -> dict[str, float]:
        """The logarithm of each driver that the piece has."""
        return {driver: math.log(amount) for driver, amount in self.drivers.items() if amount > 0}

    @property
    def asked(self) -> date | None:
        """The day it could have been quoted on: when work began, which is not after it was done."""
        return min((day for day in (self.begun, self.day) if day), default=None)


@dataclass(frozen=True)
class PieceSought:
    """A piece to be quoted: what it is, its drivers, the stages that it says it needs, on which day, and how many like
    pieces.
    """

    traits: Traits
    drivers: Mapping[str, float]
    stages: frozenset[str]
    day: date | None
    pieces: int = 1


@dataclass(frozen=True)
class StageForecast:
    """The median of a stage if it is booked, and the share of past jobs that booked it. `amount`: of one piece.
    hours_h: of all pieces; first_h: of the first.
    """

    stage: str
    driver: str
    amount: float
    hours_h: float
    booked: float
    exponent: float
    from_jobs: int
    first_h: float

    @property
    def counted_h(self) -> float:
        return self.hours_h * self.booked


@dataclass(frozen=True)
class Forecast:
    stages: tuple[StageForecast, ...]
    rare: tuple[str, ...]  # booked by few, and nothing tells of them: not counted
    from_jobs: int
    drift: float  # growth of hours a year, as a logarithm
    learning: Learning

    @property
    def total_h(self) -> float:
        return math.fsum(stage.counted_h for stage in self.stages)

    @property
    def first_h(self) -> float:
        """The hours of the first piece, with what is done once for all."""
        return math.fsum(stage.first_h * stage.booked for stage in self.stages)


@lru_cache(maxsize=1024)
def is_done_once(stage: str) -> bool:
    """Whether a stage is done once for all pieces of a set."""
    return folded(stage) in driver_rules().once


def own_driver(stage: str) -> str:
    """The driver that a stage goes with by its name; `none` for one that is not known."""
    return driver_rules().of_stage.get(folded(stage), NONE)


def was_done(job: Past, day: date | None) -> bool:
    """Whether a job was done before a day; one without a date was done long ago."""
    return day is None or job.day is None or job.day < day

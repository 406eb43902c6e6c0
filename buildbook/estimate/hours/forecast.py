"""The hours of a piece, stage by stage, from jobs that are done: medians, before any range is put around them.

In: the past as `Past` records, and a piece as `PieceSought`. Out: a `Forecast`. Pure. The method is told in
METHOD.md.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from statistics import median

from buildbook.estimate.hours.fit import FittedLine, Point, fit_line, huber_weight, median_slope
from buildbook.estimate.hours.learning import Learning, SetSeen, learnt, published
from buildbook.estimate.likeness.similarity import alike_in_work
from buildbook.estimate.likeness.traits import DRIVERS, Traits
from buildbook.estimate.settings import driver_rules, method
from buildbook.folding import folded

_DAYS = 365.25
NONE = "none"

_HALVINGS = 64  # a weight halved more often would be none, and a line has no middle without weights


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
        """The day it could have been quoted on: when work began."""
        return self.begun or self.day


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


class ShopPast:
    """What the past of a shop says up to some day: its drivers, lines and drift. Made once, asked for many pieces."""

    def __init__(self, past: Sequence[Past], day: date | None, before: ShopPast | None = None) -> None:
        """`before`: what the past said up to a day shortly before. Its drivers are kept, its lines begun from."""
        self.past, self.day = past, day
        self.lines: dict[tuple[str, str], FittedLine] = dict(before.lines) if before else {}
        self.stages = list(dict.fromkeys(stage for job in past for stage in job.hours))
        self.drivers: dict[str, str] = dict(before.drivers) if before else {}
        # one without a date is as old as the oldest
        oldest = min((job.day for job in past if job.day), default=day)
        self.ages = {job.key: _years(job.day or oldest, day) for job in past}
        half_life = method().fit.half_life_y
        self.recency = {
            key: 0.5 ** min(max(age, 0.0) / half_life, _HALVINGS) for key, age in self.ages.items()
        }
        self.drift = 0.0
        self.learning = self._learning()
        for stage in self.stages:
            self.drivers.setdefault(stage, self._driver(stage))
        self.drift = self._drift()

    # -- sets --------------------------------------------------------------------------------------

    def units(self, stage: str, pieces: int) -> float:
        """What a stage of so many pieces takes, in first pieces; one for what is done once for all of them."""
        return 1.0 if pieces == 1 or is_done_once(stage) else self.learning.units(pieces)

    def _learning(self) -> Learning:
        """How much less the following pieces of a set take: what the past sets took against what one such piece would
        have, as far as the jobs of single pieces tell that; the published law where they do not.
        """
        sets = [job for job in self.past if job.pieces > 1]
        single = [job for job in self.past if job.pieces == 1]
        if not sets or len(single) < method().range.learnt:
            return published()
        shop, seen = ShopPast(single, self.day), []
        for job in sets:
            one = shop.forecast(PieceSought(job.traits, job.drivers, frozenset(), self.day))
            said = {
                stage.stage: stage.hours_h
                for stage in one.stages
                if stage.stage in job.log_hours and not is_done_once(stage.stage)
            }
            if said:
                took = math.fsum(job.hours[stage] for stage in said)
                carried = math.log(took / math.fsum(said.values())) + shop.drift * self.ages[job.key]
                seen.append(SetSeen(job.pieces, carried))
        return learnt(seen)

    def points(self, stage: str, driver: str) -> list[tuple[Past, Point]]:
        """The jobs that tell of a stage by a driver, as hours of one piece, carried to this day's speed."""
        return [
            (
                job,
                Point(
                    job.log_drivers[driver],
                    job.log_hours[stage]
                    - math.log(self.units(stage, job.pieces))
                    + self.drift * self.ages[job.key],
                    self.recency[job.key],
                ),
            )
            for job in self.past
            if stage in job.log_hours and driver in job.log_drivers
        ]

    # -- which driver ------------------------------------------------------------------------------

    def _driver(self, stage: str) -> str:
        """The driver of a stage: its own, unless the past shows that another tells clearly better."""
        own, rules = own_driver(stage), method().choice
        told = self._line_points(stage, own)
        if len(told) < rules.from_jobs:
            return own if told else NONE
        bar = rules.better * fit_line(told).spread
        best = own
        for driver in DRIVERS:
            points = self._line_points(stage, driver)
            if driver != own and len(points) == len(told) and (spread := fit_line(points).spread) < bar:
                best, bar = driver, spread
        return best

    def _line_points(self, stage: str, driver: str) -> list[Point]:
        return [point for _, point in self.points(stage, driver)]

    # -- drift -------------------------------------------------------------------------------------

    def _drift(self) -> float:
        """How much the hours of like work grow a year: the median slope of what jobs took against what the lines of
        their stages say, over time, drawn towards none by its own uncertainty.
        """
        rules = method().drift
        lines = {}
        for stage in self.stages:
            if points := self._line_points(stage, self.drivers[stage]):
                lines[stage] = fit_line(points, self.lines.get((stage, self.drivers[stage])))
        off = []
        for job in self.past:
            told = [s for s in job.log_hours if s in lines and self.drivers[s] in job.log_drivers]
            said = math.fsum(
                math.exp(lines[s].at(job.log_drivers[self.drivers[s]])) * self.units(s, job.pieces)
                for s in told
            )
            took = math.fsum(job.hours[s] for s in told)
            if job.day and said > 0 and took > 0:
                off.append((-self.ages[job.key], math.log(took / said)))
        years = [t for t, _ in off]
        if len(off) < rules.from_jobs or max(years) - min(years) < rules.from_years:
            return 0.0
        slope = median_slope(off) or 0.0
        middle = math.fsum(years) / len(years)
        spread = method().fit.mad * median([abs(v - slope * (t - middle)) for t, v in off])
        wide = math.sqrt(math.fsum((t - middle) ** 2 for t in years))
        unsure = rules.sen * max(spread, method().fit.floor) / wide
        return slope * rules.sd_per_year**2 / (rules.sd_per_year**2 + unsure**2)

    # -- asking ------------------------------------------------------------------------------------

    def forecast(self, wanted: PieceSought) -> Forecast:
        """The hours of a piece, for every stage that the past booked."""
        alike = {
            job.key: alike_in_work(wanted.traits, job.traits) ** method().fit.like_power for job in self.past
        }
        found = [stage for name in self.stages if (stage := self._stage(name, wanted, alike))]
        rare = [stage.stage for stage in found if stage.driver == NONE and stage.booked < method().range.rare]
        stages = tuple(stage for stage in found if stage.stage not in rare)
        return Forecast(stages, tuple(rare), len(self.past), self.drift, self.learning)

    def _stage(self, stage: str, wanted: PieceSought, alike: Mapping[str, float]) -> StageForecast | None:
        driver = self.drivers[stage]
        amount = wanted.drivers.get(driver, 0.0)
        could = [job for job in self.past if job.drivers[driver] > 0]
        if amount <= 0:
            # what has none of the driver may take the stage all the same, if others without it did
            could = [job for job in self.past if job.drivers[driver] <= 0]
            driver, amount = NONE, 1.0
        among = {job.key for job in could}
        told = [(job, point) for job, point in self.points(stage, driver) if job.key in among]
        booked = 1.0 if stage in wanted.stages else self._booked(could, told, alike)
        if not told and stage in wanted.stages:
            told = self.points(stage, NONE)
            driver, amount = NONE, 1.0
        if not told or not booked:
            return None
        line = fit_line([point for _, point in told], self.lines.get((stage, driver)))
        if driver == self.drivers[stage]:
            self.lines[stage, driver] = line
        z = math.log(amount)
        first_h = math.exp(line.at(z) + self._shift(line, told, alike))
        return StageForecast(
            stage,
            driver,
            amount,
            first_h * self.units(stage, wanted.pieces),
            booked,
            line.exponent if driver != NONE else 0.0,
            len(told),
            first_h,
        )

    def _shift(
        self, line: FittedLine, told: Iterable[tuple[Past, Point]], alike: Mapping[str, float]
    ) -> float:
        """How much more or less the likest jobs took than the whole shop would have, as far as there are any."""
        off = weight = 0.0
        for job, point in told:
            residual = (point.v - line.at(point.z)) / line.spread
            counts = alike[job.key] * point.weight
            off += counts * residual * huber_weight(residual) * line.spread
            weight += counts
        return off / (weight + method().fit.like_jobs)

    def _booked(
        self, could: Sequence[Past], told: Sequence[tuple[Past, Point]], alike: Mapping[str, float]
    ) -> float:
        """The share of past jobs that booked a stage which they could have booked, the likest counting most."""
        if not could:
            return 0.0
        rules = method()
        did = {job.key for job, _ in told}
        plain = len(did) / len(could)
        weight = math.fsum(alike[job.key] for job in could)
        share = (
            math.fsum(alike[job.key] for job in could if job.key in did) + rules.fit.like_jobs * plain
        ) / (weight + rules.fit.like_jobs)
        return 1.0 if share >= rules.range.always else share


def _years(earlier: date | None, later: date | None) -> float:
    return (later - earlier).days / _DAYS if later and earlier else 0.0


def is_done_once(stage: str) -> bool:
    """Whether a stage is done once for all pieces of a set."""
    return folded(stage) in driver_rules().once


def own_driver(stage: str) -> str:
    """The driver that a stage goes with by its name; `none` for one that is not known."""
    return driver_rules().of_stage.get(folded(stage), NONE)


def done_before(past: Iterable[Past], day: date | None) -> list[Past]:
    """The jobs that were done before a day; one without a date counts as done long ago."""
    return [job for job in past if was_done(job, day)]


def was_done(job: Past, day: date | None) -> bool:
    """Whether a job was done before a day."""
    return day is None or job.day is None or job.day < day

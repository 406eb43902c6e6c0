"""What the past of a shop says of the hours of a piece: which driver each stage goes with, its line, the shop's drift
and how it learns. Pure. The method is told in METHOD.md.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date
from functools import cached_property
from statistics import median

from buildbook.estimate.hours.fit import FittedLine, Point, fit_line, median_slope
from buildbook.estimate.hours.forecast import (
    NONE,
    Forecast,
    Past,
    PieceSought,
    StageForecast,
    is_done_once,
    own_driver,
)
from buildbook.estimate.hours.learning import Learning, SetSeen, learnt, published
from buildbook.estimate.hours.told import Shifts, StageColumn, shifts_of
from buildbook.estimate.likeness.in_work import LikeInWork
from buildbook.estimate.likeness.traits import DRIVERS
from buildbook.estimate.settings import method

_DAYS = 365.25

_HALVINGS = 64  # a weight halved more often would be none, and a line has no middle without weights

_HAVING, _LACKING, _ANY = "having", "lacking", "any"
"""Which jobs tell of a stage: those with its driver, those without, all of them."""


class ShopPast:
    """What the past of a shop says up to some day. Made once, asked for many pieces, and on later days too."""

    def __init__(
        self,
        past: Sequence[Past],
        day: date | None,
        before: ShopPast | None = None,
        later: Sequence[Past] = (),
    ) -> None:
        """before: what the past said up to a day shortly before. Its drivers are kept, its lines begun from.
        later: jobs done since, in order of being done. They move no line, but tell of pieces that are like them.
        """
        self.past, self.day = past, day
        self.every = (*past, *later)
        self.stages: dict[str, int] = {}
        for place, job in enumerate(self.every):
            for stage in job.hours:
                self.stages.setdefault(stage, place)
        # one without a date is as old as the oldest
        self.oldest = min((job.day for job in past if job.day), default=None)
        self.ages = [_years(job.day or self.oldest or day, day) for job in self.every]
        self.recency = [
            _fresh(max(age, 0.0) if place < len(past) else age) for place, age in enumerate(self.ages)
        ]
        self.lines: dict[tuple[str, str], FittedLine] = dict(before.lines) if before else {}
        self.drivers: dict[str, str] = dict(before.drivers) if before else {}
        self.drift = 0.0
        self._drivers: dict[str, list[float | None]] = {}
        self._hours: dict[str, list[float | None]] = {}
        self._columns: dict[tuple[str, str, str], StageColumn] = {}
        self._lines: dict[tuple[str, str, str], tuple[FittedLine, Shifts]] = {}
        self._single: ShopPast | None = None
        self.learning = self._learning(before)
        for stage in self._stages(len(past)):
            if stage not in self.drivers:
                self.drivers[stage] = self._driver(stage)
        self.drift = self._drift()
        if self.drift:  # else the columns stay as they are
            self._columns.clear()
            self._hours.clear()

    def _stages(self, count: int) -> list[str]:
        """The stages that the first so many jobs booked."""
        return [stage for stage, first in self.stages.items() if first < count]

    # -- sets --------------------------------------------------------------------------------------

    def units(self, stage: str, pieces: int) -> float:
        """What a stage of so many pieces takes, in first pieces; one for what is done once for all of them."""
        return 1.0 if pieces == 1 or is_done_once(stage) else self.learning.units(pieces)

    def _learning(self, before: ShopPast | None) -> Learning:
        """How much less the following pieces of a set take: what the past sets took against what one such piece would
        have, as far as the jobs of single pieces tell that; the published law where they do not. The latest sets tell.
        """
        sets = [place for place, job in enumerate(self.past) if job.pieces > 1]
        sets.sort(key=lambda place: (self.past[place].day or date.min, self.past[place].key))
        single = [job for job in self.past if job.pieces == 1]
        if not sets or len(single) < method().range.learnt:
            return published()
        shop, seen = ShopPast(single, self.day, before._single if before else None), []
        self._single = shop
        for place in sets[-method().learning.last :]:
            job = self.past[place]
            one = shop.forecast(PieceSought(job.traits, job.drivers, frozenset(), self.day))
            said = {
                stage.stage: stage.hours_h
                for stage in one.stages
                if stage.stage in job.log_hours and not is_done_once(stage.stage)
            }
            if said:
                took = math.fsum(job.hours[stage] for stage in said)
                carried = math.log(took / math.fsum(said.values())) + shop.drift * self.ages[place]
                seen.append(SetSeen(job.pieces, carried))
        return learnt(seen)

    # -- which driver ------------------------------------------------------------------------------

    def _driver(self, stage: str) -> str:
        """The driver of a stage: its own, unless the past shows that another tells clearly better."""
        own, rules = own_driver(stage), method().choice
        told = self._points(stage, own)
        if len(told) < rules.from_jobs:
            return own if told else NONE
        bar = rules.better * fit_line(told).spread
        best = own
        for driver in DRIVERS:
            if driver == own or self._column(stage, driver, _HAVING).told(len(self.past)) != len(told):
                continue
            if (spread := fit_line(self._points(stage, driver)).spread) < bar:
                best, bar = driver, spread
        return best

    def _points(self, stage: str, driver: str) -> list[Point]:
        return self._column(stage, driver, _HAVING).points(len(self.past))

    def _column(self, stage: str, driver: str, which: str) -> StageColumn:
        """What each job tells of a stage by a driver, as hours of one piece, carried to this day's speed."""
        if (stage, driver, which) not in self._columns:
            having = self._log_drivers(driver)
            could = [which == _ANY or (which == _HAVING) is (z is not None) for z in having]
            zs = having if which == _HAVING else self._log_drivers(NONE)
            self._columns[stage, driver, which] = StageColumn(zs, self._log_hours(stage), self.recency, could)
        return self._columns[stage, driver, which]

    def _log_drivers(self, driver: str) -> list[float | None]:
        if driver not in self._drivers:
            self._drivers[driver] = [job.log_drivers.get(driver) for job in self.every]
        return self._drivers[driver]

    def _log_hours(self, stage: str) -> list[float | None]:
        """Of one piece, at this day's speed."""
        if stage not in self._hours:
            took = [job.log_hours.get(stage) for job in self.every]
            for place, job in enumerate(self.every):
                if job.pieces != 1 and (whole := took[place]) is not None:
                    took[place] = whole - math.log(self.units(stage, job.pieces))
            if self.drift:
                aged = zip(took, self.ages, strict=True)
                took = [None if v is None else v + self.drift * age for v, age in aged]
            self._hours[stage] = took
        return self._hours[stage]

    # -- drift -------------------------------------------------------------------------------------

    def _drift(self) -> float:
        """How much the hours of like work grow a year: the median slope of what jobs took against what the lines of
        their stages say, over time, drawn towards none by its own uncertainty.
        """
        rules = method().drift
        said, took = [0.0] * len(self.past), [0.0] * len(self.past)
        for stage in self._stages(len(self.past)):
            driver = self.drivers[stage]
            if not (points := self._points(stage, driver)):
                continue
            line = fit_line(points, self.lines.get((stage, driver)))
            column = self._column(stage, driver, _HAVING)
            for place, (job, z, did) in enumerate(zip(self.past, column.zs, column.did, strict=False)):
                if did and z is not None:
                    times = 1.0 if job.pieces == 1 else self.units(stage, job.pieces)
                    said[place] += math.exp(line.at(z)) * times
                    took[place] += job.hours[stage]
        off = [
            (-age, math.log(hours / line_h))
            for job, age, hours, line_h in zip(self.past, self.ages, took, said, strict=False)
            if job.day and line_h > 0 and hours > 0
        ]
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

    def forecast(self, wanted: PieceSought, count: int | None = None) -> Forecast:
        """The hours of a piece on its day, for every stage that the past booked. count: from how many of the jobs,
        those done later among them.
        """
        count = len(self.past) if count is None else count
        power = method().fit.like_power
        alike = [one**power for one in self._likes.to(wanted.traits)[:count]]
        found = [stage for name in self._stages(count) if (stage := self._stage(name, wanted, alike))]
        rare = [stage.stage for stage in found if stage.driver == NONE and stage.booked < method().range.rare]
        stages = tuple(stage for stage in found if stage.stage not in rare)
        return Forecast(stages, tuple(rare), count, self.drift, self.learning)

    @cached_property
    def _likes(self) -> LikeInWork:
        return LikeInWork([job.traits for job in self.every])

    def _stage(self, stage: str, wanted: PieceSought, alike: Sequence[float]) -> StageForecast | None:
        count = len(alike)
        driver = self.drivers.get(stage) or self._first_driver(stage, count)
        amount, which = wanted.drivers.get(driver, 0.0), _HAVING
        if amount <= 0:
            # what has none of the driver may take the stage all the same, if others without it did
            which, amount = _LACKING, 1.0
        column = self._column(stage, driver, which)
        booked = 1.0 if stage in wanted.stages else column.share(alike)
        if not column.told(count) and stage in wanted.stages:
            which, amount = _ANY, 1.0
            column = self._column(stage, driver, which)
        if not column.told(count) or not booked:
            return None
        since = _years(self.day, wanted.day) if self.oldest else 0.0
        aged = _fresh(since)
        line, shifts = self._line(stage, driver, which, count, aged)
        shift = shifts.by(alike, aged)
        first_h = math.exp(line.at(math.log(amount)) + self.drift * since + shift)
        shown = driver if which == _HAVING else NONE
        return StageForecast(
            stage,
            shown,
            amount,
            first_h * self.units(stage, wanted.pieces),
            booked,
            line.exponent if shown != NONE else 0.0,
            column.told(count),
            first_h,
        )

    def _first_driver(self, stage: str, count: int) -> str:
        """That of a stage which was first booked later."""
        own = own_driver(stage)
        return own if self._column(stage, own, _HAVING).told(count) else NONE

    def _line(
        self, stage: str, driver: str, which: str, count: int, aged: float
    ) -> tuple[FittedLine, Shifts]:
        """The line of a stage, and how far the jobs lay off it: from what was told up to the day; of a stage that was
        first booked since, from all that is told. aged: what the weights have fallen to since the day.
        """
        key = (stage, driver, which)
        if found := self._lines.get(key):
            return found
        column, drawn = self._columns[key], driver if which == _HAVING else NONE
        if points := column.points(len(self.past)):
            line = fit_line(points, self.lines.get((stage, drawn)))
            if drawn == self.drivers.get(stage):
                self.lines[stage, drawn] = line
            self._lines[key] = line, shifts_of(column, line)
            return self._lines[key]
        line = fit_line([(z, v, weight * aged) for z, v, weight in column.points(count)])
        return line, shifts_of(column, line)


def _years(earlier: date | None, later: date | None) -> float:
    return (later - earlier).days / _DAYS if later and earlier else 0.0


def _fresh(age_y: float) -> float:
    """How much a job of an age counts."""
    return float(0.5 ** min(max(age_y / method().fit.half_life_y, -_HALVINGS), _HALVINGS))

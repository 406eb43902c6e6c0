"""The hours of past jobs reckoned plainly: job by job, each sum a loop, each pair of points a slope. What the package
reckons by columns must be the same.

Nothing of the package's own sums is used: only its records, its settings, and how alike two values of a trait are.
"""

import math
from collections.abc import Sequence
from datetime import date
from itertools import combinations
from statistics import median
from typing import NamedTuple

from buildbook.estimate.hours.forecast import Past, is_done_once, own_driver
from buildbook.estimate.hours.learning import Learning, SetSeen, learnt, published
from buildbook.estimate.likeness.similarity import alike_in
from buildbook.estimate.likeness.traits import DRIVERS, Traits
from buildbook.estimate.settings import likeness_rules, method

NONE = "none"


class Line(NamedTuple):
    middle: float
    level: float
    slope: float
    spread: float

    def at(self, z: float) -> float:
        return self.level + self.slope * (z - self.middle)


class Told(NamedTuple):
    job: Past
    z: float
    v: float
    weight: float


def plain_quotes(past: Sequence[Past]) -> list[tuple[str, int, float, dict[str, float], dict[str, float]]]:
    """Of each job that can be tried: its key, how many jobs were done before, what is forecast for it in all and by
    stage, and the share with which each stage counts.
    """
    rules = method().trial
    tries = sorted(
        (job for job in past if job.day and job.total_h > 0), key=lambda job: (job.asked or date.min, job.key)
    )
    tries = [job for job in tries if len(done_before(past, job.asked)) >= method().range.learnt]
    out, shop, fitted, chosen = [], None, 0, 0
    for job in tries[-rules.last :]:
        before = done_before(past, job.asked)
        undated = sum(other.day is None for other in before)
        if shop is None or len(before) >= rules.anew * fitted or fitted == undated < len(before):
            fitted = len(before)
            if fitted >= rules.drivers * chosen:
                shop, chosen = None, fitted
            shop = Shop(before, job.asked, shop)
        hours, shares = shop.ask(before, job, job.asked, job.pieces)
        total = math.fsum(hours[stage] * shares[stage] for stage in hours)
        if total > 0:
            out.append((job.key, len(before), total, hours, shares))
    return out


def done_before(past: Sequence[Past], day: date) -> list[Past]:
    found = [job for job in past if job.day is None or job.day < day]
    return sorted(found, key=lambda job: (job.day or date.min, job.key))


def alike_in_work(here: Traits, there: Traits) -> float:
    found = weight = 0.0
    for trait in likeness_rules().traits:
        if trait.hours:
            alike = alike_in(trait, here.values[trait.name], there.values[trait.name], {})
            if alike is not None:
                found, weight = found + trait.weight * alike, weight + trait.weight
    return found / weight if weight else 1.0


class Shop:
    """What a past says up to a day."""

    def __init__(self, past: Sequence[Past], day: date | None, before: "Shop | None" = None) -> None:
        self.past, self.day, self.drift, self.single = past, day, 0.0, None
        self.lines = dict(before.lines) if before else {}
        self.kept: dict[tuple[str, bool | None], Line] = {}
        self.learning = self._learning(before)
        self.drivers = dict(before.drivers) if before else {}
        for stage in stages_of(past):
            if stage not in self.drivers:
                self.drivers[stage] = self._driver(stage)
        self.drift = self._drift()

    def units(self, stage: str, pieces: int) -> float:
        return 1.0 if pieces == 1 or is_done_once(stage) else self.learning.units(pieces)

    def _learning(self, before: "Shop | None") -> Learning:
        sets = sorted((j for j in self.past if j.pieces > 1), key=lambda j: (j.day or date.min, j.key))
        single = [job for job in self.past if job.pieces == 1]
        if not sets or len(single) < method().range.learnt:
            return published()
        self.single, seen = Shop(single, self.day, before.single if before else None), []
        for job in sets[-method().learning.last :]:
            hours, _ = self.single.ask(single, job, self.day, 1)
            said = {s: h for s, h in hours.items() if s in job.log_hours and not is_done_once(s)}
            if said:
                took = math.fsum(job.hours[stage] for stage in said)
                age = age_of(job, self.past, self.day)
                seen.append(
                    SetSeen(job.pieces, math.log(took / math.fsum(said.values())) + self.single.drift * age)
                )
        return learnt(seen)

    def told(self, stage: str, driver: str, among: Sequence[Past], day: date | None) -> list[Told]:
        out = []
        for job in among:
            if stage in job.log_hours and driver in job.log_drivers:
                age = age_of(job, among, day)
                one = job.log_hours[stage] - math.log(self.units(stage, job.pieces))
                weight = 0.5 ** (max(age, 0.0) / method().fit.half_life_y)
                out.append(Told(job, job.log_drivers[driver], one + self.drift * age, weight))
        return out

    def _driver(self, stage: str) -> str:
        own, rules = own_driver(stage), method().choice
        told = self.told(stage, own, self.past, self.day)
        if len(told) < rules.from_jobs:
            return own if told else NONE
        best, bar = own, rules.better * fit(told).spread
        for driver in DRIVERS:
            points = self.told(stage, driver, self.past, self.day)
            if driver != own and len(points) == len(told) and fit(points).spread < bar:
                best, bar = driver, fit(points).spread
        return best

    def _drift(self) -> float:
        rules, lines, off = method().drift, {}, []
        for stage in stages_of(self.past):
            if points := self.told(stage, self.drivers[stage], self.past, self.day):
                lines[stage] = fit(points, self.lines.get((stage, self.drivers[stage])))
        for job in self.past:
            told = [s for s in job.log_hours if s in lines and self.drivers[s] in job.log_drivers]
            said = math.fsum(
                math.exp(lines[s].at(job.log_drivers[self.drivers[s]])) * self.units(s, job.pieces)
                for s in told
            )
            took = math.fsum(job.hours[s] for s in told)
            if job.day and said > 0 and took > 0:
                off.append((-age_of(job, self.past, self.day), math.log(took / said)))
        years = [t for t, _ in off]
        if len(off) < rules.from_jobs or max(years) - min(years) < rules.from_years:
            return 0.0
        slope = slope_of_all_pairs(off) or 0.0
        middle = math.fsum(years) / len(years)
        spread = method().fit.mad * median([abs(v - slope * (t - middle)) for t, v in off])
        wide = math.sqrt(math.fsum((t - middle) ** 2 for t in years))
        unsure = rules.sen * max(spread, method().fit.floor) / wide
        return slope * rules.sd_per_year**2 / (rules.sd_per_year**2 + unsure**2)

    def ask(
        self, known: Sequence[Past], wanted: Past, day: date | None, pieces: int
    ) -> tuple[dict[str, float], dict[str, float]]:
        """The hours of each stage and the share with which it counts, from the jobs known on a day."""
        power, rules = method().fit.like_power, method()
        alike = {job.key: alike_in_work(wanted.traits, job.traits) ** power for job in known}
        hours, shares = {}, {}
        for stage in stages_of(known):
            driver = self.drivers.get(stage)
            if driver is None:
                own = own_driver(stage)
                driver = own if self.told(stage, own, known, day) else NONE
            has = wanted.drivers[driver] > 0
            could = [job for job in known if (job.drivers[driver] > 0) == has]
            points = [p for p in self.told(stage, driver if has else NONE, known, day) if p.job in could]
            if not points:
                continue
            did = [p.job.key for p in points]
            plain = len(did) / len(could)
            share = (sum(alike[key] for key in did) + rules.fit.like_jobs * plain) / (
                sum(alike[job.key] for job in could) + rules.fit.like_jobs
            )
            share = 1.0 if share >= rules.range.always else share
            since = years(self.day, day) if any(job.day for job in self.past) else 0.0
            line = self._line(stage, driver, has, points, since)
            if (driver == NONE or not has) and share < rules.range.rare:
                continue
            off = weight = 0.0
            for job, z, v, fresh in points:
                residual = (v - line.at(z)) / line.spread
                off += alike[job.key] * fresh * residual * huber(residual) * line.spread
                weight += alike[job.key] * fresh
            z = math.log(wanted.drivers[driver]) if has else 0.0
            hours[stage] = math.exp(line.at(z) + off / (weight + rules.fit.like_jobs)) * self.units(
                stage, pieces
            )
            shares[stage] = share
        return hours, shares

    def _line(self, stage: str, driver: str, has: bool, known: Sequence[Told], since: float) -> Line:
        """The line as it was when the shop was looked at, so many years ago, carried to this day; of what was told since,
        where nothing was told then.
        """
        if (stage, has) not in self.kept:
            told = self.told(stage, driver if has else NONE, self.past, self.day)
            told = [p for p in told if (p.job.drivers[driver] > 0) == has]
            if not told:
                return fit(known)
            drawn = driver if has else NONE
            line = fit(told, self.lines.get((stage, drawn)))
            self.kept[stage, has] = line
            if drawn == self.drivers.get(stage):
                self.lines[stage, drawn] = line
        line = self.kept[stage, has]
        return line._replace(level=line.level + self.drift * since)


def stages_of(past: Sequence[Past]) -> list[str]:
    return list(dict.fromkeys(stage for job in past for stage in job.hours))


def years(earlier: date | None, later: date | None) -> float:
    return (later - earlier).days / 365.25 if later and earlier else 0.0


def age_of(job: Past, among: Sequence[Past], day: date | None) -> float:
    """One without a day is as old as the oldest."""
    return years(job.day or min((other.day for other in among if other.day), default=day), day)


# -- lines -----------------------------------------------------------------------------------------


def huber(off: float) -> float:
    bound = method().fit.huber
    return 1.0 if abs(off) <= bound else bound / abs(off)


def fit(told: Sequence[Told], start: Line | None = None) -> Line:
    rules = method().fit
    total = math.fsum(p.weight for p in told)
    middle = math.fsum(p.weight * p.z for p in told) / total
    slope = start.slope if start else rules.exponent
    level = start.at(middle) if start else median_by([(p.v - slope * (p.z - middle), p.weight) for p in told])
    for number in range(rules.rounds):
        off = [p.v - level - slope * (p.z - middle) for p in told]
        if number < rules.scale_rounds:
            spread = spread_of(off, told)
        s = sx = sv = sxx = sxv = 0.0
        for p, r in zip(told, off, strict=True):
            w, x = p.weight * huber(r / spread), p.z - middle
            s, sx, sv, sxx, sxv = s + w, sx + w * x, sv + w * p.v, sxx + w * x * x, sxv + w * x * p.v
        pull = (spread / rules.exponent_sd) ** 2
        steep = (sxv - sx * sv / s + pull * rules.exponent) / (sxx - sx * sx / s + pull)
        new_slope = min(max(steep, 0.0), rules.most_exponent)
        new_level = (sv - new_slope * sx) / s
        moved = abs(new_level - level) + abs(new_slope - slope)
        level, slope = new_level, new_slope
        if moved < rules.still:
            break
    return Line(middle, level, slope, spread_of([p.v - level - slope * (p.z - middle) for p in told], told))


def spread_of(off: Sequence[float], told: Sequence[Told]) -> float:
    rules = method().fit
    mad = rules.mad * median_by([(abs(r), p.weight) for r, p in zip(off, told, strict=True)])
    joined = (rules.spread_jobs * rules.spread**2 + len(off) * mad**2) / (rules.spread_jobs + len(off))
    return max(joined**0.5, rules.floor)


def median_by(values: Sequence[tuple[float, float]]) -> float:
    """The value that half of the weight lies below, halfway to the next where it is just half."""
    ordered, below = sorted(values), 0.0
    half = math.fsum(weight for _, weight in values) / 2
    for place, (value, weight) in enumerate(ordered):
        below += weight
        if math.isclose(below, half, rel_tol=1e-12):
            return (value + ordered[min(place + 1, len(ordered) - 1)][0]) / 2
        if below > half:
            return value
    return ordered[-1][0]


def slope_of_all_pairs(points: Sequence[tuple[float, float]]) -> float | None:
    slopes = [
        (b - a) / (until - since) for (since, a), (until, b) in combinations(points, 2) if until != since
    ]
    return median(slopes) if slopes else None

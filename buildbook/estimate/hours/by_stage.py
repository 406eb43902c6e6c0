"""The hours of an enquiry by stage and in all, each with the range that the shop's past quotes call for.

Pure.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from buildbook.estimate.hours.backtest import TrialQuote
from buildbook.estimate.hours.forecast import (
    NONE,
    Forecast,
    Past,
    PieceSought,
    StageForecast,
    own_driver,
)
from buildbook.estimate.hours.shop_past import ShopPast
from buildbook.estimate.hours.spread import Spread, spread_of
from buildbook.estimate.model import HoursEstimate, Range, Said, SetHours, StageEstimate
from buildbook.estimate.settings import method
from buildbook.folding import folded


def hours_of(
    wanted: PieceSought,
    past: Sequence[Past],
    quoted: Sequence[TrialQuote],
    stages: Sequence[str],
    scaled: Mapping[str, Range] | None = None,
) -> HoursEstimate:
    """The hours of a piece. `stages`: those of the shop, in its order; `scaled`: the drivers' ranges, where they were
    not read from parts.
    """
    if len(past) < 1:
        return HoursEstimate(None, ())
    shop = ShopPast(past, wanted.day)
    forecast = shop.forecast(wanted)
    found = {stage.stage: stage for stage in forecast.stages}
    by_stage = [_stage(stage, quoted, scaled or {}) for stage in found.values()]
    by_stage += [_untold(stage, wanted) for stage in _missing(stages, wanted, found, forecast.rare, past)]
    order = {folded(stage): place for place, stage in enumerate(stages)}
    by_stage.sort(key=lambda stage: order.get(folded(stage.stage), len(order)))
    misses = [quote.miss for quote in quoted]
    spread = spread_of(misses, method().range.total, len(past))
    enough = len(past) >= method().range.learnt and forecast.total_h > 0
    total = _widened(spread.around(forecast.total_h), forecast.stages, scaled or {}) if enough else None
    return HoursEstimate(
        total=total,
        by_stage=tuple(by_stage),
        jobs=len(past),
        lean=_lean(len(misses)),
        scores=len(misses),
        drift_pct=100 * forecast.drift,
        correction=spread.around(1.0).median,
        rare=forecast.rare,
        of_set=_of_set(total, forecast, wanted.pieces) if total and wanted.pieces > 1 else None,
    )


def _of_set(total: Range, forecast: Forecast, pieces: int) -> SetHours:
    """The hours of a set, the first piece apart from those that follow: they rise and fall together."""
    first = forecast.first_h / forecast.total_h
    return SetHours(
        quantity=pieces,
        first=Range(total.low * first, total.median * first, total.high * first),
        following=Range(total.low * (1 - first), total.median * (1 - first), total.high * (1 - first)),
        rate_pct=100 * forecast.learning.rate,
        from_sets=forecast.learning.sets,
    )


def _lean(misses: int) -> str:
    if misses >= method().range.conformal:
        return "past"
    return "few" if misses else "usual"


def _stage(stage: StageForecast, quoted: Sequence[TrialQuote], scaled: Mapping[str, Range]) -> StageEstimate:
    misses = [miss for quote in quoted if (miss := quote.misses_of_stages.get(stage.stage))]
    spread = _unshifted(spread_of(misses, method().range.stage, stage.from_jobs))
    hours = _widened(spread.around(stage.hours_h), (stage,), scaled)
    if stage.booked < 1:
        hours = Range(0.0, hours.median * stage.booked, hours.high)
    return StageEstimate(
        stage=stage.stage,
        driver=stage.driver,
        amount=stage.amount,
        hours=hours,
        exponent=stage.exponent,
        booked=stage.booked,
        from_jobs=stage.from_jobs,
        said=tuple(_leanings(stage, len(misses))),
    )


def _unshifted(spread: Spread) -> Spread:
    """Only the whole is set right by past quotes; else the stages would not add up to what is said of it."""
    return replace(spread, shift=0.0)


def _leanings(stage: StageForecast, misses: int) -> Iterable[Said]:
    if stage.from_jobs < method().range.learnt:
        yield Said("few_jobs", (("count", str(stage.from_jobs)),))
    if stage.booked < 1:
        yield Said("booked_share", (("percent", f"{100 * stage.booked:.0f}"),))
    if stage.driver == NONE and own_driver(stage.stage) != NONE:
        yield Said("no_driver")
    if misses < method().range.least:
        yield Said("usual_spread")


def _widened(hours: Range, stages: Iterable[StageForecast], scaled: Mapping[str, Range]) -> Range:
    """A range that also holds what scaled drivers may be: the worse of both ends, weighted by the hours of each
    stage, added in squares to the half-width in logarithms as independent.
    """
    told = [stage for stage in stages if stage.driver in scaled and stage.counted_h > 0]
    every = math.fsum(stage.counted_h for stage in stages)
    if not told or not every or hours.low <= 0:
        return hours
    down = up = 0.0
    for stage in told:
        drivers, share = scaled[stage.driver], stage.counted_h / every
        if drivers.low > 0 and drivers.median > 0:
            down += share * stage.exponent * math.log(drivers.median / drivers.low)
            up += share * stage.exponent * math.log(drivers.high / drivers.median)
    low = math.hypot(math.log(hours.median / hours.low), down)
    high = math.hypot(math.log(hours.high / hours.median), up)
    return Range(hours.median * math.exp(-low), hours.median, hours.median * math.exp(high))


def _missing(
    stages: Sequence[str],
    wanted: PieceSought,
    found: Mapping[str, StageForecast],
    rare: Sequence[str],
    past: Sequence[Past],
) -> list[str]:
    """Stages that the piece needs and no past job tells of: those it names, and those of the shop whose driver it
    has, unless enough past jobs had it too and booked their hours elsewhere.
    """
    have = {folded(stage) for stage in (*found, *rare)}
    out = [stage for stage in sorted(wanted.stages) if folded(stage) not in have]
    for stage in stages:
        driver = own_driver(stage)
        if folded(stage) in have or stage in out or driver == NONE or wanted.drivers.get(driver, 0.0) <= 0:
            continue
        could = sum(job.drivers[driver] > 0 for job in past)
        if could < method().range.learnt:
            out.append(stage)
    return out


def _untold(stage: str, wanted: PieceSought) -> StageEstimate:
    driver = own_driver(stage)
    return StageEstimate(
        stage, driver, wanted.drivers.get(driver, 0.0), None, from_jobs=0, said=(Said("never_booked"),)
    )

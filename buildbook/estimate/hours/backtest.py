"""How well this would have quoted: past jobs quoted from only those done before each was begun.

The misses of these quotes are also what the range of the next one is calibrated on. Two plain ways stand beside: the
shop's mean hours, and its hours a board foot. Pure.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from statistics import median

from buildbook.estimate.hours.forecast import Forecast, Past, PieceSought, was_done
from buildbook.estimate.hours.shop_past import ShopPast
from buildbook.estimate.hours.spread import Miss, spread_of
from buildbook.estimate.model import Backtest, Tried
from buildbook.estimate.settings import method


@dataclass(frozen=True)
class TrialQuote:
    """A past job with what would have been forecast for it, and the jobs that was from. mean_h: hours of a piece in
    these; per_board_foot_h: hours a board foot, None where none has any.
    """

    job: Past
    before: tuple[Past, ...]
    forecast: Forecast
    mean_h: float
    per_board_foot_h: float | None

    @cached_property
    def miss(self) -> Miss:
        return Miss(math.log(self.job.total_h / self.forecast.total_h), len(self.before))

    @cached_property
    def misses_of_stages(self) -> dict[str, Miss]:
        """The miss of each stage that was both forecast and booked."""
        out = {}
        for stage in self.forecast.stages:
            took = self.job.hours.get(stage.stage, 0.0)
            if took > 0:
                out[stage.stage] = Miss(math.log(took / stage.hours_h), stage.from_jobs)
        return out


@dataclass(frozen=True)
class _Try:
    """A job that can be tried: begun on `day`, when the first `count` jobs were done."""

    job: Past
    day: date
    count: int


def quotes(past: Sequence[Past]) -> tuple[TrialQuote, ...]:
    """The latest jobs, in order of time, that enough others were done before: `last` of method.toml.

    Each is asked of what the shop's past said then. That is found anew whenever there are `anew` times as many jobs as
    when it was found last, and its drivers whenever there are `drivers` times as many; of the jobs done in between only
    those like the piece tell, by how far they lay off the lines.
    """
    rules = method().trial
    done = sorted(past, key=lambda job: (job.day or date.min, job.key))
    dated = next((place for place, job in enumerate(done) if job.day), len(done))
    tries = _tries(done)[-rules.last :]
    plain = PlainWays(done)
    out: list[TrialQuote] = []
    shop: ShopPast | None = None
    chosen = fitted = 0
    for place, one in enumerate(tries):
        # what has no day ages with the first that has one
        if shop is None or one.count >= rules.anew * fitted or fitted <= dated < one.count:
            if one.count >= rules.drivers * chosen:
                shop, chosen = None, one.count
            fitted = one.count
            most = max(t.count for t in tries[place:] if t.count < rules.anew * fitted or t is one)
            shop = ShopPast(done[:fitted], one.day, shop, done[fitted:most])
        job = one.job
        sought = PieceSought(job.traits, job.drivers, frozenset(), one.day, job.pieces)
        forecast = shop.forecast(sought, one.count)
        if forecast.total_h > 0:
            out.append(TrialQuote(job, tuple(done[: one.count]), forecast, *plain.of(one.count)))
    return tuple(out)


def triable(past: Sequence[Past]) -> int:
    """How many jobs could be tried: that took hours, on days that are known, with enough jobs done before."""
    return len(_tries(sorted(past, key=lambda job: job.day or date.min)))


def _tries(done: Sequence[Past]) -> list[_Try]:
    """In order of time. done: all jobs in order of being done; those without a day, done long ago, first."""
    days = [job.day or date.min for job in done]
    found = [
        _Try(job, job.asked, bisect_left(days, job.asked))
        for job in done
        if job.day and job.asked and job.total_h > 0
    ]
    found.sort(key=lambda one: (one.day, one.job.key))
    return [one for one in found if one.count >= method().range.learnt]


def done_quotes(quoted: Sequence[TrialQuote], day: date | None) -> list[TrialQuote]:
    """The quotes whose truth was known before a day."""
    return [quote for quote in quoted if was_done(quote.job, day)]


def backtest_of(quoted: Sequence[TrialQuote], could: int = 0) -> Backtest:
    """Each quote with the range that it would have had from the misses known by then, and how they did. could: how many
    jobs could have been tried.
    """
    tried = tuple(_tried(quote, done_quotes(quoted, quote.job.asked)) for quote in quoted)
    if not tried:
        return Backtest()
    feet = [abs(t.per_board_foot_h / t.actual_h - 1) for t in tried if t.per_board_foot_h is not None]
    return Backtest(
        tried=tried,
        could=could if could > method().trial.last else len(tried),
        median_abs_error_pct=median([abs(t.error_pct) for t in tried]),
        in_range_pct=100 * sum(t.in_range for t in tried) / len(tried),
        mean_hours_error_pct=100 * median([abs(t.mean_h / t.actual_h - 1) for t in tried]),
        per_board_foot_error_pct=100 * median(feet) if feet else None,
    )


def _tried(quote: TrialQuote, known: Sequence[TrialQuote]) -> Tried:
    job, before = quote.job, quote.before
    misses = [other.miss for other in known if other is not quote]
    spread = spread_of(misses, method().range.total, len(before))
    mean, per_foot = quote.mean_h, quote.per_board_foot_h
    return Tried(
        job=job.key,
        title=job.title,
        day=job.day,
        from_jobs=len(before),
        actual_h=job.total_h,
        hours=spread.around(quote.forecast.total_h),
        mean_h=mean * job.pieces,
        per_board_foot_h=per_foot * job.board_feet if per_foot is not None and job.board_feet else None,
    )


class PlainWays:
    """The two plain ways, from the first so many of some jobs."""

    def __init__(self, past: Sequence[Past]) -> None:
        self._means = [job.total_h / job.pieces for job in past]
        self._feet = [max(job.board_feet, 0.0) for job in past]
        self._wooden_h = [job.total_h if job.board_feet > 0 else 0.0 for job in past]

    def of(self, count: int) -> tuple[float, float | None]:
        """The mean hours of a piece, and the hours a board foot over all; the second None where none has any."""
        feet = math.fsum(self._feet[:count])
        mean_h = math.fsum(self._means[:count]) / count
        return mean_h, math.fsum(self._wooden_h[:count]) / feet if feet else None

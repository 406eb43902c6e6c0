"""How well this would have quoted: every past job quoted from only those done before it was begun.

The misses of these quotes are also what the range of the next one is calibrated on. Two plain ways stand beside: the
shop's mean hours, and its hours a board foot. Pure.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from statistics import median

from buildbook.estimate.hours.forecast import Forecast, Past, PieceSought, ShopPast, done_before, was_done
from buildbook.estimate.hours.spread import Miss, spread_of
from buildbook.estimate.model import Backtest, Tried
from buildbook.estimate.settings import method

_GROWN = 1.25  # drivers are chosen anew when there are so many times as many jobs


@dataclass(frozen=True)
class TrialQuote:
    """A past job with what would have been forecast for it, and how many jobs that was from."""

    job: Past
    before: tuple[Past, ...]
    forecast: Forecast

    @property
    def miss(self) -> Miss:
        return Miss(math.log(self.job.total_h / self.forecast.total_h), len(self.before))

    def misses_of_stages(self) -> dict[str, Miss]:
        """The miss of each stage that was both forecast and booked."""
        out = {}
        for stage in self.forecast.stages:
            took = self.job.hours.get(stage.stage, 0.0)
            if took > 0:
                out[stage.stage] = Miss(math.log(took / stage.hours_h), stage.from_jobs)
        return out


def quotes(past: Sequence[Past]) -> tuple[TrialQuote, ...]:
    """Every past job, in order of time, that enough others were done before."""
    ordered = sorted(past, key=lambda job: (job.asked or date.min, job.key))
    out: list[TrialQuote] = []
    shop, chosen_at = None, 0
    for job in ordered:
        before = [other for other in done_before(ordered, job.asked) if other is not job]
        if len(before) < method().range.learnt or job.total_h <= 0:
            continue
        if len(before) >= _GROWN * chosen_at:
            shop, chosen_at = None, len(before)
        shop = ShopPast(before, job.asked, shop)
        forecast = shop.forecast(PieceSought(job.traits, job.drivers, frozenset(), job.asked, job.pieces))
        if forecast.total_h > 0:
            out.append(TrialQuote(job, tuple(before), forecast))
    return tuple(out)


def done_quotes(quoted: Sequence[TrialQuote], day: date | None) -> list[TrialQuote]:
    """The quotes whose truth was known before a day."""
    return [quote for quote in quoted if was_done(quote.job, day)]


def backtest_of(quoted: Sequence[TrialQuote]) -> Backtest:
    """Each quote with the range that it would have had from the misses known by then, and how they did."""
    tried = tuple(_tried(quote, done_quotes(quoted, quote.job.asked)) for quote in quoted)
    if not tried:
        return Backtest()
    feet = [abs(t.per_board_foot_h / t.actual_h - 1) for t in tried if t.per_board_foot_h is not None]
    return Backtest(
        tried=tried,
        median_abs_error_pct=median([abs(t.error_pct) for t in tried]),
        in_range_pct=100 * sum(t.in_range for t in tried) / len(tried),
        mean_hours_error_pct=100 * median([abs(t.mean_h / t.actual_h - 1) for t in tried]),
        per_board_foot_error_pct=100 * median(feet) if feet else None,
    )


def _tried(quote: TrialQuote, known: Sequence[TrialQuote]) -> Tried:
    job, before = quote.job, quote.before
    misses = [other.miss for other in known if other is not quote]
    spread = spread_of(misses, method().range.total, len(before))
    mean, per_foot = plain_ways(before)
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


def plain_ways(past: Sequence[Past]) -> tuple[float, float | None]:
    """The mean hours of a piece, and the hours a board foot over all jobs; the second None where none has any."""
    mean = math.fsum(job.total_h / job.pieces for job in past) / len(past)
    wooden = [job for job in past if job.board_feet > 0]
    feet = math.fsum(job.board_feet for job in wooden)
    return mean, math.fsum(job.total_h for job in wooden) / feet if feet else None

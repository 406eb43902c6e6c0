"""The estimate that a job was ordered on against what it took: hours by stage, materials, price.

In: `Job` with its `Quoted`, the hours booked and the cost. Out: `QuotedAgainst`. Pure.
"""

from __future__ import annotations

from decimal import Decimal

from buildbook.folding import folded
from buildbook.job.model import Job
from buildbook.job.quoted import Quoted, QuotedRange, QuotedSum
from buildbook.summary.model import Cost, HoursBooked, Money, MoneyAgainst, QuotedAgainst, StageAgainst
from buildbook.trade import tables
from buildbook.trade.cost import exact, rounded


def quoted_against(job: Job, hours: HoursBooked, cost: Cost) -> QuotedAgainst | None:
    """The comparison; None for a job that holds no estimate."""
    quoted = job.quoted
    if quoted is None:
        return None
    done = job.delivered is not None
    spent = cost.materials if cost.by_kind else None
    return QuotedAgainst(
        by_stage=_stages(quoted, hours, job.shop.stages, done),
        total=_hours("", quoted.hours, hours.total_h, done),
        materials=_money(quoted.materials, spent, done),
        price=_money(quoted.price, cost.price, True),
        delivered=done,
        assumed=_assumed(quoted, cost),
    )


def _stages(
    quoted: Quoted, hours: HoursBooked, order: tuple[str, ...], done: bool
) -> tuple[StageAgainst, ...]:
    """The stages that were estimated or booked, in the shop's order, others after them. Capitals do not matter."""
    booked: dict[str, float] = {}
    names: dict[str, str] = {}
    for line in hours.by_stage:
        key = folded(line.stage)
        booked[key] = booked.get(key, 0.0) + line.hours_h
        names.setdefault(key, line.stage)
    rows = [
        _hours(stage.stage, stage.hours, booked.pop(folded(stage.stage), 0.0), done)
        for stage in quoted.by_stage
    ]
    rows += [_hours(names[key], None, took, done) for key, took in booked.items()]
    places = {folded(stage): place for place, stage in enumerate(order)}
    return tuple(sorted(rows, key=lambda row: places.get(folded(row.stage), len(places))))


def _hours(stage: str, estimated: QuotedRange | None, took: float, done: bool) -> StageAgainst:
    if estimated is None:
        return StageAgainst(stage, None, None, None, took)
    figures = (float(estimated.low), float(estimated.median), float(estimated.high))
    return StageAgainst(stage, *figures, took, *_judged(estimated, exact(took), done))


def _money(estimated: QuotedSum | None, was: Money | None, done: bool) -> MoneyAgainst | None:
    """Money of two currencies is shown beside one another and not compared."""
    if estimated is None:
        return None
    places = tables.currency_places(estimated.currency)
    low, median, high = (
        Money(rounded(amount, places), estimated.currency)
        for amount in (estimated.amount.low, estimated.amount.median, estimated.amount.high)
    )
    if was is None or was.currency != estimated.currency:
        return MoneyAgainst(low, median, high, was)
    return MoneyAgainst(low, median, high, was, *_judged(estimated.amount, was.amount, done))


def _judged(estimated: QuotedRange, was: Decimal, done: bool) -> tuple[float | None, bool | None]:
    """By how much it differs from the median in %, and whether it is in the range; what goes on may only be over."""
    if not done and was <= estimated.high:
        return None, None
    difference = float(100 * (was - estimated.median) / estimated.median) if estimated.median else None
    return difference, estimated.low <= was <= estimated.high


def _assumed(quoted: Quoted, cost: Cost) -> tuple[str, ...]:
    """What the comparison of materials leaves out."""
    if quoted.materials and cost.by_kind and cost.unpriced:
        return (f"Not in the materials, for want of a price: {', '.join(cost.unpriced)}.",)
    return ()

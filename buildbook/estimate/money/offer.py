"""From cost to price: materials and labour, contingency, overhead, margin, rounding, tax; payments; when it is ready.

In: what the piece takes, its hours, how the shop quotes. Out: `PriceEstimate`, `LeadTime`. All money is Decimal, to
the coin of its currency (ISO 4217); the lines of each column add up to its price exactly. Pure.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import ROUND_CEILING, Decimal

from buildbook.estimate.model import (
    HoursEstimate,
    LeadTime,
    MaterialsEstimate,
    PriceEstimate,
    PriceLine,
    Share,
)
from buildbook.estimate.past import KnownJob
from buildbook.job.model import Job
from buildbook.job.shop_model import Payment, Quoting, Shop
from buildbook.problems import Problem, listed
from buildbook.summary.model import Money
from buildbook.trade import cost, tables
from buildbook.trade.days import days_after

_WHOLE = Decimal(100)  # per cent
_NEARLY_WHOLE = Decimal("0.1")  # per cent: thirds are written 33.3; the reader of shop.toml asks no closer
_WEEK_DAYS = 7

Column = tuple[Decimal, Decimal]
"""What materials and labour come to at one end of the range."""


def price(materials: MaterialsEstimate, hours: HoursEstimate, shop: Shop) -> PriceEstimate | None:
    """What to ask; None without an hour rate or without hours.

    Contingency and overhead are each a share of materials and labour; margin is a share of the price; the price is
    rounded up, and tax comes on top. What shop.toml leaves out is not reckoned and has no line.

    The ends of the range: materials and hours err independently, so their half-widths about the medians are combined
    as the root of the sum of their squares (the spread of a sum of independent errors), each way by itself, and never
    below the low of the materials alone. Each line's part of that half-width is its share of the squares, so that the
    lines of a column add up.
    """
    if shop.hour_rate is None or hours.total is None:
        return None
    currency = materials.amount.currency
    places = tables.currency_places(currency)
    spent = materials.amount.amount
    work, work_low, work_high = (
        cost.labour_cost(amount, shop.hour_rate, places)
        for amount in (hours.total.median, hours.total.low, hours.total.high)
    )
    down = _combined(spent - materials.low.amount, work - work_low, places)
    up = _combined(materials.high.amount - spent, work_high - work, places)
    low, middle, high = (
        _steps(ends, shop.quoting, places)
        for ends in (
            (spent - down[0], max(work - down[1], Decimal(0))),
            (spent, work),
            (spent + up[0], work + up[1]),
        )
    )

    def money(amount: Decimal) -> Money:
        return Money(amount, currency)

    def net(column: Sequence[_Step]) -> Money:
        return money(cost.total(step.amount for step in column if step.key != "tax"))

    def asked(column: Sequence[_Step]) -> Money:
        return money(cost.total(step.amount for step in column))

    return PriceEstimate(
        lines=tuple(
            PriceLine(m.key, money(lo.amount), money(m.amount), money(hi.amount), m.pct)
            for lo, m, hi in zip(low, middle, high, strict=True)
        ),
        low=asked(low),
        median=asked(middle),
        high=asked(high),
        net_low=net(low),
        net_median=net(middle),
        net_high=net(high),
        shares=payments(asked(middle), shop.quoting),
    )


def payments(asked: Money, quoting: Quoting) -> tuple[Share, ...]:
    """The deposit and the payments after it, to the coin; those that make up 100 % sum to the price exactly.

    Each is what is due by then less what was due before, so that what rounding takes from one the next has.
    """
    deposit = [Payment("", quoting.deposit_pct)] if quoting.deposit_pct else []
    due = [*deposit, *quoting.payments]
    places = tables.currency_places(asked.currency)
    shares, paid, pct = [], Decimal(0), Decimal(0)
    for number, payment in enumerate(due, 1):
        pct += cost.exact(payment.share_pct)
        whole = number == len(due) and abs(pct - _WHOLE) <= _NEARLY_WHOLE
        by_then = asked.amount if whole else cost.rounded(asked.amount * pct / _WHOLE, places)
        shares.append(Share(payment.when, payment.share_pct, Money(by_then - paid, asked.currency)))
        paid = by_then
    return tuple(shares)


def currencies(enquiry: Job, past: Iterable[KnownJob]) -> tuple[Problem, ...]:
    """An error where past jobs are reckoned in another currency than the enquiry: sums of both mean nothing."""
    jobs: dict[str, list[str]] = {enquiry.shop.currency: [enquiry.key]}
    for job in past:
        jobs.setdefault(job.facts.currency, []).append(job.key)
    if len(jobs) == 1:
        return ()
    said = "; ".join(f"{currency}: {listed(sorted(dict.fromkeys(keys)))}" for currency, keys in jobs.items())
    what = f"The jobs are not all in one currency ({said})."
    hint = "Estimate from a shelf of one currency, or put right currency in shop.toml."
    return (Problem("error", "shop.toml", what, hint, field="currency"),)


def lead(hours: HoursEstimate, shop: Shop, day: date) -> LeadTime:
    """When the piece can be begun: the day, or when the bench is free; and when it would be ready at so many hours at
    the bench a week, rounded up to a whole day. None where shop.toml does not tell.
    """
    quoting = shop.quoting
    if quoting.booked_until is None:
        return LeadTime()
    begin = max(day, quoting.booked_until)
    if not quoting.week_hours or hours.total is None:
        return LeadTime(begin)
    ready = [
        days_after(begin, _WEEK_DAYS * amount / quoting.week_hours)
        for amount in (hours.total.median, hours.total.high)
    ]
    return LeadTime(begin, *ready)


# -- the steps -------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Step:
    key: str
    amount: Decimal
    pct: float | None = None


def _combined(materials: Decimal, labour: Decimal, places: int) -> Column:
    """Two half-widths as their parts of the one of the sum: the square of each over the root of both squares."""
    both = (materials**2 + labour**2).sqrt()
    if not both:
        return Decimal(0), Decimal(0)
    of_materials = cost.rounded(materials**2 / both, places)
    return of_materials, cost.rounded(both, places) - of_materials


def _steps(spent: Column, quoting: Quoting, places: int) -> Sequence[_Step]:
    """The steps from cost to price of one column. The price is rounded to the coin once, and the last step before
    rounding and tax takes up what rounding of the shown steps left; where it is too small for that, the largest.
    """
    materials, labour = spent
    base, subtotal = materials + labour, materials + labour
    steps = [_Step("materials", materials), _Step("labour", labour)]
    for key, pct in (("contingency", quoting.contingency_pct), ("overhead", quoting.overhead_pct)):
        if pct is not None:
            on_top = base * cost.exact(pct) / _WHOLE
            subtotal += on_top
            steps.append(_Step(key, cost.rounded(on_top, places), pct))
    if quoting.margin_pct is not None:
        steps.append(_Step("margin", Decimal(0), quoting.margin_pct))
    net = cost.price_for_margin(subtotal, quoting.margin_pct or 0, places)
    left = net - cost.total(step.amount for step in steps)
    at = len(steps) - 1
    if steps[at].amount + left < 0:
        at = max(range(len(steps)), key=lambda place: steps[place].amount)
    steps[at] = replace(steps[at], amount=steps[at].amount + left)
    factor = 1 + cost.exact(quoting.tax_pct or 0) / _WHOLE
    asked = cost.rounded(net * factor, places)
    if quoting.round_to:  # what the client reads and pays is round, so tax is taken out of it
        asked = (net * factor / quoting.round_to).to_integral_value(ROUND_CEILING) * quoting.round_to
        asked = asked.quantize(Decimal(1).scaleb(-places), ROUND_CEILING)  # no part of a coin
        steps.append(_Step("rounding", cost.rounded(asked / factor, places) - net))
    if quoting.tax_pct is not None:
        steps.append(_Step("tax", asked - cost.total(step.amount for step in steps), quoting.tax_pct))
    return steps

"""What an enquiry takes, and what that costs at the prices of a day.

With parts, the enquiry is given the prices of the day and the shop's actual waste, and `summarise` does the sums
(`lines`). Without a single row, the amounts are scaled from the likest past jobs (`scaled`, `like_lines`). In: `Job`,
past jobs, how like they are, a day. Out: the priced enquiry, its summary, `MaterialsEstimate`,
problems. Pure.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal

from buildbook.estimate.materials.like_lines import for_pieces, nothing_to_scale, scaled_lines, took
from buildbook.estimate.materials.lines import lines_of
from buildbook.estimate.materials.scaled import ScaledFrom, sources
from buildbook.estimate.materials.waste import waste_of
from buildbook.estimate.model import Like, MaterialLine, MaterialsEstimate, Said
from buildbook.estimate.money.prices import history_of
from buildbook.estimate.money.pricing import Pricing
from buildbook.estimate.past import KnownJob, was_by
from buildbook.job.model import Job
from buildbook.problems import Problem
from buildbook.summary import summarise
from buildbook.summary.model import Money, Summary
from buildbook.trade import cost
from buildbook.words import Words


def materials(
    enquiry: Job, past: Sequence[KnownJob], like: Sequence[Like], day: date
) -> tuple[Job, Summary, MaterialsEstimate, tuple[Problem, ...]]:
    """The enquiry priced on a day, its summary, what it takes, and why that cannot be told.

    Past jobs that ended after the day count for nothing.
    """
    words = Words(enquiry.shop.language)
    past = [job for job in past if was_by(job.facts, day)]
    lists = {id(shop.prices): shop.prices for shop in (*(job.shop for job in past), enquiry.shop)}
    rows = dict.fromkeys(replace(row, row=0) for prices in lists.values() for row in prices)
    paid = (price for job in past for price in job.facts.paid)
    pricing = Pricing(history_of(rows, paid), day, enquiry.shop.currency, words)
    waste_pct, counted = waste_of(enquiry, [wood for job in past for wood in job.facts.tallied], words)
    priced, by_row = pricing.of_job(enquiry)
    allowances = replace(priced.shop.waste, waste_pct=waste_pct)
    priced = replace(priced, shop=replace(priced.shop, waste=allowances))
    summary = summarise(priced)
    problems: tuple[Problem, ...] = ()
    if enquiry.parts:
        lines, unpriced = lines_of(priced, summary, by_row, pricing)
    elif found := sources(enquiry, [(job.facts, job.stuff) for job in past], like):
        likest = [
            ScaledFrom(
                s.job,
                for_pieces(took(s.known(), pricing), enquiry.quantity / s.job.quantity),
                s.weight,
                s.ratio,
            )
            for s in found
        ]
        lines = scaled_lines(enquiry, summary, likest, waste_pct, pricing)
        unpriced = tuple(line.name for line in lines if line.cost is None)
    else:
        lines, unpriced, problems = (), (), (nothing_to_scale(enquiry),)
    said = (counted,) if any(line.kind == "wood" for line in lines) else ()
    return priced, summary, _summed(lines, unpriced, pricing, waste_pct, said), problems


def _summed(
    lines: tuple[MaterialLine, ...],
    unpriced: tuple[str, ...],
    pricing: Pricing,
    waste_pct: float,
    said: tuple[Said, ...],
) -> MaterialsEstimate:
    """The lines with their sum. Scaled lines rise and fall together, since a past job that took more took more of all:
    so their lows are summed, and their highs.
    """

    def total(costs: Iterable[Decimal]) -> Money:
        return pricing.money(cost.total(costs))

    paid = [(line.amount, line.cost.amount) for line in lines if line.cost]

    def at(amount: float, median: float, spent: Decimal) -> Decimal:
        return spent if amount == median else spent * cost.exact(amount / median)

    return MaterialsEstimate(
        lines=lines,
        low=total(at(amount.low, amount.median, spent) for amount, spent in paid),
        amount=total(spent for _, spent in paid),
        high=total(at(amount.high, amount.median, spent) for amount, spent in paid),
        unpriced=unpriced,
        waste_pct=waste_pct,
        said=said,
    )

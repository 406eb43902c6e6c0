"""How much more timber the shop buys than its parts take, counted from its own tallies.

In: the tallies of past jobs, the enquiry. Out: per cent, and what it leans on. Pure.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from buildbook.estimate.model import Said
from buildbook.estimate.rules import price_rules
from buildbook.job.model import Job
from buildbook.quantity import Style
from buildbook.summary.model import Summary
from buildbook.summary.timber import allowances_of
from buildbook.words import Words

Tally = tuple[float, float]
"""Of a wood of a job, what was bought and what its rough parts take, in m3."""


def tallied_of(summary: Summary) -> tuple[Tally, ...]:
    """The woods of a job that were tallied."""
    return tuple(
        (wood.bought_m3, wood.rough_m3) for wood in summary.timber.species if wood.bought_m3 and wood.rough_m3
    )


def waste_of(enquiry: Job, tallied: Sequence[Tally], words: Words) -> tuple[float, Said]:
    """Waste in % of the rough parts: bought over rough, less one, pooled over every wood of every job with a tally.

    It is shrunk to the stated allowance (the shop's, else the trade's) as if that were some tallies more
    (data/prices.toml), and never below nothing. Without a tally it is the allowance.
    """
    allowed = allowances_of(enquiry).waste_pct
    style = Style(decimal=words.text("figures.decimal"))
    if not tallied:
        own = enquiry.shop.waste.waste_pct is not None
        return allowed, Said(
            "waste_stated" if own else "waste_usual", (("waste", style.percent(allowed, 0)),)
        )
    bought, rough = (math.fsum(side) for side in zip(*tallied, strict=True))
    counted, prior = len(tallied), price_rules().waste_prior
    pct = max((counted * 100 * (bought / rough - 1) + prior * allowed) / (counted + prior), 0.0)
    values = (
        ("waste", style.percent(pct, 0)),
        ("count", str(counted)),
        ("stated", style.percent(allowed, 0)),
    )
    return pct, Said("waste_counted", values)

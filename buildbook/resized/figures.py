"""Both pieces reckoned alike, the old one and the one of another size: `alike(job, shop)`, `figures_of(resized, past)`.

In: jobs. Out: mass, stock, sheets, movement, cost, hours before and after. Pure.

Alike: in the air of the shop, at the newest prices of its list. What the list has no price for costs what the past job
paid, but for what is made to another size: that has no price.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from buildbook.estimate.likeness.traits import drivers_of
from buildbook.estimate.settings import driver_rules
from buildbook.folding import folded
from buildbook.job.model import Job, Part
from buildbook.job.shop_model import Shop
from buildbook.resized.model import Resized, StageGuess
from buildbook.summary import Summary, each_of, summarise
from buildbook.summary.money import newest_price

_SIZED_BY = ("m3", "board_foot", "m2", "m", "sheet", "kg", "l")
"""Prices that are of an amount: they hold at any size."""
_TALLY = "tally"


@dataclass(frozen=True)
class BothFigures:
    """old, new: all figures. each_kg: of one piece. then: what costs what the past job paid. hours: a guess, empty
    where the past job booked none.
    """

    old: Summary
    new: Summary
    each_kg: tuple[float, float]
    then: tuple[str, ...]
    hours: tuple[StageGuess, ...]


def alike(job: Job, shop: Shop) -> Job:
    """The past job as one in a shop of today: in its air, on the last day of its prices, for nobody, of boards that are
    still to be bought.
    """
    days = [price.day for price in shop.prices if price.day]
    return replace(
        job,
        shop=shop,
        delivered=max(days, default=None),
        deliveries=(),
        climate=None,
        made_at=None,
        price=None,
        client="",
        quoted=None,
        workings=tuple(one for one in job.workings if one.kind != _TALLY),
    )


def figures_of(resized: Resized, past: Job) -> BothFigures:
    """The figures of both. `past`: the job as it was read, with its hours."""
    rows = {row for change in resized.changes for row in change.rows}
    old, new = (_priced(job, rows) for job in (resized.old, resized.new))
    before, after = summarise(old), summarise(new)
    then = [part.name for part in old.parts if part.price is not None]
    return BothFigures(
        old=before,
        new=after,
        each_kg=(each_of(before).mass_kg, each_of(after).mass_kg),
        then=tuple(dict.fromkeys(then)),
        hours=_hours(past, drivers_of(old, before), drivers_of(new, after)),
    )


def _priced(job: Job, changed: set[int]) -> Job:
    """The job with the prices of today's list; its own stay where that has none, and the size does not matter."""

    def own(part: Part) -> bool:
        return newest_price(job, part.material, part.key) is None and (
            part.row not in changed or part.per in _SIZED_BY
        )

    parts = (part if own(part) else replace(part, price=None, per="") for part in job.parts)
    return replace(job, parts=tuple(parts))


def _hours(past: Job, old: Mapping[str, float], new: Mapping[str, float]) -> tuple[StageGuess, ...]:
    """The hours of each stage by the ratio of what they go with; as they were where that is not known or is nothing."""
    found = []
    for stage in summarise(past).hours.by_stage:
        driver = driver_rules().of_stage.get(folded(stage.stage), "")
        ratio = new[driver] / old[driver] if driver and old[driver] and new[driver] else 1.0
        found.append(StageGuess(stage.stage, stage.hours_h, stage.hours_h * ratio, driver, ratio))
    return tuple(found)

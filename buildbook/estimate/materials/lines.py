"""What an enquiry with parts takes: the sums of its summary as lines, one a thing to buy.

In: the priced enquiry, its summary, the price of each row. Out: `MaterialLine`s and what is left out. Pure.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from buildbook.estimate.model import MaterialLine, Range, Said
from buildbook.estimate.money.prices import DayPrice
from buildbook.estimate.money.pricing import Pricing
from buildbook.folding import folded
from buildbook.job.model import Job, Part
from buildbook.summary import purse_of
from buildbook.summary.model import Summary
from buildbook.summary.money import Purse
from buildbook.summary.style import style_of
from buildbook.summary.timber import rough_parts, sheet_groups

BY_AREA = ("glass", "stone", "upholstery")
"""Kinds bought by area where their length and width are known."""


def lines_of(
    job: Job, summary: Summary, by_row: Mapping[int, DayPrice], pricing: Pricing
) -> tuple[tuple[MaterialLine, ...], tuple[str, ...]]:
    """A line a species, a sheet and thickness, a pane, an item, a finish; and what is left out of the cost: lines that
    have, wholly or in a row, no price that fits, and parts too little known to be reckoned (no size, no known wood).
    """
    purse = purse_of(job)
    drafts = [*_woods(job, summary, pricing), *_sheets(job, summary, pricing), *_others(job, pricing)]
    lines = [_priced(line, parts, purse, by_row) for line, parts in drafts]
    left = [line.name for line, parts in drafts if any(part.row not in purse.by_row for part in parts)]
    for use in summary.finish:
        if use.volume_l:
            lines.append(pricing.finish_line(use, exactly(use.volume_l)))
            left += [] if lines[-1].cost else [lines[-1].name]
    met = {part.row for _, parts in drafts for part in parts}
    left += [part.name for part in job.parts if part.row not in met]
    return tuple(lines), tuple(dict.fromkeys(left))


def exactly(amount: float) -> Range:
    """An amount that is known."""
    return Range(amount, amount, amount)


Draft = tuple[MaterialLine, Sequence[Part]]


def _woods(job: Job, summary: Summary, pricing: Pricing) -> Iterator[Draft]:
    rough = rough_parts(job)
    for wood in summary.timber.species:
        name = pricing.words.name("species_name", wood.key, wood.name)
        line = MaterialLine("wood", name, wood.key, "m3", exactly(wood.buy_m3))
        yield line, [item.part for item in rough if item.part.key == wood.key]


def _sheets(job: Job, summary: Summary, pricing: Pricing) -> Iterator[Draft]:
    style = style_of(job, pricing.words)
    for use, parts in zip(summary.panels.sheets, sheet_groups(job).values(), strict=True):
        name = f"{pricing.words.name('sheet_name', use.key, use.name)}, {style.length(use.thickness_m)}"
        yield MaterialLine("panel", name, use.key, "sheet", exactly(float(use.sheets))), parts


def _others(job: Job, pricing: Pricing) -> Iterator[Draft]:
    """What is neither wood nor sheet: rows of one thing together, by its material and the sides that tell it apart."""
    groups: dict[tuple[str, str, str], list[Part]] = {}
    for part in job.parts:
        if part.kind not in ("wood", "panel"):
            unit = _unit_of(part)
            groups.setdefault((part.kind, folded(_name(part, unit, job, pricing)), unit), []).append(part)
    for (kind, _, unit), parts in groups.items():
        name = _name(parts[0], unit, job, pricing)
        yield MaterialLine(kind, name, parts[0].key, unit, exactly(_amount(parts, unit))), parts


def _name(part: Part, unit: str, job: Job, pricing: Pricing) -> str:
    sides = (part.thickness,) if unit == "m2" else (part.length, part.width, part.thickness)
    size = style_of(job, pricing.words).size(*(side.m for side in sides if side))
    return ", ".join(said for said in (part.material or part.name, size) if said)


def _unit_of(part: Part) -> str:
    """What a row is counted in, so that its amount times its price is its cost."""
    if part.per == "m" and part.length:
        return "m"
    if part.kind in BY_AREA and part.length and part.width and part.per in ("m2", ""):
        return "m2"
    return part.per or "each" if part.kind == "supply" else "each"


def _amount(parts: Iterable[Part], unit: str) -> float:
    sides = {"m2": ("length", "width"), "m": ("length",)}.get(unit, ())
    return math.fsum(
        part.qty * math.prod(side.m for name in sides if (side := getattr(part, name))) for part in parts
    )


def _priced(
    line: MaterialLine, parts: Sequence[Part], purse: Purse, by_row: Mapping[int, DayPrice]
) -> MaterialLine:
    """A line with the sum of its rows; a price only where all of them have the same."""
    prices = {(found.price, found.per, found.day): None for part in parts if (found := by_row.get(part.row))}
    said = tuple(
        dict.fromkeys(said for part in parts if part.row in by_row for said in by_row[part.row].said)
    )
    cost = purse.sum_of(part.row for part in parts)
    if len(prices) != 1:
        return replace(line, cost=cost, said=(*said, Said("price_mixed")) if prices else said)
    ((price, per, day),) = prices
    return replace(line, price=price, per=per, price_day=day, cost=cost, said=said)

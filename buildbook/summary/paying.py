"""What everything of a job costs, row by row: wood by its tally or its rough stock, whole sheets, and the rest.

In: a `Job`, its rough parts. Out: a `Purse`. One price serves all rows of the same wood or sheet and stock.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from decimal import Decimal
from itertools import pairwise

from buildbook.job.model import Board, Job, Part
from buildbook.summary.bought import tallied, tally_bf
from buildbook.summary.mass import part_kg
from buildbook.summary.money import Purse, price_from_list
from buildbook.summary.timber import RoughPart, allowances_of, sheet_count, sheet_groups
from buildbook.trade import cost, tables, timber
from buildbook.trade.rounding import GUARD

_ALIKE = 5  # decimals of a metre to which thicknesses are the same
_BY_THE_PIECE = "each"


def pay_everything(job: Job, rough: Sequence[RoughPart], made_mc_pct: float) -> Purse:
    """Book every row that has a price, in the quantity that its unit of price asks for."""
    purse = Purse(job.shop.currency)
    _pay_wood(job, rough, purse)
    for parts in sheet_groups(job).values():
        _pay_sheets(job, _one_price(parts), purse)
    for part in job.parts:
        if part.kind not in ("wood", "panel"):
            purse.pay(job, part, _quantities(part, made_mc_pct))
    return purse


def _quantities(part: Part, made_mc_pct: float) -> dict[str, float]:
    quantities = {"each": float(part.qty)}
    if part.length and part.width:
        quantities["m2"] = part.qty * part.length.m * part.width.m
    if part.length:
        quantities["m"] = part.qty * part.length.m
    kg = part_kg(part, made_mc_pct)
    if kg is not None:
        quantities["kg"] = kg
    if part.kind == "supply":  # its count is the amount, in the unit of its price
        quantities |= {per: float(part.qty) for per in ("l", "kg", "m", "m2", "sheet")}
    return quantities


def _one_price(parts: Iterable[Part]) -> list[Part]:
    """Rows of the same stuff: where those that have a price agree, it is that of the others too."""
    rows = list(parts)
    told = _told(rows)
    if told is None:
        return rows
    price, per = told
    return [replace(row, price=price, per=per) if row.price is None else row for row in rows]


def _told(parts: Iterable[Part]) -> tuple[Decimal, str] | None:
    """The price that rows tell, where they agree; one for a piece is of that piece and tells nothing of others."""
    told = {(row.price, row.per) for row in parts if row.price is not None and row.per != _BY_THE_PIECE}
    return told.pop() if len(told) == 1 else None


# -- sheets --------------------------------------------------------------------------------------


def _pay_sheets(job: Job, parts: list[Part], purse: Purse) -> None:
    """Whole sheets are bought: their cost is shared among the parts by area, rounding left with the last."""
    count, _, _ = sheet_count(job, parts)
    areas = [p.qty * p.length.m * p.width.m for p in parts if p.length and p.width]
    allowed = allowances_of(job)
    for part, area_m2 in zip(parts, areas, strict=True):
        share = area_m2 / math.fsum(areas) if math.fsum(areas) else 0.0
        quantities = {
            "sheet": count.sheets * share,
            "m2": timber.with_waste(area_m2, allowed.sheet_waste_pct),
            "each": float(part.qty),
        }
        purse.pay(job, part, quantities)


# -- wood ----------------------------------------------------------------------------------------


def _pay_wood(job: Job, rough: Sequence[RoughPart], purse: Purse) -> None:
    """By the tally of a wood what was bought; without one, or for what cannot be out of its boards, the rough stock."""
    boards = tallied(job)
    for key, items in _grouped(_priced_alike(rough)).items():
        tally = boards.get(key, ())
        thickest_m = max((board.thickness_m for board in tally), default=0.0)
        from_tally = [
            item
            for item in items
            if item.stock_m <= thickest_m + GUARD
            and not (item.part.price is not None and item.part.per == _BY_THE_PIECE)
        ]
        if from_tally:
            _pay_tally(job, tally, from_tally, purse)
        for item in items:
            if item not in from_tally:
                purse.pay(job, item.part, _of_stock(item, job))


def _grouped(rough: Iterable[RoughPart]) -> dict[str, list[RoughPart]]:
    groups: dict[str, list[RoughPart]] = {}
    for item in rough:
        groups.setdefault(item.part.key, []).append(item)
    return groups


def _priced_alike(rough: Iterable[RoughPart]) -> Iterable[RoughPart]:
    groups: dict[tuple[str, float], list[RoughPart]] = {}
    for item in rough:
        groups.setdefault((item.part.key, round(item.stock_m, _ALIKE)), []).append(item)
    for items in groups.values():
        for item, part in zip(items, _one_price(item.part for item in items), strict=True):
            yield replace(item, part=part)


def _of_stock(item: RoughPart, job: Job) -> dict[str, float]:
    """What a row takes of its stock, waste included, in every unit that wood is sold by."""
    waste_pct = allowances_of(job).waste_pct
    length_m = item.part.length.m if item.part.length else 0.0
    return {
        "board_foot": item.buy_bf,
        "m3": item.buy_m3,
        "m2": timber.with_waste(item.rough_m3 / item.stock_m, waste_pct),
        "m": timber.with_waste(item.part.qty * length_m, waste_pct),
        "each": item.part.qty,
    }


def _pay_tally(job: Job, tally: Sequence[Board], items: Sequence[RoughPart], purse: Purse) -> None:
    """The boards of each thickness, at the price of the parts of that stock, else of the wood; borne by those parts,
    else by all of the wood.
    """
    by_stock: dict[float, list[Board]] = {}
    for board in tally:
        by_stock.setdefault(round(board.thickness_m, _ALIKE), []).append(board)
    paid: dict[int, Decimal] = {}
    missing: list[RoughPart] = []
    for stock_m, boards in by_stock.items():
        bearing = [item for item in items if round(item.stock_m, _ALIKE) == stock_m] or list(items)
        amount = _cost_of(job, boards, bearing, items, purse.currency)
        if amount is None:
            missing += bearing
        else:
            for item, share in zip(bearing, _shares(amount, bearing, purse.currency), strict=True):
                paid[item.part.row] = paid.get(item.part.row, Decimal(0)) + share
    for item in items:
        if item.part.row in paid:
            purse.book(item.part, paid[item.part.row])
    purse.unpriced |= dict.fromkeys(item.part.name for item in missing)


def _cost_of(
    job: Job, boards: Sequence[Board], bearing: Sequence[RoughPart], items: Sequence[RoughPart], currency: str
) -> Decimal | None:
    """What boards of one thickness cost; None where there is no price that fits."""
    price = _told(item.part for item in bearing) or _told(item.part for item in items)
    if price is None:
        listed = price_from_list(job, bearing[0].part.material, bearing[0].part.key)
        price = (listed.price, listed.per) if listed else None
    quantities = {
        "board_foot": tally_bf(tuple(boards)),
        "m3": math.fsum(b.thickness_m * b.width_m * b.length_m for b in boards),
        "m2": math.fsum(b.width_m * b.length_m for b in boards),
        "m": math.fsum(b.length_m for b in boards),
    }
    if price is None or price[1] not in quantities:
        return None
    return cost.line_cost(price[0], quantities[price[1]], tables.currency_places(currency))


def _shares(amount: Decimal, items: Sequence[RoughPart], currency: str) -> list[Decimal]:
    """A sum shared by rough volume, in whole coins that add up: each is the step from one running total to the next."""
    places = tables.currency_places(currency)
    volumes_m3 = [item.rough_m3 for item in items]
    whole_m3 = math.fsum(volumes_m3)
    parts = [math.fsum(volumes_m3[: n + 1]) / whole_m3 for n in range(len(items) - 1)]
    running = [Decimal(0), *(cost.line_cost(amount, part, places) for part in parts), amount]
    return [after - before for before, after in pairwise(running)]

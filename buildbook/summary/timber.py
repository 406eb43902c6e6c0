"""Solid timber and sheets of a job: what is in the piece, what it takes, what to buy."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from buildbook.job.model import Job, Part
from buildbook.summary.bought import Bought, bought_of
from buildbook.summary.model import Panels, SheetUse, SpeciesTimber, StockLine, Timber
from buildbook.summary.money import Purse
from buildbook.summary.place import region_of
from buildbook.summary.resawn import boards_sawn
from buildbook.summary.volume import net_m3
from buildbook.trade import sheets, tables, timber
from buildbook.trade.records import UsualAllowances
from buildbook.trade.regional import rule_said


@dataclass(frozen=True)
class RoughPart:
    """A wooden part with the stock that it comes out of."""

    part: Part
    stock: str
    stock_m: float
    net_m3: float
    rough_m3: float
    rough_bf: float
    buy_m3: float
    buy_bf: float
    assumed: str = ""


def allowances_of(job: Job) -> UsualAllowances:
    """The shop's own figures where it has them, else those of its system of units."""
    usual, own = tables.allowances(job.units), job.shop.waste
    return UsualAllowances(
        over_length_m=usual.over_length_m if own.over_length_m is None else own.over_length_m,
        over_width_m=usual.over_width_m if own.over_width_m is None else own.over_width_m,
        clean_up_m=usual.clean_up_m,
        waste_pct=usual.waste_pct if own.waste_pct is None else own.waste_pct,
        sheet_waste_pct=usual.sheet_waste_pct if own.sheet_waste_pct is None else own.sheet_waste_pct,
        kerf_m=usual.kerf_m,
    )


def _stock_of(part: Part, job: Job, allowed: UsualAllowances) -> tuple[str, float, str]:
    """Name and thickness of the stock of a part, of one layer where it is glued up, and what was assumed about it."""
    assert part.thickness
    if part.stock:
        return part.stock.written, part.stock.thickness_m, ""
    found = timber.smallest_stock(part.thickness.m, job.units, allowed.clean_up_m)
    if found:
        return (
            found.name,
            found.thickness_m,
            f"{part.name}: stock not told, the thinnest that cleans up was taken ({found.name})",
        )
    thick = part.thickness.m + allowed.clean_up_m
    return (
        "thicker",
        thick,
        f"{part.name}: no usual stock is thick enough; finished thickness and clean-up were taken."
        " If it is glued up, write its layers as stock: 2 x 65 mm",
    )


def rough_parts(job: Job) -> tuple[RoughPart, ...]:
    """Every wooden part whose sizes are known, with its share of rough stock."""
    allowed = allowances_of(job)
    sawn = boards_sawn(job, allowed)
    out = []
    for part in job.parts:
        if part.kind != "wood" or not part.key or not (part.length and part.width and part.thickness):
            continue
        cut: tuple[float, float, float, float, float, float]
        if board := sawn.get(part.row):
            stock, stock_m, assumed = board.stock, board.stock_m, ""
            cut = (board.boards, board.length_m, board.width_m, stock_m, 0.0, 0.0)
        else:
            stock, stock_m, assumed = _stock_of(part, job, allowed)
            cut = (
                part.qty * (part.stock.layers if part.stock else 1),
                part.length.m,
                part.width.m,
                stock_m,
                allowed.over_length_m,
                allowed.over_width_m,
            )
        rough_m3, rough_bf = timber.rough_volume_m3(*cut), timber.rough_board_feet_bf(*cut)
        out.append(
            RoughPart(
                part=part,
                stock=stock,
                stock_m=stock_m,
                net_m3=net_m3(part) or 0.0,
                rough_m3=rough_m3,
                rough_bf=rough_bf,
                buy_m3=timber.with_waste(rough_m3, allowed.waste_pct),
                buy_bf=timber.with_waste(rough_bf, allowed.waste_pct),
                assumed=assumed,
            )
        )
    return tuple(out)


def timber_of(job: Job, rough: tuple[RoughPart, ...], purse: Purse) -> Timber:
    """Timber by species in the order of the parts file, and the sum."""
    groups: dict[str, list[RoughPart]] = {}
    for item in rough:
        groups.setdefault(item.part.key, []).append(item)
    allowed, bought = allowances_of(job), bought_of(job)
    assumed = []
    if job.shop.waste.waste_pct is None:
        assumed.append(
            f"waste of {allowed.waste_pct:g} % was assumed (common practice); shop.toml may say better"
        )
    return Timber(
        species=tuple(_species(key, items, purse, bought.get(key)) for key, items in groups.items()),
        net_m3=math.fsum(item.net_m3 for item in rough),
        rough_m3=math.fsum(item.rough_m3 for item in rough),
        rough_bf=math.fsum(item.rough_bf for item in rough),
        buy_m3=math.fsum(item.buy_m3 for item in rough),
        buy_bf=math.fsum(item.buy_bf for item in rough),
        over_length_m=allowed.over_length_m,
        over_width_m=allowed.over_width_m,
        waste_pct=allowed.waste_pct,
        assumed=tuple(assumed) if rough else (),
    )


def _species(key: str, items: list[RoughPart], purse: Purse, bought: Bought | None) -> SpeciesTimber:
    wood = tables.species()[key]
    assumed = [*(item.part.name_assumed for item in items), *(item.assumed for item in items)]
    if wood.corrodes:
        assumed.append(
            f"{wood.name}: its acids attack steel and zinc in the damp; take stainless steel or brass"
        )
    if any(item.stock_m < tables.constant("board_foot_least_thickness") for item in items):
        assumed.append("stock under 1 in counts as 1 in in board feet (NHLA rules)")
    return SpeciesTimber(
        key=key,
        name=wood.name,
        botanical=wood.botanical,
        parts=sum(item.part.qty for item in items),
        net_m3=math.fsum(item.net_m3 for item in items),
        rough_m3=math.fsum(item.rough_m3 for item in items),
        rough_bf=math.fsum(item.rough_bf for item in items),
        buy_m3=math.fsum(item.buy_m3 for item in items),
        buy_bf=math.fsum(item.buy_bf for item in items),
        stock=tuple(_stock_lines(items)),
        cost=purse.sum_of(items_rows(items)),
        cost_whole=purse.has_all(items_rows(items)),
        bought_m3=bought.m3 if bought else None,
        bought_bf=bought.bf if bought else None,
        assumed=tuple(dict.fromkeys(a for a in assumed if a)),
    )


def items_rows(items: Iterable[RoughPart]) -> list[int]:
    return [item.part.row for item in items]


def _stock_lines(items: list[RoughPart]) -> Iterable[StockLine]:
    by_stock: dict[float, list[RoughPart]] = {}
    for item in sorted(items, key=lambda item: item.stock_m):
        by_stock.setdefault(round(item.stock_m, 5), []).append(item)
    for group in by_stock.values():
        yield StockLine(
            stock=group[0].stock,
            thickness_m=group[0].stock_m,
            parts=sum(item.part.qty for item in group),
            rough_m3=math.fsum(item.rough_m3 for item in group),
            rough_bf=math.fsum(item.rough_bf for item in group),
            buy_m3=math.fsum(item.buy_m3 for item in group),
            buy_bf=math.fsum(item.buy_bf for item in group),
        )


# -- sheets ------------------------------------------------------------------------------------------


def sheet_groups(job: Job) -> dict[tuple[str, float], list[Part]]:
    """Panel parts by sheet and thickness, in the order of the parts file."""
    groups: dict[tuple[str, float], list[Part]] = {}
    for part in job.parts:
        if part.kind == "panel" and part.length and part.width and part.thickness:
            groups.setdefault((part.same, round(part.thickness.m, 5)), []).append(part)
    return groups


def sheet_count(job: Job, parts: list[Part]) -> tuple[sheets.SheetCount, float, float]:
    """Sheets for the parts of one material and thickness, and the size of a sheet."""
    allowed = allowances_of(job)
    known = tables.sheets()
    if parts[0].key in known:
        sheet = known[parts[0].key]
        sizes, may_turn = sheet.sizes_for(job.units), not sheet.grain
    else:
        sizes, may_turn = tuple(s for s in tables.sheet_sizes().values() if s.system == job.units), True
    wanted = [sheets.SheetPart(p.name, p.qty, p.length.m, p.width.m) for p in parts if p.length and p.width]
    size = sheets.choose_size(wanted, sizes, allowed.kerf_m, may_turn)
    count = sheets.sheets_needed(wanted, size, allowed.sheet_waste_pct, allowed.kerf_m, may_turn)
    return count, size.length_m, size.width_m


def panels_of(job: Job, purse: Purse) -> Panels:
    """Sheet goods by material and thickness."""
    uses = []
    for (key, thickness_m), parts in sheet_groups(job).items():
        count, length_m, width_m = sheet_count(job, parts)
        known = tables.sheets()
        assumed = [p.name_assumed for p in parts] + list(count.cannot_cut)
        if key not in known:
            assumed.append(f"“{parts[0].material}” is not in the table of sheets: the usual size was assumed")
        elif rule := rule_said("formaldehyde", key, region_of(job)):
            assumed.append(f"{known[key].name}: {known[key].glue}; {rule}")
        uses.append(
            SheetUse(
                key=key,
                name=known[key].name if key in known else parts[0].material,
                thickness_m=thickness_m,
                parts=sum(p.qty for p in parts),
                area_m2=math.fsum(
                    sheets.area_m2(p.qty, p.length.m, p.width.m) for p in parts if p.length and p.width
                ),
                sheets=count.sheets,
                sheet_length_m=length_m,
                sheet_width_m=width_m,
                cost=purse.sum_of([p.row for p in parts]),
                cost_whole=purse.has_all(p.row for p in parts),
                assumed=tuple(dict.fromkeys(a for a in assumed if a)),
            )
        )
    return Panels(tuple(uses), math.fsum(use.area_m2 for use in uses), allowances_of(job).sheet_waste_pct)

"""What a job takes, to buy: woods by their stock, sheets, glass, stone, hardware, upholstery, finishes, supplies.

In: a job and its figures. Out: `Want`s in that order, each with the parts that it is for and what it costs now, by the
newest row of prices.csv, else by its own row; and the same as a table. Pure.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from buildbook.job.model import Job, Part
from buildbook.pages.log.table_file import TableFile, table_file
from buildbook.pages.phrases import Phrases, capital
from buildbook.quantity.show import round_to
from buildbook.summary.model import FinishUse, SheetUse, SpeciesTimber, StockLine, Summary
from buildbook.summary.money import newest_price
from buildbook.summary.timber import RoughPart, rough_parts

SHOPPING_LIST = "shopping-list"
_SAME_M = 1e-6  # thicknesses this near are the same
_PLACES = {"m3": 4, "board_foot": 1, "l": 2}
"""Decimals of what is bought by volume, as the tables of the log have them."""
_COLUMNS = ("group", "what", "size", "quantity", "unit", "parts", "price", "per", "day", "supplier")


@dataclass(frozen=True)
class Offer:
    """What something costs and who sells it; `day`: that the price was asked on."""

    price: Decimal | None = None
    per: str = ""
    day: date | None = None
    supplier: str = ""


@dataclass(frozen=True)
class Want:
    """A thing to buy.

    group     a kind of part, or `finish`.
    size      its stock, its sheet, its own size.
    quantity  None where it is not known; unit: one of `PER`.
    """

    group: str
    what: str
    size: str
    quantity: Decimal | None
    unit: str
    parts: tuple[str, ...]
    offer: Offer = Offer()


def shopping(job: Job, summary: Summary, phrases: Phrases) -> tuple[Want, ...]:
    """Everything that a job takes."""
    rough = rough_parts(job)
    in_sheets = {(use.key, use.thickness_m) for use in summary.panels.sheets}
    return (
        *(_timber(wood, line, rough, job, phrases) for wood in summary.timber.species for line in wood.stock),
        *(_sheet(use, job, phrases) for use in summary.panels.sheets),
        *_pieces([p for p in job.parts if p.kind == "panel" and not _is_in(p, in_sheets)], job, phrases),
        *(want for kind in ("glass", "stone") for want in _pieces(_of(job, kind), job, phrases)),
        *_hardware(job, summary),
        *_pieces(_of(job, "upholstery"), job, phrases),
        *(_finish(use, job, phrases) for use in summary.finish),
        *_pieces(_of(job, "supply"), job, phrases),
    )


def shopping_list(job: Job, summary: Summary, phrases: Phrases) -> TableFile | None:
    """The same as a table to write out; None where there is nothing to buy."""
    headings = [phrases(f"lists.shopping_columns.{column}") for column in _COLUMNS]
    headings[_COLUMNS.index("price")] += f" ({phrases.style.currency})"
    return table_file(
        (SHOPPING_LIST, phrases("lists.shopping"), phrases("lists.sheets.shopping")),
        headings,
        [_cells(want, phrases) for want in shopping(job, summary, phrases)],
        phrases.style.decimal,
    )


def _cells(want: Want, phrases: Phrases) -> tuple[str | Decimal, ...]:
    offer = want.offer
    return (
        phrases(f"kinds.{want.group}"),
        want.what,
        want.size,
        want.quantity if want.quantity is not None else "",
        phrases(f"lists.units.{want.unit}"),
        "; ".join(want.parts),
        offer.price if offer.price is not None else "",
        phrases(f"lists.units.{offer.per}") if offer.per else "",
        phrases.short_date(offer.day) if offer.day else "",
        offer.supplier,
    )


def _of(job: Job, kind: str) -> list[Part]:
    return [part for part in job.parts if part.kind == kind]


def _names(parts: Iterable[Part]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(part.name for part in parts))


def _amount(value: float, unit: str) -> Decimal:
    """As a table of the log has it, but never nothing of what there is some of."""
    rounded = round_to(value, _PLACES[unit])
    return max(rounded, Decimal(1).scaleb(-_PLACES[unit])) if value > 0 else rounded


def _offer(job: Job, parts: Sequence[Part]) -> Offer:
    """What the material of some parts costs."""
    suppliers = "; ".join(dict.fromkeys(part.supplier for part in parts if part.supplier))
    for part in parts:
        if listed := newest_price(job, part.material, part.key):
            return Offer(listed.price, listed.per, listed.day, listed.supplier or suppliers)
    for part in parts:
        if part.price is not None:
            return Offer(part.price, part.per, None, suppliers)
    return Offer(supplier=suppliers)


# -- by what is bought -----------------------------------------------------------------------------


def _timber(
    wood: SpeciesTimber, line: StockLine, rough: Sequence[RoughPart], job: Job, phrases: Phrases
) -> Want:
    parts = [
        one.part
        for one in rough
        if one.part.key == wood.key and one.stock == line.stock and _same(one.stock_m, line.thickness_m)
    ]
    unit, value = ("m3", line.buy_m3) if phrases.style.metric else ("board_foot", line.buy_bf)
    name = phrases.words.name("species_name", wood.key, wood.name)
    return Want("wood", name, line.stock, _amount(value, unit), unit, _names(parts), _offer(job, parts))


def _same(one: float, other: float) -> bool:
    return abs(one - other) < _SAME_M


def _is_in(part: Part, sheets: Iterable[tuple[str, float]]) -> bool:
    return any(
        part.key == key and part.thickness is not None and _same(part.thickness.m, thickness_m)
        for key, thickness_m in sheets
    )


def _sheet(use: SheetUse, job: Job, phrases: Phrases) -> Want:
    parts = [part for part in _of(job, "panel") if _is_in(part, [(use.key, use.thickness_m)])]
    name = capital(phrases.words.name("sheet_name", use.key, use.name))
    size = phrases.style.size(use.sheet_length_m, use.sheet_width_m, use.thickness_m)
    return Want("panel", name, size, Decimal(use.sheets), "sheet", _names(parts), _offer(job, parts))


def _pieces(parts: Iterable[Part], job: Job, phrases: Phrases) -> Iterator[Want]:
    """What is bought by the piece, each size once; a supply by its name where its material says no more."""
    alike: dict[tuple[str, str, str], list[Part]] = {}
    for part in parts:
        sides = [side.m for side in (part.length, part.width, part.thickness) if side]
        size = ", ".join(filter(None, (phrases.style.size(*sides), part.edge)))
        alike.setdefault((part.kind, part.material or part.name, size), []).append(part)
    for (kind, what, size), group in alike.items():
        count = Decimal(sum(part.qty for part in group))
        yield Want(kind, what, size, count, "each", _names(group), _offer(job, group))


def _hardware(job: Job, summary: Summary) -> Iterator[Want]:
    """Fittings by what to ask for."""
    by_row = {part.row: part for part in job.parts}
    alike: dict[str, list[Part]] = {}
    for item in summary.hardware:
        alike.setdefault(item.spec or item.part, []).append(by_row[item.row])
    for spec, group in alike.items():
        count = Decimal(sum(part.qty for part in group))
        yield Want("hardware", spec, "", count, "each", _names(group), _offer(job, group))


def _finish(use: FinishUse, job: Job, phrases: Phrases) -> Want:
    listed = (newest_price(job, use.product) if use.product else None) or newest_price(
        job, use.family, use.family
    )
    return Want(
        "finish",
        phrases.finish(use),
        "",
        _amount(use.volume_l, "l") if use.volume_l is not None else None,
        "l",
        _names(job.bearing(use.key)),
        Offer(listed.price, listed.per, listed.day, listed.supplier) if listed else Offer(),
    )

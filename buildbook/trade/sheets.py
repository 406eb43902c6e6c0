"""Sheet goods: area, how many of a part a sheet gives, how many sheets to buy.

In: parts and sheets in m. Out: m2 and whole sheets; a part that no sheet gives is told, not raised. The
counts are what must be bought at least, by area with waste and by what the largest parts allow; they are no
cutting plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from buildbook.trade.records import SheetSize
from buildbook.trade.rounding import whole_down, whole_up


@dataclass(frozen=True)
class SheetPart:
    """Parts alike to be cut from sheets; `length_m` runs with the grain of the face if it has one."""

    name: str
    count: int
    length_m: float
    width_m: float


@dataclass(frozen=True)
class SheetCount:
    """Sheets to buy. `sheets` is the larger of the two bounds; `cannot_cut` says which parts are not in
    it, and why.
    """

    sheets: int
    area_m2: float
    by_area: int
    by_largest: int
    cannot_cut: tuple[str, ...] = ()


def area_m2(count: int, length_m: float, width_m: float) -> float:
    """Face area of parts."""
    return count * length_m * width_m


def _fit(room_m: float, part_m: float, kerf_m: float) -> int:
    """How many parts fit along a side, with a kerf between them."""
    return max(0, whole_down((room_m + kerf_m) / (part_m + kerf_m)))


def per_sheet(
    part_length_m: float,
    part_width_m: float,
    sheet_length_m: float,
    sheet_width_m: float,
    kerf_m: float,
    may_turn: bool = True,
) -> int:
    """How many of one part a sheet gives, laid in rows all one way, or all the other way if they may be
    turned.
    """
    along = _fit(sheet_length_m, part_length_m, kerf_m) * _fit(sheet_width_m, part_width_m, kerf_m)
    if not may_turn:
        return along
    across = _fit(sheet_length_m, part_width_m, kerf_m) * _fit(sheet_width_m, part_length_m, kerf_m)
    return max(along, across)


def _given(part: SheetPart, size: SheetSize, kerf_m: float, may_turn: bool) -> int:
    return per_sheet(part.length_m, part.width_m, size.length_m, size.width_m, kerf_m, may_turn)


def _why_not(part: SheetPart, size: SheetSize, kerf_m: float, may_turn: bool) -> str:
    """Why a sheet does not give a part at all; empty when it does."""
    if _given(part, size, kerf_m, may_turn):
        return ""
    if _given(part, size, kerf_m, may_turn=True):
        return f"{part.name} fits a sheet of {size.name} only with the grain of the face across it"
    return f"{part.name} is larger than a sheet of {size.name}"


def sheets_needed(
    parts: Sequence[SheetPart], size: SheetSize, waste_pct: float, kerf_m: float, may_turn: bool = True
) -> SheetCount:
    """Sheets of one size to buy for parts of one material.

    By area: total area and its waste (in % of it) over the area of a sheet. By the largest parts: each
    part's own count over what a sheet gives of it; and all parts of which a sheet gives one only (each
    covers the middle of its sheet, so no two share one). Parts that no sheet gives are left out and named.
    Source: common practice.
    """
    reasons = [_why_not(part, size, kerf_m, may_turn) for part in parts]
    cut = [part for part, reason in zip(parts, reasons, strict=True) if not reason]
    total_m2 = sum(area_m2(part.count, part.length_m, part.width_m) for part in cut)
    by_area = whole_up(total_m2 * (1 + waste_pct / 100) / area_m2(1, size.length_m, size.width_m))
    given = [(part.count, _given(part, size, kerf_m, may_turn)) for part in cut]
    alone = sum(count for count, each in given if each == 1)
    by_largest = max([alone, *(whole_up(count / each) for count, each in given)])
    return SheetCount(
        sheets=max(by_area, by_largest),
        area_m2=total_m2,
        by_area=by_area,
        by_largest=by_largest,
        cannot_cut=tuple(reason for reason in reasons if reason),
    )


def choose_size(
    parts: Sequence[SheetPart], sizes: Sequence[SheetSize], kerf_m: float, may_turn: bool = True
) -> SheetSize:
    """The first size that gives every part, else the largest one. Raises ValueError without any size."""
    if not sizes:
        raise ValueError("no sheet size to choose from")
    for size in sizes:
        if not any(_why_not(part, size, kerf_m, may_turn) for part in parts):
            return size
    return max(sizes, key=lambda size: size.length_m * size.width_m)

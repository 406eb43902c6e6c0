"""Whether the sizes of a row can be together: its sides, its stock, the room that it has, its wall.

In: a row and the part that it is. Problems go to the row.
"""

from __future__ import annotations

from buildbook.job.model import Part
from buildbook.job.table.sheet import Row, Sheet
from buildbook.job.table.sides import SIDES
from buildbook.job.text import shown
from buildbook.quantity import Length

SIZED: dict[str, str] = {
    "wood": "its volume, mass and movement cannot be worked out",
    "panel": "its area and mass cannot be worked out",
    "glass": "its area and mass cannot be worked out",
    "stone": "its mass cannot be worked out",
}
"""Kinds of parts that need all three sizes, and what goes without one."""

_HOLLOWED = ("wood",)
_SAME_M = 1e-6  # lengths this near are the same


def check_sizes(row: Row, sheet: Sheet, part: Part) -> None:
    """Sizes that are missing, and sizes that cannot be together."""
    if part.kind in SIZED:
        tell = row.warn if part.kind == "stone" else row.error
        for side in SIDES:
            if side in sheet.columns and not row.text(side) and getattr(part, side) is None:
                tell(side, f"There is no {side}: {SIZED[part.kind]}.", f"Write the {side}.")
    _check_stock(row, part)
    _check_wall(row, part)
    if part.opening and part.width and part.opening.m < part.width.m - _SAME_M:
        row.error(
            "opening",
            f"The opening, {shown(part.opening.written)}, is smaller than the part,"
            f" {shown(part.width.written)} wide.",
            "Write the room across the grain with both grooves, or put right the width.",
        )
    if not part.round and _thicker(part.thickness, part.length):
        row.warn(
            "thickness",
            f"The thickness, {_written(part.thickness)}, is more than the length, {_written(part.length)}.",
            "See whether the columns are in the right order.",
        )


def _check_stock(row: Row, part: Part) -> None:
    """Whether the stock gives the thickness, with all of its layers and no fewer."""
    stock, thickness = part.stock, part.thickness
    if not stock or not thickness:
        return
    if stock.layers * stock.thickness_m < thickness.m - _SAME_M:
        row.error(
            "stock",
            f"The stock, {shown(stock.told)}, is thinner than the part, {shown(thickness.written)}.",
            "Put right the stock or the thickness. What is glued up is written with its layers: 3 x 35 mm.",
        )
    elif stock.layers > 1 and stock.thickness_m >= thickness.m - _SAME_M:
        row.error(
            "stock",
            f"One layer of {shown(stock.told)} is as thick as the part, {shown(thickness.written)}.",
            "Write the thickness of one layer before planing, or leave the layers out.",
        )


def _check_wall(row: Row, part: Part) -> None:
    """Whether something is left hollow within the wall."""
    sides = [side for side in (part.length, part.width) if side]
    if part.wall is None or not sides:
        return
    if part.kind not in _HOLLOWED:
        row.error("wall", "Only wood is turned or carved hollow.", "Take the wall out of this row.")
    elif 2 * part.wall.m >= min(side.m for side in sides) or (
        part.round != "rod" and part.thickness and part.wall.m >= part.thickness.m
    ):
        row.error(
            "wall",
            f"A wall of {shown(part.wall.written)} leaves nothing hollow in this part.",
            "Write how thick the wall is, not how wide the hollow.",
        )


def _thicker(thickness: Length | None, length: Length | None) -> bool:
    return bool(thickness and length and thickness.m > length.m + _SAME_M)


def _written(length: Length | None) -> str:
    return shown(length.written) if length else ""

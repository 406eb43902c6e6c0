"""Sheets that together show something larger than a sheet: how it is laid over them. Lengths in millimetres. Pure.

Sheets lie in rows (A, B, …) and columns (1, 2, …), each over the edge of the next by the overlap. What is cut off lies
outside the middle of the overlap; marks on that middle are on both sheets.
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Tile:
    """A sheet. x, y: where its upper left corner is in what is shown. `right`, `below`: the sheets that it meets there,
    `left`, `above`: those that it is laid over; empty where there is none.
    """

    name: str
    x: float
    y: float
    left: str = ""
    right: str = ""
    above: str = ""
    below: str = ""


@dataclass(frozen=True)
class Tiling:
    """How something is laid over sheets. turned: it lies on its side, its top to the right. `crosses`: where the marks
    are that sheets are laid together by, in what is shown.
    """

    turned: bool
    columns: int
    rows: int
    tiles: tuple[Tile, ...]
    crosses: tuple[tuple[float, float], ...]


_CROSSES = (0.2, 0.8)  # of a sheet's step, where marks stand along an edge
_LETTERS = 26


def tiling(width: float, height: float, area: tuple[float, float], overlap: float) -> Tiling:
    """The fewest sheets, upright where that is no more. `area`: what of a sheet may be printed on, wide and high."""
    upright, lying = (_counts(size, area, overlap) for size in ((width, height), (height, width)))
    turned = lying[0] * lying[1] < upright[0] * upright[1]
    columns, rows = lying if turned else upright
    size = (height, width) if turned else (width, height)
    step = tuple(side - overlap for side in area)
    first = tuple(
        (length - (count * s + overlap)) / 2
        for length, count, s in zip(size, (columns, rows), step, strict=True)
    )
    tiles = tuple(
        _tile(column, row, columns, rows, first, step) for row in range(rows) for column in range(columns)
    )
    return Tiling(turned, columns, rows, tiles, tuple(_crosses(columns, rows, first, step, overlap)))


def _counts(size: tuple[float, float], area: tuple[float, float], overlap: float) -> tuple[int, int]:
    columns, rows = (
        max(1, math.ceil((length - overlap) / (side - overlap)))
        for length, side in zip(size, area, strict=True)
    )
    return columns, rows


def _name(column: int, row: int) -> str:
    letter = chr(ord("A") + row % _LETTERS)
    return f"{letter * (row // _LETTERS + 1)}{column + 1}"


def _tile(
    column: int, row: int, columns: int, rows: int, first: tuple[float, ...], step: tuple[float, ...]
) -> Tile:
    return Tile(
        name=_name(column, row),
        x=first[0] + column * step[0],
        y=first[1] + row * step[1],
        left=_name(column - 1, row) if column else "",
        right=_name(column + 1, row) if column + 1 < columns else "",
        above=_name(column, row - 1) if row else "",
        below=_name(column, row + 1) if row + 1 < rows else "",
    )


def _crosses(
    columns: int, rows: int, first: tuple[float, ...], step: tuple[float, ...], overlap: float
) -> list[tuple[float, float]]:
    """Two on the middle of each overlap of two sheets."""
    middle = overlap / 2
    across = [
        (first[0] + column * step[0] + middle, first[1] + (row + share) * step[1] + middle)
        for column in range(1, columns)
        for row in range(rows)
        for share in _CROSSES
    ]
    down = [
        (first[0] + (column + share) * step[0] + middle, first[1] + row * step[1] + middle)
        for row in range(1, rows)
        for column in range(columns)
        for share in _CROSSES
    ]
    return [*across, *down]

"""The sizes of a part, round ones too: a diameter in a cell of a side (`ø22`, `22 dia`, `Durchm. 22 mm`) or in a column
of its own.

In: a row. Out: `Sides`. Two sides that are one diameter make a rod or a disc; what fits neither is a problem.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from buildbook.job.table.screws import is_screw, read_screw
from buildbook.job.table.sheet import Row
from buildbook.job.table.shoulders import bare_length
from buildbook.job.text import shown
from buildbook.quantity import Length, read_length
from buildbook.trade.rounds import Round

SIDES = ("length", "width", "thickness")
DIAMETER = "dia"

_SIGN = r"(?:[øØ⌀∅]|(?:diameter|diam|dia|durchmesser|durchm|dm)\b\.?|(?<![^\W\d_])d(?=\s?\d))"
_MARKED = re.compile(rf"\s*(?:{_SIGN}\s*[:=]?\s*(?P<after>.*?)|(?P<before>.*?)\s*{_SIGN})\s*", re.I | re.S)
_SAME_M = 1e-6  # sides this near are the same


@dataclass(frozen=True)
class Sides:
    """The three sides of a part; of a round one, two of them are its diameter."""

    length: Length | None
    width: Length | None
    thickness: Length | None
    round: Round = ""


def read_sides(row: Row, units: str, *, screw: bool = False) -> Sides:
    """The sides of a row. A bare number is in `units`, or in the unit of its heading. `screw`: its length may
    be that of a screw with its diameter (`#10 x 1 1/2`, `5x60 TX25`).
    """
    if screw and is_screw(row.text("length")):
        return _screw(row, units)
    written = {side: row.text(side) for side in (*SIDES, DIAMETER)}
    written["length"] = bare_length(written["length"])
    marked = [
        side for side, text in written.items() if text and (side == DIAMETER or _MARKED.fullmatch(text))
    ]
    if not marked:
        length, width, thickness = (_length(row, side, units) for side in SIDES)
        return Sides(length, width, thickness)
    read = {side: _length(row, side, units) for side in written}
    across = [(side, length) for side in marked if (length := read[side])]
    plain = {side: read[side] for side in SIDES if side not in marked}
    as_read = Sides(read["length"], read["width"], read["thickness"])
    if len(across) < len(marked):  # one cannot be read, which is told
        return as_read
    _, first = across[0]
    for side, length in across[1:]:
        if not _same(first, length):
            row.error(
                side,
                f"{shown(written[side])} and {shown(first.written)} are two diameters of one part.",
                "Write one diameter, and the length or the thickness.",
            )
            return as_read
    return _shaped(row, first, across[0][0], plain, written)


def _screw(row: Row, units: str) -> Sides:
    """A screw, which is a rod."""
    read: list[Length | None] = [None, None]

    def across(text: str) -> Length:
        read[:] = read_screw(text, unit, decimal_comma=row.decimal_comma)
        return read[1] or read[0] or Length(0, text)

    unit = row.units.get("length") or units
    if row.read("length", across, units) is None:
        return Sides(None, None, None)
    return Sides(read[1], read[0], read[0], "rod")


def _shaped(
    row: Row, across: Length, at: str, plain: Mapping[str, Length | None], written: Mapping[str, str]
) -> Sides:
    """A rod where only the length is something else than the diameter, a disc where only the thickness is."""

    def other(*sides: str) -> list[Length]:
        return [length for side in sides if (length := plain.get(side)) and not _same(length, across)]

    length, thickness = plain.get("length"), plain.get("thickness")
    if not other("width", "thickness") and (length or not thickness):
        return Sides(length, across, across, "rod")
    if thickness and not other("length", "width"):
        return Sides(across, across, thickness, "disc")
    sizes = " and ".join(shown(written[side]) for side in SIDES if plain.get(side))
    row.error(
        at,
        f"{shown(written[at])} across does not go with {sizes}: what is round has a diameter and one size more.",
        "Write the diameter and the length of a rod, or the diameter and the thickness of a disc.",
    )
    return Sides(length, across, across, "rod")


def _length(row: Row, side: str, units: str) -> Length | None:
    unit = row.units.get(side) or units

    def read(text: str) -> Length:
        text = bare_length(text) if side == "length" else text
        match = _MARKED.fullmatch(text)
        bare = (match["after"] or match["before"] or "") if match else text
        return read_length(bare or text, unit, decimal_comma=row.decimal_comma)

    return row.read(side, read, units)


def _same(one: Length, other: Length) -> bool:
    return abs(one.m - other.m) < _SAME_M

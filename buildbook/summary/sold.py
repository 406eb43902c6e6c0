"""How the size of a fitting is said in a shop: a screw by thickness and length, a hinge by length and width, a knob by
its diameter and height.

In: a row of hardware. Out: words. Sides that tell of no such thing stay in the order in which they are written.
"""

from __future__ import annotations

from collections.abc import Sequence

from buildbook.job.model import Part
from buildbook.quantity import Style
from buildbook.signs import says
from buildbook.words import Words

_SAME_M = 1e-6  # sides this near are the same


def sold_size(part: Part, style: Style, words: Words) -> str:
    """The size that a shop asks for; empty where none is written."""
    sides = [side.m for side in (part.length, part.width, part.thickness) if side]
    called = (part.name, part.material)
    if says("shank", *called) and (shank := _shank(sides)):
        return style.size(*shank)
    if says("hinge", *called) and len(sides) == 3:
        return style.size(*sides[:2])  # nobody sells a hinge by the thickness of its leaf
    if (part.round or says("turned", *called)) and (turned := _turned(sides)):
        across, high = (style.length(side) for side in turned)
        return words.text("spares.round", diameter=across, height=high)
    return style.size(*sides)


def _shank(sides: Sequence[float]) -> tuple[float, float] | None:
    """Thickness and length of what is long and round."""
    if len(sides) < 2 or (len(sides) == 3 and not _same(sides[1], sides[2])) or sides[1] > sides[0]:
        return None
    return sides[1], sides[0]


def _turned(sides: Sequence[float]) -> tuple[float, float] | None:
    """Diameter and height: of two sides the diameter is written first, of three two are the same."""
    if len(sides) == 2:
        return sides[0], sides[1]
    if len(sides) == 3:
        for one, other, high in ((0, 1, 2), (1, 2, 0), (0, 2, 1)):
            if _same(sides[one], sides[other]):
                return sides[one], sides[high]
    return None


def _same(one: float, other: float) -> bool:
    return abs(one - other) < _SAME_M

"""A part as its face with the edge below it, and the bar that tells the scale. All drawings of a list share
one scale.
"""

from __future__ import annotations

from markupsafe import Markup

from buildbook.pages.drawn.outlines import PartOutline, ScaleBar
from buildbook.render.drawing.svg import VISIBLE, drawing, line, path, rect

LONGEST = 288.0  # units of the longest part: fits a telephone
EM = 16.0  # units to the height of the page's lettering, so that a theme may enlarge all alike
_MARGIN = 1.5
_APART = 3.0  # from the face to its edge
_LEAST = 0.8  # a part thinner than a line is drawn as one
_SHORTEST_GRAIN, _LONGEST_GRAIN = 12.0, 48.0
_BARB, _BARB_HALF = 4.5, 2.2


def scaled(length_m: float, across_m: float) -> float:
    """A real length in units of the drawing."""
    return max(length_m / across_m * LONGEST, _LEAST)


def _grain(x: float, y: float, wide: float, tall: float) -> list[Markup]:
    """A line with a half barb at each end, along the grain; none where there is no room."""
    run = min(wide * 0.5, _LONGEST_GRAIN)
    if run < _SHORTEST_GRAIN or tall < 2 * _BARB_HALF + 1:
        return []
    left, right, at = x + (wide - run) / 2, x + (wide + run) / 2, y + tall / 2
    return [
        line(left, at, right, at, "fine grain"),
        line(left, at, left + _BARB, at - _BARB_HALF, "fine grain"),
        line(right, at, right - _BARB, at + _BARB_HALF, "fine grain"),
    ]


def _circle(across: float) -> Markup:
    """A circle of two half turns, in the place of a face."""
    middle, radius = _MARGIN + across / 2, across / 2
    arc = ("A", radius, radius, "0 1 1")
    left, right = _MARGIN, _MARGIN + across
    return path(("M", left, middle, *arc, right, middle, *arc, left, middle, "Z"), "fine-visible")


def draw_part(part: PartOutline, name: str) -> Markup:
    """The outline of a part; `name` makes its ids."""
    wide, tall = scaled(part.length_m, part.across_m), scaled(part.width_m, part.across_m)
    face = _circle(wide) if part.disc else rect(_MARGIN, _MARGIN, wide, tall, "fine-visible")
    parts = [face]
    if part.grain:
        parts += _grain(_MARGIN, _MARGIN, wide, tall)
    height = tall
    if part.thickness_m:
        thick = scaled(part.thickness_m, part.across_m)
        parts.append(rect(_MARGIN, _MARGIN + tall + _APART, wide, thick, "fine edge"))
        height += _APART + thick
    size = (wide + 2 * _MARGIN, height + 2 * _MARGIN)
    return drawing(name, "part", size, part.name, part.described, *parts, em=EM)


def draw_scale_bar(bar: ScaleBar, name: str) -> Markup:
    """The bar, with a mark at each end and in the middle; its figure stands beside it on the page."""
    wide = scaled(bar.length_m, bar.across_m)
    tall = 7.0
    x, low = VISIBLE, tall
    parts = [line(x, low, x + wide, low, "visible")]
    parts += [
        line(x + wide * share, low - rise, x + wide * share, low, "thin")
        for share, rise in ((0, 6), (0.5, 3), (1, 6))
    ]
    return drawing(
        name, "scale-bar", (wide + 2 * VISIBLE, tall + VISIBLE), bar.title, bar.label, *parts, em=EM
    )

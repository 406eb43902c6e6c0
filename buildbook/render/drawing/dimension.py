"""Dimension lines as ISO 129-1 draws them: extension lines, a line with closed arrows, the figure over it.

Where there is no room between the extension lines the arrows point inwards from outside, and the figure
stands beyond.
"""

from __future__ import annotations

from markupsafe import Markup

from buildbook.render.drawing.svg import LABEL, element, line, solid, text, text_width

OFFSET = 15.0  # from the outline to the dimension line
ROOM = OFFSET + LABEL + 6  # what a dimension takes beside an outline
_GAP, _BEYOND = 2.5, 3.0  # of an extension line: before it starts, past the dimension line
_ARROW, _HALF = 7.0, 1.3  # length and half the width of an arrow (15 degrees closed)
_CLEAR = 3.0  # between a figure and its line


def _arrow(tip: float, back: float, at: float, upright: bool) -> Markup:
    points = [(tip, at), (back, at - _HALF), (back, at + _HALF)]
    return solid([(y, x) for x, y in points] if upright else points, "arrow")


def _run(start: float, end: float, at: float, upright: bool) -> list[Markup]:
    """The dimension line with its arrows, along x; or along y when upright."""

    def stroke(a: float, b: float) -> Markup:
        return line(at, a, at, b, "dimension") if upright else line(a, at, b, at, "dimension")

    if end - start > 3 * _ARROW:
        arrows = [_arrow(start, start + _ARROW, at, upright), _arrow(end, end - _ARROW, at, upright)]
        return [stroke(start, end), *arrows]
    tail = OUTSIDE
    arrows = [_arrow(start, start - _ARROW, at, upright), _arrow(end, end + _ARROW, at, upright)]
    return [stroke(start - tail, end + tail), *arrows]


def across(x1: float, x2: float, outline_y: float, figure: str) -> Markup:
    """A dimension over an outline whose upper edge is at `outline_y`."""
    at = outline_y - OFFSET
    parts = [line(x, outline_y - _GAP, x, at - _BEYOND, "dimension") for x in (x1, x2)]
    parts += _run(x1, x2, at, upright=False)
    parts.append(text((x1 + x2) / 2, at - _CLEAR - 1, figure, kind="figure"))
    return Markup("").join(parts)


def upright(y1: float, y2: float, outline_x: float, figure: str) -> Markup:
    """A dimension to the left of an outline whose left edge is at `outline_x`; the figure reads from the
    right.
    """
    at = outline_x - OFFSET
    parts = [line(outline_x - _GAP, y, at - _BEYOND, y, "dimension") for y in (y1, y2)]
    parts += _run(y1, y2, at, upright=True)
    parts.append(text(at - _CLEAR - 1, (y1 + y2) / 2, figure, kind="figure", turned=True))
    return Markup("").join(parts)


OUTSIDE = 1.6 * _ARROW
"""How far the arrows reach out where there is no room between the extension lines."""


def reach_of(start: float, end: float) -> float:
    """How far past its extension lines a dimension goes."""
    return 0.0 if end - start > 3 * _ARROW else OUTSIDE


def dimension(
    ends: tuple[float, float], middle: float, at: float, edge: float, figure: str, *, upright: bool
) -> Markup:
    """A dimension in a group of its own, on a line at `at`, of an outline whose edge is at `edge`: one of several
    that stand above or beside each other. `middle`: of its figure, which may stand beyond an arrow.
    """
    start, end = ends
    towards = 1 if at < edge else -1
    near, far = edge - _GAP * towards, at - _BEYOND * towards

    def stroke(one: float, other: float, low: float, high: float) -> Markup:
        """A line in the direction of the dimension (low, high are its two places), or across it."""
        return (
            line(low, one, high, other, "dimension") if upright else line(one, low, other, high, "dimension")
        )

    extensions = [stroke(place, place, near, far) for place in ends]
    half = text_width(figure) / 2
    carrier = []
    if middle > end:
        carrier = [stroke(end, middle + half, at, at)]
    elif middle < start:
        carrier = [stroke(middle - half, start, at, at)]
    over = at - _CLEAR - 1
    place = (over, middle) if upright else (middle, over)
    lettered = text(*place, figure, kind="figure", turned=upright)
    kind = "of-across" if upright else "of-along"
    return element("g", *extensions, *_run(start, end, at, upright), *carrier, lettered, class_=kind)


def least_room(figure: str, span: float) -> float:
    """How long a dimension is on the page: its span, its figure, or its arrows from outside."""
    outside = span + 3.2 * _ARROW if span <= 3 * _ARROW else span
    return max(outside, text_width(figure))

"""The piece from the front and from the side at one scale, with dimensions, and a thing beside it that
everyone knows.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from markupsafe import Markup

from buildbook.pages.drawn.front import ForScale, FrontView
from buildbook.render.drawing.dimension import ROOM, across, least_room, upright
from buildbook.render.drawing.svg import LABEL, LINE, drawing, hatch, line, path, rect, text, text_width

WIDTH, TALLEST = 340.0, 240.0
_APART = 26.0
_HATCH = 6.0  # depth of the hatching of a wall, floor or ceiling
_OVER = 6.0  # of a line that carries a piece, past it on each side
_MARGINS = 2 * (_OVER + 1)
_WORTH_A_ROW = 1.5  # how much larger the piece must come out for a second row
_HALVINGS = 40


@dataclass(frozen=True)
class _View:
    """One box of the drawing: its real size, its words, and the figures at it."""

    kind: str
    width_m: float
    height_m: float
    word: str
    over: str = ""
    beside: str = ""

    def slot(self, scale: float) -> float:
        """The room it takes from left to right."""
        span = self.width_m * scale
        room = max(span, text_width(self.word), least_room(self.over, span) if self.over else 0.0)
        return room + (ROOM if self.beside else 0.0)


Row = tuple[_View, ...]


def _views(front: FrontView) -> list[_View]:
    views = [_View("front", front.width_m, front.height_m, front.front, front.width, front.height)]
    if front.depth_m:
        views.append(_View("side", front.depth_m, front.height_m, front.side, front.depth))
    if front.beside:
        views.append(_View(front.beside.kind, front.beside.width_m, front.beside.height_m, front.beside.name))
    return views


def _row_height(row: Row, scale: float) -> float:
    tall = max(view.height_m for view in row) * scale
    lowest = max(
        tall,
        max((least_room(view.beside, view.height_m * scale) for view in row if view.beside), default=0.0),
    )
    return ROOM + lowest + _HATCH + LINE + 4


def _fits(rows: list[Row], scale: float) -> bool:
    wide = all(
        math.fsum(view.slot(scale) for view in row) + _APART * (len(row) - 1) + _MARGINS <= WIDTH
        for row in rows
    )
    return wide and sum(max(view.height_m for view in row) * scale for row in rows) <= TALLEST


def _scale(rows: list[Row]) -> float:
    """The largest scale at which the rows fit, in units a metre."""
    low, high = 0.0, WIDTH / min(view.width_m for row in rows for view in row) + TALLEST
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if _fits(rows, middle) else (low, middle)
    return low


def _arranged(views: list[_View]) -> tuple[list[Row], float]:
    """All in one row; or the front above the others, where that makes it much larger."""
    one: list[Row] = [tuple(views)]
    in_one = _scale(one)
    if len(views) > 1:
        two: list[Row] = [tuple(views[:1]), tuple(views[1:])]
        in_two = _scale(two)
        if in_two >= _WORTH_A_ROW * in_one:
            return two, in_two
    return one, in_one


def _chair(x: float, ground: float, scale: float, thing: ForScale) -> Markup:
    """A plain chair from the side: seat, back, two legs."""
    wide, tall, seat = thing.width_m * scale, thing.height_m * scale, thing.seat_m * scale
    back = x + wide * 0.84
    return Markup("").join(
        [
            path(["M", x + wide * 0.06, ground, "L", x + wide * 0.06, ground - seat], "thin beside"),
            path(["M", x, ground - seat, "L", back, ground - seat * 0.97], "thin beside"),
            path(
                ["M", x + wide * 0.92, ground, "L", back, ground - seat * 0.97, "L", x + wide, ground - tall],
                "thin beside",
            ),
        ]
    )


def _holds(stands: str, left: float, right: float, top: float, bottom: float, view: _View) -> list[Markup]:
    """What carries the piece: the floor below it, the ceiling over it, the wall behind it in the side
    view.
    """
    if view.kind == "side" and stands == "wall":
        return [
            line(right, top - 3, right, bottom + 3, "thin ground"),
            hatch(right, top - 3, _HATCH, bottom - top + 6, 5),
        ]
    if stands == "ceiling" and view.kind in ("front", "side"):
        return [line(left - _OVER, top, right + _OVER, top, "thin ground")]
    if stands in ("floor", "table") or view.kind == "chair":
        return [line(left - _OVER, bottom, right + _OVER, bottom, "thin ground")]
    return []


def _draw_view(view: _View, x: float, top: float, low: float, scale: float, front: FrontView) -> list[Markup]:
    """A view in its slot from `x` on; what stands does so on `low`."""
    room = view.slot(scale) - (ROOM if view.beside else 0.0)
    start = x + (ROOM if view.beside else 0.0)
    wide, tall = view.width_m * scale, view.height_m * scale
    left = start + (room - wide) / 2
    right, head = left + wide, low - tall
    parts = _holds(front.stands, left, right, head, low, view)
    if view.kind == "chair" and front.beside:
        parts.append(_chair(left, low, scale, front.beside))
    else:
        parts.append(rect(left, head, wide, tall, "thin beside" if view.kind == "sheet" else "visible"))
    if view.over:
        parts.append(across(left, right, head, view.over))
    if view.beside:
        parts.append(upright(head, low, left, view.beside))
    parts.append(text(start + room / 2, low + _HATCH + LABEL, view.word, kind="word quiet"))
    return parts


def draw_front(front: FrontView, name: str) -> Markup:
    """The picture; `name` makes its ids."""
    rows, scale = _arranged(_views(front))
    parts: list[Markup] = []
    top = 0.0
    for row in rows:
        height = _row_height(row, scale)
        low = top + height - _HATCH - LINE - 4
        taken = math.fsum(view.slot(scale) for view in row) + _APART * (len(row) - 1)
        x = (WIDTH - taken) / 2
        for view in row:
            parts += _draw_view(view, x, top, low, scale, front)
            x += view.slot(scale) + _APART
        top += height
    return drawing(name, "front-view", (WIDTH, top), front.title, front.sentence, *parts)

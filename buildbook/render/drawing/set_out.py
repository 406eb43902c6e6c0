"""A part with its places: the face with the edge below it, tenons, taper, marks, and dimensions as ISO 129-1 has them.

All is to one scale, the largest that fits a telephone. Where a part is so long that it would be a thread, a piece
without places is left out between two break lines (ISO 128-3), and its dimensions go on over it.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from buildbook.pages.drawn.set_out import SetOut
from buildbook.render.drawing.dimension import OFFSET, OUTSIDE, dimension, reach_of
from buildbook.render.drawing.packed import Name, Set, Span, Stacked, named, stacked
from buildbook.render.drawing.part_outline import Ruler, across_tenon, body, face, off, ruler_of
from buildbook.render.drawing.svg import LABEL, LINE, dot, drawing, line, text, text_width

WIDTH = 328.0  # a telephone of 390 pixels, less its margins
_ROW = LABEL + 5.0  # from one dimension line to the next
_CROSS = 5.0  # half a centre mark
_OVER = 4.0  # of a centre line, past the outline
_LEAST = 0.8  # an edge thinner than a line is drawn as one
_BELOW = 6.0  # from the outline to the first name
_END_WORD = 4.0
_SHARES = (0.8, 0.6, 0.4, 0.9, 0.7, 0.5, 0.3, 0.2, 0.1)  # of a line along the part, where its name may stand
_FREE = 35.0
_ASIDE = 9.0  # how far what stands above and below a part may go past its ends
_PAIR = 2  # things that each have their name: the hinges at both ends


# -- the drawing -----------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Placed:
    """Dimensions of one direction, each in its row; None of one that had no room."""

    figures: tuple[str, ...]
    rows: tuple[Stacked | None, ...]

    @property
    def depth(self) -> int:
        return max((one.row + 1 for one in self.rows if one), default=0)

    def reaches(self) -> tuple[float, float]:
        """How far up and down figures and arrows go."""
        shown = [one.taken for one in self.rows if one]
        return min((low for low, _ in shown), default=0.0), max((high for _, high in shown), default=0.0)


def _across(part: SetOut, scale: float) -> _Placed:
    """The dimensions across, from the upper edge down."""
    tall = part.width_m * scale
    of = tuple(one for one in part.dimensions if one.on == "across")
    spans = [_span(tall - one.end_m * scale, tall - one.start_m * scale, one.figure) for one in of]
    figures = [one.figure for one in of]
    if part.taper:
        above, below = off(part, scale)
        figures.append(part.taper_figures[0])
        spans.append(_span(above, tall - below, part.taper_figures[0]))
    return _Placed(tuple(figures), tuple(stacked(spans)))


def _along(part: SetOut, ruler: Ruler) -> _Placed:
    of = tuple(one for one in part.dimensions if one.on == "along")
    spans = [_span(ruler(one.start_m), ruler(one.end_m), one.figure) for one in of]
    bounds = (0.0, _bounds(part, ruler)[1])
    return _Placed(tuple(one.figure for one in of), tuple(stacked(spans, bounds)))


def _bounds(part: SetOut, ruler: Ruler) -> tuple[float, float]:
    """How far names below the part and figures above it go, so that they do not meet the figures beside it."""
    if part.taper:
        return ruler(0.0) - _ASIDE, ruler(part.length_m) + _ASIDE
    return ruler(0.0) - _ASIDE, WIDTH - (LABEL + _END_WORD if part.right else 0.0)


def _span(start: float, end: float, figure: str) -> Span:
    return Span(start, end, text_width(figure), reach_of(start, end))


def draw_set_out(part: SetOut, name: str) -> Markup:
    """The picture; `name` makes its ids."""
    ruler, beside = _laid(part)
    along = _along(part, ruler)
    tall = ruler.across(part.width_m)
    high, low = beside.reaches()
    lift = max(-high - 1, 0.0)  # what stands over the figures at the left starts above them
    top = max(OFFSET + lift + (along.depth - 1) * _ROW + LABEL + 5, 2 * OUTSIDE if part.taper else 0.0)
    ends = (ruler(0.0), ruler(part.length_m))
    drawn = [*face(part, ruler, top), *_marks(part, ruler, top)]
    drawn += _dimensions(along, top, upright=False, lift=lift)
    drawn += _dimensions(beside, top, upright=True, left=ends[0])
    if part.taper:
        drawn.append(_wide_end(part, ruler, top))
    if part.right:
        drawn.append(text(WIDTH - LABEL / 4, top + tall / 2, part.right, kind="word quiet side", turned=True))
    names, bottom = _names_below_face(part, ruler, top + tall)
    drawn += names
    bottom = max(bottom, top + low + 2)
    if part.taper:
        bottom = max(bottom, top + tall + OUTSIDE + text_width(part.taper_figures[1]) + 2)
    if part.thickness_m and not (part.taper and part.taper.on_edge is None):
        edge, bottom = _edge_view(part, ruler, bottom)
        drawn += edge
    return drawing(name, "set-out", (WIDTH, bottom + 3), part.title, part.described, *drawn)


def _laid(part: SetOut) -> tuple[Ruler, _Placed]:
    """The scale and what stands at the left: how many dimensions stand there hangs on the scale, and the other way."""
    right = WIDTH - 2 - (LABEL + _END_WORD if part.right else 0.0)
    if part.taper:
        right -= OFFSET + LABEL + 4
    columns = 1
    while True:
        left = OFFSET + columns * _ROW - 2
        ruler = ruler_of(part, left, right)
        beside = _across(part, ruler.scale)
        if beside.depth <= columns:
            return ruler, beside
        columns += 1


def _dimensions(
    placed: _Placed, top: float, *, upright: bool, left: float = 0.0, lift: float = 0.0
) -> list[Markup]:
    found = []
    for figure, one in zip(placed.figures, placed.rows, strict=True):
        if one is None:
            continue
        edge = left if upright else top
        shift = top if upright else 0.0
        at = edge - OFFSET - lift - one.row * _ROW
        ends = (one.span.start + shift, one.span.end + shift)
        found.append(dimension(ends, one.middle + shift, at, edge, figure, upright=upright))
    return found


def _beside(low: float, high: float, at: float, edge: float, figure: str) -> Markup:
    return dimension((low, high), (low + high) / 2, at, edge, figure, upright=True)


def _edge_view(part: SetOut, ruler: Ruler, above: float) -> tuple[list[Markup], float]:
    """The edge below the face, with its thickness and the names of its worked edges; and where it ends."""
    thick = max(ruler.across(part.thickness_m or 0.0), _LEAST)
    half = text_width(part.overall[2]) / 2
    reach = reach_of(0.0, thick)
    over, under = min(thick / 2 - half, -reach), max(thick / 2 + half, thick + reach)
    top = above + max(-over, 8.0)
    drawn = body(part, ruler, top, thick, edge=True)
    left = ruler(0.0)
    drawn.append(_beside(top, top + thick, left - OFFSET, left, part.overall[2]))
    starts = {"upper": top, "lower": top + thick}
    named_edges = [(starts[edge.where], edge.label) for edge in part.edges if edge.where in starts]
    spread = _spread(named_edges, ruler(part.length_m), left)
    names, bottom = _named(spread, top + thick, _bounds(part, ruler))
    return [*drawn, *names], max(bottom, top + under)


def _wide_end(part: SetOut, ruler: Ruler, top: float) -> Markup:
    """The size at the wide end of a taper, to the right; that of the narrow one stands with the others at the left."""
    right = ruler(part.length_m)
    at, low, figure = right + OFFSET + LABEL, top + ruler.across(part.width_m), part.taper_figures[1]
    (middle, *beyond) = _span(top, low, figure).middles
    is_short = low - top < text_width(figure) + LABEL / 2
    return dimension((top, low), beyond[0] if is_short else middle, at, right, figure, upright=True)


# -- marks and names -------------------------------------------------------------------------------


def _marks(part: SetOut, ruler: Ruler, top: float) -> list[Markup]:
    tall = ruler.across(part.width_m)
    left, right = ruler(0.0), ruler(part.length_m)
    drawn = []
    for mark in part.marks:
        x = None if mark.along_m is None else ruler(mark.along_m)
        y = None if mark.across_m is None else top + tall - ruler.across(mark.across_m)
        if x is not None and y is not None:
            drawn += [
                line(x - _CROSS, y, x + _CROSS, y, "chain mark"),
                line(x, y - _CROSS, x, y + _CROSS, "chain mark"),
            ]
        elif x is not None:
            drawn.append(line(x, top - _OVER, x, top + tall + _OVER, "chain mark"))
        elif y is not None:
            drawn.append(line(left - _OVER, y, right + _OVER, y, "chain mark"))
    return drawn


def _names_below_face(part: SetOut, ruler: Ruler, bottom: float) -> tuple[list[Markup], float]:
    """The names of what sits on the face, of its tenon and of its front and back edge."""
    tall = ruler.across(part.width_m)
    left, right = ruler(0.0), ruler(part.length_m)
    found: list[tuple[float, float, str]] = []
    broken = [ruler(at) for at in ruler.cut or ()]
    for mark in sorted(part.marks, key=lambda one: one.along_m is None):
        y = bottom if mark.across_m is None else bottom - ruler.across(mark.across_m)
        x = (
            _free([*broken, *(at for at, _, _ in found)], left, right)
            if mark.along_m is None
            else ruler(mark.along_m)
        )
        found.append((x, y, mark.label))
    if part.tenons and part.tenons[0].label:
        start, high = across_tenon(part.tenons[0], ruler, bottom - tall, tall, edge=False)
        found.append((ruler(part.tenons[0].length_m / 2), start + high, part.tenons[0].label))
    on_face = [
        (bottom - tall if edge.where == "back" else bottom, edge.label)
        for edge in part.edges
        if edge.where in ("front", "back", "all")
    ]
    found += _spread(on_face, right, left)
    if part.lower:
        found.append(((left + right) / 2, math.nan, part.lower))
    return _named(_once(found), bottom, _bounds(part, ruler))


def _free(taken: Sequence[float], left: float, right: float) -> float:
    """A place along the part that is far from those taken."""
    tries = [left + (right - left) * share for share in _SHARES]
    far = [min((abs(at - other) for other in taken), default=math.inf) for at in tries]
    return next(
        (at for at, free in zip(tries, far, strict=True) if free >= _FREE), tries[far.index(max(far))]
    )


def _spread(edges: Sequence[tuple[float, str]], right: float, left: float) -> list[tuple[float, float, str]]:
    """The names of edges, one beside the other."""
    step = (right - left) / (len(edges) + 1)
    return [(left + step * place, y, label) for place, (y, label) in enumerate(edges, 1)]


def _once(found: Sequence[tuple[float, float, str]]) -> list[tuple[float, float, str]]:
    """Each name once for each place along the part, its lowest; a row of more than two like things at its last."""
    kept: dict[tuple[str, float], tuple[float, float, str]] = {}
    for x, y, label in found:
        if label:
            kept.setdefault((label, round(x, 2)), (x, y, label))
    rows = Counter(label for label, _ in kept)
    last = {label: max(x for one, x in kept if one == label) for label, many in rows.items() if many > _PAIR}
    return [one for (label, x), one in kept.items() if x == last.get(label, x)]


def _named(
    found: Sequence[tuple[float, float, str]], bottom: float, bounds: tuple[float, float]
) -> tuple[list[Markup], float]:
    """Names below an outline with their leaders, and where they end. A place that is no number has no leader."""
    if not found:
        return [], bottom
    sets = named([Name(x, text_width(label)) for x, _, label in found], bounds)
    drawn = []
    for (x, y, label), here in zip(found, sets, strict=True):
        base = _base(bottom, here)
        if here.led and not math.isnan(y):
            drawn.append(line(x, y, x, base - LABEL + 1, "fine leader"))
            drawn.append(dot(x, y, 1.4, "arrow"))
        kind = "word quiet lower" if math.isnan(y) else "word name"
        drawn.append(text(here.left, base, label, anchor="start", kind=kind))
    return drawn, max(_base(bottom, here) for here in sets) + 3


def _base(bottom: float, here: Set) -> float:
    return bottom + _BELOW + LABEL + here.row * LINE

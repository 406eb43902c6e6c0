"""Ranges of hours, one below the other on one axis: how far each may go, its middle, and what it took.

A range that stands alone is a bar; one beside a truth is a line with ended strokes, the truth a filled dot, or, outside
the range, a larger lozenge with its words in full ink. The middle is a stroke across. Lettering names each row at its
left and gives its figures at its right, so that no legend is needed.
"""

from __future__ import annotations

import math

from markupsafe import Markup

from buildbook.pages.drawn.ranges import RangeChart, RangeRow
from buildbook.render.drawing.svg import LABEL, LINE, dot, drawing, line, solid, text, text_width

WIDTH = 340.0
ROW = LINE + 3
_GAP = 7.0  # between the axis and lettering
_LEFT = 138.0  # room for names at most
_INSET = 5.5  # of the axis, so that a mark at its end stays whole
_BAR, _MIDDLE, _END = 5.0, 10.0, 6.0  # heights: of a bar, of the stroke of the middle, of the ends of a line
_DOT, _LOZENGE = 3.4, 5.0
_BASE = 0.35 * LABEL  # from the middle of lettering to its base line
_CUT = "…"


def place_of(chart: RangeChart, hours_h: float) -> float:
    """Where so many hours are drawn."""
    left, right = axis_of(chart)
    if chart.ratios:
        low, high = math.log(chart.start_h), math.log(chart.end_h)
        share = (math.log(max(hours_h, chart.start_h)) - low) / (high - low)
    else:
        share = (hours_h - chart.start_h) / (chart.end_h - chart.start_h)
    return left + share * (right - left)


def axis_of(chart: RangeChart) -> tuple[float, float]:
    """The ends of the axis: what lettering at both sides leaves."""
    names = min(max(text_width(row.label) for row in chart.rows), _LEFT)
    figures = max(text_width(words) for words in (chart.unit, *(row.words for row in chart.rows)))
    return names + _GAP + _INSET, WIDTH - figures - _GAP - _INSET


def _fitted(words: str, room: float) -> str:
    """The words, cut where they are longer than the room."""
    if text_width(words) <= room:
        return words
    while words and text_width(words + _CUT) > room:
        words = words[:-1]
    return words.rstrip() + _CUT


def _range(chart: RangeChart, row: RangeRow, y: float) -> list[Markup]:
    if row.low_h is None or row.high_h is None:
        return []
    low, high = place_of(chart, row.low_h), place_of(chart, row.high_h)
    parts = []
    if chart.against:
        parts.append(line(low, y, high, y, "visible range"))
        parts += [line(x, y - _END / 2, x, y + _END / 2, "thin range-end") for x in (low, high)]
    else:
        top, bottom = y - _BAR / 2, y + _BAR / 2
        parts.append(solid([(low, top), (high, top), (high, bottom), (low, bottom)], "solid bar range"))
    if row.median_h is not None:
        x = place_of(chart, row.median_h)
        parts.append(line(x, y - _MIDDLE / 2, x, y + _MIDDLE / 2, "visible middle"))
    return parts


def _truth(chart: RangeChart, row: RangeRow, y: float) -> list[Markup]:
    if row.actual_h is None:
        return []
    x = place_of(chart, row.actual_h)
    if not row.missed:
        return [dot(x, y, _DOT, "solid truth")]
    corners = [(x, y - _LOZENGE), (x + _LOZENGE, y), (x, y + _LOZENGE), (x - _LOZENGE, y)]
    return [solid(corners, "solid truth missed")]


def _axis(chart: RangeChart, top: float, bottom: float) -> list[Markup]:
    """Thin lines through all rows at round hours; a figure is left out where it would meet the one before it."""
    left, right = axis_of(chart)
    parts = [line(left, bottom, right, bottom, "thin axis")]
    free = -math.inf
    for tick in chart.ticks:
        x = place_of(chart, tick.hours_h)
        parts.append(line(x, top, x, bottom, "fine grid"))
        half = text_width(tick.words) / 2
        if x - half >= free and x + half <= right + _INSET + _GAP / 2:
            parts.append(text(x, bottom + LINE, tick.words, kind="word quiet"))
            free = x + half + _GAP / 2
    return [*parts, text(WIDTH, bottom + LINE, chart.unit, "end", "word quiet")]


def draw_ranges(chart: RangeChart, name: str) -> Markup:
    """The picture of some ranges; `name` makes its ids."""
    left, _ = axis_of(chart)
    bottom = len(chart.rows) * ROW
    parts = _axis(chart, 0.0, bottom)
    for place, row in enumerate(chart.rows):
        y = (place + 0.5) * ROW
        names = left - _INSET - _GAP
        parts.append(text(names, y + _BASE, _fitted(row.label, names), "end", "word name"))
        parts += [*_range(chart, row, y), *_truth(chart, row, y)]
        loud = row.missed or not chart.against
        parts.append(text(WIDTH, y + _BASE, row.words, "end", "word figure" if loud else "word quiet figure"))
    size = (WIDTH, bottom + LINE + LABEL * 0.3)
    return drawing(name, "ranges", size, chart.title, f"{chart.sentence} {chart.by_row}", *parts)

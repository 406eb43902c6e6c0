"""Bars by year: a strip a thing, one below the other on the same years, its name at the left, each bar lettered.

Where all years do not fit with their figures, only the highest bar of a strip is lettered: the table beside the picture
has the rest. A year without a figure has no bar and no word, a figure of nothing a word on the base line.
"""

from __future__ import annotations

from markupsafe import Markup

from buildbook.pages.drawn.bars import Strip, YearBar, YearBars
from buildbook.render.drawing.svg import LABEL, LINE, drawing, line, solid, text, text_width

_APART = 6.0  # between lettering and the strip above it
FULL = 24.0  # height of the highest bar
STRIP = FULL + LINE + _APART  # from one base line to the next
MOST = 640.0  # width of all years at most, so that lettering stays legible on a sheet
_NAMES = 116.0  # room for names at most
_GAP = 7.0
_LEAST, _WANTED, _BAR = 8.0, 40.0, 18.0  # width of a year at least, and where there is room; of a bar at most
_BASE = 0.35 * LABEL  # from the middle of lettering to its base line
_RAISED = 3.0  # lettering above a bar
_CUT = "…"
_NARROW = 430.0  # a picture up to here is made smaller on a telephone; a wider one is pushed along


def year_width(bars: YearBars) -> float:
    """The room of a year: what its widest lettering takes, less where all would be too wide."""
    words = [bar.words for strip in bars.strips for bar in strip.bars]
    wanted = max(_WANTED, *(text_width(word) + _GAP for word in words))
    return max(_LEAST, min(wanted, MOST / len(bars.years)))


def names_width(bars: YearBars) -> float:
    """The room that names take, a long one on two lines."""
    lines = [words for strip in bars.strips for words in name_lines(strip.label)]
    return max(map(text_width, (bars.unit, *lines))) + _GAP


def name_lines(name: str) -> list[str]:
    """A name on one line, or on two where it is too long for one; what is longer still is cut."""
    if text_width(name) <= _NAMES:
        return [name]
    words = name.split(" ")
    counts = range(len(words) - 1, 0, -1)
    count = next((n for n in counts if text_width(" ".join(words[:n])) <= _NAMES), 0)
    lines = [" ".join(words[:count]), " ".join(words[count:])] if count else [name]
    return [fitted(line, _NAMES) for line in lines]


def height_of(bar: YearBar, strip: Strip) -> float:
    return FULL * bar.value / strip.top if bar.value and strip.top else 0.0


def fitted(words: str, room: float) -> str:
    """The words, cut where they are longer than the room."""
    if text_width(words) <= room:
        return words
    while words and text_width(words + _CUT) > room:
        words = words[:-1]
    return words.rstrip() + _CUT


def _strip(bars: YearBars, strip: Strip, left: float, year: float, y: float) -> list[Markup]:
    width = year * len(bars.years)
    parts = [line(left, y, left + width, y, "thin axis")]
    if bars.to_top:
        parts.append(line(left, y - FULL / strip.top, left + width, y - FULL / strip.top, "fine grid"))
    lines = name_lines(strip.label)
    for place, words in enumerate(lines):
        middle = y - FULL / 2 + (place - (len(lines) - 1) / 2) * LINE
        parts.append(text(left - _GAP, middle + _BASE, words, "end", "word name"))
    highest = max((bar.value or 0.0 for bar in strip.bars), default=0.0)
    free = left - _GAP / 2  # lettering of narrow years stands from here on
    half_bar = min(_BAR, year * 0.7) / 2
    for place, bar in enumerate(strip.bars):
        if bar.value is None:
            continue
        x, top = left + (place + 0.5) * year, y - height_of(bar, strip)
        if bar.value:
            corners = [(x - half_bar, top), (x + half_bar, top), (x + half_bar, y), (x - half_bar, y)]
            parts.append(solid(corners, "solid bar"))
        half = text_width(bar.words) / 2
        fits = 2 * half <= year or (bar.value == highest and x - half >= free)
        if bar.words and fits and x + half <= left + width + _GAP:
            parts.append(text(x, top - _RAISED, bar.words, kind="word figure"))
            free = x + half
            highest = highest if 2 * half <= year else float("inf")  # one of several that are the same
    return parts


def _years(bars: YearBars, left: float, year: float, y: float) -> list[Markup]:
    """The years below, each, or as many as fit, the last among them."""
    widest = max(map(text_width, bars.years)) + _GAP / 2
    step = max(1, -int(-widest // year))
    places = [(place, left + (place + 0.5) * year) for place in range(len(bars.years) - 1, -1, -step)]
    return [
        text(x, y, bars.years[place], kind="word quiet")
        for place, x in places
        if x - text_width(bars.years[place]) / 2 >= left - _GAP / 2
    ]


def draw_bars(bars: YearBars, name: str) -> Markup:
    """The picture of figures by year; `name` makes its ids."""
    left, year = names_width(bars), year_width(bars)
    parts: list[Markup] = []
    head = LABEL * 0.3
    for place, strip in enumerate(bars.strips):
        parts += _strip(bars, strip, left, year, head + (place + 1) * STRIP - _APART)
    bottom = head + len(bars.strips) * STRIP - _APART
    parts += _years(bars, left, year, bottom + LINE)
    if bars.unit:
        parts.append(text(left - _GAP, bottom + LINE, bars.unit, "end", "word quiet"))
    right = left + max(year * len(bars.years), text_width(bars.years[-1])) + _GAP
    if bars.to_top and bars.strips:
        y = head + STRIP - _APART - FULL / bars.strips[0].top + _BASE
        parts.append(text(right, y, bars.to_top, "start", "word quiet"))
        right += text_width(bars.to_top)
    kind = "bars many" if right > _NARROW else "bars"
    size = (right, bottom + LINE + LABEL * 0.3)
    return drawing(name, kind, size, bars.title, f"{bars.sentence} {bars.by_row}", *parts, em=LABEL)

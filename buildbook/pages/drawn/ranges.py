"""Ranges of hours as a picture: a row a thing, all on one axis of hours, with the truth where it is known.

Figures and words only; holds no geometry (that is `render.drawing.ranges`).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from buildbook.pages.phrases import Phrases
from buildbook.quantity import Style
from buildbook.quantity.show import NARROW

_WHOLE_FROM_H = 10.0  # an estimate of less is told to a tenth of an hour
_MOST_TICKS = 6
_WORD_JOINER = "\u2060"
_STEPS = (1.0, 2.0, 5.0)  # of a decade
_LEAST_H = 0.1  # where an axis of ratios begins at the lowest, and the shortest axis


@dataclass(frozen=True)
class RangeRow:
    """A thing and the range of its hours; `words` is lettered at its end.

    low_h, median_h, high_h: None where there is no range. actual_h: what it took; None where that is not known.
    missed: what it took lies outside the range.
    """

    label: str
    words: str
    low_h: float | None = None
    median_h: float | None = None
    high_h: float | None = None
    actual_h: float | None = None
    missed: bool = False

    @property
    def hours(self) -> tuple[float, ...]:
        """Every figure of the row that is known."""
        told = (self.low_h, self.median_h, self.high_h, self.actual_h)
        return tuple(hours for hours in told if hours is not None)


@dataclass(frozen=True)
class Tick:
    hours_h: float
    words: str


@dataclass(frozen=True)
class RangeChart:
    """Rows on one axis that runs from `start_h` to `end_h`, in hours or (`ratios`) in their logarithms.

    unit is lettered at the end of the axis; `sentence` says the picture in words, `by_row` each figure of it.
    """

    title: str
    sentence: str
    by_row: str
    rows: tuple[RangeRow, ...]
    start_h: float
    end_h: float
    ticks: tuple[Tick, ...]
    unit: str
    ratios: bool = False
    against: bool = False


def range_chart(
    rows: Iterable[RangeRow], phrases: Phrases, *, title: str, sentence: str, ratios: bool = False
) -> RangeChart | None:
    """A picture of the rows that have a figure; None where there is none. With `ratios` twice as much is as far
    everywhere, so that short and long jobs are seen alike.
    """
    drawn = tuple(row for row in rows if any(row.hours))
    if not drawn:
        return None
    every = [hours for row in drawn for hours in row.hours]
    end = max(*every, _LEAST_H)
    start = max(min((h for h in every if h > 0), default=_LEAST_H), _LEAST_H) if ratios else 0.0
    if ratios and end <= start:  # one figure only: half and twice of it on either side
        start, end = start / 2, start * 2
    at = _ratio_ticks(start, end) if ratios else _even_ticks(end)
    return RangeChart(
        title=title,
        sentence=sentence,
        by_row="; ".join(f"{row.label}: {row.words}" for row in drawn) + ".",
        rows=drawn,
        start_h=start,
        end_h=end,
        ticks=tuple(Tick(hours, phrases.style.trimmed(hours, 2)) for hours in at),
        unit=phrases("worksheet.hours_unit"),
        ratios=ratios,
        against=any(row.actual_h is not None for row in drawn),
    )


def _even_ticks(end: float) -> list[float]:
    """Round steps from 0, at most `_MOST_TICKS` of them."""
    decade = 10.0 ** math.floor(math.log10(end / _MOST_TICKS))
    step = next(
        part * decade * more
        for more in (1, 10)
        for part in _STEPS
        if end / (part * decade * more) < _MOST_TICKS
    )
    return [round(step * n, 6) for n in range(int(end / step) + 1)]


def _ratio_ticks(start: float, end: float) -> list[float]:
    """Round figures between the ends: 1, 2 and 5 of each decade, or as few of them as there is room for."""
    decades = range(math.floor(math.log10(start)), math.ceil(math.log10(end)) + 1)
    ticks: list[float] = []
    for steps in (_STEPS, (1.0, 3.0), (1.0,)):
        ticks = [
            round(part * 10.0**decade, 6)
            for decade in decades
            for part in steps
            if start <= part * 10.0**decade <= end
        ]
        if len(ticks) <= _MOST_TICKS:
            break
    return ticks if len(ticks) > 1 else [start, end]


# -- figures of an estimate ------------------------------------------------------------------------


def about(hours_h: float, style: Style) -> str:
    """Estimated hours, no finer than they can be known: `0.7 h`, `8.5 h`, `46 h`."""
    return f"{_figures((hours_h,), hours_h, style)[0]}{NARROW}h"


def low_to_high(low_h: float, median_h: float, high_h: float, style: Style) -> tuple[str, ...]:
    """The figures of a range as `about` tells them, all as finely as the middle."""
    return tuple(f"{figure}{NARROW}h" for figure in _figures((low_h, median_h, high_h), median_h, style))


def span(low_h: float, median_h: float, high_h: float, style: Style) -> str:
    """`38–52–71 h`."""
    return f"{'–'.join(_figures((low_h, median_h, high_h), median_h, style))}{NARROW}h"


def span_in_prose(low_h: float, median_h: float, high_h: float, style: Style) -> str:
    """The same, never broken over two lines."""
    return span(low_h, median_h, high_h, style).replace("–", f"–{_WORD_JOINER}")


def _figures(hours: Iterable[float], middle_h: float, style: Style) -> list[str]:
    places = 1 if round(middle_h, 1) < _WHOLE_FROM_H else 0
    return [style.number(h, places) if round(h, places) else "0" for h in hours]


def signed(pct: float, style: Style) -> str:
    """`+12 %`, `−8 %`, `0 %`."""
    shown = style.percent(pct)
    return shown if pct < 0 or shown == style.percent(0) else f"+{shown}"

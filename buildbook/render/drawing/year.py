"""A year of the seasons as a line: months from left to right, wide above, narrow below."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from markupsafe import Markup

from buildbook.pages.drawn.year import YearOfSeasons
from buildbook.render.drawing.svg import LABEL, LINE, dot, drawing, line, path, text, text_width

WIDTH, HEIGHT = 340.0, 188.0
_TOP, _BOTTOM = 2 * LINE - 4, HEIGHT - 4 * LINE - 2  # of the curve; lettering stands outside
_AXIS = HEIGHT - LINE - 4
_DOT = 3.0
_TRIED = 24  # places at which lettering is tried against the curve
_OVER, _UNDER = 9.0, LABEL + 8  # from a dot to the base line of its figure
_NEAR = LABEL + 14  # a level line nearer than this would run through a figure outside the curve


def points(year: YearOfSeasons) -> list[tuple[float, float]]:
    """Where the middle of each month is drawn; the made width and the months share one scale."""
    step = WIDTH / len(year.months)
    return [((place + 0.5) * step, height_of(year, m.width_m)) for place, m in enumerate(year.months)]


def height_of(year: YearOfSeasons, width_m: float) -> float:
    """The height at which a width is drawn. The scale runs from the least to the greatest width shown."""
    shown = [month.width_m for month in year.months] + [year.made_m]
    low, high = min(shown), max(shown)
    share = (width_m - low) / (high - low) if high > low else 0.5
    return _BOTTOM - share * (_BOTTOM - _TOP)


def _curve(year: YearOfSeasons) -> Markup:
    """Smooth through the months, December joined to January, from edge to edge (Catmull and Rom's spline)."""
    inside = points(year)
    step = WIDTH / len(inside)
    heights = [y for _, y in inside]
    knots = [((place + 0.5) * step, heights[place % len(heights)]) for place in range(-2, len(heights) + 2)]
    steps: list[str | float] = []
    for before, start, end, after in zip(knots, knots[1:], knots[2:], knots[3:], strict=False):
        one = start[0] + (end[0] - before[0]) / 6, start[1] + (end[1] - before[1]) / 6
        two = end[0] - (after[0] - start[0]) / 6, end[1] - (after[1] - start[1]) / 6
        if not steps:
            half = _halved(start, one, two, end, last=True)
            steps += ["M", *half[0], "C", *half[1], *half[2], *half[3]]
        elif end[0] > WIDTH:
            half = _halved(start, one, two, end, last=False)
            steps += ["C", *half[1], *half[2], *half[3]]
        else:
            steps += ["C", *one, *two, *end]
    return path(steps, "visible curve")


def _halved(*four: tuple[float, float], last: bool) -> list[tuple[float, float]]:
    """One half of a cubic curve, the first or the last (de Casteljau)."""
    rows = [list(four)]
    while len(rows[-1]) > 1:
        row = rows[-1]
        rows.append([((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(row)])
    return [row[-1] for row in reversed(rows)] if last else [row[0] for row in rows]


def _at(curve: list[tuple[float, float]], x: float) -> float:
    """About how high the curve is at a place."""
    step = WIDTH / len(curve)
    place = min(max(x / step - 0.5, 0.0), len(curve) - 1.0)
    before = min(int(place), len(curve) - 2)
    return curve[before][1] + (place - before) * (curve[before + 1][1] - curve[before][1])


@dataclass(frozen=True)
class _Words:
    """Lettering from `left` on, on a base line."""

    left: float
    base: float
    words: str

    def meets(self, other: _Words) -> bool:
        apart = (
            self.left + text_width(self.words) <= other.left
            or other.left + text_width(other.words) <= self.left
        )
        return not apart and abs(self.base - other.base) < LINE

    def draw(self, kind: str) -> Markup:
        """Set from the edge that it stands at, so that a narrower face keeps to it."""
        right = self.left + text_width(self.words)
        if self.left == 0.0:
            return text(0, self.base, self.words, "start", kind)
        if right >= WIDTH:
            return text(WIDTH, self.base, self.words, "end", kind)
        return text((self.left + right) / 2, self.base, self.words, kind=kind)


def _extremes(year: YearOfSeasons, level: float) -> list[_Words]:
    """The widest and the narrowest width at their dots: outside the curve, unless the level line runs
    there.
    """
    placed = []
    for place, up in ((year.widest, True), (year.narrowest, False)):
        x, y = points(year)[place]
        words = year.months[place].width
        beyond = y - level if up else level - y  # how far outside the curve the level line runs
        base = y - _OVER if up == (beyond <= 0 or beyond >= _NEAR) else y + _UNDER
        room = text_width(words)
        placed.append(_Words(min(max(x - room / 2, 0.0), WIDTH - room), base, words))
    return placed


def _made_label(year: YearOfSeasons, level: float, extremes: list[_Words]) -> _Words:
    """The words of the level line, at an end or in the middle, where the curve and the figures leave most
    room.
    """
    room, curve = text_width(year.made), points(year)

    def covered(label: _Words) -> int:
        middle = label.base - LABEL * 0.35
        tried = (label.left + room * place / _TRIED for place in range(_TRIED + 1))
        by_curve = sum(abs(_at(curve, x) - middle) < LABEL * 0.8 for x in tried)
        return by_curve + _TRIED * sum(label.meets(other) for other in extremes)

    bases = (level - 5, level + LABEL + 1)
    lefts = (0.0, WIDTH - room, (WIDTH - room) / 2)
    return min((_Words(left, base, year.made) for base in bases for left in lefts), key=covered)


def _months(year: YearOfSeasons) -> list[Markup]:
    """The axis: a mark between months, their letters below."""
    step, at = WIDTH / len(year.months), _AXIS - LINE + 1
    parts = [line(0, at, WIDTH, at, "thin axis")]
    parts += [
        line(place * step, at - 4, place * step, at, "thin axis") for place in range(len(year.months) + 1)
    ]
    letters = zip(points(year), year.months, strict=True)
    return parts + [text(x, _AXIS, month.initial, kind="word month") for (x, _), month in letters]


def draw_year(year: YearOfSeasons, name: str) -> Markup:
    """The picture of a year; `name` makes its ids."""
    level = height_of(year, year.made_m)
    extremes = _extremes(year, level)
    parts = [*_months(year), line(0, level, WIDTH, level, "thin made"), _curve(year)]
    parts += [dot(*points(year)[place], _DOT) for place in (year.widest, year.narrowest)]
    parts.append(_made_label(year, level, extremes).draw("word quiet"))
    parts += [words.draw("word figure") for words in extremes]
    return drawing(name, "year", (WIDTH, HEIGHT), year.title, f"{year.sentence} {year.by_month}", *parts)

"""A finish in time: a bar to the scale of days, its coats as dots, its dates on leaders.

Empty while it must be left alone, hatched while it hardens (closer where it may already be hard), solid from
then on.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from markupsafe import Markup

from buildbook.pages.drawn.finish_line import FinishLine
from buildbook.render.drawing.svg import (
    LINE,
    VISIBLE,
    dot,
    drawing,
    hatch,
    line,
    rect,
    solid,
    text,
    text_width,
)

WIDTH = 340.0
_INSET = 5.0
_BAR = 10.0
_TAIL = 0.12  # of the width: the solid bar after the last day
_LEADER = 8.0
_WIDE, _CLOSE = 9.0, 3.5  # steps of the hatching
_GAP = 8.0  # between two labels, and between a label and a leader that goes past it
_LONGEST = 155.0  # of a line of lettering


@dataclass(frozen=True)
class _Label:
    """Lines of lettering that point at a place on the bar; `row` counts away from it."""

    at: float
    lines: tuple[str, ...]
    left: float
    row: int = 0

    @property
    def right(self) -> float:
        return self.left + max(map(text_width, self.lines))


def _folded(words: str) -> tuple[str, ...]:
    """One line, or two where it is long: two labels of folded lines always find room (see `_pair`)."""
    if text_width(words) <= _LONGEST or " " not in words:
        return (words,)
    gaps = [place for place, letter in enumerate(words) if letter == " "]
    middle = min(gaps, key=lambda place: abs(place - len(words) / 2))
    return words[:middle], words[middle + 1 :]


def _label(at: float, word: str, when: str) -> _Label:
    """Centred on its place as far as the drawing is wide."""
    lines = (word, *_folded(when))
    room = max(map(text_width, lines))
    return _Label(at, lines, min(max(at - room / 2, 0.0), WIDTH - room))


def place_of(finish: FinishLine, day: date) -> float:
    """Where a day is drawn."""
    days = max((finish.last_day - finish.first_day).days, 1)
    return _INSET + (day - finish.first_day).days / days * (WIDTH * (1 - _TAIL) - _INSET)


def _pair(first: _Label, second: _Label) -> list[_Label]:
    """Two labels, `second` further right: side by side, else one above the other with its leader past the
    lower.
    """
    if first.right + _GAP <= second.left:
        return [first, second]
    room = second.right - second.left
    left = max(second.left, first.at + _GAP)
    if left + room <= WIDTH:
        return [replace(first, row=1), replace(second, left=left)]
    left = max(min(first.left, second.at - _GAP - (first.right - first.left)), 0.0)
    return [replace(first, left=left), replace(second, row=1)]


def _depth(labels: list[_Label]) -> float:
    """The room that labels take above or below the bar."""
    if not labels:
        return VISIBLE
    return _LEADER + (max(label.row for label in labels) + 1) * _row_height(labels)


def _row_height(labels: list[_Label]) -> float:
    return max(len(label.lines) for label in labels) * LINE + 4


def _anchored(label: _Label) -> tuple[str, float]:
    """How the lines of a label are set, so that they stay where they were measured."""
    if label.left <= label.at <= label.left + _GAP or label.left == 0.0 or label.at < label.left:
        return "start", label.left
    if label.right - _GAP <= label.at <= label.right or label.right >= WIDTH:
        return "end", label.right
    return "middle", (label.left + label.right) / 2


def _lettering(labels: list[_Label], edge: float, up: bool) -> list[Markup]:
    parts = []
    for label in labels:
        away = _LEADER + label.row * _row_height(labels)
        end = edge - away if up else edge + away
        base = end - len(label.lines) * LINE + 8 if up else end + LINE - 3
        anchor, x = _anchored(label)
        parts.append(line(label.at, edge, label.at, end, "thin leader"))
        for place, words in enumerate(label.lines):
            parts.append(text(x, base + place * (LINE - 1), words, anchor, "word" if place else "word quiet"))
    return parts


def _bar(finish: FinishLine, top: float) -> list[Markup]:
    last = place_of(finish, max(finish.coats))
    hard_from, hard_to = place_of(finish, finish.hard_from), place_of(finish, finish.hard_to)
    light = place_of(finish, finish.light_use_from) if finish.light_use_from else hard_from
    middle = top + _BAR / 2
    parts = [line(place_of(finish, min(finish.coats)), middle, last, middle, "visible")]
    parts += [
        hatch(light, top, hard_from - light, _BAR, _WIDE),
        hatch(hard_from, top, hard_to - hard_from, _BAR, _CLOSE),
    ]
    parts.append(rect(last, top, hard_to - last, _BAR))
    parts += [line(x, top, x, top + _BAR, "visible") for x in (light, hard_from)]
    right = WIDTH - VISIBLE / 2
    parts.append(
        solid([(hard_to, top), (right, top), (right, top + _BAR), (hard_to, top + _BAR)], "solid bar")
    )
    parts += [dot(place_of(finish, day), middle, _BAR / 2 - 0.5, "solid coat") for day in finish.coats]
    return parts


def draw_finish_line(finish: FinishLine, name: str) -> Markup:
    """The picture of one finish; `name` makes its ids."""
    coats = _label(place_of(finish, min(finish.coats)), finish.coats_word, finish.coats_when)
    hard = _label(place_of(finish, finish.hard_to), finish.hard_word, finish.hard_when)
    above = _pair(coats, hard)
    light = finish.light_use_from
    below = [_label(place_of(finish, light), finish.light_word, finish.light_when)] if light else []
    top = _depth(above)
    parts = _bar(finish, top) + _lettering(above, top, up=True) + _lettering(below, top + _BAR, up=False)
    size = (WIDTH, top + _BAR + _depth(below))
    return drawing(name, "finish-line", size, finish.title, finish.sentence, *parts)

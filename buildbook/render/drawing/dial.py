"""A hygrometer's face: half a circle from 0 to 100 %, the good band inside the scale, the client's air
outside it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from markupsafe import Markup

from buildbook.pages.drawn.year import Dial
from buildbook.render.drawing.svg import (
    LABEL,
    LINE,
    drawing,
    element,
    line,
    number,
    path,
    solid,
    text,
    text_width,
)

RADIUS = 76.0
WIDTH, HEIGHT = 248.0, 136.0
CENTRE = (WIDTH / 2, HEIGHT - 17)
_MAJOR, _MINOR = 8.0, 4.5  # marks, inwards from the rim
_BAND = (RADIUS - 11, RADIUS - 25)
_NUMBERED = range(0, 101, 20)
_POINTER, _POINTER_HALF = 8.0, 3.5  # length, and half its width
_ROOMS = RADIUS + 5  # the arc of the client's rooms
_CLEAR = RADIUS + _POINTER + 4  # lettering outside the rim keeps this far from the centre
_STEP_PCT = 1.0


def spot(percent: float, radius: float) -> tuple[float, float]:
    """Where a humidity is drawn on a circle about the centre."""
    turn = math.pi * (1 - percent / 100)
    return CENTRE[0] + radius * math.cos(turn), CENTRE[1] - radius * math.sin(turn)


def _arc(low: float, high: float, radius: float, kind: str) -> Markup:
    return path(["M", *spot(low, radius), "A", radius, radius, 0, 0, 1, *spot(high, radius)], kind)


def _band(low: float, high: float) -> Markup:
    outer, inner = _BAND
    steps: list[str | float] = ["M", *spot(low, outer), "A", outer, outer, 0, 0, 1, *spot(high, outer)]
    steps += ["L", *spot(high, inner), "A", inner, inner, 0, 0, 0, *spot(low, inner), "Z"]
    told = " ".join(step if isinstance(step, str) else number(float(step)) for step in steps)
    return element("path", d=told, class_="solid band", fill="currentColor", stroke="none")


def _scale() -> list[Markup]:
    parts = [_arc(0, 100, RADIUS, "visible"), line(*spot(0, RADIUS), *spot(100, RADIUS), "visible")]
    for percent in range(5, 100, 5):
        reach = _MAJOR if percent % 10 == 0 else _MINOR
        parts.append(line(*spot(percent, RADIUS), *spot(percent, RADIUS - reach), "thin tick"))
    for percent in _NUMBERED:
        x, y = spot(percent, _BAND[1] - 11)
        parts.append(
            text(x, y + LABEL * 0.35 if 0 < percent < 100 else y - 4, str(percent), kind="word quiet")
        )
    return parts


def _pointer(percent: float) -> Markup:
    """A mark outside the rim that points at the scale."""
    aside = math.degrees(_POINTER_HALF / (RADIUS + _POINTER)) / 180 * 100
    back = RADIUS + _POINTER
    return solid(
        [spot(percent, RADIUS + 1), spot(percent - aside, back), spot(percent + aside, back)], "solid pointer"
    )


@dataclass(frozen=True)
class _Box:
    """Two lines of lettering about a middle."""

    x: float
    y: float
    wide: float
    tall: float

    def from_centre(self) -> float:
        beside = max(abs(self.x - CENTRE[0]) - self.wide / 2, 0.0)
        over = max(abs(self.y - CENTRE[1]) - self.tall / 2, 0.0)
        return math.hypot(beside, over)

    def meets(self, other: _Box) -> bool:
        across = abs(self.x - other.x) < (self.wide + other.wide) / 2 + 4
        return across and abs(self.y - other.y) < (self.tall + other.tall) / 2


def _box(percent: float, words: tuple[str, str]) -> _Box:
    """Lettering in the direction of a humidity, as near to the rim as it can stand."""
    wide, tall = max(map(text_width, words)), 2 * LINE - 2
    reach = _CLEAR
    while (box := _Box(*spot(percent, reach), wide, tall)).from_centre() < _CLEAR:
        reach += 1
    return box


def _boxes(dial: Dial) -> tuple[_Box, _Box]:
    """Where the client's driest and dampest are lettered; pushed apart along the rim until they stand
    clear.
    """
    dry, damp = (dial.dry, dial.low), (dial.damp, dial.high)
    low, high = dial.low_pct, dial.high_pct
    while (one := _box(low, dry)).meets(two := _box(high, damp)):
        low, high = max(low - _STEP_PCT, 0.0), min(high + _STEP_PCT, 100.0)
    return one, two


def _lettering(box: _Box, word: str, figure: str) -> list[Markup]:
    base = box.y - 2
    return [
        text(box.x, base, word, kind="word quiet"),
        text(box.x, base + LINE - 2, figure, kind="word figure"),
    ]


def draw_dial(dial: Dial, name: str) -> Markup:
    """The face; `name` makes its ids."""
    parts = [_band(dial.good_low_pct, dial.good_high_pct), *_scale()]
    parts.append(_arc(dial.low_pct, dial.high_pct, _ROOMS, "visible rooms"))
    parts += [_pointer(dial.low_pct), _pointer(dial.high_pct)]
    one, two = _boxes(dial)
    parts += _lettering(one, dial.dry, dial.low) + _lettering(two, dial.damp, dial.high)
    x, y = spot((dial.good_low_pct + dial.good_high_pct) / 2, _BAND[1] - 30)
    parts.append(text(x, y + LABEL * 0.3, dial.good, kind="word good"))
    return drawing(name, "dial", (WIDTH, HEIGHT), dial.title, dial.sentence, *parts)

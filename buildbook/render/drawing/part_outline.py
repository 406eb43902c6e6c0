"""A part as it is set out: its scale, its outline between the shoulders, tenons and taper, and where it is broken.

The scale is the largest that fits a telephone. Where a part is so long that it would be a thread, a piece without
places is left out between two break lines (ISO 128-3).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from buildbook.pages.drawn.set_out import SetOut
from buildbook.pages.drawn.shaped import Tenon
from buildbook.render.drawing.svg import path

_TALLEST = 170.0  # of a face
_LEAST_TALL = 20.0  # a face that would be lower is drawn broken
_GAP = 7.0  # between the two break lines
_STUB = 22.0  # what stays of a part on each side of a break, at least
_ZIGZAG = 4.0


# -- scale -----------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Ruler:
    """Turns metres along a part into places in the drawing. `cut`: what is left out, in metres."""

    left: float
    scale: float
    cut: tuple[float, float] | None = None

    def __call__(self, along_m: float) -> float:
        if self.cut is None or along_m <= self.cut[0]:
            return self.left + along_m * self.scale
        removed = (self.cut[1] - self.cut[0]) * self.scale - _GAP
        return self.left + along_m * self.scale - removed

    def across(self, across_m: float) -> float:
        return across_m * self.scale


def ruler_of(part: SetOut, left: float, right: float) -> Ruler:
    """The largest scale at which the part fits between two places, broken where it would be too thin."""
    room = right - left
    whole = min(room / part.length_m, _TALLEST / part.width_m)
    wanted = _LEAST_TALL / part.width_m
    if whole >= wanted:
        return Ruler(left, whole)
    low, high = _quiet(part)
    kept = part.length_m - (high - low)
    stub = min(_STUB / wanted, (high - low) / 2)
    scale = min(wanted, (room - _GAP) / (kept + 2 * stub))
    out = part.length_m - (room - _GAP) / scale
    if out <= 0 or scale <= whole:
        return Ruler(left, whole)
    start = low + ((high - low) - out) / 2
    return Ruler(left, scale, (start, start + out))


def _quiet(part: SetOut) -> tuple[float, float]:
    """The longest stretch along the part in which nothing has its place."""
    stops = {0.0, part.length_m}
    for one in part.dimensions:
        if one.on == "along":
            stops |= {one.start_m, one.end_m}
    stops |= {mark.along_m for mark in part.marks if mark.along_m is not None}
    tapered = (part.taper.end_m, part.taper.start_m) if part.taper else None
    ordered = sorted(stops)
    pairs = [pair for pair in itertools.pairwise(ordered) if not _in(pair, tapered)]
    return max(pairs, key=lambda pair: (pair[1] - pair[0], -pair[0]), default=(0.0, 0.0))


def _in(pair: tuple[float, float], run: tuple[float, float] | None) -> bool:
    return run is not None and pair[0] < run[1] and run[0] < pair[1]


# -- face and edge ---------------------------------------------------------------------------------


def face(part: SetOut, ruler: Ruler, top: float) -> list[Markup]:
    return body(part, ruler, top, ruler.across(part.width_m), edge=False)


def body(part: SetOut, ruler: Ruler, top: float, tall: float, *, edge: bool) -> list[Markup]:
    """The outline between the shoulders, broken where the ruler is, and the tenons at its ends."""
    tenons = part.tenons or (Tenon(0.0), Tenon(0.0))
    left, right = ruler(tenons[0].length_m), ruler(part.length_m - tenons[1].length_m)
    upper, lower = _profile(part, ruler, top, tall, left, right, edge=edge)
    kind = f"visible {'thickness' if edge else 'face'}"
    drawn = []
    if ruler.cut is None:
        drawn.append(_closed([*upper, *reversed(lower)], kind))
    else:
        first, second = ruler(ruler.cut[0]), ruler(ruler.cut[1])
        for at, within in ((first, lambda x: x <= first), (second, lambda x: x >= second)):
            above = [point for point in upper if within(point[0])]
            below = [point for point in lower if within(point[0])]
            ends = ((at, _level(upper, at)), (at, _level(lower, at)))
            if at == first:
                points = [ends[0], *reversed(above), *below, ends[1]]
            else:
                points = [ends[0], *above, *reversed(below), ends[1]]
            drawn.append(_open(points, kind))
            drawn.append(_break_line(at, ends[0][1], ends[1][1]))
    for at_left, tenon in ((True, tenons[0]), (False, tenons[1])):
        drawn += _tenon(part, tenon, ruler, (left if at_left else right), at_left, top, tall, edge=edge)
    return drawn


_Points = list[tuple[float, float]]


def _profile(
    part: SetOut, ruler: Ruler, top: float, tall: float, left: float, right: float, *, edge: bool
) -> tuple[_Points, _Points]:
    """The upper and the lower line of the outline, from left to right."""
    upper, lower = [(left, top), (right, top)], [(left, top + tall), (right, top + tall)]
    taper = part.taper
    if taper is None or (edge and not taper.on_edge):
        return upper, lower
    off_upper, off_lower = off(part, ruler.scale)
    end = ruler(taper.start_m)
    upper, lower = [(left, top + off_upper)], [(left, top + tall - off_lower)]
    if end < right - 0.01:
        upper.append((end, top))
        lower.append((end, top + tall))
    return [*upper, (right, top)], [*lower, (right, top + tall)]


def off(part: SetOut, scale: float) -> tuple[float, float]:
    """What a taper takes off at its narrow end, above and below."""
    if part.taper is None:
        return 0.0, 0.0
    less = (part.taper.from_m - part.taper.to_m) * scale
    return (0.0, less) if part.taper.sides == "one" else (less / 2, less / 2)


def _level(points: _Points, at: float) -> float:
    """How high a line of the outline is at a place."""
    for (x1, y1), (x2, y2) in itertools.pairwise(points):
        if x1 <= at <= x2 and x2 > x1:
            return y1 + (y2 - y1) * (at - x1) / (x2 - x1)
    return points[-1][1]


def _tenon(
    part: SetOut,
    tenon: Tenon,
    ruler: Ruler,
    shoulder: float,
    at_left: bool,
    top: float,
    tall: float,
    *,
    edge: bool,
) -> list[Markup]:
    """A tenon beyond its shoulder: in the middle of the thickness; of the width too, where no haunch sets it off."""
    if not tenon.length_m:
        return []
    out = ruler.across(tenon.length_m) * (-1 if at_left else 1)
    start, high = across_tenon(tenon, ruler, top, tall, edge=edge)
    drawn = [_closed(_box(shoulder, start, out, high), "fine-visible tenon")]
    if not edge and tenon.haunch:
        wide, deep = (ruler.across(one) for one in tenon.haunch)
        drawn.append(
            _closed(_box(shoulder, start - wide, math.copysign(deep, out), wide), "fine-visible haunch")
        )
    return drawn


def across_tenon(tenon: Tenon, ruler: Ruler, top: float, tall: float, *, edge: bool) -> tuple[float, float]:
    """Where a tenon begins across the part, from above, and how far it goes."""
    size = tenon.thickness_m if edge else tenon.width_m
    high = min(ruler.across(size), tall) if size else tall
    if not edge and tenon.rest_m is not None:
        return top + tall - ruler.across(tenon.rest_m) - high, high
    return top + (tall - high) / 2, high


def _box(x: float, y: float, wide: float, tall: float) -> _Points:
    return [(x, y), (x + wide, y), (x + wide, y + tall), (x, y + tall)]


def _open(points: Sequence[tuple[float, float]], kind: str) -> Markup:
    steps: list[str | float] = ["M", *points[0]]
    for point in points[1:]:
        steps += ["L", *point]
    return path(steps, kind)


def _closed(points: Sequence[tuple[float, float]], kind: str) -> Markup:
    steps: list[str | float] = ["M", *points[0]]
    for point in points[1:]:
        steps += ["L", *point]
    return path([*steps, "Z"], kind)


def _break_line(x: float, top: float, bottom: float) -> Markup:
    """A thin line with a zigzag in its middle, past the outline at both ends."""
    middle, half = (top + bottom) / 2, min(_ZIGZAG, (bottom - top) / 4)
    points = [
        (x, top - _ZIGZAG / 2),
        (x, middle - half),
        (x - 2.5, middle - half / 3),
        (x + 2.5, middle + half / 3),
        (x, middle + half),
        (x, bottom + _ZIGZAG / 2),
    ]
    return _open(points, "fine break")

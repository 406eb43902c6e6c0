"""Outlines of parts in full size: a taper, a bow by its chord and rise, a curve through points. Lengths in metres.

x goes across, y along the part from its top. An outline is closed; its first point is not told again at the end.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

Point = tuple[float, float]

FLAT_M = 0.00002
"""How far a chord may stand off the curve it stands for: a fifth of the finest line that is printed."""


def tapered(
    length_m: float, wide_m: float, narrow_m: float, start_m: float, end_m: float, *, both: bool
) -> tuple[Point, ...]:
    """A part that is `wide_m` down to `start_m` from its top, then narrows straight to `narrow_m` at `end_m`, and keeps
    that to its foot. On one edge, the other straight; with `both`, on both alike.

    Raises ValueError where the figures are no taper of such a part.
    """
    if not (0 <= start_m < end_m <= length_m and 0 < narrow_m < wide_m):
        raise ValueError("no taper")
    off = (wide_m - narrow_m) / 2 if both else 0.0
    right = [(wide_m, 0.0), (wide_m, start_m), (wide_m - off if both else narrow_m, end_m)]
    right.append((right[-1][0], length_m))
    left = (
        [(off, length_m), (off, end_m), (0.0, start_m), (0.0, 0.0)] if both else [(0.0, length_m), (0.0, 0.0)]
    )
    return tuple(dict.fromkeys([*right, *left]))


def bow(chord_m: float, rise_m: float) -> tuple[Point, ...]:
    """The segment of a circle over a chord, its rise upwards: radius = (c²/4 + h²) / 2h (the sagitta formula).

    Raises ValueError for a rise of more than half the chord, which is no bow of a part.
    """
    if not 0 < rise_m <= chord_m / 2:
        raise ValueError("no bow")
    radius_m = (chord_m**2 / 4 + rise_m**2) / (2 * rise_m)
    half = math.asin(min(1.0, chord_m / 2 / radius_m))
    step = 2 * math.acos(max(0.0, 1 - FLAT_M / radius_m))
    count = max(2, math.ceil(2 * half / step))
    angles = (-half + 2 * half * number / count for number in range(count + 1))
    return tuple(
        (chord_m / 2 + radius_m * math.sin(angle), rise_m - radius_m * (math.cos(angle) - math.cos(half)))
        for angle in angles
    )


def fair(points: Sequence[Point]) -> tuple[Point, ...]:
    """A part with one straight edge, its other through the points (distance from the straight edge, place along): the
    natural cubic spline, as a batten lies that is held at them.

    Raises ValueError for fewer than three points, or for places that do not grow.
    """
    along = [y for _, y in points]
    if len(points) < 3 or any(b <= a for a, b in pairwise(along)):
        raise ValueError("no curve")
    seconds = _seconds(points)
    curve: list[Point] = []
    for number, ((x0, y0), (x1, y1)) in enumerate(pairwise(points)):
        h, (m0, m1) = y1 - y0, seconds[number : number + 2]
        bent = max(abs(m0), abs(m1))
        steps = max(1, math.ceil(h * math.sqrt(bent / (8 * FLAT_M))))
        for step in range(steps):
            t = h * step / steps
            a, b = h - t, t
            x = (m0 * a**3 + m1 * b**3) / (6 * h) + (x0 / h - m0 * h / 6) * a + (x1 / h - m1 * h / 6) * b
            curve.append((x, y0 + t))
    return (*curve, points[-1], (0.0, along[-1]), (0.0, along[0]))


def _seconds(points: Sequence[Point]) -> list[float]:
    """The second derivatives at the points, none at the ends: a tridiagonal system, solved forwards and back."""
    count = len(points)
    gaps = [points[i + 1][1] - points[i][1] for i in range(count - 1)]
    rises = [(points[i + 1][0] - points[i][0]) / gaps[i] for i in range(count - 1)]
    upper, right = [0.0] * count, [0.0] * count
    for i in range(1, count - 1):
        pivot = 2 * (gaps[i - 1] + gaps[i]) - gaps[i - 1] * upper[i - 1]
        upper[i] = gaps[i] / pivot
        right[i] = (6 * (rises[i] - rises[i - 1]) - gaps[i - 1] * right[i - 1]) / pivot
    seconds = [0.0] * count
    for i in range(count - 2, 0, -1):
        seconds[i] = right[i] - upper[i] * seconds[i + 1]
    return seconds

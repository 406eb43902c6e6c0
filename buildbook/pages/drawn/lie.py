"""How a part lies in the piece, and where on its face a place is that a line gives by front, top, left or ends.

In: a part, the height of the piece, a distance and from where it counts. Out: axes and places on the face. What cannot
be told is None: it is left to the words. The names that tell are `lies.toml`.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any, Literal

from buildbook.job.model import Part
from buildbook.signs import holds

Axis = Literal["side", "height", "depth"]
On = Literal["along", "across"]
FIRST: dict[Axis, str] = {"height": "bottom", "depth": "front", "side": "left"}
"""Which side of an axis lies at the left of a drawing."""
LAST: dict[Axis, str] = {"height": "top", "depth": "back", "side": "right"}
LOWER: dict[Axis, str] = {"height": "bottom", "depth": "front", "side": "right"}
"""Which lies at its lower line: what stands is laid down to the right, so that its left comes to lie above."""
_PAIRS: dict[str, Axis] = {"sides": "side", "heights": "height", "depths": "depth"}
_SAME_M = 1e-6


@dataclass(frozen=True)
class Lie:
    """What the length and the width of a part run along; None where its name does not tell."""

    length: Axis | None = None
    width: Axis | None = None


@dataclass(frozen=True)
class Spot:
    """Where a distance ends: places from the left (`along`) or from the lower line (`across`), in metres; each with
    the place that it is measured from. `named`: which side of the part was named, empty for both or the middle.
    """

    on: On
    ends: tuple[tuple[float, float], ...]
    named: str = ""


@cache
def _table() -> list[dict[str, Any]]:
    text = resources.files("buildbook.pages.drawn").joinpath("lies.toml").read_text(encoding="utf-8")
    rows: list[dict[str, Any]] = tomllib.loads(text)["lies"]
    return rows


def lie_of(part: Part, piece_height_m: float | None) -> Lie:
    """By its name; nothing is taken for standing that is longer than the piece is high. What is called a side lies in
    a box and stands in a cabinet: without the height of the piece it is not known which.
    """
    row = next((row for row in _table() if holds(row["words"], part.name)), None)
    if row is None or part.length is None:
        return Lie()
    found = Lie(row["length"], row["width"])
    if found.length != "height":
        return found
    if found.width == "depth" and (piece_height_m is None or part.length.m > piece_height_m + _SAME_M):
        return Lie(None, "height") if piece_height_m is not None else Lie()
    if piece_height_m is not None and part.length.m > piece_height_m + _SAME_M:
        return Lie()
    return found


def spot(distance_m: float, start: str, length_m: float, width_m: float, lie: Lie) -> Spot | None:
    """Where on the face a distance ends that counts from `start`, a key of `data/placing.toml`."""
    if start == "in":
        return _in(distance_m, length_m, width_m)
    if start in ("ends", "edges", *_PAIRS):
        on = {"ends": "along", "edges": "across"}.get(start) or _axis_of(_PAIRS.get(start), lie)
        whole = length_m if on == "along" else width_m
        if on not in ("along", "across") or not 0 < 2 * distance_m < whole:
            return None
        both = ((0.0, distance_m), (whole, whole - distance_m))
        return Spot("along" if on == "along" else "across", both)
    axis: Axis = {"bottom": "height", "top": "height", "front": "depth", "back": "depth"}.get(start, "side")  # type: ignore[assignment]
    known = _axis_of(axis, lie)
    if known is None and axis != "depth" and lie == Lie() and width_m < distance_m:
        known = "along"  # it fits nowhere else
    if known is None:
        return None
    whole = length_m if known == "along" else width_m
    if not 0 < distance_m < whole:
        return None
    from_first = start == (FIRST if known == "along" else LOWER)[axis]
    return Spot(known, ((0.0, distance_m) if from_first else (whole, whole - distance_m),), start)


def _axis_of(axis: Axis | None, lie: Lie) -> On | None:
    if axis is None:
        return None
    return "along" if lie.length == axis else "across" if lie.width == axis else None


def _in(distance_m: float, length_m: float, width_m: float) -> Spot | None:
    """A figure whose side is not said: only the middle is the same from either."""
    halves: tuple[tuple[On, float], ...] = (("along", length_m / 2), ("across", width_m / 2))
    found = [on for on, half in halves if abs(half - distance_m) < _SAME_M]
    return Spot(found[0], ((0.0, distance_m),)) if len(found) == 1 else None

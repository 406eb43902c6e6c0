"""Elongated holes against what the edge travels: `elongated holes 8`, `8 mm slots at the front, fixed at the back`.

In: a job and how its parts move. Out: each slot whose length is said, and the way it has to give. A part that is fixed
at one edge moves all its movement at the other; one that is fixed in the middle half of it at each.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from buildbook.job.model import Job, Part
from buildbook.quantity import QuantityError, read_length
from buildbook.signs import says
from buildbook.summary.model import Movement

_FIGURE = r"(?P<{0}>\d[\d.,/ ]*(?:mm|cm|in|[\"″])?)"
_SLOT = r"(?:elongated|slotted|slots?|langl[oö]ch\w*|schlitzl[oö]ch\w*)"
_NAMED = (
    re.compile(rf"{_FIGURE.format('m')}\s*(?:long\s+|lange[nr]?\s+)?{_SLOT}", re.I),
    re.compile(rf"{_SLOT}(?:\s+(?:holes?|screws?))?\s*(?:of|von|:|,)?\s*{_FIGURE.format('m')}", re.I),
)


@dataclass(frozen=True)
class Slot:
    """The slot of a part: how long it is, and how far the edge there travels between the driest and wettest time."""

    part: str
    row: int
    field: str
    slot_m: float
    travel_m: float

    @property
    def ok(self) -> bool:
        return self.slot_m >= self.travel_m


def slots_of(job: Job, movement: tuple[Movement, ...]) -> tuple[Slot, ...]:
    """Every slot whose length is told in the fit or the note of a part that moves."""
    parts = {part.row: part for part in job.parts}
    found = (_slot(parts[moves.row], moves, job.units) for moves in movement)
    return tuple(slot for slot in found if slot is not None)


def _slot(part: Part, moves: Movement, units: str) -> Slot | None:
    travel_m = moves.grows_m + moves.shrinks_m
    if says("fixed-in-the-middle", part.fit, part.note):
        travel_m /= 2
    for field in ("fit", "note"):
        text = getattr(part, field)
        for shape in _NAMED:
            if (match := shape.search(text)) and (slot_m := _length_m(match["m"], units)):
                return Slot(part.name, part.row, field, slot_m, travel_m)
    return None


def _length_m(text: str, units: str) -> float | None:
    try:
        return read_length(text.strip(" ,."), units).m
    except QuantityError:
        return None

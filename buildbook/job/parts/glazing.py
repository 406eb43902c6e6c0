"""Where the glass of a piece sits: by the words of its row, else by its material and the kind of piece.

In: a row of glass and its job. Out: a place of `trade.glass`, or "" where nothing tells it (then `proof` asks). Pure.
"""

from __future__ import annotations

import re
from itertools import chain

from buildbook.job.model import Job, Part
from buildbook.trade import tables
from buildbook.trade.glass import Place
from buildbook.trade.kinds import PieceKind, kind_of

_NAMED: tuple[tuple[str, Place], ...] = (
    ("door", "door"),
    ("doors", "door"),
    ("shelf", "shelf"),
    ("shelves", "shelf"),
    ("top", "top"),
    ("tops", "top"),
    ("lid", "top"),
    ("ceiling", "overhead"),
    ("canopy", "overhead"),
    ("roof", "overhead"),
    ("side", "panel"),
    ("sides", "panel"),
    ("back", "panel"),
    ("end", "panel"),
    ("panel", "panel"),
    ("mirror", "mirror"),
)
_NAMED_AT_THE_END: tuple[tuple[str, Place], ...] = (
    ("tür", "door"),
    ("türen", "door"),
    ("boden", "shelf"),
    ("böden", "shelf"),
    ("ablage", "shelf"),
    ("rückwand", "panel"),
    ("platte", "top"),
    ("deckel", "top"),
    ("dach", "overhead"),
    ("seite", "panel"),
    ("seiten", "panel"),
    ("wand", "panel"),
    ("füllung", "panel"),
    ("spiegel", "mirror"),
)
"""How German words for a place end: `Glastür`, `Einlegeboden`."""

_MIRRORS = frozenset({"mirror", "safety-mirror"})

_BY_KIND: dict[str, Place] = {
    "room-door": "door",
    "tall-clock": "door",
    "clock": "door",
    "mirror": "mirror",
    "leaning-mirror": "mirror",
    "picture-frame": "picture",
    "window": "panel",
    "room-divider": "panel",
    "lamp": "lamp",
    "box": "top",
    "wall-shelf": "shelf",
    "bookcase": "shelf",
}
"""Where glass sits in pieces that have it in one place only."""


def place_of(part: Part, job: Job) -> Place | None:
    """Where a pane is; None where neither its row nor the piece tells."""
    kind = kind_of(job.piece, job.title)
    return _by_name(part.name) or _by_material(part) or _by_kind(part, job, kind)


def _by_name(name: str) -> Place | None:
    words = re.findall(r"[^\W\d_]+", name.casefold())
    whole = (place for word, place in _NAMED if word in words)
    ending = (place for end, place in _NAMED_AT_THE_END if any(word.endswith(end) for word in words))
    return next(chain(whole, ending), None)


def _by_material(part: Part) -> Place | None:
    key = part.key or tables.glass().key_of(part.material)
    return "mirror" if key in _MIRRORS else None


def _by_kind(part: Part, job: Job, kind: PieceKind | None) -> Place | None:
    if kind is None:
        return None
    if kind.key in _BY_KIND:
        return _BY_KIND[kind.key]
    if kind.family == "table":
        return "top"
    panes = sum(row.qty for row in job.parts if row.kind == "glass" and _by_name(row.name) is None)
    return "door" if job.doors and panes == job.doors * job.quantity else None


def is_low(part: Part, job: Job, place: Place | None, low_m: float) -> bool:
    """Whether a part of a pane is lower than `low_m` over the floor, where a body may fall against it.

    By the sizes: in a piece that stands no higher than that, or of a pane too long to sit above it.
    """
    if place in ("shelf", "lamp", "picture", "overhead") or job.overall.height is None:
        return False
    kind = kind_of(job.piece, job.title)
    stands = job.stands == "floor" or (not job.stands and kind is not None and "floor" in kind.has)
    longest_m = max((side.m for side in (part.length, part.width) if side), default=0.0)
    top_m = job.overall.height.m
    return stands and (top_m <= low_m or longest_m > top_m - low_m)

"""What the piece is, what it has, and what reaches it: by its kind, and before that by the job's own words and figures.

In: a job and its figures. Out: `Piece`. Pure. The kinds are the trade's table (`trade.kinds`); what a job says wins:
`drawers = 0` is none, `stands = "table"` stands on no floor, `use = "indoors"` brings no weather.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from buildbook.care.subject import in_piece
from buildbook.job.model import Job
from buildbook.signs import limit, says
from buildbook.summary.place import is_outdoors
from buildbook.trade.kinds import PieceKind, every_key, kind_of


@dataclass(frozen=True)
class Piece:
    """What is true of a piece as a whole.

    kind     its row of the table; None where no row is meant.
    has      of `trade.kinds.HAS`, as far as it is so for this piece.
    reaches  of `trade.kinds.REACHES`, for this piece.
    """

    kind: PieceKind | None
    has: frozenset[str]
    reaches: frozenset[str]

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of its kind and of the wider ones."""
        return every_key(self.kind)

    def is_a(self, *keys: str) -> bool:
        return any(key in self.keys for key in keys)


@lru_cache(maxsize=64)
def _kind(piece: str, title: str) -> PieceKind | None:
    return kind_of(piece, title)


def piece_of(job: Job) -> Piece:
    """What a job's piece is. Nothing is guessed: of an unknown kind only what the job says is true."""
    kind = _kind(job.piece, job.title)
    usual = kind.has if kind else frozenset[str]()
    has = {what for what in usual if what in _AS_THE_KIND}
    if is_furniture(job, kind):
        has.add("furniture")
    place = _place(job, kind)
    if place:
        has.add(place)
    if place == "floor" and kind and kind.key in _LEAN_ON_FLOOR:
        has.add("leans")
    for what, is_so in _opening(job, usual).items():
        has |= {what} if is_so else set()
    if _has_top(job, kind, place):
        has.add("top")
    if is_outdoors(job):
        has.add("outdoors")
    if any(_BUILT_IN.search(text) for text in (job.piece, job.title, *job.tags)):
        has.add("built-in")
    if job.food:
        has.add("food")
    return Piece(kind, frozenset(has), frozenset(_reaching(job, kind, has)))


_AS_THE_KIND = frozenset(
    (
        "seat", "people", "child", "child-fits", "tips", "clothes", "frame", "leans", "built-in", "electric",
        "blades", "food", "castors", "washed-up",
    )
)  # fmt: skip
"""What a piece has as its kind has it; of the rest the job may say otherwise."""

_BUILT_IN = re.compile(r"\b(?:built-in|wall-to-wall|eingebaut)", re.IGNORECASE)
"""What is fixed to the building, in so many words; with its hyphen, for much is built in oak. Kinds of it (a fitted
wardrobe, an Einbauschrank) are rows of the table.
"""

_LEAN_ON_FLOOR = frozenset({"mirror"})
"""Kinds that hang or, on a floor, lean."""

_ON_FEET = ("floor", "wall", "ceiling")


def is_furniture(job: Job, kind: PieceKind | None) -> bool:
    """Whether it stands or hangs in a room; one of an unknown kind, where the job says so."""
    if kind:
        return "furniture" in kind.has
    return job.stands in _ON_FEET or job.hanging is not None or bool(job.doors or job.drawers)


def _place(job: Job, kind: PieceKind | None) -> str:
    """Where it is: `hangs`, `floor`, `on-table`, or "" where that is not known (or it is part of a building)."""
    if job.hanging is not None or job.stands in ("wall", "ceiling"):
        return "hangs"
    if job.stands:
        return "floor" if job.stands == "floor" else "on-table"
    usual = kind.has if kind else frozenset[str]()
    return next((place for place in ("hangs", "floor", "on-table") if place in usual), "")


def _opening(job: Job, usual: frozenset[str]) -> dict[str, bool]:
    """Moving parts: by the job's counts, else by the names of parts for the client, else as its kind has them."""
    names = tuple(part.name for part in in_piece(job) if part.for_client)
    counted = {"drawers": ("drawer", job.drawers), "doors": ("door", job.doors)}
    found = {
        what: count > 0 if count is not None else says(sign, *names) or what in usual
        for what, (sign, count) in counted.items()
    }
    lids = [name for name in names if not (any(found.values()) and says("lid-or-top", name))]
    said = (job.piece, job.title, *job.tags)
    return {
        **found,
        "shelves": says("shelf", *names) or "shelves" in usual,
        "lid": says("lid", *said, *lids) or "lid" in usual,
        "folds": says("folding", *said, *names) or "folds" in usual,
    }


def _has_top(job: Job, kind: PieceKind | None, place: str) -> bool:
    """Whether things are put on it: tops of its kind; of a case that is low enough; of an unknown one by its parts."""
    if kind is None:
        return place == "floor" and any(says("top", part.name) for part in in_piece(job) if part.for_client)
    if "top" in kind.has:
        return True
    height_m = job.overall.height.m if job.overall.height else None
    low = height_m is None or height_m <= limit("low_top_m")
    return "low-top" in kind.has and place != "hangs" and low


def _reaching(job: Job, kind: PieceKind | None, has: set[str]) -> set[str]:
    """What meets it, of all that meets its kind."""
    reaches = set(kind.reaches) if kind else set()
    if kind is None and "furniture" in has:
        reaches = {"hands", "sun"} | ({"cups"} if "top" in has else set())
    if "top" not in has and kind and kind.reaches & {"cups"}:
        reaches -= {"cups", "heat"}
    if "outdoors" in has:
        reaches |= {"weather", "sun"}
    else:
        reaches.discard("weather")
    if job.food:
        reaches.add("food")
    if "electric" in has and kind:
        reaches -= {"cups"}
    return reaches

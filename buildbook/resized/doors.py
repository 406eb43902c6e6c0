"""The doors of a piece, put together from the names of its parts: how wide, high and heavy each is.

In: a `Job`, the masses of its rows. Out: `Door`s. `Glazed door stile` and `Glazed door rail` are of one door; a pane
that is only called `Door light` is of the doors that have no panel. Pure.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import groupby

from buildbook.folding import folded
from buildbook.job.model import Job, Part
from buildbook.resized.runs import runs
from buildbook.signs import says
from buildbook.trade import tables

_LEAVES = ("wood", "panel", "glass")
_WORD = re.compile(r"[^\W\d_]+")


@dataclass(frozen=True)
class Door:
    """One door of a kind: `count` of them in the piece. Sizes are None where parts do not tell them.

    rows   of its parts. hinges: on each. pull_n: what its upper hinge is pulled by, away from the frame.
    """

    name: str
    count: int
    rows: frozenset[int]
    width_m: float | None
    height_m: float | None
    kg: float
    hinges: float | None

    @property
    def pull_n(self) -> float | None:
        """The mass at half the width, held by hinges a usual way from the ends."""
        if self.width_m is None or self.height_m is None:
            return None
        apart_m = self.height_m * (1 - 2 * tables.constant("hinge_inset"))
        return self.kg * tables.constant("gravity") * self.width_m / 2 / apart_m


def doors_of(job: Job, mass_by_row: Mapping[int, float]) -> tuple[Door, ...]:
    """Every kind of door that stands on hinges."""
    if not any(_is_hinge(part) for part in job.parts):
        return ()
    named = [(name, part) for part in job.parts if (name := _door(part))]
    groups = {
        name: [part for _, part in rows]
        for name, rows in groupby(sorted(named, key=_by_name), key=lambda one: one[0])
    }
    groups = _with_loose_parts(groups)
    return tuple(
        door for name, parts in groups.items() if (door := _of(name, parts, len(groups), job, mass_by_row))
    )


def _by_name(one: tuple[str, Part]) -> tuple[str, int]:
    return one[0], one[1].row


def _is_hinge(part: Part) -> bool:
    return part.kind == "hardware" and says("hinge", part.name, part.material)


def _door(part: Part) -> str:
    """Which door a part is of, by its name up to the word for it; empty where it is of none."""
    if part.kind not in _LEAVES or not says("door", part.name):
        return ""
    words: list[str] = []
    for word in _WORD.findall(part.name):
        words.append(word)
        if says("door", word):
            break
    return folded(" ".join(words))


def _with_loose_parts(groups: Mapping[str, list[Part]]) -> dict[str, list[Part]]:
    """Groups that are no frame, put to the frames that have nothing in them, where there is one only."""
    frames = {name: parts for name, parts in groups.items() if any(_is_stile(part) for part in parts)}
    loose = {name: parts for name, parts in groups.items() if name not in frames}
    bare = [name for name, parts in frames.items() if all(_is_stick(part) for part in parts)]
    if len(bare) == 1:
        frames[bare[0]] = [*frames[bare[0]], *(part for parts in loose.values() for part in parts)]
        return frames
    return {**frames, **loose}


def _is_stick(part: Part) -> bool:
    return part.kind == "wood" and not runs(part, "width")


def _is_stile(part: Part) -> bool:
    return _is_stick(part) and runs(part, "length") == ("height",)


def _of(name: str, parts: list[Part], kinds: int, job: Job, mass_by_row: Mapping[int, float]) -> Door | None:
    stiles = [part for part in parts if _is_stile(part)]
    rails = [part for part in parts if _is_stick(part) and part not in stiles]
    boards = [part for part in parts if not _is_stick(part)]
    pieces = job.quantity
    count = (sum(part.qty for part in stiles) // 2 or max((part.qty for part in boards), default=0)) // pieces
    if not count:
        return None
    height_m = max((part.length.m for part in stiles or boards if part.length), default=None)
    return Door(
        name=parts[0].name if len(parts) == 1 else _called(parts[0]),
        count=count,
        rows=frozenset(part.row for part in parts),
        width_m=_width_m(stiles, rails, boards),
        height_m=height_m,
        kg=sum(mass_by_row.get(part.row, 0.0) for part in parts) / (count * pieces),
        hinges=_hinges(name, kinds, count * pieces, job),
    )


def _called(part: Part) -> str:
    """The name of the door as its first part writes it."""
    words: list[str] = []
    for word in _WORD.findall(part.name):
        words.append(word)
        if says("door", word):
            break
    return " ".join(words)


def _width_m(stiles: Iterable[Part], rails: list[Part], boards: list[Part]) -> float | None:
    """A frame: its rails between shoulders and two stiles; where no tenons are told, at least as wide as a rail is
    long. A door of one board: that.
    """
    stile_m = max((part.width.m for part in stiles if part.width), default=None)
    if rails and stile_m is not None:
        between = [m for part in rails if (m := part.between_shoulders_m)]
        if between:
            return max(between) + 2 * stile_m
        return max((part.length.m for part in rails if part.length), default=None)
    return max((part.width.m for part in boards if part.width), default=None)


def _hinges(name: str, kinds: int, doors: int, job: Job) -> float | None:
    """Hinges on each: those that are named after it, else all where there is one kind of door."""
    hinges = [part for part in job.parts if _is_hinge(part)]
    own = [part for part in hinges if set(_WORD.findall(name)) <= set(_WORD.findall(folded(part.name)))]
    counted = own if kinds > 1 else hinges
    return sum(part.qty for part in counted) / doors if counted else None

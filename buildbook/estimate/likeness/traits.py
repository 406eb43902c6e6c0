"""What is compared of a piece, and what drives its hours: traits and drivers of a job.

In: `Job`, `Summary`. Out: `PieceFacts`, in no language; of it and `Words`, `Traits`, with what a page shows of each;
amounts of the drivers. Pure.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass

from buildbook.estimate.settings import driver_rules
from buildbook.folding import folded
from buildbook.job.model import Job, Part
from buildbook.summary.model import Summary
from buildbook.summary.style import both_systems, style_in
from buildbook.trade import tables
from buildbook.words import Words

DRIVERS = (
    "none",
    "rough_volume",
    "wood_parts",
    "joints",
    "finish_area",
    "panes",
    "hardware",
    "doors_drawers",
)
"""What the hours of a stage may go with. Volume in m3, finished area times coats in m2, the others counts."""

_WORD = re.compile(r"[^\W\d_]{2,}")
_WOODEN = ("wood", "panel")

Value = str | float | frozenset[str] | tuple[float | None, ...] | Mapping[str, float] | None


@dataclass(frozen=True)
class PieceFacts:
    """What traits are told from, of one piece of a set, in no language.

    size       width, depth and height in m; units, currency, both_systems: how they are shown
    woods      keys of the trade's table, or a maker's word, with their shares of the volume
    finishes   families, with their English names
    has_parts  whether there is a row of parts.csv; without one `parts` and `panes` tell nothing
    """

    kind: str
    size: tuple[float | None, float | None, float | None]
    units: str
    currency: str
    both_systems: bool
    woods: Mapping[str, float]
    joinery: tuple[str, ...]
    finishes: Mapping[str, str]
    has_parts: bool
    parts: float
    panes: float
    doors: int
    drawers: int
    tags: tuple[str, ...]
    stands: str


@dataclass(frozen=True)
class Traits:
    """A piece as it is compared: a value a trait (None: not known), and in words what it has."""

    values: Mapping[str, Value]
    shown: Mapping[str, str]


def piece_of(job: Job, summary: Summary) -> PieceFacts:
    """What a job tells of one of its pieces. Without parts, the woods that it names."""
    return PieceFacts(
        kind=job.piece,
        size=job.overall.metres,
        units=job.units,
        currency=job.shop.currency,
        both_systems=both_systems(job),
        woods=_wood_shares(job, summary),
        joinery=job.joinery,
        finishes={use.family: use.family_name for use in summary.finish},
        has_parts=bool(job.parts),
        parts=_count(job, _WOODEN),
        panes=_count(job, ("glass",)),
        doors=job.doors or 0,
        drawers=job.drawers or 0,
        tags=job.tags,
        stands=job.stands,
    )


def traits_of(piece: PieceFacts, words: Words) -> Traits:
    """The traits of a piece. Without parts, what parts would tell is not known, but for woods that it names."""
    known = piece.has_parts
    style = style_in(words, piece.units, piece.currency, both=piece.both_systems)
    values: dict[str, Value] = {
        "piece": folded(piece.kind) or None,
        "size": piece.size,
        "woods": piece.woods,
        "joinery": _words(piece.joinery),
        "finish": frozenset(piece.finishes),
        "parts": piece.parts if known else None,
        "doors": float(piece.doors),
        "drawers": float(piece.drawers),
        "panes": piece.panes if known else None,
        "tags": _words(piece.tags),
        "stands": piece.stands or None,
    }
    shown = {
        "piece": piece.kind,
        "size": style.size(*piece.size),
        "woods": ", ".join(_wood_name(key, words) for key in piece.woods),
        "joinery": ", ".join(piece.joinery),
        "finish": ", ".join(words.name("finish_name", key, name) for key, name in piece.finishes.items()),
        "parts": f"{piece.parts:g}" if known else "",
        "doors": str(piece.doors),
        "drawers": str(piece.drawers),
        "panes": f"{piece.panes:g}" if known else "",
        "tags": ", ".join(piece.tags),
        "stands": words.text(f"estimate.stands.{piece.stands}") if piece.stands else "",
    }
    return Traits(values, shown)


def drivers_of(job: Job, summary: Summary) -> dict[str, float]:
    """How much of each driver a piece of a job has. Each grows, or stays, when a row of parts.csv is doubled."""
    pieces = job.quantity
    fitted = sum(part.qty for part in job.parts if part.kind == "hardware" and _counts(part))
    return {
        "none": 1.0,
        "rough_volume": summary.timber.rough_m3 / pieces,
        "wood_parts": _count(job, _WOODEN),
        "joints": float(job.joints) if job.joints is not None else _joints(job) / pieces,
        "finish_area": math.fsum(use.area_m2 * use.coats for use in summary.finish) / pieces,
        "panes": _count(job, ("glass",)),
        "hardware": fitted / pieces,
        "doors_drawers": float((job.doors or 0) + (job.drawers or 0)),
    }


def _count(job: Job, kinds: tuple[str, ...]) -> float:
    """How many parts of some kinds a piece has."""
    return sum(part.qty for part in job.parts if part.kind in kinds) / job.quantity


def _joints(job: Job) -> float:
    """Joints counted from the parts: so many a stick, which is a piece of wood much longer than wide."""
    rules = driver_rules()
    sticks = (
        part.qty
        for part in job.parts
        if part.kind == "wood"
        and part.length
        and part.width
        and part.length.m >= rules.stick_ratio * part.width.m
    )
    return float(rules.ends * sum(sticks))


def _counts(part: Part) -> bool:
    said = f"{part.name} {part.material}".casefold()
    return not any(
        word.startswith(small) or word.endswith(small)
        for word in _WORD.findall(said)
        for small in driver_rules().not_counted
    )


def _wood_shares(job: Job, summary: Summary) -> dict[str, float]:
    """The woods of a piece with their shares of its volume; of one without parts, those that it names."""
    total = summary.timber.net_m3
    if total > 0:
        return {wood.key: wood.net_m3 / total for wood in summary.timber.species}
    named = [wood for wood in job.woods if wood]
    keys = dict.fromkeys(tables.species().key_of(wood, job.shop.place) or folded(wood) for wood in named)
    return {key: 1 / len(keys) for key in keys}


def _wood_name(key: str, words: Words) -> str:
    known = tables.species()
    return words.name("species_name", key, known[key].name) if key in known else key


def _words(texts: tuple[str, ...]) -> frozenset[str]:
    return frozenset(word for text in texts for word in _WORD.findall(text.casefold()))

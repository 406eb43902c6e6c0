"""Facts about everything that is not wood: metal, magnets, glass, stone, upholstery, resin, electrics,
moving parts.

In: the parts, the counts of doors and drawers, the panes. Out: findings, each true of a material or a part
by its name.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from buildbook.care.piece import Piece, piece_of
from buildbook.care.subject import Found, Subject, by_name, in_piece, record
from buildbook.job.model import Job, Part
from buildbook.job.parts.glazing import is_low, place_of
from buildbook.signs import keys, limit, name_in_prose, says
from buildbook.summary.model import Summary
from buildbook.trade import tables
from buildbook.trade.metals import metal_in
from buildbook.trade.records import Metal, Stone
from buildbook.trade.rounds import volume_m3
from buildbook.words import Words

UNSAID = "metal.brass-unsaid"


def found(job: Job, summary: Summary, words: Words) -> Iterator[Found]:
    """Every fact about fittings."""
    piece = piece_of(job)
    yield from _metals(job, summary, words)
    for part in in_piece(job):
        yield from _stone(part, words)
        yield from _upholstery(part, piece, words)
        yield from _words(part, words)
    yield from _glass(job, summary, words)
    yield from _resin(job, words)
    yield from _moving(job, piece)
    if "electric" in piece.has or says("powered", job.title, job.piece, *job.tags):
        yield "electric.any", None


# -- metal and magnets -----------------------------------------------------------------------------


def _metals(job: Job, summary: Summary, words: Words) -> Iterator[Found]:
    silent = _mostly_silent(job, summary)
    for part in in_piece(job):
        if part.kind != "hardware":
            continue
        metal = metal_of(part, summary)
        if says("magnet", part.name, part.material) or (metal and metal.key in keys("magnet")):
            yield "magnet.any", by_name(part, words)
        elif metal is not None:
            name = Subject(name_in_prose(metal, "metal_name", words, part.material), part.for_client)
            facts = _hidden_facts(metal) if is_hidden(part) else _metal_facts(metal, part)
            yield from ((fact, name) for fact in facts if fact != UNSAID or metal.key in silent)


def _mostly_silent(job: Job, summary: Summary) -> frozenset[str]:
    """The kinds of brass and bronze of which at most half the pieces are said to be bare or coated.

    Where most are said, a few without a word are taken to be like the rest.
    """
    said: Counter[str] = Counter()
    for part in in_piece(job):
        seen = part.kind == "hardware" and not is_hidden(part)
        metal = metal_of(part, summary) if seen else None
        if metal and metal.key in keys("brass"):
            said[metal.key] += part.qty if _coat_on(part) != UNSAID else -part.qty
    return frozenset(key for key, more in said.items() if more <= 0)


def is_hidden(part: Part) -> bool:
    """Whether hardware is where no cloth comes: screws, bolts, slides, by its name or what it is first of all; else
    by what its row says of it.
    """
    what = _AND_MORE.split(part.material, maxsplit=1)[0]
    return says("hidden", part.name, what) or says("out-of-sight", part.name, part.material, part.note)


_AND_MORE = re.compile(r",|;|\bwith\b|\bmit\b|\bfor\b|\bfür\b", re.IGNORECASE)
"""After what hardware is, what belongs to it: `brass knob, M4 bolt`."""


def _hidden_facts(metal: Metal) -> Iterator[str]:
    """What is true of metal that nobody wipes: it stains the wood that it is in."""
    if metal.tannin:
        yield "metal.iron"


def _metal_facts(metal: Metal, part: Part) -> Iterator[str]:
    if metal.tannin:
        yield "metal.iron"
    if metal.key in keys("brass"):
        yield _coat_on(part)
    elif metal.key in keys("lead"):
        yield "metal.lead"
    elif metal.key in keys("blackened"):
        yield "metal.blackened"
    else:
        yield f"metal.{metal.care}"
    if says("nickel", metal.name, part.material) and not says("untouched", part.name, part.material):
        yield "metal.nickel"


def _coat_on(part: Part) -> str:
    """Brass and bronze come bare or under a clear coat; the maker's own words tell which, if they do."""
    said = (part.name, part.material, part.note)
    if says("lacquered", *said):
        return "metal.brass-lacquered"
    return "metal.brass-bare" if says("bare", *said) else UNSAID


def metal_of(part: Part, summary: Summary) -> Metal | None:
    """The metal of a hardware row: by its key, its material, or the first metal named in material or name."""
    item = next((item for item in summary.hardware if item.row == part.row), None)
    metals = tables.metals()
    if whole := record(metals, (part.key, item.metal if item else "", part.material)):
        return whole
    return metal_in(part.material) or metal_in(part.name)


# -- glass and stone -------------------------------------------------------------------------------


def _glass(job: Job, summary: Summary, words: Words) -> Iterator[Found]:
    panes = {pane.row: pane for pane in summary.glass.panes}
    for part in in_piece(job):
        if part.kind != "glass":
            continue
        name = by_name(part, words)
        pane = panes.get(part.row)
        kind = record(tables.glass(), (part.key, pane.kind if pane else "", part.material))
        plastic = kind is not None and kind.key in keys("plastic")
        yield "glass.plastic" if plastic else "glass.any", name
        for sign in ("mirror", "leaded"):
            if kind and kind.key in keys(sign):
                yield f"glass.{sign}", name
        if not plastic and not (kind and kind.key in keys("mirror") | keys("leaded")):
            yield "glass.clear", name
        place = place_of(part, job)
        if place is None:
            yield "glass.unsaid", name
        elif place in ("door", "shelf", "top"):
            yield f"glass.{place}", name
        low = is_low(part, job, place, tables.constant("safety_low_furniture"))
        if low:
            yield "glass.low", name
        if kind and kind.key == "toughened" and place != "shelf":
            yield "glass.toughened", name
        risky = place in ("door", "top") or low or (pane and pane.safety)
        if not plastic and risky and place not in ("shelf", "lamp", "picture"):
            yield "glass.at-risk", name
        if place == "top":
            yield "top.heavy", name


def _stone(part: Part, words: Words) -> Iterator[Found]:
    if part.kind != "stone":
        return
    stone = record(tables.stones(), (part.key, part.material))
    name = Subject(name_in_prose(stone, "stone_name", words, part.material), part.for_client)
    if _is_heavy(part, stone) and not says("base", part.name):
        yield "top.heavy", by_name(part, words)
    special = [sign for sign in ("resin-stone", "slate", "tile") if stone and stone.key in keys(sign)]
    yield from ((f"stone.{sign.removesuffix('-stone')}", name) for sign in special)
    further = ("silica", "solid-surface", "sintered", "cement")
    yield from ((f"stone.{sign}", name) for sign in further if stone and stone.key in keys(f"{sign}-stone"))
    if stone and stone.acid:
        yield "stone.acid", name
    elif not special:
        yield "stone.hard", name


def _is_heavy(part: Part, stone: Stone | None) -> bool:
    """Whether it takes care to lift a stone: by its size, else by its name."""
    if part.length and part.width and part.thickness:
        density = stone.density_kg_m3 if stone else limit("stone_kg_m3")
        block_m3 = part.length.m * part.width.m * part.thickness.m
        return volume_m3(block_m3, part.round) * density >= limit("heavy_top_kg")
    return not says("inlay", part.name, part.material)


# -- upholstery, and what only words tell ----------------------------------------------------------


def _upholstery(part: Part, piece: Piece, words: Words) -> Iterator[Found]:
    name = by_name(part, words)
    if says("leather", part.material) or (part.kind == "upholstery" and says("leather", part.name)):
        yield "upholstery.leather", name
    if part.kind != "upholstery" or says("glide", part.name):
        return
    said = (part.name, part.material)
    if says("woven", *said):
        yield "upholstery.cane" if says("cane", *said) else "upholstery.fibre", name
        return
    covered_in_leather = says("leather", *said)
    if not _is_leant_on(part, piece):
        if says("felt", *said) or (
            not covered_in_leather and (says("inside", part.name) or piece.is_a("box"))
        ):
            yield "upholstery.lining", name
        return
    yield "upholstery.padded", name
    if not covered_in_leather:
        yield "upholstery.cloth", name


def _is_leant_on(part: Part, piece: Piece) -> bool:
    """Whether somebody sits, lies or leans on it: no lining, by its name, and no part of a box, a stand or a screen."""
    if says("inside", part.name) or piece.is_a("room-divider"):
        return False
    return piece.kind is None or bool(piece.has & {"furniture", "people", "child", "built-in"})


def _words(part: Part, words: Words) -> Iterator[Found]:
    """Wheels and electrics by the words of a row."""
    said = (part.name, part.material)
    if part.for_client and says("castor", *said):
        yield "part.castor", None
        if says("castor-lock", *said, part.note):
            yield "part.castor-lock", None
    if part.kind == "hardware" and says("stay", *said):
        yield "part.stay", None
    for sign, fact in (("electric", "electric.any"), ("led", "electric.led")):
        if says(sign, *said):
            yield fact, by_name(part, words)


def _resin(job: Job, words: Words) -> Iterator[Found]:
    """Epoxy anywhere; and where it is seen: in a part of the piece, or by the job's own words."""
    for part in job.parts:
        if says("epoxy", part.name, part.material):
            yield "epoxy.any", by_name(part, words)
            if part.kind != "supply":
                yield "epoxy.seen", by_name(part, words)
    if says("epoxy", job.title, *job.tags, *job.features):
        yield from (("epoxy.any", None), ("epoxy.seen", None))


def _moving(job: Job, piece: Piece) -> Iterator[Found]:
    """Moving parts, by the job's counts, its title and tags, the names of its parts, and its kind."""
    names = tuple(part.name for part in in_piece(job) if part.for_client)
    said = (job.title, *job.tags, *names)
    opens = {what: fact for what, fact in _OPENS.items() if what in piece.has}
    sliding = says("sliding", *said)
    metal = any(p.kind == "hardware" and says("metal-runner", p.name, p.material) for p in job.parts)
    unsaid = piece.is_a("kitchen") and not job.drawers and not says("drawer", *names)
    facts = {
        **dict.fromkeys(opens.values(), True),
        "part.sliding": sliding,
        "part.metal-runner": "drawers" in opens and metal,
        "part.wooden-runner": "drawers" in opens and not metal and not unsaid,
        "part.swinging": "doors" in opens and not sliding,
        "part.castor": "castors" in piece.has,
        "part.pinch": _can_pinch(job, piece, sliding=sliding),
    }
    yield from ((fact, None) for fact, holds in facts.items() if holds)


def _can_pinch(job: Job, piece: Piece, *, sliding: bool) -> bool:
    """Whether fingers can be caught: in what folds, in a room's sliding door, in what shuts by small children."""
    if "folds" in piece.has or (sliding and piece.is_a("room-door")):
        return True
    return job.children and bool(piece.has & {"doors", "drawers", "lid"})


_OPENS = {
    "drawers": "part.drawer",
    "doors": "part.door",
    "shelves": "part.shelf",
    "lid": "part.lid",
    "folds": "part.folding",
}
"""What a piece has that opens, and the fact of it."""

"""Facts about everything that is not wood: metal, magnets, glass, stone, upholstery, resin, electrics,
moving parts.

In: the parts, the counts of doors and drawers, the panes. Out: findings, each true of a material or a part
by its name.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from buildbook.care.subject import Found, Subject, by_name, in_piece, record
from buildbook.job.model import Job, Part
from buildbook.signs import keys, name_in_prose, says
from buildbook.summary.model import Summary
from buildbook.trade import tables
from buildbook.trade.metals import metal_in
from buildbook.trade.records import Metal
from buildbook.words import Words

UNSAID = "metal.brass-unsaid"


def found(job: Job, summary: Summary, words: Words) -> Iterator[Found]:
    """Every fact about fittings."""
    yield from _metals(job, summary, words)
    for part in in_piece(job):
        yield from _stone(part, words)
        yield from _upholstery(part, words)
        yield from _words(part, words)
    yield from _glass(job, summary, words)
    yield from _resin(job, words)
    yield from _moving(job)


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
            facts = _metal_facts(metal, part)
            yield from ((fact, name) for fact in facts if fact != UNSAID or metal.key in silent)


def _mostly_silent(job: Job, summary: Summary) -> frozenset[str]:
    """The kinds of brass and bronze of which at most half the pieces are said to be bare or coated.

    Where most are said, a few without a word are taken to be like the rest.
    """
    said: Counter[str] = Counter()
    for part in in_piece(job):
        metal = metal_of(part, summary) if part.kind == "hardware" else None
        if metal and metal.key in keys("brass"):
            said[metal.key] += part.qty if _coat_on(part) != UNSAID else -part.qty
    return frozenset(key for key, more in said.items() if more <= 0)


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
    if says("nickel", metal.name, part.material):
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
        shelf = says("shelf", part.name)
        if shelf:
            yield "glass.shelf", name
        elif kind and kind.key == "toughened":
            yield "glass.toughened", name
        if not plastic and (says("door", part.name) or (pane and pane.safety and not shelf)):
            yield "glass.at-risk", name
        if says("top", part.name):
            yield "top.heavy", name


def _stone(part: Part, words: Words) -> Iterator[Found]:
    if part.kind != "stone":
        return
    stone = record(tables.stones(), (part.key, part.material))
    name = Subject(name_in_prose(stone, "stone_name", words, part.material), part.for_client)
    yield "top.heavy", by_name(part, words)
    special = [sign for sign in ("resin-stone", "slate", "tile") if stone and stone.key in keys(sign)]
    yield from ((f"stone.{sign.removesuffix('-stone')}", name) for sign in special)
    if stone and stone.key in keys("silica-stone"):
        yield "stone.silica", name
    if stone and stone.acid:
        yield "stone.acid", name
    elif not special:
        yield "stone.hard", name


# -- upholstery, and what only words tell ----------------------------------------------------------


def _upholstery(part: Part, words: Words) -> Iterator[Found]:
    name = by_name(part, words)
    if says("leather", part.material) or (part.kind == "upholstery" and says("leather", part.name)):
        yield "upholstery.leather", name
    if part.kind != "upholstery":
        return
    said = (part.name, part.material)
    if says("woven", *said):
        yield "upholstery.woven", name
        return
    yield "upholstery.padded", name
    if not says("leather", *said):
        yield "upholstery.cloth", name


def _words(part: Part, words: Words) -> Iterator[Found]:
    """Shelves, wheels and electrics by the words of a row."""
    said = (part.name, part.material)
    if part.for_client:
        yield from ((f"part.{sign}", None) for sign in ("shelf", "castor") if says(sign, *said))
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


def _moving(job: Job) -> Iterator[Found]:
    """Moving parts: by the job's counts, its title and tags, and the names of the parts that a client reads of."""
    names = tuple(part.name for part in in_piece(job) if part.for_client)
    said = (job.title, *job.tags, *names)
    facts = {
        "part.drawer": job.drawers > 0 or says("drawer", *names),
        "part.door": job.doors > 0 or says("door", *names),
        **{f"part.{sign}": says(sign, *said) for sign in ("sliding", "folding", "lid")},
    }
    metal = any(p.kind == "hardware" and says("metal-runner", p.name, p.material) for p in job.parts)
    facts["part.metal-runner"] = facts["part.drawer"] and metal
    facts["part.wooden-runner"] = facts["part.drawer"] and not metal
    facts["part.swinging"] = facts["part.door"] and not facts["part.sliding"]
    yield from ((fact, None) for fact, holds in facts.items() if holds)

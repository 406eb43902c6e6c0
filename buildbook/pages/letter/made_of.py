"""What a wished-for piece is to be made of, for the letter: sizes, woods, sheets, glass, fittings, finish.

From the rows of the parts file that a client may read; for an enquiry without parts, from the woods that it names.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from buildbook.job.model import Job, Part
from buildbook.pages import sets
from buildbook.pages.materials import material_name
from buildbook.pages.phrases import Phrases, capital
from buildbook.quantity.show import NARROW, TIMES
from buildbook.summary.model import Summary
from buildbook.trade import tables
from buildbook.trade.tables import Place

_PARTS_NAMED = 4  # more names of parts than these are a parts list, which a letter is not
_SHEETS = ("panel", "glass", "stone", "upholstery")


@dataclass(frozen=True)
class MadeFrom:
    """A material or a thing: its name, its botanical name, what it is for or where it comes from."""

    name: str
    botanical: str = ""
    said: str = ""


@dataclass(frozen=True)
class MadeOf:
    """A heading (`Woods`) and what stands under it."""

    label: str
    things: tuple[MadeFrom, ...]


def made_of(job: Job, summary: Summary, phrases: Phrases) -> tuple[MadeOf, ...]:
    """What is to be made, of what: only the headings that have something under them."""
    shown = [part for part in job.parts if part.for_client]
    style = phrases.style
    rows = (
        ("set.label", _one(phrases("letter.pieces", count=job.quantity) if job.quantity > 1 else "")),
        ("letter.size", _one(sets.each(style.size_both(*job.overall.metres), job, phrases))),
        ("letter.woods", tuple(_woods(job, shown, phrases))),
        *((f"letter.{kind}", tuple(_by_material(kind, shown, phrases))) for kind in _SHEETS),
        ("letter.hardware", tuple(_hardware(job, shown, phrases))),
        ("letter.finish", tuple(_finishes(job, summary, phrases))),
        ("letter.joinery", _one(capital(", ".join(job.joinery)))),
        (
            "letter.carries",
            _one(capital(_carries(job, phrases))),
        ),
        ("letter.use", _one(capital(job.use.strip()))),
        ("letter.fitting", _one(capital(job.fitting.strip()))),
    )
    return tuple(MadeOf(phrases(key), things) for key, things in rows if things)


def _carries(job: Job, phrases: Phrases) -> str:
    if not job.contents_kg:
        return ""
    return sets.each(phrases("figures.up_to", value=phrases.style.mass(job.contents_kg)), job, phrases)


def _one(text: str) -> tuple[MadeFrom, ...]:
    return (MadeFrom(text),) if text else ()


def drafted_from_woods(job: Job) -> tuple[Part, ...]:
    """The woods that an enquiry names, as rows without sizes: what the trade's table tells of them holds already."""
    return tuple(_named(name, job.shop.place) for name in job.woods)


def _named(name: str, place: Place) -> Part:
    found = tables.species().find(name, place)
    if found is None:
        return Part(0, name, 1, "wood", name)
    return Part(0, name, 1, "wood", name, key=found.record.key, stated=found.stated)


def _groups(parts: Iterable[Part]) -> Iterator[list[Part]]:
    """Rows of the same material and thickness, in the order of the parts file; solid wood whatever its thickness."""
    groups: dict[tuple[str, float | None], list[Part]] = {}
    for part in parts:
        thickness_m = part.thickness.m if part.thickness and part.kind != "wood" else None
        groups.setdefault((part.said, thickness_m), []).append(part)
    yield from groups.values()


def _woods(job: Job, shown: Iterable[Part], phrases: Phrases) -> Iterator[MadeFrom]:
    """The main wood first: as the enquiry names them, then what its parts add."""
    in_parts = {p[0].said: p for p in _groups(p for p in shown if p.kind == "wood")}
    named = {part.said: part for part in drafted_from_woods(job)}
    for key in dict.fromkeys((*named, *in_parts)):
        rows = in_parts.get(key, [])
        first = rows[0] if rows else named[key]
        botanical = tables.species()[first.key].botanical if first.key and first.stated else ""
        yield MadeFrom(capital(material_name(first, phrases)), botanical, _said(rows, phrases))


def _by_material(kind: str, shown: Iterable[Part], phrases: Phrases) -> Iterator[MadeFrom]:
    for rows in _groups(part for part in shown if part.kind == kind):
        first = rows[0]
        thickness = (
            phrases.style.length(first.thickness.m) if first.thickness and kind != "upholstery" else ""
        )
        name = capital(material_name(first, phrases)) or capital(first.name)
        yield MadeFrom(", ".join(text for text in (name, thickness) if text), said=_said(rows, phrases))


def _said(rows: list[Part], phrases: Phrases) -> str:
    """What for, where that is a few words, and where it comes from."""
    names = list(dict.fromkeys(part.name.split(",")[0] for part in rows))
    used_for = phrases.names(names) if len(names) <= _PARTS_NAMED else ""
    origins = dict.fromkeys(part.origin for part in rows if part.origin)
    return "; ".join(text for text in (used_for, *origins) if text)


def _hardware(job: Job, shown: Iterable[Part], phrases: Phrases) -> Iterator[MadeFrom]:
    counts: dict[str, int] = {}
    for part in shown:
        if part.kind == "hardware":
            name = _what_it_is(part)
            counts[name] = counts.get(name, 0) + part.qty
    for name, count in counts.items():
        yield MadeFrom(sets.for_all(f"{count}{NARROW}{TIMES} {name}", job, phrases))


def _what_it_is(part: Part) -> str:
    """`brass butt hinge` of a hinge; `Knob, brass` where the material does not say what the thing is."""
    name = part.name.split(",")[0].strip()
    last = name.split()[-1].casefold() if name else ""
    told = last and last in part.material.casefold()
    return part.material if told else ", ".join(text for text in (name, part.material) if text)


def _finishes(job: Job, summary: Summary, phrases: Phrases) -> Iterator[MadeFrom]:
    """Each finish of the schedule; not one that only rows bear which a client does not read."""
    several = len(summary.finish) > 1
    for use in summary.finish:
        bears = [part for part in job.bearing(use.key) if part.faces != "none"]
        shown = list(dict.fromkeys(part.name.split(",")[0] for part in bears if part.for_client))
        if bears and not shown:
            continue
        where = phrases.names(shown) if several and len(shown) <= _PARTS_NAMED else ""
        yield MadeFrom(capital(phrases.finish(use)), said=where)

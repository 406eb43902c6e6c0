"""What is searched of one job: its words by field, its facets and its sizes.

In: `Job`, `Summary`, `Words`. Out: `Excerpt`s, the words; and `FindRecord`, what the index needs of them. A book keeps
them apart: every record is read at each binding, the words of a job only where it is found. Private.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from datetime import date

from buildbook.find.counting import counts_of, edition
from buildbook.find.excerpt import Excerpt
from buildbook.find.joints import kinds_of, told_in
from buildbook.find.model import FindRecord
from buildbook.folding import folded
from buildbook.job.model import Job, Part
from buildbook.job.notes.places import with_ids
from buildbook.summary.model import Summary
from buildbook.summary.sets import each_of
from buildbook.summary.style import style_of
from buildbook.trade import tables
from buildbook.trade.kinds import kind_of
from buildbook.words import Words

SIDES = ("width", "depth", "height")
_NAMED = 3  # parts that a passage says it belongs to
_TENTHS = 10_000  # of a millimetre in a metre
_MATERIALS = ("panel", "glass", "stone", "upholstery")
_CUT_LIST, _FINISHES, _WORKED = "cut_list", "finishes", "worked"
_TABLES = {"hardware": "hardware", "supply": "supplies"}
"""The ids of the tables of the log, by the kind of a part; the others are in the cut list."""


def passages_of(job: Job, summary: Summary, words: Words) -> tuple[Excerpt, ...]:
    """All words of a job by field, in the language of its shop, each stretch once, the telling ones first."""
    every = (
        Excerpt(*found[:2], " ".join(unicodedata.normalize("NFC", found[2]).split()), *found[3:])
        for found in _passages(job, summary, words, job.last_day or job.begun)
    )
    once: dict[tuple[str, str, str], Excerpt] = {}
    for passage in every:
        if passage.text:
            once.setdefault(passage[:3], passage)
    return tuple(once.values())


def find_record(job: Job, summary: Summary, words: Words, passages: Iterable[Excerpt]) -> FindRecord:
    """The record of a job in the language of its shop. passages: those of `passages_of`."""
    day = job.last_day or job.begun
    return FindRecord(
        key=job.key,
        title=job.title or job.key,
        day=day.isoformat() if day else "",
        hours_h=each_of(summary).hours_h,
        sides=tuple(round(side * _TENTHS) for side in job.overall.metres if side),
        facets=_facets(job, summary, words),
        counted=edition(),
        counts=counts_of(passages),
    )


# -- facets --------------------------------------------------------------------------------------


def _facets(job: Job, summary: Summary, words: Words) -> dict[str, tuple[str, ...]]:
    metals = {metal.name: metal for metal in tables.metals()}
    values: dict[str, Iterable[str]] = {
        "piece": [job.piece],
        "wood": [_wood_name(part, words) for part in job.parts if part.kind == "wood"],
        "finish": [words.name("finish_name", use.family, use.family_name) for use in summary.finish],
        "joinery": job.joinery,
        "metal": [
            words.name("metal_name", metals[item.metal].key, item.metal)
            if item.metal in metals
            else item.metal
            for item in summary.hardware
        ],
    }
    return {
        name: tuple(value[:1].upper() + value[1:] for value in _each_once(some))
        for name, some in values.items()
    }


def _each_once(values: Iterable[str]) -> tuple[str, ...]:
    """Values that differ in more than capitals, as first written."""
    plain = (" ".join(value.split()) for value in values)
    once: dict[str, str] = {}
    for value in plain:
        if value:
            once.setdefault(folded(value), value)
    return tuple(once.values())


def _wood_name(part: Part, words: Words) -> str:
    if part.key not in tables.species():
        return part.material
    return words.name("species_name", part.key, tables.species()[part.key].name)


# -- words ---------------------------------------------------------------------------------------

Found = Iterator[tuple[str, str, str] | tuple[str, str, str, str] | Excerpt]


def _passages(job: Job, summary: Summary, words: Words, day: date | None) -> Found:
    """Every stretch of words with its field, the telling ones first."""
    yield "title", "", job.title or job.key
    yield "piece", "", job.piece
    if kind := kind_of(job.piece, job.title):
        yield "names", "", ", ".join(_each_once(kind.usual))
    yield "number", "", job.number
    if job.quantity > 1:
        yield "number", "", ", ".join(map(job.piece_number, job.numbers))
    yield "client", "", job.client
    for field, several in (("tags", job.tags), ("joinery", job.joinery)):
        for text in several:
            yield field, "", text
    style = style_of(job, words)
    for name, side in zip(SIDES, job.overall.metres, strict=True):
        if side:
            yield "size", words.text(f"find.side.{name}"), style.length_both(side)
    if day:
        yield "date", "", _when(day, job.shop.country_code, words)
    for text in (job.description, *job.features, job.marks, job.use, job.fitting, job.adjusting, *job.limits):
        yield "about", "", text
    yield from _woods(job, summary, words)
    yield from _finishes(job, summary, words)
    yield from _parts(job)
    for working in job.workings:
        yield "working", working.title, f"{working.title} ({working.kind}). {working.note}", _WORKED
    yield from _notes(job)


def _when(day: date, country: str, words: Words) -> str:
    """The month and the season with its year, as a person remembers them; both years for a season over new year."""
    quarter = day.month % 12 // 3
    southern = 2 if country in tables.southern_countries() else 0
    season = words.text(f"find.season.q{(quarter + southern) % 4}")
    first = day.year - (quarter == 0 and day.month != 12)
    years = f"{first}/{first + 1}" if quarter == 0 else str(first)
    return f"{words.month(day)}, {season} {years}"


def _woods(job: Job, summary: Summary, words: Words) -> Found:
    """Each wood by all its names; the one that there is most of is what the piece is said to be made of."""
    parts: dict[str, list[Part]] = {}
    for part in job.parts:
        if part.kind == "wood":
            parts.setdefault(part.same, []).append(part)
    most = max(summary.timber.species, key=lambda wood: wood.net_m3, default=None)
    for key, same in parts.items():
        field = "wood" if not most or key == most.key else "other_wood"
        used_for = _some(part.name for part in same)
        if key not in tables.species():
            yield field, used_for, same[0].material, _CUT_LIST
            continue
        species = tables.species()[key]
        here = words.name("species_name", key, species.name)
        names = (here, species.name, species.botanical, *(part.material for part in same))
        yield field, used_for, ", ".join(_each_once(names)), _CUT_LIST
        yield "names", used_for, ", ".join(species.aliases)
    for origin in dict.fromkeys(part.origin for part in job.parts):
        yield "about", "", origin


def _finishes(job: Job, summary: Summary, words: Words) -> Found:
    notes = {finish.key: finish.note for finish in job.finishes}
    for use in summary.finish:
        called = words.name("finish_name", use.family, use.family_name)
        yield "finish", use.key, ", ".join(_each_once((use.product, called, use.family_name))), _FINISHES
        yield "names", use.product or use.family_name, ", ".join(tables.finishes()[use.family].aliases)
        yield "note", use.key, notes.get(use.key, ""), _FINISHES


def _parts(job: Job) -> Found:
    suppliers: dict[str, list[str]] = {}
    for part in job.parts:
        table = _TABLES.get(part.kind, _CUT_LIST)
        if part.kind == "hardware":
            yield "hardware", part.name, part.material or part.name, table
        elif part.kind in _MATERIALS:
            yield "material", part.name, part.material, table
        elif part.kind == "supply":
            yield "part", "", f"{part.name}, {part.material}" if part.material else part.name, table
        if part.kind != "supply":
            yield "part", "", part.name, table
        yield "note", part.name, part.note, table
        if part.supplier:
            suppliers.setdefault(part.supplier, []).append(part.name)
    for supplier, names in suppliers.items():
        yield "supplier", _some(names), supplier


def _some(names: Iterable[str]) -> str:
    """A few names, each once."""
    every = list(dict.fromkeys(names))
    return ", ".join(every[:_NAMED]) + (" …" if len(every) > _NAMED else "")


def _notes(job: Job) -> Found:
    """What the notes say, each stretch with the id of where it stands on the page of the log."""
    entries = with_ids(job.entries)
    for identity, entry in entries:
        day = entry.day.isoformat()
        yield "entry", day, entry.title, identity
        for picture in entry.pictures:
            yield "caption", day, picture.caption, identity
    for told in told_in(entries, job.joinery):
        field = "cut" if told.cuts else "mark" if told.block.mark else "note"
        keys = sorted(kinds_of(told.joints))
        called = " ".join((told.block.mark, *keys) if told.block.mark else keys)
        yield Excerpt(field, told.day, told.block.text, told.at, called)

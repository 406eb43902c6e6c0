"""What only the maker can tell, for `proof`: what kind of piece it is, where its glass sits, which wood a name means
that may mean several, which wood is protected or eats its fittings, which parts bear a finish that their rows do not
name.

In: `Job`. Out: warnings. Nothing here keeps a job from being bound: of what is not known, only what is true of any
piece is told.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import resources

from buildbook.folding import folded
from buildbook.job.begin.texts import ENGLISH, every_note, spoken
from buildbook.job.lacks.matching import lacks_for_a_match
from buildbook.job.model import Job, Part
from buildbook.job.parts.finished import finishes_taken
from buildbook.job.parts.full_size import unclear
from buildbook.job.parts.glazing import place_of
from buildbook.job.text import shown
from buildbook.problems import Problem, listed
from buildbook.trade import tables
from buildbook.trade.cites import NO_NOTE, listings
from buildbook.trade.kinds import called, kind_of, nearest
from buildbook.trade.metals import metal_in
from buildbook.trade.records import Species
from buildbook.trade.wood_names import meaning_of
from buildbook.words import Words

_USUAL = ("dining table", "chair", "cabinet", "bench", "box")
"""Kinds to name where none is near."""


def open_questions(job: Job) -> list[Problem]:
    """A warning for each thing that care or the matching piece has to know and the job does not tell."""
    return [
        *_kind(job),
        *_examples(job),
        *_glass(job),
        *_woods(job),
        *_protected(job),
        *_corroded(job),
        *finishes_taken(job),
        *lacks_for_a_match(job),
        *unclear(job),
    ]


def _kind(job: Job) -> Iterator[Problem]:
    said = job.piece or job.title
    if not said:
        return
    if kind_of(job.piece, job.title):
        yield from _doubtful(job)
        return  # that nothing is said is a gap of the record
    where = "" if job.piece else " (the title; there is no “piece”)"
    near, usual = (
        tuple(f"“{_as_here(name, job.shop.language)}”" for name in names) for names in (nearest(said), _USUAL)
    )
    yield Problem(
        "warning",
        "job.toml",
        f"{shown(said)}{where} names no kind of piece that is known here:"
        " the page says of its care only what is true of any piece.",
        f"Write piece = … with what it is, such as {listed(near or usual, 'or')}; more words may stand in the title.",
        field="piece",
    )


def _as_here(name: str, language: str) -> str:
    """A kind of piece as the language of the shop calls it."""
    kind = kind_of(name)
    is_foreign = kind is not None and spoken(language) != ENGLISH and name in kind.english
    return kind.usual[-1] if kind and is_foreign else name


@cache
def _doubtful_names() -> Mapping[str, Mapping[str, str]]:
    text = resources.files("buildbook.job").joinpath("data/doubtful_kinds.csv").read_text("utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {row["name"]: row for row in rows}


def _doubtful(job: Job) -> Iterator[Problem]:
    """A name that means another kind of piece where the shop is: what can tip over is not to be taken for a box."""
    named = called(job.piece) or called(job.title)
    row = _doubtful_names().get(named.by, {}) if named else {}
    if not row or job.shop.country_code not in row["countries"].split("; "):
        return
    write = listed([f"“{name}”" for name in row["write"].split("; ")], "or")
    yield Problem(
        "warning",
        "job.toml",
        f"{shown(job.piece or job.title)} may mean {row['there']}; here it was taken for {row['here']}.",
        f"Write piece = … with what it is: {write}.",
        field="piece",
    )


def _examples(job: Job) -> Iterator[Problem]:
    """Parts that are still those with which a job begins, all at once."""
    notes = every_note()
    rows = [part.row for part in job.parts if part.note in notes]
    if rows:
        yield Problem(
            "warning",
            "parts.csv",
            "Still the examples that begin laid out, and told as parts of the piece.",
            "Write your own over them, and over their notes.",
            row=rows[0],
            also=tuple(rows[1:]),
        )


def _glass(job: Job) -> Iterator[Problem]:
    for part in job.parts:
        if part.kind == "glass" and place_of(part, job) is None:
            yield Problem(
                "warning",
                "parts.csv",
                f"Where the glass {shown(part.name)} sits is not told, nor so whether somebody can fall against it.",
                "Name the part by its place: “Door pane”, “Glass shelf”, “Glass top”, “Side pane”.",
                row=part.row,
                field="part",
            )


def _named(wood: Species, words: Words) -> str:
    """A wood with its botanical name, in the language of the shop."""
    name = words.name("species_name", wood.key, "")
    return f"{name} ({wood.botanical})" if name else wood.full_name


def _woods(job: Job) -> Iterator[Problem]:
    """A name that may mean several woods, told once, at its first part; with what of them is protected."""
    told, words = set(), Words(job.shop.language)
    for part in job.parts:
        if part.kind != "wood" or part.stated or folded(part.material) in told:
            continue
        told.add(folded(part.material))
        meant = tables.species().meant(part.material, job.shop.place)
        meaning = meaning_of(part.material, job.shop.place)
        others = [meaning.other] if meaning and meaning.other else []
        taken = words.name("species_name", meant[0].key, meant[0].name)
        protected = [words.name("species_name", wood.key, wood.name) for wood in meant if wood.cites]
        warned = f" Protected by CITES: {listed(protected)}." if protected else ""
        yield Problem(
            "warning",
            "parts.csv",
            f"{shown(part.material)} may be {listed([*(_named(wood, words) for wood in meant), *others], 'or')}."
            f" It is reckoned with as {taken}; no page for the client says which wood it is.{warned}",
            "Write which it is, by its full or its botanical name.",
            row=part.row,
            field="material",
        )


def _protected(job: Job) -> Iterator[Problem]:
    """A wood that CITES lists, once, at its first part: by which annotation, and up to what day that is known."""
    told, words = set(), Words(job.shop.language)
    for part in job.parts:
        listing = listings().get(part.key) if part.kind == "wood" and part.stated else None
        if listing is None or part.key in told:
            continue
        told.add(part.key)
        note = f", annotation {listing.annotation}" if listing.annotation != NO_NOTE else ""
        yield Problem(
            "warning",
            "parts.csv",
            f"{_named(tables.species()[part.key], words)} is listed by CITES in appendix {listing.appendix}{note}"
            f" ({listing.covers}), by the list as known on {listing.known_to.isoformat()}.",
            "Check the current list before wood or piece crosses a border, and keep the papers of the purchase.",
            row=part.row,
            field="material",
        )


def _is_acid(part: Part) -> bool:
    known = tables.species()
    return part.kind == "wood" and part.key in known and known[part.key].corrodes


def _corroded(job: Job) -> Iterator[Problem]:
    """Steel and zinc beside a wood whose acids attack them, once."""
    acid = next((part for part in job.parts if _is_acid(part)), None)
    for part in job.parts:
        metal = metal_in(f"{part.name} {part.material}") if part.kind == "hardware" else None
        if acid is None or metal is None or not metal.tannin or metal.key == "magnet":
            continue
        yield Problem(
            "warning",
            "parts.csv",
            f"The acids of {shown(acid.material)} attack steel and zinc in the damp, and {shown(part.name)} is of"
            f" {metal.name.lower()}.",
            "Take stainless steel or brass, screws too; drill for them, for the wood is brittle.",
            row=part.row,
            field="material",
        )
        return

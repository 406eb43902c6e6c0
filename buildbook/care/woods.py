"""Facts about the wood, the sheet goods and the air they live in.

In: the parts and the figures of timber, movement and air. Out: findings, each true of a wood or a part by
its name.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.care.piece import piece_of
from buildbook.care.subject import Found, Subject, by_name, in_piece, record
from buildbook.job.model import Job, Part
from buildbook.signs import keys, limit, name_in_prose, says
from buildbook.summary.model import Movement, Summary
from buildbook.summary.seasons import is_air_told
from buildbook.summary.wear import is_inside
from buildbook.trade import tables
from buildbook.trade.records import Species
from buildbook.words import Words

LITTLE = "little"  # how a colour change that nobody will notice begins in species.csv


def found(job: Job, summary: Summary, words: Words) -> Iterator[Found]:
    """Every fact about wood and sheets."""
    outdoors = "outdoors" in piece_of(job).has
    for part in in_piece(job):
        if part.kind == "wood":
            yield from _wood(part, job, words, outdoors=outdoors)
        elif part.kind == "panel":
            name = Subject(_sheet_name(part, words), part.for_client)
            yield from (("wood.any", name), ("panel.any", name))
            if part.key not in keys("us-exempt-sheet"):
                yield "panel.us-rule", name
            if part.key not in keys("plain-sheet") and not is_inside(part, job):
                yield "panel.seen", name
    yield from _words(job, words)
    yield from _movement(job, summary, words)
    yield from _air(job, summary)


def species_of(part: Part) -> Species | None:
    """The wood of a part, or None for one that the table does not know."""
    return record(tables.species(), (part.key, part.material))


def changes_colour(species: Species) -> bool:
    """Whether light changes its colour so that anyone will notice."""
    return not species.colour_change.startswith(LITTLE)


def wood_in_prose(species: Species | None, words: Words, otherwise: str = "") -> str:
    """What a wood is called inside a sentence."""
    return name_in_prose(species, "species_name", words, otherwise)


def called(part: Part, words: Words) -> str:
    """A wooden part's wood inside a sentence; by the maker's own word, where that does not say which one it is."""
    return wood_in_prose(species_of(part) if part.stated else None, words, part.material)


def _sheet_name(part: Part, words: Words) -> str:
    sheet = record(tables.sheets(), (part.key, part.material))
    return name_in_prose(sheet, "sheet_name", words, part.material)


def _wood(part: Part, job: Job, words: Words, *, outdoors: bool) -> Iterator[Found]:
    """Of a name that may mean several woods: what is wise with any of them, and nothing that is said of one."""
    species = species_of(part)
    name = Subject(called(part, words), part.for_client)
    yield from (("wood.any", name), ("wood.solid", name))
    if part.origin and part.for_client:
        yield "wood.origin-told", name
    if species is None:
        return
    meant = (species,) if part.stated else tables.species().meant(part.material, job.shop.place) or (species,)
    cites = species.cites if part.stated else ""
    timber_only = any(f"({note})" in cites for note in keys("cites-timber-note"))
    flags = {
        "wood.tannin": any(one.tannin or (outdoors and one.key in keys("tannin-outdoors")) for one in meant),
        "wood.irritant": any(one.irritant for one in meant),
        "wood.sensitiser": any(one.key in keys("sensitiser") for one in meant),
        "wood.cites-goods": bool(cites) and not timber_only,
        "wood.cites-timber": timber_only,
        "wood.aromatic": part.stated and species.key in keys("aromatic"),
        "wood.durable": all(one.key in keys("durable") for one in meant),
        "wood.perishable": any(one.key in keys("perishable") for one in meant)
        and not says("modified", part.material, part.note, part.name),
    }
    yield from ((fact, name) for fact, holds in flags.items() if holds)


def _words(job: Job, words: Words) -> Iterator[Found]:
    """What is only to be had from words: salvage, sapwood, treatment, old paint."""
    rows = [part for part in in_piece(job) if part.kind in ("wood", "panel")]
    for sign in ("salvaged", "sapwood", "treated", "creosote", "old-paint"):
        for part in rows:
            if says(sign, part.name, part.material, part.origin):
                yield f"wood.{sign}", by_name(part, words)
        if rows and says(sign, job.title, *job.tags, *job.features):
            yield f"wood.{sign}", None


def _movement(job: Job, summary: Summary, words: Words) -> Iterator[Found]:
    """Parts that have not the room to swell."""
    names = {part.row: by_name(part, words) for part in job.parts}
    for move in summary.movement:
        if move.ok is False:
            yield "wood.tight", names.get(move.row, Subject(move.part, public=False))


def swing_m(move: Movement) -> float:
    """From the narrowest to the widest that a part gets over a year, in m."""
    return max(move.grows_m + move.shrinks_m, 0.0)


def _air(job: Job, summary: Summary) -> Iterator[Found]:
    """What the client's air asks of solid wood, from the job's or the shop's climate only: an assumed one
    says nothing.
    """
    if not any(part.kind == "wood" for part in job.parts):
        return
    air = summary.air
    if is_air_told(job):
        if air.rh_low_pct < limit("even_low_pct"):
            yield "air.dry", None
        if air.rh_high_pct > limit("even_high_pct"):
            yield "air.damp", None
    if not air.low_mc_pct <= air.made_mc_pct <= air.high_mc_pct:
        yield "air.other-than-made", None

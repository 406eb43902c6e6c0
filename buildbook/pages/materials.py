"""What the piece is made of, for its owner: materials with where they came from, the timber statement, its colour."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from buildbook.job.model import Job, Part
from buildbook.pages import sets
from buildbook.pages.phrases import Phrases, capital
from buildbook.signs import in_prose
from buildbook.summary.model import Movement, Summary
from buildbook.trade import tables

_OAK_BROWN = ("#b98d5b", "#8a6136")  # a plain warm wood, for a piece without any in the table
_KINDS_SHOWN = ("wood", "panel", "glass", "stone", "upholstery", "supply")


@dataclass(frozen=True)
class Material:
    """One material: its names, what it was used for, where it came from."""

    name: str
    botanical: str
    used_for: str
    origin: str
    grew_in: str
    colour: str = ""
    note: str = ""


@dataclass(frozen=True)
class TimberLine:
    """A row of the timber statement."""

    botanical: str
    name: str
    grew_in: str
    volume: str
    net_m3: float = 0.0


def _shown(job: Job) -> list[Part]:
    return [part for part in job.parts if part.for_client]


def _joined(values: Iterable[str], mark: str = "; ") -> str:
    return mark.join(dict.fromkeys(value for value in values if value))


def materials(job: Job, phrases: Phrases) -> tuple[Material, ...]:
    """One row a material, in the order in which the parts file first names it, woods first."""
    groups: dict[tuple[str, str], list[Part]] = {}
    for part in _shown(job):
        if part.kind in _KINDS_SHOWN:
            groups.setdefault((part.kind, part.said or part.name), []).append(part)
    ordered = sorted(groups.items(), key=lambda item: _KINDS_SHOWN.index(item[0][0]))
    return tuple(_material(parts, phrases) for _, parts in ordered)


def others_of(materials: Iterable[Material], phrases: Phrases) -> str:
    """The materials of which there is nothing to say but that they are there, in a sentence."""
    names = [in_prose(one.name, phrases.words) for one in materials if not (one.origin or one.colour)]
    return phrases("client.and_of", what=phrases.listed(names)) if names else ""


def _material(parts: list[Part], phrases: Phrases) -> Material:
    first = parts[0]
    name, botanical, colour, note = material_name(first, phrases), "", "", ""
    if first.kind == "wood" and first.key:
        species = tables.species()[first.key]
        botanical = species.botanical if first.stated else ""
        cuts = list(dict.fromkeys(p.cut for p in parts if p.cut))
        note = capital(phrases.listed(phrases(f"cuts.{cut}") for cut in cuts))
        colour = (
            phrases.words.name("species_colour", first.key, species.colour_change) if first.stated else ""
        )
    return Material(
        name=name,
        botanical=botanical,
        used_for=capital(phrases.names(part.name for part in parts)),
        origin=_joined(part.origin for part in parts),
        grew_in=_joined((_country(part, phrases) for part in parts), ", "),
        colour=colour,
        note=note,
    )


def material_name(part: Part, phrases: Phrases) -> str:
    """The name of a part's material in the page's language; the maker's own word where the table has none, or where it
    does not say which wood is meant.
    """
    if part.kind == "wood" and part.key and part.stated:
        return phrases.words.name("species_name", part.key, tables.species()[part.key].name)
    return capital(part.material or part.name)


def wood_of(job: Job, row: Movement, phrases: Phrases) -> str:
    """The wood of a part that moves, in the page's language."""
    part = next((part for part in job.parts if part.row == row.row), None)
    return material_name(part, phrases) if part else row.species


def _country(part: Part, phrases: Phrases) -> str:
    return phrases.words.name("country_name", part.country_code, part.country)


def timber_statement(job: Job, summary: Summary, phrases: Phrases) -> tuple[TimberLine, ...]:
    """Botanical name, where it grew, net volume: what import papers and buyers of timber ask for, a line a wood.

    Wood whose every row is kept off the client's page is not listed.
    """
    shown: dict[str, list[Part]] = {}
    for part in _shown(job):
        if part.kind == "wood":
            shown.setdefault(part.key, []).append(part)
    return tuple(
        TimberLine(
            botanical=wood.botanical if all(part.stated for part in shown[wood.key]) else "",
            name=_joined((material_name(part, phrases) for part in shown[wood.key]), ", "),
            grew_in=_joined((_country(p, phrases) for p in shown[wood.key]), ", ")
            or phrases("record.not_recorded"),
            volume=sets.for_all(phrases.style.timber(wood.net_m3), job, phrases),
            net_m3=wood.net_m3,
        )
        for wood in summary.timber.species
        if wood.key in shown
    )


def wood_colours(job: Job, summary: Summary) -> tuple[str, str]:
    """The colour of the piece's main wood, freshly planed and aged, as hex."""
    shown = {part.key for part in _shown(job) if part.kind == "wood"}
    woods = [wood for wood in summary.timber.species if wood.key in shown]
    if not woods:
        return _OAK_BROWN
    main = tables.species()[max(woods, key=lambda wood: wood.net_m3).key]
    return main.fresh_hex, main.aged_hex


def woods_colours(job: Job, summary: Summary) -> tuple[str, str]:
    """The colour of the main wood, freshly planed and aged, as hex: by the parts, else the first wood named."""
    if not any(part.kind == "wood" and part.for_client for part in job.parts):
        for name in job.woods:
            if key := tables.species().key_of(name, job.shop.place):
                species = tables.species()[key]
                return species.fresh_hex, species.aged_hex
    return wood_colours(job, summary)

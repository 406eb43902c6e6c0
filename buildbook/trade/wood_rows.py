"""The tables of woods: names and flags, and the figures of each.

In: data/species.csv, data/species_values.csv, data/properties.csv, data/wood_names.csv. Out: records, handed on by
`tables`.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from buildbook.trade import plausible, rows
from buildbook.trade.cites import listings
from buildbook.trade.constants import sourced
from buildbook.trade.lookup import Found, Table
from buildbook.trade.records import Sourced, Species
from buildbook.trade.rows import HALLMARK, NAMES, TableError, TableRow, hallmark
from buildbook.trade.treated import colour, treated_woods
from buildbook.trade.wood_names import ANYWHERE, FILE, Place, meaning_of, meanings

GROUPS = ("hardwood", "softwood")
VALUES = "species_values.csv"


@cache
def _properties() -> dict[str, TableRow]:
    read = rows.read("properties.csv", ("property", "unit", "low", "high", "meaning", "source", "basis"))
    return {row.text("property"): row for row in read}


def figures_of(read: tuple[TableRow, ...]) -> dict[str, dict[str, Sourced]]:
    """The figures of woods by key and property: each of its unit and within its believable range, those of a wood such
    as can stand together. Raises TableError.
    """
    figures: dict[str, dict[str, Sourced]] = {}
    at: dict[tuple[str, str], TableRow] = {}
    for row in read:
        name, key = row.one_of("property", tuple(_properties())), row.text("key")
        rule = _properties()[name]
        row.one_of("unit", (rule.text("unit"),))
        if not rule.number("low") <= row.number("value") <= rule.number("high"):
            raise row.error(f"{name} {row.text('value')} is not believable")
        wood = figures.setdefault(key, {})
        if name in wood:
            raise row.error(f"{name} of {key} stands twice")
        wood[name] = sourced(row, row.between("low", "high", row.text("unit")))
        at[key, name] = row
    for key, wood in figures.items():
        for fault in plausible.faults(wood):
            raise at[key, fault.property].error(f"{fault.property} of {key}: {fault.what}")
    return figures


class Woods(Table[Species]):
    """The woods, found by what their names mean where they were written."""

    def find(self, name: str, place: Place = ANYWHERE) -> Found[Species] | None:
        meaning = meaning_of(name, place)
        if meaning is None:
            return super().find(name)
        record = self[meaning.species[0]]
        if not meaning.asked:
            return Found(record)
        said = f"“{name.strip()}” was taken for {record.full_name}; name it in full if it is another"
        return Found(record, said, stated=False)

    def key_of(self, name: str, place: Place = ANYWHERE) -> str:
        found = self.find(name, place)
        return found.record.key if found else ""

    def meant(self, name: str, place: Place = ANYWHERE) -> tuple[Species, ...]:
        """Every wood that a name may mean in a place, first the one that is reckoned with."""
        if meaning := meaning_of(name, place):
            return tuple(self[key] for key in meaning.species)
        found = self.find(name, place)
        return (found.record,) if found else ()


@cache
def species() -> Woods:
    """The woods, and what becomes of some when they are fumed, steamed or cooked."""
    columns = (
        *NAMES[:2], "botanical", "aliases", "group", "tannin", "irritant",
        "colour_change", "fresh_hex", "aged_hex", *HALLMARK,
    )  # fmt: skip
    values = rows.read(VALUES, ("key", "property", "value", "low", "high", "unit", *HALLMARK))
    figures: dict[str, dict[str, Any]] = {**figures_of(values)}
    read = rows.read("species.csv", columns)
    if strangers := set(figures) - {row.text("key") for row in read}:
        raise TableError(VALUES, 1, f"no such wood in species.csv: {', '.join(sorted(strangers))}")
    loose, listed = _loose(), listings()
    if strangers := set(listed) - {row.text("key") for row in read}:
        raise TableError("cites.csv", 1, f"no such wood in species.csv: {', '.join(sorted(strangers))}")
    if strangers := {key for meaning in meanings() for key in meaning.species} - {
        row.text("key") for row in read
    }:
        raise TableError(FILE, 1, f"no such wood in species.csv: {', '.join(sorted(strangers))}")
    plain = tuple(
        Species(
            key=row.text("key"),
            name=row.text("name"),
            aliases=row.listed("aliases"),
            taken_for=loose.get(row.text("key"), ()),
            **hallmark(row),
            botanical=row.text("botanical"),
            group=row.one_of("group", GROUPS),
            tannin=row.yes("tannin"),
            irritant=row.yes("irritant"),
            cites=listed[row.text("key")].said if row.text("key") in listed else "",
            colour_change=row.text("colour_change"),
            fresh_hex=colour(row, "fresh_hex"),
            aged_hex=colour(row, "aged_hex"),
            **figures.get(row.text("key"), {}),
        )
        for row in read
    )
    return Woods((*plain, *treated_woods({wood.key: wood for wood in plain})))


def _loose() -> dict[str, tuple[str, ...]]:
    """The names that are taken for a wood where nothing is known of the place, by the key of the wood."""
    found: dict[str, tuple[str, ...]] = {}
    for name in dict.fromkeys(name for meaning in meanings() for name in meaning.names):
        if meaning := meaning_of(name):
            found[meaning.species[0]] = (*found.get(meaning.species[0], ()), name)
    return found

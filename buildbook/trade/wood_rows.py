"""The tables of woods: names and flags, and the figures of each.

In: data/species.csv, data/species_values.csv, data/properties.csv. Out: records, handed on by `tables`.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from buildbook.trade import plausible, rows
from buildbook.trade.constants import sourced
from buildbook.trade.lookup import Table
from buildbook.trade.records import Sourced, Species
from buildbook.trade.rows import HALLMARK, NAMES, TableError, TableRow, named

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


@cache
def species() -> Table[Species]:
    """The woods."""
    columns = (
        *NAMES[:2], "botanical", *NAMES[2:], "group", "tannin", "irritant", "cites",
        "colour_change", "fresh_hex", "aged_hex", *HALLMARK,
    )  # fmt: skip
    values = rows.read(VALUES, ("key", "property", "value", "low", "high", "unit", *HALLMARK))
    figures: dict[str, dict[str, Any]] = {**figures_of(values)}
    read = rows.read("species.csv", columns)
    if strangers := set(figures) - {row.text("key") for row in read}:
        raise TableError(VALUES, 1, f"no such wood in species.csv: {', '.join(sorted(strangers))}")
    return Table(
        Species(
            **named(row),
            botanical=row.text("botanical"),
            group=row.one_of("group", GROUPS),
            tannin=row.yes("tannin"),
            irritant=row.yes("irritant"),
            cites=row.words("cites"),
            colour_change=row.text("colour_change"),
            fresh_hex=colour(row, "fresh_hex"),
            aged_hex=colour(row, "aged_hex"),
            **figures.get(row.text("key"), {}),
        )
        for row in read
    )


def colour(row: TableRow, column: str) -> str:
    """A colour such as #c58f62."""
    value = row.text(column)
    if len(value) != 7 or value[0] != "#" or not set(value[1:]) <= set("0123456789abcdef"):
        raise row.error(f"{column} is {value!r}, not a colour such as #c58f62")
    return value

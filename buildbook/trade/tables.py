"""The reference tables, each read once into frozen records. The only access to files in `trade`.

Out: `constant(key)` and `constants()`, a `Table` for everything that is found by name, tuples for the rest,
all in SI. A fault in a file is a `TableError` that names file and line.
"""

from __future__ import annotations

from dataclasses import fields
from functools import cache

from buildbook.trade import cost, rows
from buildbook.trade.constants import constant as constant
from buildbook.trade.constants import constants as constants
from buildbook.trade.finish_rows import finish_kinds as finish_kinds
from buildbook.trade.finish_rows import finishes as finishes
from buildbook.trade.lookup import Table
from buildbook.trade.records import (
    GlassKind,
    IndoorClimate,
    Metal,
    NominalStock,
    Screw,
    SheetGoods,
    SheetSize,
    SheetStiffness,
    Species,
    Stone,
    UsualAllowances,
    WallWood,
)
from buildbook.trade.rows import HALLMARK, NAMES, hallmark, named
from buildbook.trade.wood_names import ANYWHERE as ANYWHERE
from buildbook.trade.wood_names import Place as Place
from buildbook.trade.wood_rows import species as species

SYSTEMS = ("in", "mm")
SCREW_SYSTEMS = ("gauge", "mm", "lag")
METAL_CARES = ("tarnishing", "rusting", "plated", "stable", "coated", "delicate")


@cache
def allowances(system: str) -> UsualAllowances:
    """What a shop of a system of units ("in" or "mm") adds to its parts. Source: common practice."""
    read = rows.read("allowances.csv", ("key", "system", "value", "unit", *HALLMARK))
    values = {
        row.text("key"): row.number("value", row.text("unit"))
        for row in read
        if row.one_of("system", SYSTEMS) == system
    }
    return UsualAllowances(
        over_length_m=values["over_length"],
        over_width_m=values["over_width"],
        clean_up_m=values["clean_up"],
        waste_pct=values["waste"],
        sheet_waste_pct=values["sheet_waste"],
        kerf_m=values["kerf"],
    )


@cache
def sheet_sizes() -> dict[str, SheetSize]:
    """The usual sizes of sheet goods, by key."""
    columns = ("key", "name", "length", "width", "unit", "system", *HALLMARK)
    return {
        row.text("key"): SheetSize(
            key=row.text("key"),
            name=row.text("name"),
            length_m=row.number("length", row.text("unit")),
            width_m=row.number("width", row.text("unit")),
            system=row.one_of("system", SYSTEMS),
            **hallmark(row),
        )
        for row in rows.read("sheet_sizes.csv", columns)
    }


@cache
def sheets() -> Table[SheetGoods]:
    """Sheet goods."""
    columns = (*NAMES, "density", "wood_share", "mc", "grain", "sizes", "glue", *HALLMARK)
    known = sheet_sizes()
    records = []
    for row in rows.read("sheets.csv", columns):
        if not (sizes := row.listed("sizes")) or not set(sizes) <= set(known):
            raise row.error(f"sizes are not all in sheet_sizes.csv: {'; '.join(sizes)}")
        records.append(
            SheetGoods(
                **named(row),
                density_kg_m3=row.number("density", "kg/m3"),
                wood_share=row.number("wood_share"),
                mc_pct=row.number("mc", "pct"),
                grain=row.yes("grain"),
                sizes=tuple(known[key] for key in sizes),
                glue=row.text("glue"),
            )
        )
    return Table(records)


@cache
def sheet_stiffness() -> dict[str, SheetStiffness]:
    """How stiff sheets are, by their keys; of those that are not here it is not known."""
    read = rows.read("sheet_stiffness.csv", ("key", "modulus", "creep", "unit", *HALLMARK))
    return {
        row.one_of("key", tuple(sheet.key for sheet in sheets())): SheetStiffness(
            key=row.text("key"),
            modulus_pa=row.number("modulus", row.text("unit")),
            creep=row.number("creep"),
            **hallmark(row),
        )
        for row in read
    }


@cache
def glass() -> Table[GlassKind]:
    """Glass, and the plastics used in its place."""
    read = rows.read("glass.csv", (*NAMES, "density", "safety", *HALLMARK))
    return Table(
        GlassKind(**named(row), density_kg_m3=row.number("density", "kg/m3"), safety=row.yes("safety"))
        for row in read
    )


@cache
def stones() -> Table[Stone]:
    """Stone and its like."""
    read = rows.read("stones.csv", (*NAMES, "density", "acid", *HALLMARK))
    return Table(
        Stone(**named(row), density_kg_m3=row.number("density", "kg/m3"), acid=row.yes("acid"))
        for row in read
    )


@cache
def metals() -> Table[Metal]:
    """Metals of hardware and inlay."""
    read = rows.read("metals.csv", (*NAMES, "density", "tannin", "magnetic", "care", *HALLMARK))
    return Table(
        Metal(
            **named(row),
            density_kg_m3=row.number("density", "kg/m3"),
            tannin=row.yes("tannin"),
            magnetic=row.yes("magnetic"),
            care=row.one_of("care", METAL_CARES),
        )
        for row in read
    )


@cache
def stock(system: str) -> tuple[NominalStock, ...]:
    """Nominal thicknesses of solid timber in a system of units ("in" or "mm"), thinnest first."""
    columns = ("system", "name", "thickness", "surfaced", "unit", *HALLMARK)
    read = [row for row in rows.read("stock.csv", columns) if row.one_of("system", SYSTEMS) == system]
    records = [
        NominalStock(
            system=system,
            name=row.text("name"),
            thickness_m=row.number("thickness", row.text("unit")),
            surfaced_m=row.number_or_none("surfaced", row.text("unit")),
            **hallmark(row),
        )
        for row in read
    ]
    return tuple(sorted(records, key=lambda record: record.thickness_m))


@cache
def screws() -> dict[str, Screw]:
    """Wood screws and lag screws, by name (`#8`, `5 mm`, `1/4 in lag`)."""
    columns = ("name", "system", "diameter", "root", "bending_psi", "unit", *HALLMARK)
    return {
        row.text("name"): Screw(
            name=row.text("name"),
            system=row.one_of("system", SCREW_SYSTEMS),
            diameter_m=row.number("diameter", row.text("unit")),
            root_m=row.number_or_none("root", row.text("unit")),
            bending_pa=row.number_or_none("bending_psi", "psi"),
            **hallmark(row),
        )
        for row in rows.read("screws.csv", columns)
    }


@cache
def wall_woods() -> Table[WallWood]:
    """What walls are framed with."""
    return Table(
        WallWood(**named(row), sg=row.number("sg"))
        for row in rows.read("wall_woods.csv", (*NAMES, "sg", *HALLMARK))
    )


@cache
def climates() -> Table[IndoorClimate]:
    """Indoor climates; `default` is taken when a job says nothing of the rooms, `workshop` of the day of
    making.
    """
    columns = ("key", "name", "rh_low", "rh_high", "temperature", *HALLMARK)
    return Table(
        IndoorClimate(
            key=row.text("key"),
            name=row.text("name"),
            rh_low_pct=row.range("rh", "pct").low,
            rh_high_pct=row.range("rh", "pct").high,
            temperature_c=row.number("temperature", "degC"),
            **hallmark(row),
        )
        for row in rows.read("climates.csv", columns)
    )


@cache
def southern_countries() -> frozenset[str]:
    """ISO 3166-1 codes of the countries whose seasons are half a year from those of the north."""
    read = rows.read("southern_countries.csv", ("code", "name", *HALLMARK))
    return frozenset(row.text("code") for row in read)


@cache
def inch_countries() -> frozenset[str]:
    """ISO 3166-1 codes of the countries where inches and pounds are in everyday use, alone or beside metres."""
    read = rows.read("inch_countries.csv", ("code", "name", *HALLMARK))
    return frozenset(row.text("code") for row in read)


@cache
def _currency_places() -> dict[str, int]:
    read = rows.read("currencies.csv", ("code", "name", "places", *HALLMARK))
    return {row.text("code"): int(row.number("places")) for row in read}


def currency_places(code: str) -> int:
    """Decimals of the smallest coin of a currency: EUR 2, JPY 0, KWD 3. Two for a code that is not listed. Source:
    ISO 4217.
    """
    return _currency_places().get(code, cost.PLACES)


FIGURES = tuple(field.name for field in fields(Species) if field.type == "Sourced | None")
"""The figures that a wood may have."""

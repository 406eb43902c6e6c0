"""parts.csv -> `Part`s. In: its bytes and the job's unit. Out: parts in the order written.

A part whose row has errors is still given, with what could be read; the errors keep the job from being bound.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import cast

from buildbook import limits
from buildbook.job.model import CUTS, FACES, PART_KINDS, PER, Cut, Faces, Part, PartKind, Stock
from buildbook.job.table.beside_wood import beside_wood
from buildbook.job.table.bought import is_in_a_pack, read_bought
from buildbook.job.table.countries import find_country
from buildbook.job.table.fits import check_sizes
from buildbook.job.table.headings import PARTS_HEADINGS, bare
from buildbook.job.table.materials import (
    NAMES,
    KnownMaterial,
    find_material,
    infer_material,
    nearest_materials,
)
from buildbook.job.table.money import read_costs
from buildbook.job.table.sheet import Row, Sheet, read_sheet, until_too_wrong
from buildbook.job.table.shoulders import read_tenoned
from buildbook.job.table.sides import SIDES, read_sides
from buildbook.job.table.sized_material import Sized, known_by
from buildbook.job.table.sizes import read_layers, read_stock
from buildbook.job.text import shown
from buildbook.problems import Problems, listed
from buildbook.quantity import Length, read_count, read_length, read_mass
from buildbook.quantity.beside import is_nothing
from buildbook.trade.lookup import NOISE, words
from buildbook.trade.tables import ANYWHERE, Place

FILE = "parts.csv"
NEEDED = ("part", "material")


def _spelt(**also: str) -> dict[str, str]:
    """Other spellings of words, as `Row.choice` compares them."""
    return {bare(name): word for word, names in also.items() for name in names.split(";")}


_KINDS = {kind: kind for kind in PART_KINDS} | cast(
    dict[str, PartKind],
    _spelt(
        wood="solid; solid wood; timber; lumber; holz; massivholz; vollholz",
        panel="sheet; sheets; sheet goods; board; ply; plywood; platte; platten; plattenwerkstoff; holzwerkstoff",
        glass="pane; mirror; glas; scheibe; spiegel",
        stone="stein; naturstein",
        hardware="ironmongery; fittings; fitting; metal; beschlag; beschläge; eisenwaren; metall",
        upholstery="fabric; leather; polster; polsterung; bezug; leder; stoff",
        supply="supplies; consumable; consumables; hilfsstoff; hilfsstoffe; verbrauch; verbrauchsmaterial",
    ),
)
_CUTS = {cut: cut for cut in CUTS} | cast(
    dict[str, Cut],
    _spelt(
        flat="flat sawn; flatsawn; plain; plain sawn; plainsawn;"
        " tangential; liegend; liegende jahresringe; fladerschnitt; flader; fladern",
        rift="rift sawn; riftsawn; halbrift; halbriftschnitt; halbstehend; halbstehende jahresringe",
        quarter="quarter sawn; quartersawn; quartered;"
        " radial; stehend; stehende jahresringe; riftschnitt; spiegelschnitt; radialschnitt",
    ),
)
_FACES = {faces: faces for faces in FACES} | cast(
    dict[str, Faces],
    {
        **_spelt(
            all="all sides; all faces; all round; all over; all 6; all six; everywhere;"
            " every side; alle; allseitig; rundum; ringsum",
            faces="both faces; both sides; both; 2 sides; two sides; 2 faces; 2 seitig;"
            " zweiseitig; zwei seiten; flächen; flaechen; beidseitig; beide seiten; beide flächen",
        ),
        **_spelt(
            edges="edge; kanten",
            none="no; unfinished; raw; bare; no finish; nil; keine; keins; ohne; roh; unbehandelt; natur",
        ),
        **dict.fromkeys(
            (
                "one side",
                "1 side",
                "one",
                "1 face",
                "face",
                "front",
                "front only",
                "top",
                "top only",
                "show face",
                "sichtseite",
                "eine flache",
                "eine flaeche",
                "eine seite",
                "einseitig",
            ),
            "one face",
        ),
    },
)
_YES_NO = dict.fromkeys(
    ("yes", "y", "true", "1", "x", "✓", "✔", "ja", "j", "wahr", "show", "zeigen"), True
) | dict.fromkeys(
    ("no", "n", "false", "0", "nein", "falsch", "private", "hide", "hidden", "intern", "privat", "✗"), False
)

CHOICES: Mapping[str, Mapping[str, object]] = {
    "kind": _KINDS,
    "cut": _CUTS,
    "faces": _FACES,
    "client": _YES_NO,
}
"""What each spelling of a column means, spelt as `bare` has it: for whoever writes such a table."""


def says_no_finish(text: str) -> bool:
    """Whether the cell of a finish says that there is none: `none`, `raw`, `-`."""
    return _FACES.get(bare(text)) == "none" or is_nothing(text)


def read_parts(
    data: bytes,
    units: str,
    problems: Problems,
    place: Place = ANYWHERE,
    currency: str = "",
    *,
    file: str = FILE,
    decimal_comma: bool = False,
) -> tuple[Part, ...]:
    """The parts of a parts.csv, or of the spreadsheet that `file` names. `units` is the unit of a bare length, `place`
    where its names of woods were written, `currency` that of the shop, which a price may not name another than;
    `decimal_comma`: see `read_sheet`.
    """
    most = limits.PART_ROWS
    sheet = read_sheet(data, file, PARTS_HEADINGS, NEEDED, problems, most, decimal_comma=decimal_comma)
    if sheet is None:
        return ()
    parts = [_part(row, sheet, units, place, currency) for row in until_too_wrong(sheet.rows, problems)]
    sized = {part.kind for part in parts} & {"wood", "panel", "glass"}
    for side in SIDES:
        if side not in sheet.columns and any(p.kind in sized and getattr(p, side) is None for p in parts):
            problems.error(file, f"There is no column “{side}”.", "Add it to the row of headings.")
    return tuple(parts)


def _cut(row: Row, place: Place) -> Cut | None:
    """How the rings stand. In German “Rift” is said of standing rings, in English of slanting ones: pointed at."""
    cut = row.choice("cut", _CUTS)
    if cut == "rift" and bare(row.text("cut")) == "rift" and place.language.startswith("de"):
        said = shown(row.text("cut"))
        message = f"{said} may mean standing or slanting growth rings: slanting was taken, which moves more."
        row.warn("cut", message, "Write stehend or halbstehend.")
    return cut


def _part(row: Row, sheet: Sheet, units: str, place: Place, currency: str) -> Part:
    name, material = row.text("part"), row.text("material")
    known, sized = _material(row, sheet, (name, material), place)
    kind = known.kind
    if kind == "hardware" and not row.text("kind") and is_in_a_pack(row.text("qty")):
        kind = "supply"  # bought by the box: nobody knows how many went in, so none is counted as a spare
    bought = read_bought(row, kind)
    country, code = _country(row)
    sides = read_sides(row, units, screw=kind == "hardware")
    tenoned = read_tenoned(row, sides.length, units, _note(row))
    price, per = read_costs(row, kind, currency, bought)
    part = Part(
        row=row.number,
        name=name or material,
        qty=bought.pieces if bought else _qty(row, sheet),
        kind=kind,
        material=material,
        key=known.key,
        name_assumed=known.assumed,
        stated=known.stated,
        length=tenoned.length,
        tenons=tenoned.tenons,
        width=sides.width,
        thickness=sides.thickness or _thickness(row, sized, kind, units),
        round=sides.round,
        wall=row.length("wall", units),
        stock=_stock(row, sized, kind, units),
        working=row.text("working"),
        cut=_cut(row, place),
        fit=row.text("fit"),
        edge=row.text("edge"),
        held=row.text("held"),
        opening=row.length("opening", units),
        faces=row.choice("faces", _FACES) or usual_faces(kind),
        finish=row.text("finish"),
        mass_kg=_mass(row),
        origin=row.text("origin"),
        country=country,
        country_code=code,
        supplier=row.text("supplier"),
        price=price,
        per=per,
        for_client=_for_client(row, kind),
        note=_note(row),
    )
    if not part.name:
        row.error("part", "This row has no part and no material.", "Name the part, or delete the row.")
    check_sizes(row, sheet, part)
    if (price is not None and not per and not row.text("per")) or (row.text("per") and not row.text("price")):
        _tell_half_price(row)
    return part


def usual_faces(kind: PartKind) -> Faces:
    """What of a part is finished where its row does not say it."""
    return "all" if kind == "wood" else "faces" if kind == "panel" else "none"


# -- what it is ----------------------------------------------------------------------------------


def _material(row: Row, sheet: Sheet, called: tuple[str, str], place: Place) -> tuple[KnownMaterial, Sized]:
    """The kind of a part and its row in the trade's tables; what cannot be told is a problem, and counts as
    wood. With the size that its material is named with.
    """
    name, material = called
    stated = row.choice("kind", _KINDS)
    if stated is None and not row.text("kind") and (beside := beside_wood(row, name, material)):
        return beside, Sized(material)
    if stated is None:
        known, sized = known_by(lambda said: infer_material(said, place), material)
        if known is None and not row.text("kind") and "material" in sheet.columns:
            what = f"what kind of material {shown(material)} is" if material else "of what this part is made"
            near = _which_wood(material) or (nearest_materials(material) if material else "")
            row.error("kind" if material else "material", f"It is not clear {what}.", near or _KIND_HINT)
        return known or KnownMaterial("wood"), sized
    known, sized = known_by(lambda said: material_of(stated, (name, said), place), material)
    known = known or material_of(stated, called, place)
    if known is None and stated in NAMES and stated != "hardware" and "material" in sheet.columns:
        _tell_unknown(row, stated, material)
    return known or KnownMaterial(stated), sized


def material_of(kind: PartKind, called: tuple[str, str], place: Place) -> KnownMaterial | None:
    """What a part of a stated kind is made of, by its name and material; hardware by its name where its material says
    nothing.
    """
    name, material = called
    known = find_material(kind, material, place) if material else None
    return find_material(kind, name) if known is None and kind == "hardware" else known


def _which_wood(material: str) -> str:
    """What to write where a material is only said to be old, or solid: `reclaimed`, `Altholz`."""
    if not material or not NOISE.issuperset(words(material)):
        return ""
    example = shown("reclaimed oak")
    return f"That says what has become of the wood, and not which it is: write it too, such as {example}."


_KIND_HINT = f"Write its kind: {listed(PART_KINDS, 'or')}."


def _tell_unknown(row: Row, kind: PartKind, material: str) -> None:
    if not material:
        row.error("material", "There is no material.", f"Name {NAMES[kind]}.")
        return
    near = nearest_materials(material, kind)
    message = f"{shown(material)} is not {NAMES[kind]} that is known here"
    if kind == "wood":
        row.error("material", f"{message}.", near or "Write its common or its botanical name.")
    else:
        hint = near or "Write the mass of one in the column mass."
        row.warn("material", f"{message}, so its mass is not worked out.", hint)


def _country(row: Row) -> tuple[str, str]:
    text = row.text("country")
    if not text:
        return "", ""
    found = find_country(text)
    if found.country is None:
        row.warn("country", f"{shown(text)} is not a country that is known here.", found.hint)
        return text, ""
    return found.country.name, found.country.code


# -- how much of it ------------------------------------------------------------------------------


def _qty(row: Row, sheet: Sheet) -> int:
    if "qty" in sheet.columns and not row.text("qty"):
        row.warn("qty", "There is no quantity; 1 is taken.", "Write how many there are.")
    return row.read("qty", lambda text: read_count(text, decimal_comma=row.decimal_comma)) or 1


def _mass(row: Row) -> float | None:
    unit = row.units.get("mass", "")
    kg = row.read("mass", lambda text: read_mass(text, unit, decimal_comma=row.decimal_comma))
    if kg == 0:
        row.error("mass", f"{shown(row.text('mass'))} is no mass.", "Write the mass of one, or nothing.")
    return kg or None


def _thickness(row: Row, sized: Sized, kind: PartKind, units: str) -> Length | None:
    """Of a sheet that its material alone tells: `18mm MDF`."""
    if kind != "panel" or not sized.thickness or row.text("thickness"):
        return None
    return read_length(sized.thickness, row.units.get("thickness") or units, decimal_comma=row.decimal_comma)


def _stock(row: Row, sized: Sized, kind: PartKind, units: str) -> Stock | None:
    unit = row.units.get("stock") or units
    if kind == "panel" and (of_sheet := _OF_A_SHEET.fullmatch(row.text("stock"))):
        row = replace(row, cells={**row.cells, "stock": of_sheet["size"]})
    if kind == "wood" and sized.stock and not row.text("stock"):
        return Stock(sized.stock, read_stock(sized.stock, unit).m)
    layers = 1

    def read(text: str) -> Length:
        nonlocal layers
        layers, one = read_layers(text, unit, decimal_comma=row.decimal_comma)
        return one

    one = row.read("stock", read, units)
    return Stock(one.written, one.m, layers) if one else None


_OF_A_SHEET = re.compile(r"(?P<size>.*\d.*?)\s*(?:ply|plywood|sheet|board|platte)\.?", re.IGNORECASE)


# -- money, the client, notes --------------------------------------------------------------------


def _tell_half_price(row: Row) -> None:
    if row.text("price"):
        row.error("per", f"{shown(row.text('price'))} is a price for what?", f"Write {listed(PER, 'or')}.")
    else:
        row.warn("price", f"There is {shown(row.text('per'))} but no price.", "Write the price, or nothing.")


def _for_client(row: Row, kind: PartKind) -> bool:
    """Whether the client may see the row. A word that cannot be read keeps it in."""
    stated = row.choice("client", _YES_NO)
    if stated is None:
        return kind != "supply" and not row.text("client")
    return stated


def _note(row: Row) -> str:
    """The note, with what stands under headings that are not known, so that nothing is lost."""
    strange = [f"{heading}: {cell}" if heading else cell for heading, cell in row.strange]
    return "; ".join(filter(None, (row.text("note"), *strange)))

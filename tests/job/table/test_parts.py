"""parts.csv: rows become parts with what the trade knows of them; slips are told by row and column."""

from decimal import Decimal
from pathlib import Path

import pytest

from buildbook.job.table.parts import read_parts
from buildbook.problems import Problems
from buildbook.trade.tables import Place
from tests.job import slips, told

HEAD = "part,qty,kind,material,length,width,thickness"
EXPORTS = Path(__file__).parent.parent.parent / "data" / "spreadsheet_exports"


def read(text, units="mm"):
    problems = Problems()
    data = text if isinstance(text, bytes) else text.encode()
    return read_parts(data, units, problems), problems


def one(row, head=HEAD, units="mm"):
    """The only part of a table, which has nothing wrong."""
    parts, problems = read(f"{head}\n{row}\n", units)
    assert told(problems) == []
    (part,) = parts
    return part


@pytest.mark.parametrize(("text", "lines"), slips("parts"))
def test_a_slip_is_told(text, lines):
    assert told(read(text)[1]) == lines


def test_a_whole_row():
    part = one(
        "Door panel,2,wood,black walnut,366,404,8,1/2,flat,floating,412,all,body,0.5 kg,a park tree,US,"
        "the yard,12.50,bf,yes,keep the order",
        HEAD + ",stock,cut,fit,opening,faces,finish,mass,origin,country,supplier,price,per,client,note",
    )
    assert (part.row, part.name, part.qty, part.kind, part.key) == (
        2,
        "Door panel",
        2,
        "wood",
        "black-walnut",
    )
    assert (part.length.m, part.width.m, part.thickness.m, part.opening.m) == (0.366, 0.404, 0.008, 0.412)
    assert (part.stock.written, part.stock.thickness_m) == ("1/2", 0.0127)
    assert (part.cut, part.fit, part.faces, part.finish, part.mass_kg) == (
        "flat",
        "floating",
        "all",
        "body",
        0.5,
    )
    assert (part.country, part.country_code) == ("United States", "US")
    assert (part.price, part.per, part.supplier) == (Decimal("12.50"), "board_foot", "the yard")
    assert (part.for_client, part.note) == (True, "keep the order")


@pytest.mark.parametrize(
    ("material", "kind", "key"),
    [
        ("Prunus serotina", "wood", "black-cherry"),
        ("birch ply", "panel", "birch-plywood"),
        ("toughened glass", "glass", "toughened"),
        ("slate", "stone", "slate"),
        ("brass", "hardware", "brass"),
        ("solid brass butt hinge", "hardware", "brass"),
        ("magnetic catch", "hardware", ""),
        ("veg-tan leather", "upholstery", ""),
        ("PVA wood glue", "supply", ""),
    ],
)
def test_the_kind_follows_from_the_material(material, kind, key):
    part = one(f"Thing,1,,{material},100,50,20")
    assert (part.kind, part.key) == (kind, key)


def test_a_loose_name_says_what_it_was_taken_for():
    assert one("Top,1,wood,cherry,100,50,20").name_assumed.startswith("“cherry” was taken for Black cherry")


@pytest.mark.parametrize(
    ("kind", "material", "faces", "for_client"),
    [
        ("wood", "cherry", "all", True),
        ("panel", "birch ply", "faces", True),
        ("glass", "toughened glass", "none", True),
        ("hardware", "brass knob", "none", True),
        ("supply", "PVA glue", "none", False),
    ],
)
def test_what_is_usual_for_a_kind(kind, material, faces, for_client):
    part = one(f"Thing,1,{kind},{material},100,50,20")
    assert (part.faces, part.for_client) == (faces, for_client)


@pytest.mark.parametrize(
    ("word", "shown"),
    [("yes", True), ("x", True), ("JA", True), ("true", True), ("no", False), ("nein", False), ("0", False)],
)
def test_the_client_column(word, shown):
    assert one(f"Glue,1,supply,PVA,,,,{word}", HEAD + ",client").for_client is shown


def test_a_word_that_cannot_be_read_keeps_a_row_in():
    parts, _ = read(f"{HEAD},client\nTop,1,wood,cherry,1,1,1,perhaps\n")
    assert parts[0].for_client is False


def test_without_a_column_of_quantities_there_is_one_of_each():
    assert one("Top,oak,600,300,20", "part,material,length,width,thickness").qty == 1


def test_nothing_under_a_strange_heading_is_lost():
    parts, problems = read(f"{HEAD},colour,,note\nTop,1,wood,cherry,600,300,20,red,left,waxed\n")
    assert parts[0].note == "waxed; colour: red; left"
    assert [problem.severity for problem in problems] == ["warning"]


def test_headings_in_german_any_order_with_units_and_a_decimal_comma():
    parts, problems = read(
        "Dicke [cm];LÄNGE (mm);Breite;Holzart;Stück;Teil;Preis;Einheit\n2,2;1200;29,5;oak;4;Tür;12,50;m3\n"
    )
    assert told(problems) == []
    part = parts[0]
    assert (part.name, part.qty, part.price, part.per) == ("Tür", 4, Decimal("12.50"), "m3")
    assert (part.length.m, part.width.m, part.thickness.m) == (1.2, 0.0295, 0.022)


def test_a_unit_in_a_heading_holds_for_its_column_only():
    part = one('Top,1,wood,cherry,47 1/4,300,3/4"', 'part,qty,kind,material,"L, in",W,T (mm)')
    assert (part.length.m, part.width.m, part.thickness.m) == (pytest.approx(1.20015), 0.3, 0.01905)


def test_a_mass_takes_the_unit_of_its_heading():
    assert one("Knob,2,hardware,brass knob,,,,42", HEAD + ",Weight (g)").mass_kg == pytest.approx(0.042)


def test_rows_are_numbered_as_a_spreadsheet_shows_them():
    parts, problems = read(
        f'{HEAD},note\n\nTop,1,wood,cherry,6,3,2,"two\nlines"\n,,,,,,,\nSide,0,wood,cherry,6,3,2,\n'
    )
    assert [(part.row, part.note) for part in parts] == [(3, "two\nlines"), (5, "")]
    assert [problem.row for problem in problems] == [5]


def test_a_short_row_ends_in_empty_cells():
    assert one("Knob,2,hardware,brass knob").length is None


def test_a_part_that_is_named_total_is_a_part():
    assert one("Total,1,wood,cherry,600,300,20").name == "Total"


# -- what spreadsheets make of fractions ---------------------------------------------------------

MANGLED = {
    "en-US": {
        (2, "width"): "3/8",
        (2, "thickness"): "7/8",
        (3, "length"): "1/2",
        (3, "width"): "5/4",
        (4, "width"): "12/16",
        (5, "width"): "4/4",
        (5, "thickness"): "8/4",
        (6, "width"): "1/4",
    },
    "fr-FR": {
        (2, "width"): "3/8",
        (2, "thickness"): "7/8",
        (3, "length"): "1/2",
        (3, "width"): "5/4",
        (5, "width"): "4/4",
        (5, "thickness"): "8/4",
        (6, "width"): "1/4",
    },
    "de-DE": {},
}


@pytest.mark.parametrize("locale", MANGLED)
def test_every_mangled_fraction_is_named_with_its_row(locale):
    _, problems = read((EXPORTS / f"{locale}.csv").read_bytes(), "in")
    dates = {(p.row, p.field): p for p in problems if "is a date" in p.message}
    assert set(dates) == set(MANGLED[locale])
    for place, fraction in MANGLED[locale].items():
        assert fraction in dates[place].message
        assert dates[place].hint == f"write {fraction} in, or format the column as text."


def test_what_a_spreadsheet_left_alone_is_read():
    parts, problems = read((EXPORTS / "de-DE.csv").read_bytes(), "in")  # its 10-12 is no length anywhere
    assert [(p.row, p.field) for p in problems if p.severity == "error"] == [(4, "length")]
    assert parts[3].length.m == pytest.approx(29.5 * 0.0254)
    assert parts[4].length.m == pytest.approx(1.25 * 0.0254)


def test_what_was_typed_with_commas_asks_for_a_point():
    _, problems = read((EXPORTS / "as-typed.csv").read_bytes(), "in")
    errors = [(p.row, p.field) for p in problems if p.severity == "error"]
    assert errors == [(4, "length"), (5, "length")]


@pytest.mark.parametrize("file", ["en-US.xlsx", "fr-FR.ods"])
def test_a_spreadsheet_is_no_parts_file(file):
    assert told(read((EXPORTS / file).read_bytes())[1]) == [
        "error: parts.csv: This is a spreadsheet or an archive, not a text file."
        " Save it from its program as parts.csv."
    ]


@pytest.mark.parametrize("material", ["Altholz", "reclaimed", "Leimholz"])
def test_what_only_says_that_wood_is_old_asks_which_it_is(material):
    problems = Problems()
    read_parts(f"part,material,length,width,thickness\nTop,{material},600,300,20\n".encode(), "mm", problems)
    assert any("which it is" in problem.hint for problem in problems)
    assert not any("Did you mean" in problem.hint for problem in problems)


@pytest.mark.parametrize("material", ["Altholz Eiche", "reclaimed European oak", "Eiche, Leimholz"])
def test_old_oak_is_oak(material):
    problems = Problems()
    head = "part;material;length;width;thickness"
    parts = read_parts(f"{head}\nTop;{material};600;300;20\n".encode(), "mm", problems, Place("DE", "de"))
    assert [part.key for part in parts] == ["european-oak"]

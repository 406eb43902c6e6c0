"""A material with the size it is sold in, as price lists and makers write it: common practice, no source."""

import pytest

from buildbook.job.table.parts import read_parts
from buildbook.job.table.sized_material import without_size
from buildbook.problems import Problems
from buildbook.trade.tables import Place

IN = 0.0254


def read(material, thickness="", units="mm", language="en", stock=""):
    text = (
        f'part,material,length,width,thickness,stock\nBack,"{material.replace(chr(34), chr(34) * 2)}",900,400,'
        f"{thickness},{stock}\n"
    )
    problems = Problems()
    parts = read_parts(text.encode(), units, problems, Place("", language))
    return parts[0], [str(problem) for problem in problems if problem.severity == "error"]


@pytest.mark.parametrize(
    ("material", "key", "m"),
    [
        ("Birch plywood 6mm", "birch-plywood", 0.006),
        ("18mm MDF", "mdf", 0.018),
        ("18 mm birch ply", "birch-plywood", 0.018),
        ("Birkensperrholz 6,5 mm", "birch-plywood", 0.0065),
        ("3/4 birch ply", "birch-plywood", 0.75 * IN),
        ('3/4" MDF', "mdf", 0.75 * IN),
        ("1/2 in. birch plywood", "birch-plywood", 0.5 * IN),
        ("¼ MDF", "mdf", 0.25 * IN),
        ("19er Spanplatte", "particleboard", 0.019),
        ("Spanplatte 19", "particleboard", 0.019),
        ("MDF (19 mm)", "mdf", 0.019),
        ("MDF, 19 mm stark", "mdf", 0.019),
        ("mdf - 12mm", "mdf", 0.012),
    ],
)
def test_a_sheet_is_known_and_as_thick_as_its_name_says(material, key, m):
    part, wrong = read(material)
    assert (part.kind, part.key, wrong) == ("panel", key, [])
    assert part.thickness.m == pytest.approx(m)
    assert part.material == material, "as the maker wrote it"


def test_what_the_row_says_goes_before_what_the_name_says():
    part, wrong = read("3/4 birch ply", thickness="18")
    assert (part.thickness.m, wrong) == (pytest.approx(0.018), [])


@pytest.mark.parametrize(
    ("material", "key", "stock_m"),
    [
        ("8/4 walnut", "black-walnut", 2 * IN),
        ("white oak 5/4", "white-oak", 1.25 * IN),
        ("cherry (4/4)", "black-cherry", IN),
    ],
)
def test_a_wood_in_quarters_is_known_and_so_is_its_stock(material, key, stock_m):
    part, wrong = read(material, thickness="20")
    assert (part.kind, part.key, wrong) == ("wood", key, [])
    assert part.stock.thickness_m == pytest.approx(stock_m)
    assert read(material, thickness="20", stock="38")[0].stock.thickness_m == pytest.approx(0.038)


@pytest.mark.parametrize("material", ["Eiche 50 mm", "50 mm Eiche", "Eiche, 52er"])
def test_a_wood_with_a_thickness_is_known_but_how_thick_it_is_stays_asked(material):
    part, wrong = read(material, language="de")
    assert part.key == "european-oak"
    assert len(wrong) == 1
    assert "There is no thickness" in wrong[0]


@pytest.mark.parametrize("material", ["18mm xyzzy", "12", "mm 18", "3/4", "", "18 mm", "a" * 500 + " 18 mm"])
def test_what_is_no_material_is_told_as_before(material):
    part, wrong = read(material, thickness="18")
    assert wrong
    assert part.key == ""


@pytest.mark.parametrize("material", ["304 stainless", "ESG 6 mm", "Edelstahl 1.4301", "brass 385"])
def test_a_name_that_is_known_with_its_figures_keeps_them(material):
    """Grades are no sizes (EN 10088-1 numbers steels so)."""
    part, _ = read(material)
    assert part.kind in ("hardware", "glass")
    assert part.thickness is None or part.kind == "glass"


def test_a_long_cell_takes_no_long_time():
    assert without_size("1 " * 20_000) is None
    assert without_size("a" * 20_000 + " 1" * 20_000 + "!") is None

"""A heading finds its column in any case, in two languages, with its unit."""

import pytest

from buildbook.job.table.headings import PARTS, PARTS_HEADINGS, PRICES_HEADINGS, ColumnHeading


@pytest.mark.parametrize(
    ("text", "column", "unit"),
    [
        ("part", "part", ""),
        ("PART NAME", "part", ""),
        ("No.", "qty", ""),
        ("pcs", "qty", ""),
        ("Stück", "qty", ""),
        ("Anzahl:", "qty", ""),
        ("Species", "material", ""),
        ("L", "length", ""),
        ("Width (mm)", "width", "mm"),
        ("Length [in]", "length", "in"),
        ("W, in", "width", "in"),
        ("Width mm", "width", "mm"),
        ("Width in mm", "width", "mm"),
        ('Thickness (")', "thickness", '"'),
        ('Length "', "length", '"'),
        ("Länge in cm", "length", "cm"),
        ("L (inches)", "length", "in"),
        ("Width (finished)", "width", ""),
        ("Price (EUR)", "price", ""),
        ("Weight (kg)", "mass", "kg"),
        ("Country_of_origin", "country", ""),
    ],
)
def test_a_heading_finds_its_column(text, column, unit):
    assert PARTS_HEADINGS.find(text) == ColumnHeading(column, unit)


@pytest.mark.parametrize("text", ["", "colour", "Widht", "length of the day", "mm", "(mm)", "x" * 10_000])
def test_a_strange_heading_finds_none(text):
    assert PARTS_HEADINGS.find(text) is None


def test_every_name_of_a_column_means_that_column_only():
    for column, known in PARTS.items():
        for name in known.names.split(";"):
            assert PARTS_HEADINGS.find(name) == ColumnHeading(column), name


def test_prices_have_columns_of_their_own():
    assert PRICES_HEADINGS.find("Item") == ColumnHeading("material")
    assert PRICES_HEADINGS.find("Datum") == ColumnHeading("date")

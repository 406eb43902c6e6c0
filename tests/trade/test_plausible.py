"""Figures that cannot stand together are refused when the tables are loaded, with the line of the one at fault."""

from __future__ import annotations

import re

import pytest

from buildbook.trade import rows, wood_rows

UNITS = {
    "sg_basic": "1", "sg_12": "1", "density_12": "kg/m3", "shrink_radial": "pct", "shrink_tangential": "pct",
    "shrink_volumetric": "pct", "c_radial": "1/pct", "c_tangential": "1/pct", "fibre_saturation": "pct",
}  # fmt: skip
COLUMNS = ("key", "property", "value", "low", "high", "unit", "source", "basis", "note")


def load(note: str = "", **figures: float | str):
    body = "\n".join(
        f"w,{name},{value},,,{UNITS[name]},a book,read,{note}" for name, value in figures.items()
    )
    return wood_rows.figures_of(rows.parse(wood_rows.VALUES, ",".join(COLUMNS) + "\n" + body + "\n", COLUMNS))


@pytest.mark.parametrize(
    ("at_fault", "figures"),
    [  # what the table once said of these woods
        ("density_12", {"sg_basic": 0.92, "density_12": 1025, "shrink_volumetric": 13.2}),  # ipe
        ("density_12", {"sg_basic": 0.41, "density_12": 450, "shrink_volumetric": 10.3}),  # Spanish-cedar
        ("density_12", {"sg_basic": 0.53, "density_12": 710, "shrink_volumetric": 17.3}),  # European beech
        ("density_12", {"sg_basic": 0.53, "density_12": 702, "shrink_volumetric": 13.2}),  # European ash
        ("density_12", {"sg_basic": 0.48, "density_12": 615, "shrink_volumetric": 12.3}),  # sycamore
        ("density_12", {"sg_basic": 0.45, "density_12": 590, "shrink_volumetric": 7.8}),  # mahogany
        ("density_12", {"sg_basic": 0.46, "density_12": 675, "shrink_volumetric": 13.3}),  # dark red meranti
        (
            "shrink_volumetric",
            {"shrink_radial": 2.8, "shrink_tangential": 3.8, "shrink_volumetric": 8.8},
        ),  # iroko
        ("c_radial", {"c_radial": 0.00153, "shrink_radial": 2.8}),  # iroko
        ("c_tangential", {"c_tangential": 0.00238, "shrink_tangential": 4.1}),  # mahogany at 30 %
        ("c_tangential", {"c_tangential": 0.00201, "shrink_tangential": 8.1}),  # wenge of a flooring list
        (
            "c_radial",
            {"c_radial": 0.0026, "c_tangential": 0.0019},
        ),  # walnut of a parquet table, columns exchanged
        ("shrink_radial", {"shrink_radial": 7.8, "shrink_tangential": 5.5}),
        ("shrink_volumetric", {"shrink_radial": 5.0, "shrink_tangential": 9.0, "shrink_volumetric": 8.0}),
        ("sg_12", {"sg_basic": 0.60, "sg_12": 0.58}),
    ],
)
def test_figures_that_cannot_stand_together_are_refused(at_fault: str, figures: dict[str, float]) -> None:
    with pytest.raises(rows.TableError, match=rf"species_values.csv, line \d+: {at_fault} of w: ") as caught:
        load(**figures)
    line = int(re.search(r"line (\d+)", str(caught.value))[1])
    assert list(figures)[line - 2] == at_fault


def test_a_note_keeps_what_is_printed_so_and_never_what_cannot_be() -> None:
    odd = {"shrink_radial": 5.0, "shrink_tangential": 7.8, "shrink_volumetric": 15.2}  # black ash, Table 4-3
    assert load("as printed: black ash", **odd)
    with pytest.raises(rows.TableError):
        load("as printed: no wood", sg_basic=0.92, density_12=1025)


def test_a_coefficient_is_the_largest_of_those_that_are_printed() -> None:
    text = f"{','.join(COLUMNS)}\nw,c_tangential,0.0028,0.0028,0.0038,1/pct,a book,read,\n"
    with pytest.raises(rows.TableError, match="not the largest that is printed"):
        wood_rows.figures_of(rows.parse(wood_rows.VALUES, text, COLUMNS))


@pytest.mark.parametrize("ends", ["0.0030,0.0038", "0.0038,0.0030", "0.0030,"])
def test_a_value_outside_its_range_and_a_range_that_is_none_are_refused(ends: str) -> None:
    text = f"{','.join(COLUMNS)}\nw,c_tangential,0.0028,{ends},1/pct,a book,read,\n"
    with pytest.raises(rows.TableError):
        wood_rows.figures_of(rows.parse(wood_rows.VALUES, text, COLUMNS))

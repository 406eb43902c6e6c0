"""Rows as they stand in a maker's list: fittings and supplies without a kind, in bottles, boxes and metres."""

from decimal import Decimal

import pytest

from buildbook.job.table.parts import read_parts
from buildbook.problems import Problems

HEAD = "part,qty,material,length,width,thickness,price,note\n"


def read(text, **also):
    problems = Problems()
    return read_parts(text.encode(), "mm", problems, **also), [str(problem) for problem in problems]


@pytest.mark.parametrize(
    ("row", "kind", "pieces", "all_cost"),
    [
        ("Brass knobs,2,,,,,14.50,", "hardware", 2, "29"),
        ("Figure 8 fasteners,8 pcs,,,,,$0.85 ea,", "hardware", 8, "6.80"),
        ("No. 8 screws,1 box,,,,,9.49,", "supply", 1, "9.49"),
        ("Steel screws 5 x 50,1 box of 100,,,,,£11.40,", "hardware", 100, "11.40"),
        ("Steel dowel 8mm,12,,,,,80p ea,", "hardware", 12, "9.60"),
        ("Felt pads,4,,,,,,", "hardware", 4, None),
        ('"Wood glue, yellow",1 bottle,,,,,$8.99,', "supply", 1, "8.99"),
        ("Danish oil,1 qt,,,,,$26,", "supply", 1, "26"),
        ("Postcrete,4 bags,,,,,£7.25 a bag,", "supply", 4, "29"),
        ("Schaumstoff RG 40,1,,1380,375,50,38.50,", "upholstery", 1, "38.50"),
        ('Bezugsstoff Wolle,"1,8 m",,,,,49.00/m,', "upholstery", 1, "88.20"),
        ('Hartwachsöl,"0,375 l",,,,,19.80,', "supply", 1, "19.80"),
        ("Dübel 10 x 40,8,Buche,,,,0.06,", "hardware", 8, "0.48"),
    ],
)
def test_what_is_bought_is_known_by_its_name_and_costs_what_was_paid(row, kind, pieces, all_cost):
    (part,), told = read(HEAD + row)
    assert told == []
    assert (part.kind, part.qty) == (kind, pieces)
    assert (part.price and part.price * part.qty) == (all_cost and Decimal(all_cost))


def test_what_nobody_knows_is_taken_for_hardware_and_told():
    (part,), told = read(HEAD + "Thingummy,2,,,,,3.00,")
    assert part.kind == "hardware"
    assert "taken for hardware" in told[0]


def test_a_part_of_wood_without_sizes_is_still_asked_about():
    _, told = read(HEAD + "Leg,4,oak,,,,,")
    assert any("no length" in one for one in told)


def test_titles_of_groups_are_no_parts():
    parts, told = read(
        HEAD + "DRAWERS (2),,,,,,,\nSide,4,oak,450,90,12,,\nHardware:,,,,,,,\nBrass knobs,2,,,,,,\n"
    )
    assert [part.name for part in parts] == ["Side", "Brass knobs"]
    assert told == [
        "parts.csv, rows 2, 4: “DRAWERS (2)” stands alone in its row and is taken for the title of the rows under it."
    ]


def test_a_note_with_commas_that_nobody_put_in_quotes_is_read_to_its_end():
    (part,), told = read(HEAD + "Rail,1,oak,900,120,44,,ex 50, arched from 120 to 70\n")
    assert part.note == "ex 50, arched from 120 to 70"
    assert "to its end" in told[0]


def test_a_decimal_comma_in_a_row_is_no_comma_of_its_note():
    _, told = read(HEAD + "Rail,1,oak,900,120,22,5,,planed\n")
    assert any("cells but" in one for one in told)


def test_what_lay_in_the_shop_has_no_price():
    (part,), told = read(HEAD + "Wedge,2,white oak,100,28,12,scrap,\n")
    assert (part.price, told) == (None, [])


def test_numbers_of_rows_say_nothing_of_a_part():
    (part,), told = read("Pos.;Bezeichnung;Anzahl;Material;Länge;Breite;Dicke\n1;Zarge;2;Eiche;1.290;90;24\n")
    assert (part.note, part.length.m, told) == ("", 1.29, [])

"""The size of a fitting as it is asked for over a counter, not as it lies in a cutting list."""

import pytest

from buildbook.quantity import Style
from buildbook.summary.sold import sold_size
from buildbook.words import Words
from tests.pages.made import part, plain


@pytest.mark.parametrize(
    ("name", "material", "sides", "asked"),
    [
        ("Screw", "stainless steel wood screw, countersunk", (30, 4, 4), "4 × 30 mm"),
        ("Screw", "wood screw", (30, 4), "4 × 30 mm"),
        ("Cot bolt", "steel cross-dowel bolt", (80, 8, 8), "8 × 80 mm"),
        ("Shelf pin", "brass shelf pin with sleeve", (16, 5, 5), "5 × 16 mm"),
        ("Hinge", "brass butt hinge, lacquered", (50, 28, 2), "50 × 28 mm"),
        ("Knob", "brass knob, M4 thread", (22, 25), "22 mm across, 25 mm high"),
        ("Knob", "brass knob", (25, 22, 22), "22 mm across, 25 mm high"),
        ("Glide", "screw-on glide with felt", (20, 20, 5), "20 mm across, 5 mm high"),
        ("Catch", "neodymium magnet", (10, 10, 4), "10 mm across, 4 mm high"),
        ("Foot", "stainless steel foot plate", (70, 70, 8), "70 × 70 × 8 mm"),
        ("Catch", "magnetic catch", (20, 8, 8), "20 × 8 × 8 mm"),
        ("Bolt", "brass door bolt", (120, 25, 12), "120 × 25 × 12 mm"),
        ("Pull", "brass pull", (96,), "96 mm"),
        ("Stay", "brass stay", (), ""),
    ],
)
def test_a_size_is_what_a_shop_asks_for(name, material, sides, asked):
    row = part(2, name, kind="hardware", key="", material=material, sides=sides)
    assert plain(sold_size(row, Style(), Words("en"))) == asked


@pytest.mark.parametrize(
    ("name", "material", "sides", "asked"),
    [
        ("Schraube", "Edelstahl A4", (60, 5, 5), "5 × 60 mm"),
        ("Holzschraube", "verzinkt", (40, 4, 4), "4 × 40 mm"),
        ("Filzgleiter", "Filz", (30, 30, 5), "Durchmesser 30 mm, 5 mm hoch"),
        ("Möbelknopf", "Messing", (30, 28), "Durchmesser 30 mm, 28 mm hoch"),
        ("Scharnier", "Messing", (63, 35, 2), "63 × 35 mm"),
        ("Bettbeschlag", "Stahl verzinkt", (130, 20, 4), "130 × 20 × 4 mm"),
    ],
)
def test_german_fittings_are_known_in_compounds(name, material, sides, asked):
    row = part(2, name, kind="hardware", key="", material=material, sides=sides)
    assert plain(sold_size(row, Style(decimal=","), Words("de"))) == asked


def test_an_inch_shop_sells_in_inches():
    row = part(2, "Screw", kind="hardware", key="", material="brass screw", sides=(38.1, 4.7625, 4.7625))
    assert plain(sold_size(row, Style(units="in"), Words("en"))) == "3⁄16 × 1½ in"


def test_what_is_written_with_a_diameter_is_sold_by_it():
    row = part(2, "Pull", kind="hardware", key="", material="brass", sides=(40, 12, 12), round="rod")
    assert plain(sold_size(row, Style(), Words("en"))) == "12 mm across, 40 mm high"

"""What the tables of the trade know of a material as makers name it."""

import pytest

from buildbook.job.model import PART_KINDS
from buildbook.job.table.materials import _TABLES as TABLES
from buildbook.job.table.materials import _kind_words, find_material, infer_material, nearest_materials
from buildbook.trade.tables import Place
from buildbook.words import Words, languages


def test_every_telling_word_tells_a_kind():
    assert set(_kind_words().values()) <= set(PART_KINDS)


@pytest.mark.parametrize(
    ("kind", "name", "key"),
    [
        ("wood", "European oak", "european-oak"),
        ("hardware", "knob, brass, turned", "brass"),
        ("hardware", "stainless steel screw", "stainless-steel"),
        ("glass", "4 mm toughened glass", "toughened"),
    ],
)
def test_a_material_is_found_in_what_a_maker_calls_it(kind, name, key):
    assert find_material(kind, name).key == key


def test_a_wood_is_never_guessed_from_a_part_of_its_name():
    assert find_material("wood", "something like oak") is None


@pytest.mark.parametrize("name", ["", "unobtainium", "x" * 5000, "???"])
def test_what_is_not_known_is_not_inferred(name):
    assert infer_material(name) is None


def test_the_nearest_are_named():
    assert "“Black cherry”" in nearest_materials("chery", "wood")
    assert nearest_materials("qqqqq", "wood") == ""


@pytest.mark.parametrize("language", [language for language in languages() if language.startswith("de")])
def test_what_a_language_calls_a_row_may_be_written_for_it(language):
    """A hint, and the list of what is known, name it so."""
    sections = {"wood": "species_name", "panel": "sheet_name", "glass": "glass_name", "stone": "stone_name",
                "hardware": "metal_name"}  # fmt: skip
    words, other = Words(language), {}
    for kind, section in sections.items():
        for row in TABLES[kind]():
            name = words.name(section, row.key, "")
            found = find_material(kind, name, Place("DE", language)) if name else None
            if name and (found is None or found.key != row.key):
                other[name] = found and found.key
    assert other == {}


@pytest.mark.parametrize(
    ("name", "place", "key"),
    [
        ("oak (white)", Place("US", "en"), "white-oak"),
        ("walnut (black)", Place("GB", "en"), "black-walnut"),
        ("black walnut (Juglans nigra)", Place("GB", "en"), "black-walnut"),
        ("Ulme (Rüster)", Place("DE", "de"), "european-elm"),
        ("mahogany (Philippine)", Place("US", "en"), None),
        ("cherry (see the note)", Place("US", "en"), None),
        ("walnut (or cherry)", Place("US", "en"), None),
    ],
)
def test_a_second_name_in_brackets_counts(name, place, key):
    """Common practice. What else stands in brackets may say another wood, and is asked about."""
    found = find_material("wood", name, place)
    assert (found and found.key) == key or (key is None and found is not None and not found.stated)

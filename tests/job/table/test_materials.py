"""What the tables of the trade know of a material as makers name it."""

import pytest

from buildbook.job.model import PART_KINDS
from buildbook.job.table.materials import _kind_words, find_material, infer_material, nearest_materials


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

"""What a maker typed is compared in one way, wherever it is compared."""

import unicodedata
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.folding import folded
from buildbook.job.model import Job, Part
from buildbook.job.shop_model import Price, Shop
from buildbook.summary.money import key_of, price_from_list
from buildbook.trade import tables

WAYS = [
    "Épicéa  du Jura",
    "épicéa du jura",
    " ÉPICÉA\tDU JURA ",
    unicodedata.normalize("NFD", "Épicéa du Jura"),
]


@pytest.mark.parametrize("way", WAYS)
def test_one_wood_however_it_is_typed(way):
    """In no table, so that only the maker's own word tells it: a price, the same rows, one key."""
    job = Job(folder="a", shop=Shop(prices=(Price(WAYS[0], Decimal(40), "each"),)))
    assert price_from_list(job, way) is not None
    assert Part(1, "Top", 1, "wood", way).same == Part(2, "Leg", 1, "wood", WAYS[0]).same


def test_a_material_of_a_table_is_the_same_by_its_key():
    part = Part(1, "Top", 1, "wood", "Quercus robur", key=tables.species().key_of("Quercus robur"))
    assert part.same == replace(part, material="European oak").same == "european-oak"


def test_a_name_has_one_key_or_none():
    for wood in tables.species():
        for name in (wood.key, wood.name.upper(), *wood.aliases):
            assert tables.species().key_of(name) == wood.key == key_of(name)
    assert tables.species().key_of("bog yew of nowhere") == key_of("bog yew of nowhere") == ""


@given(st.text())
def test_folding_twice_changes_nothing_and_no_way_to_write_an_accent_does(text):
    once = folded(text)
    assert folded(once) == once
    assert folded(unicodedata.normalize("NFD", text)) == folded(unicodedata.normalize("NFC", text)) == once

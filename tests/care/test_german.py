"""The same instructions in German: whole sentences, names as German writes them."""

import re

import pytest

from buildbook.care import choose
from buildbook.words import Words
from tests.care.cases import CASES
from tests.care.pieces import coated, hardware, panel, piece, stone, wood

GERMAN = Words("de")


def care(made):
    return {item.key: item for item in choose(made.job, made.summary, GERMAN)}


@pytest.mark.parametrize("key", CASES)
def test_every_text_is_whole_german_sentences(key):
    made = CASES[key][0]
    items = care(made)
    assert set(items) == made.keys
    item = items[key]
    for text in filter(None, (item.text, item.why, item.short)):
        assert text.endswith(".")
        assert text[0].isupper()
        assert not re.search(r"[{}]|: \.|\(\)|  | [.,;:]|\b(the|and|with|your)\b", text)


def test_rows_of_tables_have_their_german_names():
    made = piece(
        wood(name="Platte", finish="a"),
        wood("black-walnut", "Füllung", finish="b"),
        panel("Füllung unten"),
        stone("slate", "Schieferplatte"),
        hardware("steel", "Griff"),
        finishes=[coated("hardwax-oil", "a"), coated("hardwax-oil", "b")],
    )
    items = care(made)
    assert items["iron-tannin"].why == (
        "Die Gerbsäure im Holz (Amerikanische Weißeiche und Amerikanischer Nussbaum) trifft auf Eisen (Stahl)."
    )
    assert "Birkensperrholz" in items["formaldehyde-panels"].why
    assert "(platte)" not in items["oily-rags"].why
    assert items["oily-rags"].why.endswith(": Hartwachsöl (Platte) und Hartwachsöl (Füllung).")
    assert items["stone-weight"].why.endswith(": Schieferplatte.")

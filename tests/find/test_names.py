"""Names of woods and joints, and German compounds: sixty questions of a native, and rules that no pair of names breaks."""

import tomllib
from itertools import permutations
from pathlib import Path

import pytest

from buildbook.find.index import build
from buildbook.find.lexicon import has_part, is_compound, names, same
from buildbook.find.names import FILE, names_now
from buildbook.find.query import find, within_slips
from tests.find.test_index import with_words

WRITTEN = tomllib.loads(Path(__file__).with_name("names.toml").read_text("utf-8"))
SHELF = [
    with_words(key, *((field, "", text) for field, several in facts.items() for text in several.split("|")))
    for key, facts in WRITTEN["jobs"].items()
]
INDEX = build(one.record for one in SHELF)


def found(text, index=INDEX):
    passages = {one.key: one.passages for one in SHELF}
    return [index.keys[hit.place] for hit in find(index, text, passages.get)]


def test_there_are_sixty_questions():
    assert len(WRITTEN["asked"]) >= 60


@pytest.mark.parametrize(("text", "wanted"), WRITTEN["asked"].items())
def test_what_must_come_first_does(text, wanted):
    first, *others = wanted
    keys = found(text)
    assert keys, "nothing was found"
    assert any(keys[0].startswith(way) for way in first.split("|")), keys
    for other in others:
        if other.startswith("-"):
            assert other[1:] not in keys
        else:
            assert other in keys


def test_no_name_is_taken_for_a_slip_of_another():
    """Every two names that are a slip or two apart: a job that has the one is not found by the other."""
    known = sorted(names())
    near = [
        (one, other)
        for one, other in permutations(known, 2)
        if len(one) >= 5 and within_slips(one, other, 1 if len(one) < 8 else 2)
    ]
    assert ("eiche", "esche") in near
    wrong = []
    for one, other in near:
        if other.startswith(one) or other in same().get(one, ()) or has_part(other, one):
            continue
        shelf = [with_words("other", ("wood", "", other))]
        if any(other.startswith(way) or has_part(other, way) for way in same().get(one, ())):
            continue
        index = build(job.record for job in shelf)
        if find(index, one, lambda _: ()):
            wrong.append((one, other))
    assert wrong == []


@pytest.mark.parametrize(
    ("compound", "word", "yes"),
    [
        ("schubkastenboden", "boden", True),
        ("schubladenvorderstuck", "vorderstuck", True),
        ("schubkastenbodenleiste", "boden", True),
        ("nussbaumfurnier", "furnier", True),
        ("schrankruckwand", "ruckwand", True),
        ("eichenholztisch", "tisch", True),
        ("schranktur", "tur", True),
        ("reiche", "eiche", False),
        ("speiche", "eiche", False),
        ("black", "lack", False),
        ("vegetable", "table", False),
        ("cloak", "oak", False),
        ("wash", "ash", False),
        ("boden", "boden", False),
    ],
)
def test_a_compound_has_its_parts_and_nothing_else(compound, word, yes):
    assert has_part(compound, word) is yes


def test_a_long_word_of_many_parts_is_soon_given_up():
    assert not is_compound("boden" * 40 + "x")
    assert not has_part("nut" * 80, "bank")


def test_the_list_of_names_is_that_of_the_tables():
    """Else run `python -m buildbook.find.names`."""
    assert FILE.read_text("utf-8") == names_now()

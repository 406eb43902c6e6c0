"""Words of a text as the index keeps them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.find.tokens import fold, idle, joined, singular, tokens

MM = 10  # tenths of a millimetre


def terms(text):
    return [token.term for token in tokens(text)]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Walnut", "walnut"),
        ("Nußbaum", "NUSSBAUM"),
        ("Türen", "Tueren"),
        ("façade", "facade"),
        ("maker's", "makers"),
        ("maker’s", "maker"),
        ("doors", "door"),
        ("glasses", "glass"),
        ("boxes", "box"),
        ("benches", "bench"),
        ("assemblies", "assembly"),
        ("shelves", "shelf"),
        ("leaves", "leaf"),
        ("grooves", "groove"),
        ("3 1/2 in", "3½\""),
        ("12,5 mm", "12.5mm"),
        ("6 feet", "6'"),
        ("11°", "11 deg"),
        ("2.5 Grad", "2,5°"),
        ("7½ degrees", "7 1/2°"),
    ],
)  # fmt: skip
def test_two_ways_to_write_a_word_are_one(one, other):
    assert terms(one) == terms(other)
    assert len(terms(one)) == 1


@pytest.mark.parametrize("text", ["16 °C", "65 °F", "11 1/2", "11 grades", "11"])
def test_what_is_no_angle_is_none(text):
    assert not [term for term in terms(text) if term.endswith("deg")]


def test_an_angle_has_no_length():
    assert [token.tenths for token in tokens("11° 2.5 deg")] == [0, 0]


@pytest.mark.parametrize("word", ["brass", "glass", "canvas", "lens", "radius", "chassis", "gas"])
def test_a_word_that_ends_in_s_of_itself_keeps_it(word):
    assert singular(fold(word)) == fold(word)


@pytest.mark.parametrize(
    ("text", "tenths"),
    [
        ("8 mm", 8 * MM),
        ("1.2 m", 1200 * MM),
        ("4 ft", 12192),  # the foot is 304.8 mm
        ("7' 3 1/2\"", 22225),  # 87.5 in
        ("¾ in", 191),
        ("1 1/4\"", 318),
        ("47¼″", 12002),
        ("30 Zoll", 7620),
    ],
)  # fmt: skip
def test_a_number_with_a_unit_is_one_word_with_a_length(text, tenths):
    (token,) = tokens(text)
    assert token.tenths == tenths


def test_what_only_looks_like_a_length_is_none():
    assert terms("M4 screws, 2x4 and 3 inner ends, 4/4 stock") == [
        "m4", "screw", "2x4", "and", "3", "inner", "end", "4/4", "stock",
    ]  # fmt: skip


def test_words_joined_by_a_hyphen_are_found_joined_too():
    text = "book-matched leaves, 3-ply, half - lap"
    assert [token.term for token in joined(text, tokens(text))] == ["bookmatched"]


def test_words_that_say_nothing_are_known_in_both_languages():
    assert {"the", "with", "und", "fur"} <= idle()
    assert not {"oak", "glass", "top"} & idle()


@given(st.text())
def test_any_text_is_read_and_each_word_stands_where_it_is_said_to(text):
    ends = [0]
    for token in tokens(text):
        assert token.term
        assert ends[-1] <= token.start < token.end <= len(text)
        ends.append(token.end)


@given(st.text(alphabet=st.characters(categories=["L", "N"]), min_size=1, max_size=12))
def test_folding_again_changes_nothing_of_a_latin_word(word):
    plain = "".join(letter for letter in fold(word) if letter.isascii())
    assert fold(plain).isascii()

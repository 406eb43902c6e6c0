"""Words: a text by its key with its names filled, strictly."""

import pytest

from buildbook.words import Words, fill, languages

WORDS = Words("en")


def test_every_language_has_the_same_texts_asking_for_the_same_names():
    english = {key: WORDS.names(key) for key in WORDS.every_key()}
    assert english
    for language in languages():
        words = Words(language)
        assert {key: words.names(key) for key in words.every_key()} == english


def test_every_text_is_a_good_template():
    for key in WORDS.every_key():
        values = dict.fromkeys(WORDS.names(key), "something")
        assert "{" not in WORDS.text(key, **values)


def test_a_name_is_filled_in_and_other_values_do_not_matter():
    assert WORDS.text("facts.figure.cure-until", finish="oil", date="today", other=1) == "the oil until today"


def test_what_is_filled_in_is_not_read_again():
    assert fill("{a} and {b}", {"a": "{b}", "b": 2}) == "{b} and 2"


def test_doubled_braces_stand_for_one():
    assert fill("{{a}} {a}", {"a": 1}) == "{a} 1"


def test_a_missing_value_is_a_fault():
    with pytest.raises(KeyError, match=r"no value for \{date\}"):
        WORDS.text("facts.figure.cure-until", finish="oil")


@pytest.mark.parametrize("key", ["facts.none-such", "facts.figure", "facts.and.more", ""])
def test_a_key_that_is_no_text_is_a_fault(key):
    with pytest.raises(KeyError):
        WORDS.text(key)


def test_a_lone_brace_is_a_fault():
    with pytest.raises(ValueError, match="a lone brace"):
        fill("{a", {"a": 1}, "a.key")


def test_has_tells_texts_and_sections_from_nothing():
    assert [WORDS.has(key) for key in ("facts.and", "facts.figure", "facts.nothing", "facts.and.x")] == [
        True, True, False, False,
    ]  # fmt: skip


def test_a_section_is_read_by_name_and_cannot_be_changed():
    section = WORDS.section("facts")
    assert section["figure"]["every-year"] == "year"
    with pytest.raises(TypeError):
        section["figure"]["every-year"] = "never"
    with pytest.raises(KeyError):
        WORDS.section("facts.and")


def test_a_language_without_words_is_a_fault():
    assert "en" in languages()
    with pytest.raises(KeyError, match="no words for the language 'xx'"):
        Words("xx")


def test_words_of_one_language_are_equal():
    assert Words("en") == WORDS

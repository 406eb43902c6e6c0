"""Words: a text by its key with its names filled, strictly."""

import re
from datetime import date
from pathlib import Path

import pytest

import buildbook
from buildbook.words import NAMES, Words, fill, languages
from buildbook.words.plural import ALL

WORDS = Words("en")


def texts(words):
    """The keys that every language has: all but the names of rows of tables, a text once whatever its forms."""
    keys = (key for key in words.every_key() if key.split(".")[0] not in NAMES)
    return {key.removesuffix(form) if (form := form_at_end(words, key)) else key for key in keys}


def form_at_end(words, key):
    """The form of a plural that a key ends in: `.few`; a language may have them where English has one text."""
    above, _, last = key.rpartition(".")
    return f".{last}" if last in words.forms and words.has(f"{above}.{ALL}") else ""


def asked(words, key):
    """The names that a text asks for in any of its forms."""
    forms = [form for form in words.forms if words.has(f"{key}.{form}")]
    names = (
        frozenset().union(*(words.names(f"{key}.{form}") for form in forms)) if forms else words.names(key)
    )
    return names - {"count"}


@pytest.mark.parametrize("language", languages())
def test_every_language_has_the_same_texts_asking_for_the_same_names(language):
    words = Words(language)
    assert texts(words) == texts(WORDS)
    assert {key: asked(words, key) for key in texts(words)} == {
        key: asked(WORDS, key) for key in texts(WORDS)
    }


@pytest.mark.parametrize("language", languages())
def test_a_plural_has_a_text_for_all_numbers_that_no_form_takes(language):
    words = Words(language)
    for key in texts(words):
        if not words.has(f"{key}.{ALL}"):
            continue
        assert {form for form in words.forms if words.has(f"{key}.{form}")} in ({*words.forms}, {ALL}), key


@pytest.mark.parametrize("language", languages())
def test_no_title_or_label_is_empty_by_mistake(language):
    words = Words(language)
    assert {key for key in words.every_key() if not words.names(key) and not words.text(key)} <= {
        "columns.verdict"
    }


@pytest.mark.parametrize("language", languages())
def test_every_text_is_a_good_template(language):
    words = Words(language)
    for key in words.every_key():
        values = dict.fromkeys(words.names(key), "something")
        assert "{" not in words.text(key, **values)


@pytest.mark.parametrize(
    ("language", "day", "month"),
    [("en", "11\u00a0April 2026", "April\u00a02026"), ("de", "11.\u00a0April 2026", "April\u00a02026")],
)
def test_days_in_words(language, day, month):
    words = Words(language)
    assert (words.date(date(2026, 4, 11)), words.month(date(2026, 4, 11))) == (day, month)


def test_a_row_of_a_table_has_the_name_of_the_language_else_its_own():
    assert Words("de").name("species_name", "european-beech", "European beech") == "Rotbuche"
    assert Words("en").name("species_name", "european-beech", "European beech") == "European beech"
    assert Words("de").name("species_name", "", "a wood of no table") == "a wood of no table"


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


def test_every_text_is_asked_for_somewhere():
    """By its whole key, by the beginning that a key is put together from, or by its last part in a script or a table."""
    package = Path(buildbook.__file__).parent
    folders = (package, package.parent / "themes")
    source = "\n".join(
        path.read_text("utf-8")
        for folder in folders
        for path in folder.rglob("*")
        if path.suffix in (".py", ".html", ".typ", ".js", ".csv")
    )
    begun = tuple(
        {
            *re.findall(r"""["']([a-z_-]+\.[\w.-]*)\{""", source),
            *re.findall(r"""t\(["']([\w.-]+\.)["']""", source),
        }
    )
    said = set(re.findall(r"""(?:["'#.])([a-z0-9_-]+)\b""", source))
    dead = [
        key
        for key in Words("en").every_key()
        if not key.startswith((*begun, *(f"{name}." for name in (*NAMES, "care"))))
        and key not in source
        and key.rpartition(".")[2] not in said
    ]
    assert dead == []

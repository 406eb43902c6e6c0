"""What a language calls a choice may be written as that choice."""

import pytest

from buildbook.job.row_names import CHOICES, row_name
from buildbook.job.table import parts
from buildbook.job.table.headings import bare
from buildbook.job.toml.as_typed import chosen
from buildbook.job.toml.finish_keys import FINISH
from buildbook.job.toml.keys import JOB, NEAR
from buildbook.job.toml.shop_keys import ESTIMATE, SHOP
from buildbook.words import Words, languages
from buildbook.words.told import sentence

OTHERS = [language for language in languages() if Words(language).has("choice_name.floor")]
KEYS = {key.name: key for table in (JOB, SHOP, ESTIMATE, FINISH) for key in table.keys if key.choices}


def test_german_has_names_for_the_choices():
    assert "de" in OTHERS
    unnamed = {choice for choice in (*CHOICES, *NEAR) if not row_name(choice, "de")}
    assert unnamed == {"board_foot", "m3", "m2", "m", "l", "kg", "one"}, (
        "a unit, or a word that German does not need"
    )


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("name", ["stands", "near", "wear", "voice"])
def test_a_key_takes_what_its_choices_are_called(name, language):
    key = KEYS[name]
    for choice in key.choices:
        assert chosen(row_name(choice, language), key) == choice


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("column", ["kind", "cut", "faces"])
def test_a_column_takes_what_its_choices_are_called(column, language):
    taken = {"kind": parts._KINDS, "cut": parts._CUTS, "faces": parts._FACES}[column]
    for choice in set(taken.values()):
        assert taken[bare(row_name(choice, language))] == choice


def test_known_words_are_told_in_german():
    said = sentence("Known here: flat, quarter, rift.", "de", row_name)
    assert said == "Bekannt sind hier: liegend, stehend, halbstehend."


def test_what_is_offered_is_offered_in_german_and_what_is_written_into_a_file_stays():
    said = sentence("Did you mean “Silver birch” or “Birch plywood”?", "de", row_name)
    assert said == "Meinten Sie „Sandbirke“ oder „Birkensperrholz“?"
    assert sentence('Write width = "180 mm".', "de", row_name) == 'Schreiben Sie width = "180 mm".'

"""Words of the trade are explained where the page uses them, and only there."""

from dataclasses import replace

import pytest

from buildbook.pages.client.gloss import gloss
from buildbook.pages.client.handover import client_piece
from buildbook.pages.phrases import Phrases
from buildbook.summary import summarise
from buildbook.words import Words, languages
from tests.pages.made import RAILS, table


def explained(job, language="en"):
    job = replace(job, finishes=(), parts=tuple(replace(part, finish="") for part in job.parts))
    phrases = replace(Phrases.of(job), words=Words(language))
    return [line.label for line in gloss(client_piece(job, summarise(job), (), phrases), phrases)]


def test_a_term_of_a_part_and_of_the_joinery_is_explained_by_the_alphabet():
    job = table(parts=(replace(RAILS, name="Door stile"), replace(RAILS, row=9, name="Plinth")), joinery=("haunched mortise and tenon",))  # fmt: skip
    assert explained(job) == ["Haunch", "Mortise and tenon", "Plinth", "Quarter-sawn", "Stile"]


def test_german_terms_are_found_in_compounds_and_not_by_chance():
    job = table(parts=(replace(RAILS, name="Schrankkorpus", cut=None),), joinery=("Schwalbenschwanzzinken",))
    assert explained(job, "de") == ["Korpus", "Zinken"]
    assert explained(table(parts=(replace(RAILS, name="Nussbaumplatte", cut=None),), joinery=()), "de") == []


def test_a_row_that_stays_in_explains_nothing():
    assert "Stile" not in explained(
        table(parts=(RAILS, replace(RAILS, row=9, name="Stile", for_client=False)))
    )


@pytest.mark.parametrize("language", languages())
def test_each_term_gives_itself_away_and_its_meaning_is_a_short_sentence(language):
    words = Words(language)
    for key in words.section("gloss"):
        term, meaning = words.text(f"gloss.{key}.term"), words.text(f"gloss.{key}.said")
        job = table(parts=(replace(RAILS, name="Part", cut=None),), joinery=(term,))
        assert term in explained(job, language), key
        assert meaning.endswith(".")
        assert len(meaning.split()) <= 24

"""The questions themselves: whole, asked of somebody, and each pattern true of the answer that stands beside it."""

import re

import pytest

from tests.owner.questions import LANGUAGES, asked_of, pieces, questions

EVERY = {question.key: question for question in questions()}
TRAITS = frozenset().union(*(piece.traits for piece in pieces()))


def test_there_are_forty_and_six_pieces_to_ask():
    assert len(questions()) == len(EVERY) == 40
    assert len(pieces()) == 6
    assert all(len(asked_of(piece)) >= 12 for piece in pieces())


@pytest.mark.parametrize("key", EVERY)
def test_a_question_is_asked_of_a_piece_and_rests_on_something(key):
    question = EVERY[key]
    assert any(question.asked.fits(piece.traits) for piece in pieces())
    assert all(question.needed_of(p.traits) for p in pieces() if question.asked.fits(p.traits))
    assert question.source
    assert question.basis in ("read", "memory", "common practice")
    named = [question.asked, *(said.asked for said in (*question.needs, *question.never))]
    assert {trait for asked in named for trait in (*asked.of, *asked.not_of)} <= TRAITS


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("key", EVERY)
def test_a_conservators_answer_meets_what_is_asked_of_a_page(key, language):
    question = EVERY[key]
    answer = question.answer[language]
    assert "?" in question.asked_as[language]
    assert not question.about or question.about.patterns[language].search(answer)
    assert [need.says for need in question.needs if not need.patterns[language].search(answer)] == []


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("key", EVERY)
def test_silence_meets_nothing(key, language):
    """A page that says nothing of it gets no points: no pattern fits what has no words."""
    question = EVERY[key]
    said = [*question.needs, *question.never, *([question.about] if question.about else [])]
    assert not any(one.patterns[language].search(empty) for one in said for empty in ("", "It is a chair.\n"))


@pytest.mark.parametrize("language", LANGUAGES)
def test_owners_words_are_their_own(language):
    """What is typed is short, and stands in the answer: a page that has the answer can have the word."""
    for question in questions():
        for word in question.typed[language]:
            assert re.fullmatch(r"[\w ]{2,16}", word), (question.key, word)
        answer = question.answer[language].casefold()
        assert any(word.casefold() in answer for word in question.typed[language]), question.key

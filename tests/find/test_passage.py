"""Why a job was found."""

import pytest
from hypothesis import given
from hypothesis import settings as tries
from hypothesis import strategies as st

from buildbook.find import passage as passages_shown
from buildbook.find.excerpt import Excerpt
from buildbook.find.index import build
from buildbook.find.passage import CUT, why
from buildbook.find.query import ask, parse
from buildbook.find.settings import settings
from buildbook.find.tokens import Traces, joined, tokens, traced
from tests.find.test_index import with_words

LONG = (
    " ".join(f"word{n}" for n in range(60))
    + " the walnut glass door "
    + " ".join(f"tail{n}" for n in range(60))
)


def shown(text, *passages):
    one = with_words("a", *passages)
    query = parse(text)
    return why(one.passages, query, ask(build([one.record]), query))


def marked(one):
    return [one.text[begin:end] for begin, end in one.marks]


def test_a_long_passage_is_cut_around_what_matched():
    (one,) = shown("walnut door", ("note", "2024-01-02", LONG))
    assert one.where == "2024-01-02"
    assert one.text.startswith(CUT)
    assert one.text.endswith(CUT)
    assert len(one.text.split()) == settings().passage.words
    assert marked(one) == ["walnut", "door"]


def test_the_passage_that_holds_most_of_the_question_comes_first_and_others_show_the_rest():
    first, second = shown(
        "walnut door brass",
        ("note", "", "walnut"),
        ("note", "", "a walnut door"),
        ("hardware", "", "brass knob"),
    )
    assert first.text == "a walnut door"
    assert second.text == "brass knob"


def test_a_phrase_is_marked_where_it_stands_whole():
    (one,) = shown('"sliding dovetail"', ("note", "", "sliding; then a sliding dovetail, a dovetail"))
    assert marked(one) == ["sliding", "dovetail"]
    assert one.marks[0][0] == one.text.index("sliding dovetail")


def test_a_size_shows_the_side_that_is_near():
    one = with_words(
        "a", ("size", "width", "1200 mm (47 in)"), ("size", "height", "700 mm (28 in)"), sides=(12000, 7000)
    )
    query = parse("4 ft")
    (side,) = why(one.passages, query, ask(build([one.record]), query))
    assert side.where == "width"


def test_marks_never_overlap_and_lie_in_the_text():
    for one in shown("book bookmatched matched", ("tags", "", "book-matched, a book")):
        ends = [0]
        for begin, end in one.marks:
            assert ends[-1] <= begin < end <= len(one.text)
            ends.append(end)


def test_nothing_is_shown_where_nothing_matched():
    assert why((Excerpt("note", "", "oak"),), parse(""), []) == []


_SIGNS = st.sampled_from(
    [*"aeouysStiß'’- .,8½Σς", "AE", "ä", "é", "boxes", "berries", "walnut", "feet", "book-matched"]
)


@tries(max_examples=300)
@given(st.lists(_SIGNS, max_size=14).map("".join), st.data())
def test_what_is_in_a_text_is_never_passed_over_for_want_of_a_trace(text, data):
    there = sorted({token.term for token in (*tokens(text), *joined(text, tokens(text)))})
    for term in there:
        other = data.draw(st.sampled_from(["zzz", "chair"]))
        assert Traces([term]).may_be_in(traced(text)), (text, term)
        assert Traces([other, term]).may_be_in(traced(text)), (text, term)


def test_a_text_without_the_word_is_passed_over():
    assert not Traces(["walnut", "berry"]).may_be_in(traced("Oak, planed; the bear lies"))


@pytest.mark.parametrize(
    "text",
    [
        "oak glass",
        '"in the" oak',
        "1200 mm",
        "walnut",
        "book-matched doors",
        "dovetails drawer brass",
        "wardrob",
    ],
)
def test_what_is_shown_is_what_looking_at_every_passage_would_show(found, text):
    """The oracle tells all words of all passages apart and then chooses; the rule looks only where it must."""
    query = parse(text)
    asked = ask(build([one.record for one in found]), query)
    shown = [why(one.passages, query, asked) for one in found]
    assert shown == [_why_of_all(one.passages, query, asked) for one in found]
    assert any(shown)


def _why_of_all(passages, query, asked):
    single = asked[: len(query.words)]
    looked = [passages_shown._cut_of(passage, query, single) for passage in passages]
    cuts = [cut for cut in looked if cut]
    left, shown = {number for cut in cuts for number in cut.answers}, []
    while left and len(shown) < settings().passage.most:
        order = settings().fields
        best = max(cuts, key=lambda cut: (*_said(cut, left), order[cut.passage.field].order))
        shown.append(passages_shown._shown(best))
        left -= best.answers.keys()
    return shown


def _said(cut, left):
    """How many words that are left it answers, and how strongly in all."""
    strengths = [cut.answers[number] for number in cut.answers if number in left]
    return len(strengths), sum(strengths)

"""Why a job was found."""

from buildbook.find.index import build
from buildbook.find.model import Excerpt
from buildbook.find.passage import CUT, why
from buildbook.find.query import ask, parse
from buildbook.find.settings import settings
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

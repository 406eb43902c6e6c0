"""What the typesetter cannot set costs itself: the passage or the picture, told where the notes hold it, never the job."""

import random
import re
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildbook.book.bind import bind
from buildbook.pages.client.card import card_of
from buildbook.pages.client.piece import Picture, Told
from buildbook.render.html.theme import load_theme
from buildbook.render.print.booklet import care_booklet
from buildbook.render.print.card import care_card
from buildbook.render.print.typeset import Typeset, TypesetError, typeset
from buildbook.render.sparing import TRIALS, sparing
from tests.render.print.test_booklet import PIECE
from tests.render.printed import photo, reader, tags, words

THEME = load_theme("oilstone")
BARE = replace(PIECE, lead=None, story=(), gallery=())

DEEP = {
    "list": lambda n: "\n".join("  " * i + "- x" for i in range(n)),
    "numbers": lambda n: "\n".join("   " * i + "1. x" for i in range(n)),
    "quote": lambda n: "> " * n + "x",
    "both": lambda n: "> - " * n + "x",
    "emphasis": lambda n: "*a " * n + "x" + " b*" * n,
    "strong": lambda n: "**a " * n + "x" + " b**" * n,
    "strike": lambda n: "~~a ~~b " * (n // 2) + "x" + " c~~" * (n // 2),
    "link": lambda n: "[a " * n + "x" + "](https://a.example)" * n,
}


@pytest.mark.parametrize("depth", [20, 40])
@pytest.mark.parametrize("kind", DEEP)
def test_a_job_with_a_passage_too_deep_for_print_is_bound_without_it(make_job, tmp_path, kind, depth):
    notes = f"## 2026-03-02 Legs\n\nMine.\n\n### For the client\n\nPLAIN words.\n\n## 2026-03-03 Top\n\n### For the client\n\nODD one.\n\n{DEEP[kind](depth)}\n"
    job = make_job(**{"job.toml": 'title = "Stool"\n', "notes.md": notes})
    bound = bind(job, tmp_path / "book").jobs[0]
    assert bound.bound
    assert bound.fault == ""
    handover = tmp_path / "book" / "handover" / "a-job"
    text = words((handover / "care-booklet.pdf").read_bytes())
    told = [p for p in bound.problems if "cannot be set in print" in p.message]
    assert "PLAIN words." in text
    assert ("ODD one." in text) == (not told)  # some are no nesting at all to a reader of Markdown
    assert [(p.severity, p.file, notes.splitlines()[p.line - 1]) for p in told] in (
        [],
        [("warning", "notes.md", "ODD one.")],
    )
    assert told or kind in ("strike", "link")
    assert "ODD one." in (handover / "index.html").read_text("utf-8")


# -- finding what is at fault ------------------------------------------------------------------------


def fake(bad, apart=frozenset()):
    """A setter that fails for any of the bad parts, and for all of `apart` at once; counts its trials."""

    def set_(parts):
        set_.trials += 1
        if bad & set(parts) or (apart and apart <= set(parts)):
            raise TypesetError(f"cannot set {sorted(bad & set(parts))}")
        return Typeset(b"", list(parts), ())

    set_.trials = 0
    return set_


@given(st.integers(0, 60), st.sets(st.integers(0, 59), max_size=5))
def test_only_what_is_at_fault_is_left_out(count, bad):
    set_ = fake(bad)
    made, left_out = sparing(set_, range(count))
    assert set(left_out) == bad & set(range(count))
    assert made.report == [part for part in range(count) if part not in bad]
    assert set_.trials <= TRIALS + 3
    assert set_.trials == 1 or left_out


def test_one_of_a_thousand_is_found_in_few_trials_and_hundreds_end_in_time():
    one = fake({617})
    assert list(sparing(one, range(1000))[1]) == [617]
    assert one.trials <= 25
    many = fake(set(random.Random(1).sample(range(1000), 300)))
    _, left_out = sparing(many, range(1000))
    assert many.trials <= TRIALS + 3
    assert len(left_out) >= 300


def test_parts_that_only_fail_together_cost_no_more_than_the_parts():
    made, left_out = sparing(fake(set(), frozenset({2, 7})), range(10))
    assert made.report == []
    assert set(left_out) == set(range(10))


def test_a_template_at_fault_is_no_fault_of_the_parts(tmp_path):
    template = tmp_path / "booklet.typ"
    template.write_text("#nothing")
    with pytest.raises(TypesetError, match="unknown variable: nothing"):
        sparing(lambda parts: typeset(template, {"parts": len(parts)}, {}, None), range(3))


def test_a_passage_that_only_the_typesetter_refuses_is_found_by_trial(tmp_path):
    """A template that stumbles over a word stands for whatever we did not think of."""
    template = (THEME.file("booklet.typ")).read_text("utf-8")
    shown = 'if run.kind == "text" { text(run.text) }'
    stumbles = template.replace(shown, shown.replace("{ text", '{ assert(run.text != "stumble"); text'), 1)
    assert stumbles != template
    theme = replace(THEME, folders=(tmp_path, *THEME.folders))
    (tmp_path / "booklet.typ").write_text(stumbles)
    story = tuple(Told(f"day {n}", "stumble" if n in (3, 8) else f"WORD{n}") for n in range(12))
    made = care_booklet(replace(BARE, story=story), theme, pictures={})
    assert [part.passage for part in made.left_out] == [3, 8]
    shown = set(re.findall(r"WORD\d+", words(made.pdf)))
    assert shown == {f"WORD{n}" for n in range(12)} - {"WORD3", "WORD8"}


def test_a_picture_that_cannot_be_set_costs_that_picture():
    good, bad = Picture("good", 400, 300, "A good one"), Picture("bad", 400, 300, "A bad one")
    pictures = {"good": photo(400, 300), "bad": photo(400, 300)[:300]}
    piece = replace(
        BARE,
        lead=bad,
        gallery=(good, bad),
        year=None,
        story=(Told("day", "WORDS\n\n![x](p.jpg)", (("p.jpg", bad),)),),
    )
    booklet = care_booklet(piece, THEME, pictures=pictures)
    assert [alt for name, alt in tags(booklet.pdf) if name == "Figure"] == ["A good one"]
    assert sorted(str(part.passage) for part in booklet.left_out) == ["0", "None", "None"]
    card = care_card(card_of(piece), THEME, picture=pictures["bad"])
    assert len(reader(card.pdf).pages) == 2
    assert [part.passage for part in card.left_out] == [None]


# -- whatever else a maker may write -----------------------------------------------------------------

BITS = st.sampled_from(
    ["- ", "1. ", "> ", "# ", "### ", "```\n", "`", "*", "**", "~~", "[", "](https://a.example)", "](mailto:)", "](tel:)", "](http:)",
     "![", "](p.jpg)", "|a|b|\n|-|-|\n|c|d|\n", "| ", "---\n", "\n\n", "\n", "  ", "    ", "\t", "word ", "x", "\\", "<b>", "&amp;", "&#0;",
     "\u200b", "\u202e", "\u00ad", "0. ", "999999999. ", "<https://a.example/>", "https://b.example", "a@b.example", "#read(1)", "$x$", "漢", "😀"]
)  # fmt: skip


@settings(max_examples=30, suppress_health_check=list(HealthCheck))
@given(st.lists(st.lists(BITS, max_size=40).map("".join), min_size=6, max_size=6))
def test_any_passage_is_set_or_left_out(passages):
    picture = Picture("p", 400, 300, "A picture", "Of it")
    story = tuple(Told(f"day {n}", text, (("p.jpg", picture),)) for n, text in enumerate(passages))
    made = care_booklet(replace(BARE, story=story), THEME, pictures={"p": photo(400, 300)})
    assert [part for part in made.left_out if part.passage is None or " deep; " not in part.why] == []

"""The measure itself, on pages of a few lines whose answers are plain to see."""

import re

import pytest

from tests.owner.page import DESK, PHONE, Page, Passage, open_pages
from tests.owner.questions import LANGUAGES, Asked, Piece, Question, Said
from tests.owner.report import THEMES, distances, keep, kept, points
from tests.owner.score import answered

CHAIR = Piece("chair", "", "", frozenset({"seat"}))


def said(pattern, *, of=()):
    return Said(pattern, Asked(frozenset(of)), dict.fromkeys(LANGUAGES, re.compile(pattern, re.IGNORECASE)))


def question(*needs, never=(), typed=("wine",), about=None):
    words = dict.fromkeys(LANGUAGES, typed)
    return Question("q", {}, Asked(), words, {}, about, tuple(needs), tuple(never), "", "")


def passage(heading, *blocks, top=0.0, above=()):
    tops = tuple(top + 100 * n for n in range(len(blocks) + 1))
    return Passage(heading, above, False, (heading, *blocks), tops)


def page(*passages, contents=()):
    return Page(passages, contents, 5000, (), None, 0, (), False)


BLOT, RUB, STAYS = said("blot"), said("do not rub"), said("stain[^.]*maker")
FULL_ANSWER = passage("Wine", "Blot it.", "Do not rub. A stain that stays: the maker.", top=900)


def test_all_of_it_at_hand_is_two_and_its_place_is_that_of_its_heart():
    answer = answered(question(RUB, BLOT, STAYS), CHAIR, page(passage("Chair"), FULL_ANSWER), "en")
    assert (answer.score, answer.content, answer.heading, answer.word) == (2, "full", "Wine", "here")
    assert answer.px == 1100  # the second line below the heading, not the heading


def test_what_is_scattered_or_cannot_be_found_is_one():
    scattered = page(
        passage("Wine", "Blot it."), passage("B", "Do not rub."), passage("C", "Stain: the maker.")
    )
    far = page(passage("Spills", "Blot it.", top=5000))
    assert answered(question(BLOT, RUB, STAYS), CHAIR, scattered, "en").score == 1
    assert answered(question(BLOT), CHAIR, far, "en").score == 1
    deep = page(passage("Wine", "Blot it.", top=9000))
    assert answered(question(BLOT), CHAIR, deep, "en").score == 1
    listed = page(*far.passages, contents=("Wine, water and food",))
    assert answered(question(BLOT), CHAIR, listed, "en").score == 2


def test_half_without_the_heart_is_nothing_and_so_is_what_is_wrong():
    without = page(passage("Wine", "Do not rub."))
    assert answered(question(BLOT, RUB), CHAIR, without, "en").score == 0
    wrong = page(FULL_ANSWER, passage("Iron", "Use steam."))
    answer = answered(question(BLOT, never=[said("steam")]), CHAIR, wrong, "en")
    assert (answer.score, answer.content, answer.wrong) == (0, "full", ("steam",))
    of_others = question(BLOT, never=[said("steam", of=["hardwax"])])
    assert answered(of_others, CHAIR, wrong, "en").score == 2


def test_silence_is_nothing_and_a_need_of_other_pieces_is_not_missed():
    assert answered(question(BLOT), CHAIR, page(passage("Chair", "Made of ash.")), "en").content == "none"
    answer = answered(question(BLOT, said("slate", of=["stone"])), CHAIR, page(FULL_ANSWER), "en")
    assert (answer.score, answer.missing) == (2, ())


def test_what_speaks_of_something_else_does_not_count():
    other = page(passage("Lacquer", "Blot the first coat."), FULL_ANSWER)
    answer = answered(question(BLOT, about=said("wine")), CHAIR, other, "en")
    assert (answer.heading, answer.times) == ("Wine", 1)


def test_figures_are_kept_and_read_back_as_they_were(tmp_path):
    row = {
        "score": 2,
        "content": "full",
        "word": "here",
        "heading": "Wine",
        "px": 900,
        "places": 1,
        "times": 1,
    }
    silent = {"score": 0, "content": "none", "word": "nowhere"}
    of_theme = {"page": {"words": 10}, "answers": {"wine": row, "end": silent}}
    found = {"chair en": dict.fromkeys(THEMES, of_theme)}
    keep(found, tmp_path / "kept.json")
    assert kept(tmp_path / "kept.json") == found
    assert kept(tmp_path / "none.json") is None
    assert points(of_theme["answers"]) == 50
    assert distances(of_theme["answers"]) == [900]


HTML = """<!doctype html><meta name="viewport" content="width=device-width"><style>*{margin:0} main{position:relative}
h1,h2,h3,p,summary,a,nav{display:block;height:50px;line-height:50px} .far{height:3000px} nav a{height:20px}</style>
<main><header><img alt="" width="300" height="200" style="display:block"><h1>Chair</h1></header>
<nav><a href="#x">Wine</a></nav><h2>Care</h2><p>Dust it. See <a href="#x" style="display:inline">wine</a>.</p>
<div class="far"></div><section><h3>Wi&shy;ne</h3><p>Blot&nbsp;it <b>at once</b>.</p></section>
<details><summary>More about this piece</summary><h3>Oak</h3><p>It grew here.</p></details></main>"""


@pytest.mark.browser
def test_a_page_is_read_as_it_stands(chromium, tmp_path):
    (tmp_path / "page.html").write_text(HTML, encoding="utf-8")
    pages = open_pages(chromium, tmp_path / "page.html")
    assert set(pages) == {PHONE, DESK}
    phone = pages[PHONE]
    assert [p.heading for p in phone.passages] == [
        "",
        "Chair",
        "Care",
        "Wine",
        "More about this piece",
        "Oak",
    ]
    care, wine, more, oak = phone.passages[2:]
    assert care.blocks == ("Care", "Dust it. See wine.")
    assert wine.blocks == ("Wine", "Blot it at once.")
    assert wine.above == ("Chair", "Care")
    assert wine.tops[0] == 200 + 50 + 50 + 50 + 50 + 3000
    assert wine.tops[1] == wine.tops[0] + 50
    assert (oak.folded, more.folded) == (True, False)
    assert oak.tops[0] == more.tops[0]
    assert phone.contents == ("Wine",)
    assert phone.small == ("Wine",)  # a link inside a sentence is not asked to be large
    assert phone.lead_top == 0
    assert phone.title_bottom == 250
    assert phone.has_more
    assert phone.words() - phone.words(before_more=True) == 8  # More about this piece, Oak, It grew here

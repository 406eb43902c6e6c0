"""The page and the terminal: the same jobs in the same order, with the same passages, whatever is asked."""

import json
import re
import unicodedata
from itertools import pairwise

import pytest

from buildbook.book.bind import bind
from buildbook.book.past.search import open_past_work
from buildbook.find.tokens import joined, tokens
from buildbook.problems import Problems
from buildbook.render.html.search import index_script
from buildbook.render.html.search import script as finding
from buildbook.words import Words
from tests.find import test_names as names
from tests.make_shelf import made_jobs, write_shelf

pytestmark = pytest.mark.browser

QUESTIONS = [
    "walnut", "walnut glass", "oak table", "the walnut thing with the glass", "cherry chest of drawers", "wal", "w", "sideb",
    "dovetail", "half-blind dovetail", '"sliding dovetail"', '"sliding dovetail" oak', '"the pane cracked"', "frame and panel",
    "walnutt", "dovetale", "sidebord", "chery", "shelac", "mahogny", "juglans nigra", "quercus", "nussbaum", "schellack",
    "1200 mm", "4 ft", "47 in", "1.2 m", "1200", "900 mm oak", "brass hinge", "brass butt hinge drawn", "quillby", "harrow lane",
    "kitchen", "wedding present", "book-matched", "bookmatched", "storm timber 2015", "winter", "spring 2019", "2014",
    "ebony butterfly", "Türen", "soap flakes", "linseed", "apprentice", "scraper tear-out", "zzzz", "hidden drawer",
    "card scraper cherry desk", '"wiped off after"', "12 mm", "12.5 mm", "a", "the", '"', "shelves", "leaves", "glasses",
    "oka", "ahs", "mapel", "pnie", "oat", "elk", "tabel", "walnut glss", "birhc", "beehc bendh", "qurecus", "deks",
    "11°", "11 deg taper jig", "11 1/2", "walnut glass zzzz oak", "bridle joint", "Schlitz und Zapfen", "loose tenon bench", "knob height",
    "sliding dovetail setting", "Eiche", "Esche", "Schwalbenschwanz", "Eichentisch", "Schubkastenboden", "Tür", "mortise", "Zapfenverbindung", "sycamore",
]  # fmt: skip

TOLD = """(text) => {
  const { parse, ask, rank, hasPhrases, why, keys } = buildbookFind, query = parse(text), all = ask(query);
  const hits = rank(all, query).map(({ place, score }) => [keys[place], score]);
  return { hits, phrases: query.phrases };
}"""
WHY = """([text, passages]) => {
  const query = buildbookFind.parse(text);
  return buildbookFind.why(passages, query, buildbookFind.ask(query)).map((s) => [s.field, s.where, s.text, s.marks, s.at]);
}"""
ANSWER = """async (text) => {
  const field = document.getElementById("find"), heading = document.querySelector("#found h2");
  field.value = text;
  field.dispatchEvent(new Event("input"));
  while (/^Looking/.test(heading.textContent)) await new Promise((wake) => setTimeout(wake, 5));
  while (!document.getElementById("more").hidden) document.getElementById("more").click();
  const list = [...document.querySelectorAll("#found li.job")].map((item) => item.dataset.job);
  return document.getElementById("found").hidden ? null : list;
}"""


@pytest.fixture(scope="module")
def bound(tmp_path_factory):
    """A shelf of generated jobs, really bound."""
    place = tmp_path_factory.mktemp("bound")
    write_shelf(place / "shelf", made_jobs(14, seed=5))
    result = bind(place / "shelf", place / "book")
    assert result.ok, [job.fault or list(map(str, job.problems)) for job in result.jobs if not job.bound]
    return place


def opened(folder):
    """Past work opened once, to be asked many times."""
    return open_past_work(folder, Problems())


def keys_of(answer):
    return [job.key for job in answer[1]]


def test_the_page_lists_what_the_terminal_lists(bound, open_page):
    page, ask = open_page(bound / "book" / "index.html"), opened(bound / "book")
    for text in QUESTIONS:
        listed = page.evaluate(ANSWER, text)
        assert listed == keys_of(ask(text, None)), text


def test_a_book_and_the_shelf_it_was_bound_from_answer_alike(bound):
    ask_book, ask_shelf = opened(bound / "book"), opened(bound / "shelf")
    for text in QUESTIONS:
        assert ask_book(text, None) == ask_shelf(text, None), text


def test_many_jobs_come_in_the_same_order_with_the_same_points(book, open_page):
    page, ask = open_page(book / "index.html"), opened(book)
    for text in QUESTIONS:
        told = page.evaluate(TOLD, text)
        if not told["phrases"]:
            found = [[job.key, job.score] for job in ask(text, None)[1]]
            assert told["hits"] == found, text


def test_many_jobs_with_a_phrase_too(book, open_page):
    page, ask = open_page(book / "index.html"), opened(book)
    for text in (question for question in QUESTIONS if question.count('"') == 2):
        assert page.evaluate(ANSWER, text) == keys_of(ask(text, None)), text


def test_the_passages_are_the_same(book, found, open_page):
    page, ask = open_page(book / "index.html"), opened(book)
    passages = {one.key: [list(passage) for passage in one.passages] for one in found}
    for text in QUESTIONS:
        for job in ask(text, 3)[1]:
            said = page.evaluate(WHY, [text, passages[job.key]])
            assert said == [
                [s.field, s.where, s.text, [list(m) for m in s.marks], s.at] for s in job.passages
            ], text


def test_names_and_compounds_are_understood_alike(open_page, tmp_path):
    """Those sixty questions of a native, and every two words of the shelf put together."""
    script = index_script(names.INDEX, Words("de"), "mm")
    page_file = tmp_path / "ask.html"
    page_file.write_text(f"<script>{script}</script><script>{finding('find.js')}</script>", encoding="utf-8")
    page = open_page(page_file)
    words = sorted({word for one in names.SHELF for p in one.passages for word in re.findall(r"\w+", p.text)})
    questions = [*names.WRITTEN["asked"], *words, *(a + b.lower() for a, b in pairwise(words))]
    for text in questions:
        told = [key for key, _ in page.evaluate(TOLD, text)["hits"]]
        assert told == names.found(text), text


TEXTS = [
    "Straße STRASSE ärger Aerger cœur ŁÓDŹ İstanbul ﬁne ﬀ Ⅻ", "½ in ¾″ 1½\" 1 1/2 in 7' 3 1/2\" 6′ 2″ 4 ft 6 12,5mm 1 200 mm",
    "2x4 M4 3/8 0/0 1/0 in 99999999999 mm 8mm. 3in 3 in. 3 inner", "don't maker’s o'clock ''quoted'' 'tis", "book-matched re-saw-ing 3-ply a - b",
    "dresses boxes churches brushes ties ties' series radius lens axes shoes blue queue", "Жёлтый дуб 胡桃木 クルミ ελιά ΣΟΦΌΣ नमस्ते", "\u00a01\u00a0m\u2009\u202f2 mm",
]  # fmt: skip


def test_words_are_read_alike_in_both_languages(book, found, open_page):
    page = open_page(book / "index.html")
    texts = [unicodedata.normalize("NFC", text) for text in TEXTS]
    texts += [passage.text for one in found[:12] for passage in one.passages]
    said = page.evaluate(
        "(texts) => texts.map((text) => { const found = buildbookFind.tokens(text);"
        " return [...found, ...buildbookFind.joined(text, found)].map((t) => [t.term, t.typed, t.tenths, t.start, t.end]); })",
        texts,
    )
    ours = [[list(token) for token in (*tokens(text), *joined(text, tokens(text)))] for text in texts]
    assert json.dumps(said) == json.dumps(ours)

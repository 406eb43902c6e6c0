"""Problems in the language of the shop: each sentence that the code says, and none that it no longer says."""

import ast
import re
from dataclasses import replace

import pytest

from buildbook.job import read_job
from buildbook.job.notes.entries import read_notes
from buildbook.job.table.parts import read_parts
from buildbook.job.table.prices import read_prices
from buildbook.job.toml.job_toml import read_job_toml
from buildbook.job.toml.shop_toml import read_shop_toml
from buildbook.pages.notice import place_said
from buildbook.problems import Problem, Problems
from buildbook.trade import tables
from buildbook.words import Words, languages, problem_sentences
from buildbook.words.told import line, sentence, told
from tests.conftest import ROOT
from tests.job import slips
from tests.job.notes.test_entries import KNOWN
from tests.words.said import HOLE, said

TRANSLATED = [name for name in languages() if problem_sentences(name)]

NEVER_SAID = {
    "{1}. {2}": "a duty before a sale is made of words of the page",
    "{1} are not among the pictures that can be shown; it is passed over.": "one half of many, the other of one",
    "{1} is not among the pictures that can be shown; they are passed over.": "one half of one, the other of many",
    "cannot be read: .": "the system gives a reason",
    "{1} °C and {2} %: ; the nearest air in it was taken": "there is a reason where this is told",
    "({1} MB)": "a figure and its unit",
    "“{1}” is not a wood that is known here. ": "a near one is named, or where all are",
    "is , not a plain file": "what it is has a name",
}
"""Texts that look like sentences of problems to whoever reads the code, and are none, or need no other language."""

ENGLISH = re.compile(
    r"\b(?:the|is|are|not|of|that|which|with|for|and|or|write|there|no|this|a|it|by|be|has|one|from|as)\b"
)
_QUOTED = re.compile(r"[„“«][^“”»]*[“”»]|\"[^\"]*\"|\[[^\]]*\]|--\w+|\S+ = \S+")


def english_in(german):
    """English words of a sentence, beside what it quotes."""
    return ENGLISH.findall(_QUOTED.sub("", german))


def filled(text):
    """A sentence with something quoted in each hole, as most of them have."""
    first, *rest = text.split(HOLE)
    return first + "".join(f"“Wort{at}”{piece}" for at, piece in enumerate(rest, start=1))


def numbered(text):
    first, *rest = text.split(HOLE)
    return first + "".join(f"{{{at}}}{piece}" for at, piece in enumerate(rest, start=1))


SAID = {text: filled(text) for text in said() if numbered(text) not in NEVER_SAID}


def test_what_never_is_said_is_what_the_code_looks_like():
    assert {numbered(text) for text in said()} >= NEVER_SAID.keys()


def test_enough_is_read_off_the_code():
    """Each of these is put together in another way; all by hand."""
    texts = {numbered(text) for text in said()}
    assert len(texts) > 600
    assert texts >= {
        "“{1}” is not a length.",  # raised
        "Only {1} past jobs tell their hours, and {2} are needed: this is materials only.",  # a choice
        "“{1}” is not a price.",
        "The disk is full: make room on it.",  # out of a table
        "There is no = after the key: {1}.",  # a loop over a table
        "{1} stands in a comment, so what follows stays in.",  # a name given in branches
        "Put what is so long into the notes; see whether a quotation mark is never closed.",  # yielded
        "This is a list, not words in quotes.",  # of a function and a table
    }


@pytest.mark.parametrize("text", sorted(SAID.values()))
def test_german_has_every_sentence(text):
    german = sentence(text, "de")
    assert german != text
    assert english_in(german) == []


def literals():
    """Every text of the package, and those that words of another text may be."""
    for path in (ROOT / "buildbook").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield node.value
            elif isinstance(node, ast.JoinedStr):
                yield filled("".join(v.value if isinstance(v, ast.Constant) else HOLE for v in node.values))
    for path in (ROOT / "buildbook").rglob("*.csv"):
        yield path.read_text("utf-8")


@pytest.mark.parametrize("language", TRANSLATED)
def test_every_english_sentence_is_one_that_the_code_says(language):
    every = "\n".join((*SAID.values(), *literals()))
    gone = []
    for english in problem_sentences(language):
        pieces = re.split(
            r"\{\d\}", english.strip(".").strip()
        )  # a part of a sentence may have a line of its own
        shape = ".+?".join(re.escape(bare) for piece in pieces if (bare := piece.strip(" :;")))
        if not re.search(shape, every):
            gone.append(english)
    assert "\n".join(gone) == ""


@pytest.mark.parametrize("language", TRANSLATED)
def test_a_sentence_fills_only_what_its_english_has(language):
    for english, german in problem_sentences(language).items():
        assert set(re.findall(r"\{\d\}", german)) <= set(re.findall(r"\{\d\}", english)), english
        assert german.count("„") == german.count("“") or language == "de-CH", german


READERS = {
    "parts": lambda text, problems: read_parts(text.encode(), "mm", problems),
    "prices": lambda text, problems: read_prices(text.encode(), problems),
    "job_toml": lambda text, problems: read_job_toml(text.encode(), "mm", problems),
    "shop_toml": lambda text, problems: read_shop_toml(text.encode(), problems),
    "notes": lambda text, problems: read_notes([("notes.md", text.encode())], KNOWN, problems),
}


@pytest.mark.parametrize(
    ("name", "text"),
    [pytest.param(name, case.values[0], id=f"{name}-{case.id}") for name in READERS for case in slips(name)],
)
def test_what_makers_wrote_is_told_in_german(name, text):
    """The slips that every reader is tried with, each with what stands in it in its own words."""
    problems = Problems()
    READERS[name](text, problems)
    for problem in problems:
        german = told(problem, "de")
        assert german.message != problem.message
        assert (german.hint != problem.hint) == bool(problem.hint)
        assert english_in(german.message) == []
        assert set(english_in(german.hint)) <= {"a", "no", "one"}  # what a cell or key may hold


@pytest.mark.parametrize(
    ("english", "german"),
    [
        ("“breit” is not a length.", "„breit“ ist kein Maß."),
        ("“Rift” may mean standing or slanting growth rings: slanting was taken, which moves more.", "„Rift“ kann stehende oder schräge Jahresringe meinen: Genommen sind schräge, die sich mehr bewegen."),
        ("Did you mean “floor” or “wall”?", "Meinten Sie „floor“ oder „wall“?"),
        ("A coat on 2026-03-02, before the job was begun on 2026-04-01.",
         "Eine Schicht am 02.03.2026, vor dem Beginn des Auftrags am 01.04.2026."),
        ("Write overall = { width = 900, depth = 400 }, or something else.",
         "Write overall = { width = 900, depth = 400 }, or something else."),
        ("Write wood = the name of the wood, as in a list.", "Write wood = the name of the wood, as in a list."),
        ("Write stands = \"floor\".", "Schreiben Sie stands = \"floor\"."),
        ("Something that nobody has put into German.", "Something that nobody has put into German."),
    ],
)  # fmt: skip
def test_a_sentence_with_what_is_quoted_in_it(english, german):
    assert sentence(english, "de") == german
    assert sentence(english, "en") == english
    assert sentence(english, "de-CH") == german.replace("ß", "ss").replace("„", "«").replace("“", "»")


def test_where_a_stiffness_is_from_is_told_in_german():
    """The log says it under the table of shelves that sag; titles of works stay as they are printed."""
    woods = {wood.modulus.source for wood in tables.species().records if wood.modulus}
    sources = woods | {sheet.source for sheet in tables.sheet_stiffness().values()}
    sources |= {tables.constants()[key].source for key in ("glass_modulus", "books_load")}
    assert [source for source in sorted(sources) if sentence(source, "de") == source] == []


def test_only_the_sentences_change():
    problem = Problem(
        "error", "parts.csv", "There is no price.", "Write the price, or nothing.", row=4, field="price"
    )
    german = told(problem, "de")
    assert (german.message, german.hint) == ("Der Preis fehlt.", "Schreiben Sie den Preis, oder nichts.")
    assert replace(german, message=problem.message, hint=problem.hint) == problem


@pytest.mark.parametrize(
    ("where", "german", "english"),
    [
        ({"row": 3}, "Zeile 3", "row 3"),
        ({"row": 3, "also": (5, 7)}, "Zeilen 3, 5 und 7", "rows 3, 5 and 7"),
        ({"row": 3, "also": (4,)}, "Zeilen 3 und 4", "rows 3 and 4"),
        ({"line": 3, "also": (4, 5, 6)}, "Zeilen 3–6", "lines 3–6"),
        ({"line": 2, "also": (4, 5, 6)}, "Zeilen 2 und 4–6", "lines 2 and 4–6"),
        ({}, "", ""),
    ],
)
def test_several_rows_and_lines(where, german, english):
    problem = Problem("error", "parts.csv", "There is no price.", field="price", **where)
    place = ", ".join(filter(None, ("parts.csv", german, "price")))
    assert line(problem, "de") == f"{place}: Der Preis fehlt."
    assert place_said(problem, Words("de")) == place
    assert place_said(problem, Words("en")) == ", ".join(filter(None, ("parts.csv", english, "price")))


def test_a_german_job_is_told_in_german(tmp_path):
    (tmp_path / "shop.toml").write_text('name = "W"\nlanguage = "de"\n', "utf-8")
    (tmp_path / "tisch").mkdir()
    (tmp_path / "tisch" / "parts.csv").write_text(
        "Teil;Material;Länge;Breite;Dicke\nPlatte;Eiche;lang;80;20\n", "utf-8"
    )
    said = [str(problem) for problem in read_job(tmp_path / "tisch").problems]
    assert any("„lang“ ist kein Maß." in text for text in said), said

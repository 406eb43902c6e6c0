"""Problems in the language of the shop: no sentence that the code no longer says, every hole filled, the rest English."""

import ast
import re
from dataclasses import replace

import pytest

from buildbook.job import read_job
from buildbook.problems import Problem
from buildbook.words import languages, problem_sentences
from buildbook.words.told import sentence, told
from tests.conftest import ROOT

TELLING = {"error", "warn", "QuantityError", "Problem"}
AT_LEAST = 0.3
"""The share of all sentences of problems that German has; those that a maker meets most came first."""


def _template(node):
    """The text of a literal with `{1}` for what is filled in; None for what is put together otherwise."""
    if isinstance(node, ast.Constant):
        return node.value if isinstance(node.value, str) else None
    if isinstance(node, ast.JoinedStr):
        holes = iter(range(1, 10))
        return "".join(v.value if isinstance(v, ast.Constant) else f"{{{next(holes)}}}" for v in node.values)
    return None


def said_by_the_code():
    """Every literal of the package that may be a sentence of a problem, and those that surely are."""
    every, surely = set(), set()
    for path in (ROOT / "buildbook").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if (text := _template(node)) and " " in text:
                every.add(text)
            if (
                isinstance(node, ast.Call)
                and getattr(node.func, "attr", getattr(node.func, "id", "")) in TELLING
            ):
                surely |= {text for arg in node.args if (text := _template(arg)) and " " in text}
    return every, surely


EVERY, SURELY = said_by_the_code()
TRANSLATED = [name for name in languages() if problem_sentences(name)]


@pytest.mark.parametrize("language", TRANSLATED)
def test_every_english_sentence_is_one_that_the_code_says(language):
    pieces = {re.sub(r"\{\d\}", "…", text) for text in EVERY}
    gone = [
        english
        for english in problem_sentences(language)
        if (plain := re.sub(r"\{\d\}", "…", english)) not in pieces
        and not any(plain.startswith(text) and len(text) > 20 for text in pieces)
    ]
    assert gone == []


@pytest.mark.parametrize("language", TRANSLATED)
def test_a_sentence_fills_only_what_its_english_has(language):
    for english, said in problem_sentences(language).items():
        assert set(re.findall(r"\{\d\}", said)) <= set(re.findall(r"\{\d\}", english)), english
        assert said.count("„") == said.count("“") or language == "de-CH", said


def test_german_has_what_a_maker_meets_most():
    known = sum(
        sentence(re.sub(r"\{(\d)\}", r"x\1", text), "de") != re.sub(r"\{(\d)\}", r"x\1", text)
        for text in SURELY
    )
    assert known / len(SURELY) >= AT_LEAST, (known, len(SURELY))


@pytest.mark.parametrize(
    ("english", "german"),
    [
        ("“breit” is not a length.", "„breit“ ist kein Maß."),
        ("“Rift” may mean standing or slanting growth rings: slanting was taken, which moves more.", "„Rift“ kann stehende oder schräge Jahresringe meinen: Genommen sind schräge, die sich mehr bewegen."),
        ("Did you mean “floor” or “wall”?", "Meinten Sie „floor“ oder „wall“?"),
        ("A coat on 2026-03-02, before the job was begun on 2026-04-01.",
         "Eine Schicht am 2026-03-02, vor dem Beginn des Auftrags am 2026-04-01."),
        ("Write overall = { width = 900, depth = 400 }, or a parts.csv.",
         "Write overall = { width = 900, depth = 400 }, or a parts.csv."),
        ("Write wood = the name of the wood, as in parts.csv.", "Write wood = the name of the wood, as in parts.csv."),
        ("Write stands = \"floor\".", "Schreiben Sie stands = \"floor\"."),
        ("Something that nobody has put into German.", "Something that nobody has put into German."),
    ],
)  # fmt: skip
def test_a_sentence_with_what_is_quoted_in_it(english, german):
    assert sentence(english, "de") == german
    assert sentence(english, "en") == english
    assert sentence(english, "de-CH") == german.replace("ß", "ss").replace("„", "«").replace("“", "»")


def test_only_the_sentences_change():
    problem = Problem(
        "error", "parts.csv", "There is no price.", "Write the price, or nothing.", row=4, field="price"
    )
    german = told(problem, "de")
    assert (german.message, german.hint) == ("Der Preis fehlt.", "Schreiben Sie den Preis, oder nichts.")
    assert replace(german, message=problem.message, hint=problem.hint) == problem


def test_a_german_job_is_told_in_german(tmp_path):
    (tmp_path / "shop.toml").write_text('name = "W"\nlanguage = "de"\n', "utf-8")
    (tmp_path / "tisch").mkdir()
    (tmp_path / "tisch" / "parts.csv").write_text(
        "Teil;Material;Länge;Breite;Dicke\nPlatte;Eiche;lang;80;20\n", "utf-8"
    )
    said = [str(problem) for problem in read_job(tmp_path / "tisch").problems]
    assert any("„lang“ ist kein Maß." in text for text in said), said

"""Before it is sold: `proof` tells the maker which law or test a piece calls for, and never that it is met."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from buildbook.care import rules
from buildbook.care.duties import before_sale
from buildbook.care.quantities import said_quantities
from buildbook.job.proof import proof
from buildbook.quantity import Style
from tests.care.cases import (
    BARE,
    BOARD,
    BUNK,
    CABINET,
    CHAIR,
    CHILDS_CHAIR,
    COT,
    HIGH_CHAIR,
    PADDED,
    SLEEPER,
    TABLE_LAMP,
    TOWER,
    TOY,
)
from tests.care.pieces import WORDS, finished, piece, wood

ASKS = {
    "cot": (COT, "job.toml, piece", r"EN 716"),
    "bunk bed": (BUNK, "job.toml, piece", r"EN 747-1"),
    "high chair": (HIGH_CHAIR, "job.toml, piece", r"EN 14988"),
    "learning tower": (TOWER, "job.toml, piece", r"tested by a laboratory"),
    "children's chair": (CHILDS_CHAIR, "job.toml, piece", r"EN 17191"),
    "toy": (TOY, "job.toml, piece", r"2009/48"),
    "changing table": (BARE.but(piece="changing table"), "job.toml, piece", r"EN 12221"),
    "playpen": (BARE.but(piece="playpen"), "job.toml, piece", r"mandatory tests"),
    "lamp": (TABLE_LAMP, "job.toml, piece", r"EN 60598"),
    "padding": (PADDED, "parts.csv", r"fire rules"),
    "creosote": (SLEEPER, "parts.csv", r"creosote"),
    "old paint": (piece(wood(origin="door with old paint")), "parts.csv", r"16 CFR 1303"),
}


@pytest.mark.parametrize("kind", ASKS)
def test_a_duty_is_told_with_its_place_and_what_to_do(kind):
    made, place, law = ASKS[kind]
    told = before_sale(made.job)
    assert len(told) == 1
    assert told[0].severity == "warning"
    assert told[0].place == place
    assert re.search(law, told[0].hint)


@pytest.mark.parametrize("made", [CHAIR, BOARD, CABINET, BARE], ids=["chair", "board", "cabinet", "bare"])
def test_a_piece_without_such_a_duty_is_not_nagged(made):
    assert before_sale(made.job) == []


def test_each_of_them_defers_to_the_law_or_to_who_tests():
    for rule in rules():
        if rule.before_sale and not rule.per_finish:  # those ask for what the job should say of a product
            assert rule.audience == "maker"
            text = WORDS.text(f"care.{rule.key}.text", **said_quantities(Style()))
            assert re.search(r"\b(law|rules?|laboratory|certified|authority|code)\b", text)


def test_proof_tells_it_of_a_folder(tmp_path: Path):
    folder = tmp_path / "a-cot"
    folder.mkdir()
    (folder / "notes.md").write_text("## 2026-03-02\n\nThe slats are planed.\n", "utf-8")
    (folder / "job.toml").write_text('title = "Cot in beech"\npiece = "cot"\n', "utf-8")

    def said(report):
        return " ".join(str(problem) for _, problems in report.jobs for problem in problems)

    assert "EN 716" in said(proof(folder, also=(before_sale,)))
    assert "EN 716" not in said(proof(folder))
    (folder / "job.toml").write_text('title = "Cot in beech"\npiece = "cot"\ndelivered = "soon"\n', "utf-8")
    assert "soon" in said(proof(folder, also=(before_sale,)))


def test_what_is_asked_of_a_finish_is_told_at_the_finish():
    made = finished("hardwax-oil", use="on a terrace")
    (told,) = before_sale(made.job)
    assert told.place == "job.toml, finish"
    assert "exterior = true" in told.hint


@pytest.mark.parametrize("kind", ASKS)
def test_a_german_shop_is_told_in_german(kind):
    made = ASKS[kind][0].job
    german = replace(made, shop=replace(made.shop, language="de"))
    told, english = before_sale(german), before_sale(made)
    assert [problem.field for problem in told] == [problem.field for problem in english]
    assert not {problem.message for problem in told} & {problem.message for problem in english}
    assert not {problem.hint for problem in told} & {problem.hint for problem in english}

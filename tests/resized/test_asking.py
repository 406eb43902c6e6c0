"""Sizes that are asked for on a terminal: what Enter takes, what may be typed, what leaves it open."""

import pytest

from buildbook.cli import main
from buildbook.cli.commands import begin as command
from buildbook.job import read_job
from buildbook.resized.asking import asked
from buildbook.resized.wanted import read_sizes
from buildbook.words import Words
from tests.conftest import ROOT

JOB = read_job(ROOT / "sample_job", pictures=False)
DOORS, DRAWERS, BOTH = (
    ("1", "Door rail", "door rail length"),
    ("2", "DRAWER FRONT"),
    ("3", "all", "all of them"),
)


def made(answers, language="en"):
    """The wider sideboard by these answers, then no to the rest, and what was said."""
    left, told, questions = list(answers), [], []

    def ask(question):
        questions.append(question)
        return left.pop(0) if left else "no"

    resized = asked(JOB, read_sizes(["width 1800"], JOB.units), Words(language), ask, told.append)
    assert left == []
    grown = {one.size.part: round((one.new_m - one.old_m) * 1000, 1) for one in resized.changes}
    return resized, grown, told, questions


@pytest.mark.parametrize(
    ("answers", "door", "drawer"),
    [
        *((one, 100.0, None) for one in DOORS),
        *((one, None, 200.0) for one in DRAWERS),
        *((one, 66.7, 66.7) for one in BOTH),
    ],
)
def test_a_sum_is_met_by_what_is_chosen(answers, door, drawer):
    _, grown, *_ = made([answers, ""])
    assert (grown.get("Door rail"), grown.get("Drawer front")) == (door, drawer)
    assert grown["Long stand rail"] == 200.0


@pytest.mark.parametrize("answer", ["", "none"])
def test_a_sum_that_is_left_open_is_named(answer):
    resized, grown, *_ = made([answer, "no"])
    assert "Door rail" not in grown
    assert len(resized.untold) == 1


@pytest.mark.parametrize(
    ("answer", "grew"),
    [("", 200.0), ("yes", 200.0), ("1550", 150.0), ("155 cm", 150.0), ("no", None), ("1400", None)],
)
def test_a_size_is_taken_left_or_typed(answer, grew):
    _, grown, *_ = made(["1", answer])
    assert grown.get("Long stand rail") == grew


def test_what_is_no_answer_is_told_and_asked_again():
    _, grown, told, questions = made(["7", "the doors", "1", "wide", "0 mm", "1550"])
    assert len(questions) == 6
    assert sum("is none of these" in line for line in told) == 3
    assert any("“wide” is not a length" in line for line in told)
    assert grown["Long stand rail"] == 150.0


def test_it_asks_in_german():
    *_, told, questions = made(["1", "ja"], "de")
    assert questions[0].startswith("Was davon? [nichts]")
    assert questions[1].endswith("Wie lang? [1600]")
    assert any("Door rail Länge, je um +100\u202fmm" in line for line in told)


def test_the_command_asks_where_somebody_sits(tmp_path, monkeypatch, capsys):
    import buildbook.cli.resizing as resizing

    answers = iter(["Somebody", "Door rail", "1600"])
    monkeypatch.setattr(command, "is_conversation", lambda: True)
    monkeypatch.setattr(command, "ask", lambda question: next(answers))
    monkeypatch.setattr(resizing, "ask", lambda question: next(answers))
    new = tmp_path / "2032-001-wider"
    assert main(["begin", str(new), "--like", str(ROOT / "sample_job"), "--size", "width 1800"]) == 0
    rails = {part.name: part.length.m for part in read_job(new).parts if part.name.endswith("rail")}
    assert (rails["Door rail"], rails["Long stand rail"]) == (0.55, 1.6)
    assert "Somebody" in (new / "job.toml").read_text("utf-8")


def test_who_leaves_lays_out_nothing(tmp_path, monkeypatch):
    import buildbook.cli.resizing as resizing

    def leaves(question):
        raise EOFError

    monkeypatch.setattr(command, "is_conversation", lambda: True)
    monkeypatch.setattr(command, "ask", lambda question: "")
    monkeypatch.setattr(resizing, "ask", leaves)
    new = tmp_path / "new"
    assert (
        main(["begin", str(new), "--like", str(ROOT / "sample_job"), "--size", "width 1800"])
        == command.STOPPED
    )
    assert not new.exists()

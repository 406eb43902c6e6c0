"""The command `estimate`: what it writes and where, what it refuses, and that twice is the same to the byte."""

import json
import shutil
from datetime import date
from pathlib import Path

import pytest

from buildbook.book import estimate as module
from buildbook.book.estimate import estimate
from buildbook.cli import main

TESTS = Path(__file__).parents[1]
SHELF, PRESS = TESTS / "shelf", TESTS / "enquiries" / "linen-press"
DAY = date(2026, 11, 25)
FILES = {"worksheet.html", "estimate.json", "letter/index.html", "letter/letter.pdf", "contents.json"}


def files(folder):
    return {
        p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()
    }


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    place = tmp_path_factory.mktemp("estimate")
    return estimate(PRESS, SHELF, place, DAY)


def test_everything_is_written_and_twice_is_the_same(made, tmp_path):
    assert made.ok
    assert set(files(made.folder)) == FILES
    again = estimate(PRESS, SHELF, tmp_path, DAY)
    assert files(again.folder) == files(made.folder)


def test_the_letter_stands_in_a_folder_of_its_own(made):
    """What may leave is never beside what may not: the folder can be sent as it is."""
    assert {name for name in files(made.folder) if name.startswith("letter/")} == {
        "letter/index.html",
        "letter/letter.pdf",
    }


def test_estimate_json_is_what_bind_reads_back(made, tmp_path):
    from buildbook.job import read_job

    job = tmp_path / "linen-press"
    shutil.copytree(PRESS, job)
    shutil.copy(made.folder / "estimate.json", job)
    quoted = read_job(job).quoted
    facts = json.loads((made.folder / "estimate.json").read_text("utf-8"))
    assert float(quoted.hours.median) == pytest.approx(facts["hours"]["median_h"])
    assert {stage.stage for stage in quoted.by_stage} == {
        stage["stage"] for stage in facts["hours"]["by_stage"]
    }


def test_the_commands_answer(tmp_path, capsys):
    arguments = ["estimate", str(PRESS), "--from", str(SHELF), "--to", str(tmp_path), "--on", "2026-11-25"]
    assert main(arguments) == 0
    told = capsys.readouterr().out
    assert "worksheet.html" in told
    assert "(private)" in told
    assert "likeliest" in told
    assert main([*arguments, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["schema"] == 1
    with pytest.raises(SystemExit, match="2"):
        main([*arguments[:-1], "yesterday"])
    assert "yesterday" in capsys.readouterr().err


def test_what_is_wrong_is_said_and_nothing_is_written(tmp_path, capsys):
    place = tmp_path / "out"
    for enquiry, shelf, to, said in (
        (tmp_path / "nowhere", SHELF, place, "is not a folder"),
        (SHELF, SHELF, place, "holds several jobs"),
        (PRESS, tmp_path / "nowhere", place, "is not a folder"),
        (PRESS, SHELF, PRESS / "out", "never written into"),
        (PRESS, SHELF, SHELF / "2024-015-hall-table" / "out", "never written into"),
    ):
        result = estimate(enquiry, shelf, to, DAY)
        assert not result.ok
        assert said in str(result.problems[0])
        assert not to.exists()
    bad = tmp_path / "bad"
    shutil.copytree(PRESS, bad)
    (bad / "parts.csv").write_text(
        "part,qty,kind,material,length,width,thickness\nSide,some,wood,ash,8-Mar,1,1\n"
    )
    result = estimate(bad, SHELF, place, DAY)
    assert not result.ok
    assert {p.field for p in result.problems if p.severity == "error"} >= {"qty", "length"}
    assert not place.exists()


def test_an_empty_shelf_gives_materials_only(tmp_path):
    (tmp_path / "shelf").mkdir()
    shutil.copy(SHELF / "shop.toml", tmp_path / "shelf")
    shutil.copy(SHELF / "prices.csv", tmp_path / "shelf")
    result = estimate(PRESS, tmp_path / "shelf", tmp_path / "out", DAY)
    assert result.ok
    assert set(files(result.folder)) == FILES
    assert any("materials only" in str(p) for p in result.problems)


def test_a_job_with_errors_is_left_out_and_named(tmp_path):
    shelf = tmp_path / "shelf"
    shutil.copytree(SHELF, shelf, ignore=shutil.ignore_patterns("photos", "*.py"))
    (shelf / "2024-015-hall-table" / "job.toml").write_text("number = = 3")
    result = estimate(PRESS, shelf, tmp_path / "out", DAY)
    assert result.ok
    assert result.estimate.hours.jobs == 8
    assert any("2024-015-hall-table" in str(p) for p in result.problems)


def test_another_currency_is_refused(tmp_path):
    enquiry = tmp_path / "linen-press"
    shutil.copytree(PRESS, enquiry)
    (enquiry / "shop.toml").write_text('name = "Another shop"\ncurrency = "GBP"\nhour_rate = 40\n')
    result = estimate(enquiry, SHELF, tmp_path / "out", DAY)
    assert not result.ok
    assert not (tmp_path / "out").exists()
    assert "GBP" in str(result.problems[0])
    assert "EUR" in str(result.problems[0])


def test_a_file_that_is_not_ours_is_left_alone(made, tmp_path):
    place = tmp_path / "linen-press"
    place.mkdir()
    (place / "worksheet.html").write_text("mine")
    result = estimate(PRESS, SHELF, tmp_path, DAY)
    assert not result.ok
    assert files(place) == {"worksheet.html": b"mine"}
    (place / "worksheet.html").rename(tmp_path / "my own.txt")
    assert estimate(PRESS, SHELF, tmp_path, DAY).ok
    (tmp_path / "my own.txt").rename(place / "my own.txt")
    assert estimate(PRESS, SHELF, tmp_path, DAY).ok
    assert (place / "my own.txt").read_text() == "mine"


def test_a_fault_of_ours_is_told(tmp_path, monkeypatch):
    monkeypatch.setattr(module, "reckon", lambda *_: 1 / 0)
    result = estimate(PRESS, SHELF, tmp_path, DAY)
    assert "ZeroDivisionError" in result.fault
    assert not result.ok
    assert not list(tmp_path.iterdir())

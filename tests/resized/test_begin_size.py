"""`begin --like JOB --size` from the command line: what is laid out, what is said, what stays behind."""

import csv
import json
import shutil

import pytest

from buildbook.cli import main
from buildbook.job import read_job
from buildbook.summary import summarise
from tests.conftest import ROOT
from tests.resized.sized import case, folder_of
from tests.spreadsheets import ods, xlsx

SAMPLE = ROOT / "sample_job"
SIZE = "width 1800, Drawer front length 478, Long stand rail length 1600"
PRIVATE = (
    "Castellane", "6400", "parkland oak", "estate sawyer", "2026-03", "2026-04", "tenterhook.example", "2950", "9.40",
)  # fmt: skip


@pytest.fixture
def shelf(tmp_path):
    place = tmp_path / "shelf"
    shutil.copytree(
        SAMPLE, place / "2026-007-sideboard", ignore=shutil.ignore_patterns("shop.toml", "prices.csv")
    )
    for name in ("shop.toml", "prices.csv"):
        shutil.copy(SAMPLE / name, place / name)
    return place


def errors(folder):
    return [str(one) for one in read_job(folder).problems if one.severity == "error"]


def test_the_wider_sideboard_is_laid_out_and_binds(shelf, tmp_path, capsys):
    new = shelf / "2032-001-wider"
    assert main(["begin", str(new), "--like", "2026-007", "--size", SIZE, "--client", "Somebody else"]) == 0
    said = capsys.readouterr().out.replace("\u202f", " ")
    for words in (
        "Door rail length",
        "follows by the sum",
        "was as much as",
        "504 mm wide",
        "£",
        "Hours, a guess",
    ):
        assert words in said
    job = read_job(new)
    assert errors(new) == []
    assert job.overall.metres == (1.8, 0.45, 0.78)
    assert all(one.ok for one in summarise(job).sums)
    rows = {row["Part"]: row for row in csv.DictReader((new / "parts.csv").read_text("utf-8").splitlines())}
    assert [rows[name]["Length (mm)"] for name in ("Top", "Door rail", "Loose shelf", "Back")] == [
        "1800",
        "550",
        "600",
        "1743",
    ]
    assert (rows["Door panel"]["Width (mm)"], rows["Door panel"]["Opening"]) == ("504", "512")
    assert main(["bind", str(new), "--to", str(tmp_path / "book")]) == 0


def test_no_new_error_or_warning_comes_with_the_size(shelf):
    for name, more in (("2032-001-same", []), ("2032-002-wider", ["--size", SIZE])):
        assert main(["begin", str(shelf / name), "--like", "2026-007", *more]) == 0
    told = [
        {str(one).replace(name, "") for one in read_job(shelf / name).problems}
        for name in ("2032-001-same", "2032-002-wider")
    ]
    assert told[1] <= told[0]


def test_nothing_private_of_the_past_job_goes_along(shelf, capsys):
    new = shelf / "2032-001-wider"
    main(["begin", str(new), "--like", "2026-007", "--size", SIZE])
    written = "".join(path.read_text("utf-8") for path in new.iterdir() if path.is_file())
    assert [private for private in PRIVATE if private in written] == []
    kept = (new / "sizes.txt").read_text("utf-8")
    assert "1600 → 1800 mm" in kept
    assert "£" not in kept
    assert " h\n" not in kept


def test_only_the_new_folder_is_written(shelf):
    before = {path: path.read_bytes() for path in shelf.rglob("*") if path.is_file()}
    main(["begin", str(shelf / "new"), "--like", "2026-007", "--size", SIZE])
    after = {
        path: path.read_bytes() for path in shelf.rglob("*") if path.is_file() and "new" not in path.parts
    }
    assert after == before


def test_as_json_it_asks_nothing(shelf, capsys):
    new = shelf / "2032-001-wider"
    assert main(["begin", str(new), "--like", "2026-007", "--size", "width 1800", "--json"]) == 0
    facts = json.loads(capsys.readouterr().out)
    assert facts["like"].startswith("2026-007")
    assert facts["resized"]["overall"] == [{"axis": "width", "old_m": 1.6, "new_m": 1.8}]
    assert {one["part"] for one in facts["resized"]["parts"]} == {"Top", "Carcase bottom", "Top rail", "Back"}
    assert any("Drawer front length" in said for said in facts["resized"]["untold"])
    assert any(one["kind"] == "sum" for one in facts["resized"]["unfit"])
    assert [one["stage"] for one in facts["resized"]["hours_guess"]][:3] == ["design", "stock", "milling"]


@pytest.mark.parametrize(
    ("size", "said"),
    [
        ("length 1800", "names no size of the piece"),
        ("wide", "has no length"),
        ("width broad", "has no length"),
        ("width 0", "nothing"),
        ("Lid length 300", "no part of the past job"),
        ("Knob length 30", "bought as it is"),
        ("width 40", "would be nothing or less"),
        ("width 18 ell", "not a unit of length"),
    ],
)
def test_a_size_that_cannot_be_had_is_told_and_nothing_laid_out(size, said, shelf, capsys):
    assert main(["begin", str(shelf / "new"), "--like", "2026-007", "--size", size]) == 1
    assert said in capsys.readouterr().err
    assert not (shelf / "new").exists()


def test_without_a_past_job_there_is_nothing_to_size(shelf, capsys):
    assert main(["begin", str(shelf / "new"), "--size", "width 1800"]) == 1
    assert "--like" in capsys.readouterr().err


def test_a_past_job_without_the_size_is_told(shelf, capsys):
    (shelf / "bare").mkdir()
    (shelf / "bare" / "job.toml").write_text('title = "Bare"\n', "utf-8")
    assert main(["begin", str(shelf / "new"), "--like", "bare", "--size", "width 1800"]) == 1
    assert "width of the past job is not known" in capsys.readouterr().err


# -- German ------------------------------------------------------------------------------------------


def test_the_german_table_is_told_in_german(tmp_path, capsys):
    place = tmp_path / "regal"
    shutil.copytree(ROOT / "tests" / "jobs" / "esstisch", place / "esstisch")
    (place / "shop.toml").write_text('name = "Werkstatt"\nlanguage = "de"\ncurrency = "EUR"\n', "utf-8")
    size = "Breite 2300,5; Längszarge Länge 2040,5"
    assert main(["begin", str(place / "neu"), "--like", "esstisch", "--size", size]) == 0
    said = capsys.readouterr().out
    assert "war das alte Maß (Breite)" in said
    text = (place / "neu" / "parts.csv").read_text("utf-8")
    assert "Tischplatte;1;Massivholz;Europäische Eiche;2300,5;880;28,5" in text
    assert ";2040,5;95;24,5" in text
    assert 'width = "2300,5"' in (place / "neu" / "job.toml").read_text("utf-8")
    assert (place / "neu" / "masse.txt").is_file()
    job = read_job(place / "neu")
    assert (errors(place / "neu"), job.overall.width.m) == ([], 2.3005)


def test_an_inch_job_keeps_its_fractions(tmp_path):
    place = tmp_path / "shelf"
    shutil.copytree(ROOT / "tests" / "shelf" / "2024-015-hall-table", place / "hall")
    assert (
        main(
            [
                "begin",
                str(place / "new"),
                "--like",
                "hall",
                "--size",
                'width 52 1/8"',
                "--size",
                "depth 15 1/2",
            ]
        )
        == 0
    )
    rows = {
        row["Part"]: row
        for row in csv.DictReader((place / "new" / "parts.csv").read_text("utf-8").splitlines())
    }
    assert (rows["Top"]["Length"], rows["Top"]["Width"], rows["Top"]["Opening"]) == (
        "52 1/8",
        "15 1/2",
        "15 7/8",
    )
    assert rows["Leg"]["Length"] == "30 1/16"


@pytest.mark.parametrize("name", ["chest_deeper", "cabinet_frames"])
def test_what_was_laid_out_reads_back_as_it_was_told(name, tmp_path):
    facts = case(name)
    past = folder_of(facts, tmp_path)
    new = past.parent / "2032-001-new"
    assert main(["begin", str(new), "--like", str(past), "--size", facts["sizes"][0], "--json"]) == 0
    parts = {part.name: part for part in read_job(new).parts}
    asked = {answer["of"] for answer in facts.get("answer", ())}
    for row in facts["part"]:
        for side in {"length", "width", "opening"} & row.keys():
            if f"{row['part']} {side}" not in asked:
                assert getattr(parts[row["part"]], side).m * 1000 == pytest.approx(float(row[side][1]))
    assert errors(new) == []


@pytest.mark.parametrize(("name", "written"), [("parts.xlsx", xlsx), ("parts.ods", ods)])
def test_a_spreadsheet_of_the_past_job_is_made_wider(name, written, tmp_path):
    past = tmp_path / "shelf" / "past"
    past.mkdir(parents=True)
    (past / "job.toml").write_text('units = "mm"\noverall = { width = "1600" }\n', "utf-8")
    head = ["part", "material", "length", "width", "thickness"]
    (past / name).write_bytes(
        written([head, [], ["Top", "European oak", 1600, 450, 27], ["Leg", "European oak", 700, 45, 45]])
    )
    assert main(["begin", str(past.parent / "new"), "--like", "past", "--size", "width 1800"]) == 0
    parts = {part.name: part.length.m for part in read_job(past.parent / "new").parts}
    assert parts == {"Top": 1.8, "Leg": 0.7}

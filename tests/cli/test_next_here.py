"""`buildbook` alone says what can be done next where one is, and what it says can be typed."""

import shlex
import shutil

import pytest

from buildbook.cli import here, main
from buildbook.cli.parser import parser
from buildbook.job import find_jobs
from buildbook.job.places import is_book
from tests.cli.test_start import HEAVY, loaded_by
from tests.conftest import SAMPLE, every_file
from tests.words.test_told import english_in


@pytest.fixture(scope="module")
def places(tmp_path_factory, bound_sample):
    """A folder of each kind, and of what each might be taken for."""
    top = tmp_path_factory.mktemp("places")

    def made(name, *files):
        for file in files:
            (top / name / file).parent.mkdir(parents=True, exist_ok=True)
            (top / name / file).write_text("", "utf-8")
        (top / name).mkdir(parents=True, exist_ok=True)
        return top / name

    shutil.copytree(bound_sample / "handover", top / "handed" / "over")
    return {
        "empty": made("empty"),
        "hidden files only": made("hidden", ".DS_Store"),
        "job": shutil.copytree(SAMPLE, top / "job"),
        "job in capitals": made("capitals", "JOB.TOML", "Parts.CSV"),
        "job of a spreadsheet": made("sheet", "parts.ods"),
        "notes of a job": made("notes-only", "notes.md"),
        "photos of a job": top / "job" / "photos",
        "shelf": made("shelf", "shop.toml", "one/job.toml", "two/notes.md", "three/x.txt"),
        "shelf without a shop": made("plain-shelf", "one/parts.csv"),
        "shelf with notes of its own": made("noted", "shop.toml", "notes.md", "one/job.toml"),
        "new shelf": made("new-shelf", "shop.toml"),
        "book": bound_sample,
        "log of a book": bound_sample / "jobs" / "sample_job",
        "handover": bound_sample / "handover" / "sample_job",
        "handovers": bound_sample / "handover",
        "photos": made("phone", "IMG_1.JPG", "IMG_2.heic"),
        "photos in a folder": made("phone2", "photos/IMG_1.JPG"),
        "texts": made("texts", "todo.txt"),
        "other": made("other", "program.py"),
    }


KINDS = {
    "empty": here.EMPTY, "hidden files only": here.EMPTY, "job": here.JOB, "job in capitals": here.JOB,
    "job of a spreadsheet": here.JOB, "notes of a job": here.JOB, "photos of a job": here.OF_A_JOB,
    "shelf": here.SHELF, "shelf without a shop": here.SHELF, "shelf with notes of its own": here.SHELF,
    "new shelf": here.SHELF, "book": here.BOOK, "log of a book": here.PAGES, "handover": here.HANDOVER,
    "handovers": here.HANDOVERS, "photos": here.MATERIAL, "photos in a folder": here.MATERIAL,
    "texts": here.MATERIAL, "other": here.OTHER,
}  # fmt: skip


@pytest.mark.parametrize("name", KINDS)
def test_a_folder_is_what_the_readers_take_it_for(name, places):
    place = places[name]
    assert here.what_is(str(place)) == KINDS[name]
    found = find_jobs(place)
    assert (found == [place]) == (KINDS[name] == here.JOB)
    assert bool(found and found != [place]) == (KINDS[name] == here.SHELF and name != "new shelf")
    assert is_book(place) == (KINDS[name] == here.BOOK)


@pytest.mark.parametrize("name", KINDS)
def test_what_can_be_done_next_can_be_typed(name, places, monkeypatch, capsys):
    """Every line that is offered is taken by the parser, and its folders are there; nothing is written."""
    monkeypatch.chdir(places[name])
    before = every_file(places[name])
    assert main([]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    offered = [line.strip().partition("  ")[0] for line in out.splitlines() if "  buildbook " in line]
    assert offered.pop() == "buildbook --help"
    for line in offered:
        options = parser().parse_args(shlex.split(line.partition(" --fingerprint TEXT")[0])[1:])
        if options.command in ("proof", "bind", "bench", "handover", "verify"):
            assert options.folder.is_dir()
    commands = {line.split()[1] for line in offered}
    expected = {
        here.EMPTY: {"begin", "keys"}, here.MATERIAL: {"begin"}, here.OTHER: {"begin"},
        here.JOB: {"proof", "bench", "bind", "handover"}, here.OF_A_JOB: {"proof", "bench", "bind", "handover"},
        here.SHELF: {"begin"} if name == "new shelf" else {"proof", "bind", "bench", "find", "begin"},
        here.BOOK: {"find", "verify"}, here.PAGES: set(), here.HANDOVER: {"verify"}, here.HANDOVERS: {"verify"},
    }  # fmt: skip
    assert commands == expected[KINDS[name]]
    assert every_file(places[name]) == before


def test_a_job_without_job_toml_is_told_so(places, monkeypatch, capsys):
    monkeypatch.chdir(places["notes of a job"])
    main([])
    assert "a job.toml is missing" in capsys.readouterr().out
    monkeypatch.chdir(places["job"])
    main([])
    assert "job.toml" not in capsys.readouterr().out


def test_it_runs_as_it_says(places, monkeypatch, tmp_path, capsys):
    """From inside a job, binding as offered leaves the job as it was and makes its book beside it."""
    job = shutil.copytree(SAMPLE, tmp_path / "2026-001 sideboard")
    monkeypatch.chdir(job)
    before = every_file(job)
    main([])
    line = next(line for line in capsys.readouterr().out.splitlines() if "buildbook bind" in line)
    assert main(shlex.split(line.strip().partition("  ")[0])[1:]) == 0
    assert every_file(job) == before
    assert (tmp_path / "book" / "index.html").is_file()


@pytest.mark.parametrize("name", ["job", "shelf", "new shelf", "notes of a job"])
def test_a_german_shop_is_told_in_german(name, places, tmp_path, monkeypatch, capsys):
    place = shutil.copytree(places[name], tmp_path / "stelle")
    (place.parent / "shop.toml").write_text('name = "W"\nlanguage = "de"\n', "utf-8")
    if (place / "shop.toml").exists():
        (place / "shop.toml").write_text('name = "W"\nlanguage = "de"\n', "utf-8")
    monkeypatch.chdir(place)
    assert main([]) == 0
    lines = capsys.readouterr().out.splitlines()
    for line in lines:
        assert english_in(line.strip().rpartition("  ")[2]) == [], line


def test_a_folder_that_is_gone_is_told(tmp_path, monkeypatch, capsys):
    (tmp_path / "gone").mkdir()
    monkeypatch.chdir(tmp_path / "gone")
    (tmp_path / "gone").rmdir()
    assert main([]) == 1
    assert capsys.readouterr().err.startswith("error: ")


def test_nothing_heavy_is_loaded(places, monkeypatch):
    """Where a shop is about its language is read; elsewhere not even that."""
    for name in ("shelf without a shop", "photos", "job"):
        monkeypatch.chdir(places[name])
        code, modules = loaded_by()
        assert code == 0
        light = {"pathlib", "tomllib", "buildbook.problems", "buildbook.limits"} if name != "job" else set()
        assert modules & (HEAVY | light | {"argparse"}) == set(), name

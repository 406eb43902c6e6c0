"""Books and jobs in hard places: what vanishes while it is read, a full or locked disk in earnest, clocks that jump, names
that are too long or too alike, links that lead to themselves, a book on another disk than its shelf.
"""

import contextlib
import io
import os
import resource
import shutil
import time
import unicodedata
from pathlib import Path

import pytest

from buildbook.book.bind import bind
from buildbook.cli import main
from tests.book.faults import Disk, watched
from tests.book.trials import (
    JOBS,
    SETTLE_S,
    SMALL,
    Attempt,
    differing,
    edit,
    everything,
    is_clear,
    made_scene,
    pages_made_quickly,
    place_in_memory,
    write_shelf,
)
from tests.conftest import every_file, noise

DAY_NS = 24 * 3600 * 10**9
NOBODY = 65534


@pytest.fixture(scope="module", autouse=True)
def quickly():
    with pages_made_quickly():
        yield


@pytest.fixture(scope="module")
def scene():
    with place_in_memory() as place:
        yield made_scene(place)


@pytest.fixture
def place():
    with place_in_memory() as place:
        yield place


@pytest.fixture
def shelf(place):
    write_shelf(place / "shelf")
    time.sleep(SETTLE_S)
    return place / "shelf"


def said_by_binding(shelf, book):
    """The exit code of the command, and its lines."""
    said = io.StringIO()
    with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
        code = main(["bind", str(shelf), "--to", str(book)])
    assert "Traceback" not in said.getvalue()
    return code, said.getvalue().splitlines()


def is_fresh(shelf, book):
    """Whether a book is, after one more binding, what a fresh binding of the shelf makes."""
    bind(shelf, book)
    bind(shelf, book.parent / "fresh")
    found = differing(every_file(book), every_file(book.parent / "fresh"))
    shutil.rmtree(book.parent / "fresh")
    return found == []


# -- what vanishes -----------------------------------------------------------------------------------

GOES = {
    "a note": "shelf/a/notes.md",
    "the notes": "shelf/a/notes",
    "the parts": "shelf/a/parts.csv",
    "a photo": "shelf/a/photos/x.jpg",
    "the photos": "shelf/a/photos",
    "the facts": "shelf/a/job.toml",
    "a job": "shelf/a",
    "the shop": "shelf/shop.toml",
    "a page of the book": "book/jobs/a/index.html",
    "a record": "book/jobs/b/record.json",
    "what is being written": "book/jobs/.laying-a",
    "the book": "book",
}


@pytest.mark.parametrize("what", GOES)
def test_what_vanishes_at_any_moment_is_told_and_the_next_binding_is_that_of_what_is_left(scene, place, what):
    """Just before it is looked at for the nth time, as long as there is an nth time."""
    number, more = 0, True
    while more:
        number += 1
        (place / f"{number}").mkdir()
        attempt = Attempt(scene, place / f"{number}")
        target = attempt.place / GOES[what]
        more, seen = False, 0

        def before(one, number=number, attempt=attempt, target=target):
            nonlocal more, seen
            if not more and str(target) in one.paths and os.path.lexists(target):
                seen += 1
                if seen == 8 * number - 7:
                    more = True
                    os.rename(target, attempt.place / "gone")

        said = io.StringIO()
        with watched(Disk(attempt.place, before=before)), contextlib.redirect_stderr(said):
            code = main(["bind", str(attempt.shelf), "--to", str(attempt.book), "--quiet"])
        assert "Traceback" not in said.getvalue()
        assert "buildbook itself" not in said.getvalue()
        assert not code or any(map(is_clear, said.getvalue().splitlines())), said.getvalue()
        assert is_as_fresh_but_for_jobs_gone(attempt, "a" if what == "a job" else None)
        shutil.rmtree(attempt.place)
    assert number > 1


def is_as_fresh_but_for_jobs_gone(attempt, job):
    """A job that is gone stays in the book, as it was bound last."""
    if job:
        (attempt.place / "gone").rename(attempt.shelf / job) if not (attempt.shelf / job).exists() else None
    theirs = {"jobs/a/letter.odt", "handover/a/scans/1.png", "to do.txt"}
    bind(attempt.shelf, attempt.book)
    bind(attempt.shelf, attempt.place / "fresh")
    left = set(differing(every_file(attempt.book), every_file(attempt.place / "fresh"))) - theirs
    return left == set()


# -- disks in earnest --------------------------------------------------------------------------------


@pytest.mark.parametrize("most", [0, 700, 9_000, 20_000])
def test_a_disk_that_takes_no_more_than_so_many_bytes_of_a_file(scene, place, most):
    """The system itself cuts each file short, after it has written part of it."""
    attempt = Attempt(scene, place, known=False)
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, hard))
    try:
        outcome = attempt.run(lambda one: None)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert outcome.code == 1
    assert attempt.wrong(outcome) == []


@contextlib.contextmanager
def as_nobody(place):
    """Without the rights of the system's master, who may do all; whoever runs the tests may be one or not."""
    if os.geteuid():
        yield
        return
    for here, folders, files in os.walk(place):
        for name in (*folders, *files):
            os.chown(os.path.join(here, name), NOBODY, NOBODY, follow_symlinks=False)
    os.chown(place, NOBODY, NOBODY)
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


LOCKED = [
    "book",
    "book/jobs",
    "book/handover",
    "book/.own",
    "book/.own/jobs",
    "book/.own/made/jobs",
    "book/handover/a",
    "book/jobs/a/photos",
]


@pytest.mark.parametrize("folder", LOCKED)
def test_a_folder_that_may_only_be_read_is_told_and_no_page_is_lost(scene, place, folder):
    attempt = Attempt(scene, place, known=False)
    with as_nobody(place):
        before = everything(attempt.shelf)
        (place / folder).chmod(0o555)
        outcome = attempt.run(lambda one: None)
        (place / folder).chmod(0o755)
        wrong = [*attempt.wrong_in_what_was_said(outcome, False), *attempt.wrong_in_the_next()]
        assert everything(attempt.shelf) == before
    assert wrong == []
    if outcome.code:
        assert str(place / "book") in outcome.said


UNREADABLE = [
    "a/job.toml",
    "a/notes.md",
    "a/notes",
    "a/parts.csv",
    "a/photos",
    "a/photos/x.jpg",
    "a",
    "shop.toml",
]


@pytest.mark.parametrize("name", UNREADABLE)
def test_what_may_not_be_read_is_told_and_read_once_it_may(scene, place, name):
    attempt = Attempt(scene, place, known=False)
    with as_nobody(place):
        mode = (attempt.shelf / name).stat().st_mode
        (attempt.shelf / name).chmod(0)
        outcome = attempt.run(lambda one: None)
        (attempt.shelf / name).chmod(mode)
        wrong = [*attempt.wrong_in_what_was_said(outcome, False), *attempt.wrong_in_the_next()]
    assert wrong == []
    assert any(Path(name).name in line or "a" in line.split("/") for line in outcome.said.splitlines())


def test_a_shelf_that_may_not_be_read(scene, place):
    attempt = Attempt(scene, place)
    with as_nobody(place):
        attempt.shelf.chmod(0)
        outcome = attempt.run(lambda one: None)
        attempt.shelf.chmod(0o755)
    assert outcome.code == 1
    assert f"{attempt.shelf}: cannot be read: Permission denied." in outcome.said


def test_a_book_on_another_disk_than_its_shelf(place, tmp_path):
    write_shelf(tmp_path / "shelf")
    assert bind(tmp_path / "shelf", place / "book").ok
    edit(tmp_path / "shelf")
    assert is_fresh(tmp_path / "shelf", place / "book")


# -- clocks ------------------------------------------------------------------------------------------


def redone(shelf, book):
    bound = bind(shelf, book)
    assert bound.ok
    return [job.key for job in bound.jobs if job.redone]


def hides(path, one, other):
    """An edit of the same size, with its time put back."""
    seen, text = path.stat(), path.read_text()
    path.write_text(text.replace(one, other))
    os.utime(path, ns=(seen.st_atime_ns, seen.st_mtime_ns))


@pytest.mark.parametrize("ahead_ns", [-DAY_NS, DAY_NS, -400 * DAY_NS])
def test_a_clock_that_was_wrong_at_one_binding_hides_nothing_from_the_next(
    shelf, place, monkeypatch, ahead_ns
):
    book, real = place / "book", time.time_ns
    monkeypatch.setattr(time, "time_ns", lambda: real() + ahead_ns)
    assert redone(shelf, book) == list(JOBS)
    assert redone(shelf, book) == []
    monkeypatch.undo()
    hides(shelf / "a" / "notes.md", "Begun", "Start")
    assert redone(shelf, book) == ["a"]
    assert redone(shelf, book) == []
    monkeypatch.setattr(time, "time_ns", lambda: real() + ahead_ns)
    hides(shelf / "a" / "notes.md", "Start", "Begun")
    assert redone(shelf, book) == ["a"]
    assert is_fresh(shelf, book)


@pytest.mark.parametrize("offset_ns", [365 * DAY_NS, -20_000 * DAY_NS])
def test_files_from_the_future_or_long_ago_are_as_good_as_others(shelf, place, offset_ns):
    book, when = place / "book", max(1, time.time_ns() + offset_ns)
    for path in shelf.rglob("*"):
        os.utime(path, ns=(when, when))
    assert redone(shelf, book) == list(JOBS)
    for path in (p for p in book.rglob("*") if p.is_file()):
        os.utime(path, ns=(when, when))
    redone(shelf, book)
    assert redone(shelf, book) == []
    hides(shelf / "b" / "job.toml", "Box b", "Bed b")
    assert redone(shelf, book) == ["b"]
    assert is_fresh(shelf, book)


# -- names -------------------------------------------------------------------------------------------

NFC, NFD = (unicodedata.normalize(form, "Tür.jpg") for form in ("NFC", "NFD"))


@pytest.mark.parametrize(
    "names", [("img.jpg", "IMG.jpg"), (NFC, NFD), ("p" * 251 + ".jpg", "p" * 200 + ".jpg")]
)
def test_photos_of_like_or_long_names_are_each_shown(shelf, place, names):
    for name in names:
        (shelf / "a" / "photos" / name).write_bytes(noise(name, SMALL))
    if len(list((shelf / "a" / "photos").iterdir())) < 4:
        return  # this disk takes the two for one
    (shelf / "a" / "notes.md").write_text(
        "## 2026-01-05 Begun\n\n" + "\n\n".join(f"![p](<photos/{name}>)" for name in names) + "\n"
    )
    code, said = said_by_binding(shelf, place / "book")
    assert code == 0
    assert not any("warning" in line for line in said)
    assert len(list((place / "book" / "jobs" / "a" / "photos").iterdir())) == 4
    assert is_fresh(shelf, place / "book")


@pytest.mark.parametrize("name", ["j" * 200, "j" * 255, "ü" * 127])
def test_a_job_of_too_long_a_name_is_told_and_the_others_are_bound(shelf, place, name):
    (shelf / "b").rename(shelf / name)
    code, said = said_by_binding(shelf, place / "book")
    assert code == 1
    assert any(line.startswith(f"  error: {name}: ") and line.endswith("Rename the folder.") for line in said)
    assert (place / "book" / "jobs" / "a" / "index.html").exists()


def test_two_files_of_a_job_that_are_one_but_for_capitals_are_told(shelf, place):
    shutil.copy(shelf / "a" / "notes.md", shelf / "a" / "NOTES.md")
    (shelf / "b" / "job.toml").rename(shelf / "b" / "Job.toml")
    shutil.copy(shelf / "b" / "Job.toml", shelf / "b" / "JOB.TOML")
    if not (shelf / "a" / "notes.md").samefile(shelf / "a" / "NOTES.md"):
        _, said = said_by_binding(shelf, place / "book")
        assert (
            "  warning: notes.md: There are “NOTES.md” and “notes.md” here: only notes.md is read. Keep one, as notes.md."
            in said
        )
        assert any(
            line.startswith("  warning: job.toml: There are “JOB.TOML” and “Job.toml” here: none")
            for line in said
        )


def test_a_place_whose_path_is_too_long_is_told(shelf, place):
    for deep in (Path(place, *["x" * 200] * 21), place / ("y" * 300)):
        code, (said,) = said_by_binding(shelf, deep)
        assert code == 1
        assert "File name too long. Name a place with a shorter path with --to." in said


# -- links -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["photos", "photos/z.jpg", "notes", "job.toml", "parts.csv"])
def test_a_link_that_leads_to_itself_is_told_and_the_other_job_is_bound(shelf, place, name):
    path = shelf / "a" / name
    if path.is_dir():
        shutil.rmtree(path)
    path.unlink(missing_ok=True)
    path.symlink_to(path.name)
    _, said = said_by_binding(shelf, place / "book")
    told = [line for line in said if "a link that leads to itself" in line]
    assert told, said
    assert str(place) not in told[0]
    assert (place / "book" / "jobs" / "b" / "index.html").exists()
    path.unlink()
    assert is_fresh(shelf, place / "book")


def test_a_link_to_itself_among_the_jobs_costs_none(shelf, place):
    (shelf / "c").symlink_to("c")
    (shelf / "d").symlink_to("nowhere")
    code, _ = said_by_binding(shelf, place / "book")
    assert code == 0
    assert sorted(os.listdir(place / "book" / "jobs")) == list(JOBS)


@pytest.mark.parametrize("name", ["", ".own", "jobs", "handover", "jobs/a"])
def test_a_link_to_itself_where_the_book_is_to_be_is_told(shelf, place, name):
    path = place / "book" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.symlink_to(path.name)
    code, said = said_by_binding(shelf, place / "book")
    assert code == 1
    assert is_clear(said[0]), said
    assert path.is_symlink()


def test_what_lies_where_a_binding_writes_first_is_swept_away_and_a_link_is_not_followed(shelf, place):
    jobs = place / "book" / "jobs"
    jobs.mkdir(parents=True)
    (jobs / ".laying-a").symlink_to(shelf, target_is_directory=True)
    (jobs / ".laying-b").write_text("half")
    before = everything(shelf)
    code, _ = said_by_binding(shelf, place / "book")
    assert code == 0
    assert everything(shelf) == before
    assert is_fresh(shelf, place / "book")

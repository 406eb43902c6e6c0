"""A list of files that is damaged stops no job: the next binding heals it, and leaves the maker's own files alone."""

import os
import shutil

import pytest

from buildbook.book.bind import bind
from buildbook.book.lock import OWN
from buildbook.book.sealed.verify import verify
from tests.conftest import every_file, noise

JOB = 'title = "{title}"\nnumber = "1"\ndelivered = 2026-02-01\n[photos]\nlead = "photos/x.jpg"\n'
NOTES = "## 2026-01-05 Begun\n\nHours: design 1\n"
LISTS = ("handover/a/seal.json", "jobs/a/contents.json", "contents.json")


@pytest.fixture
def job(make_job):
    return make_job(
        "a", **{"job.toml": JOB.format(title="A box"), "notes.md": NOTES, "photos/x.jpg": noise(1)}
    )


@pytest.fixture
def book(job, tmp_path):
    """A book with a file of the maker's in each folder."""
    book = tmp_path / "book"
    assert bind(job, book).ok
    for folder in ("", "jobs/a", "handover/a"):
        (book / folder / "letter.odt").write_text(f"mine, in {folder}")
    return book


def truncated(path):
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def a_pipe(path):
    path.unlink()
    os.mkfifo(path)


def nested(path):
    path.write_text("[" * 200_000)


DAMAGE = {
    "emptied": lambda path: path.write_bytes(b""),
    "truncated": truncated,
    "an empty object": lambda path: path.write_text("{}"),
    "no files": lambda path: path.write_text('{"schema": 1, "files": {}}'),
    "another kind": lambda path: path.write_text('{"files": ["index.html"]}'),
    "no text": lambda path: path.write_bytes(b"\xff\xfe\x00" * 99),
    "gone": lambda path: path.unlink(),
    "a pipe": a_pipe,
    "a bomb": nested,
}


@pytest.mark.parametrize("change", [False, True], ids=["same job", "changed job"])
@pytest.mark.parametrize("harm", DAMAGE.values(), ids=DAMAGE)
@pytest.mark.parametrize("name", LISTS)
def test_a_damaged_list_is_healed_by_the_next_binding(job, book, tmp_path, name, harm, change):
    harm(book / name)
    if change:
        (job / "job.toml").write_text(JOB.format(title="Another box"))
        (job / "photos" / "x.jpg").write_bytes(noise(2))
    bound = bind(job, book)
    assert bound.ok, [str(p) for j in bound.jobs for p in j.problems] + [str(p) for p in bound.problems]
    found = every_file(book)
    for folder in ("", "jobs/a/", "handover/a/"):
        assert found.pop(f"{folder}letter.odt") == f"mine, in {folder.rstrip('/')}".encode()
    bind(job, tmp_path / "fresh")
    assert found == every_file(tmp_path / "fresh")
    os.unlink(book / "handover" / "a" / "letter.odt")
    assert verify(book / "handover" / "a").ok


@pytest.mark.parametrize("name", LISTS)
def test_where_both_lists_are_lost_what_we_would_write_is_known_as_ours(job, book, tmp_path, name):
    (book / name).write_bytes(b"")
    shutil.rmtree(book / OWN)
    assert bind(job, book).ok
    found = every_file(book)
    assert found.pop("handover/a/letter.odt").startswith(b"mine")
    bind(job, tmp_path / "fresh")
    assert {k: v for k, v in found.items() if "letter" not in k} == every_file(tmp_path / "fresh")


@pytest.mark.parametrize("name", ["handover/a/index.html", "jobs/a/summary.json", "index.html"])
def test_what_neither_list_nor_we_know_is_never_written_over(job, book, name):
    for path in (book / OWN).rglob("*.json"):
        path.unlink()
    for path in LISTS:
        (book / path).write_bytes(b"")
    (book / name).write_text("mine")
    bound = bind(job, book)
    assert not bound.ok
    assert (book / name).read_text() == "mine"


def test_the_marks_of_stale_jobs_outlive_a_damaged_list(job, book):
    (job / "job.toml").write_text("title = \n")
    bind(job, book)
    other = shutil.copytree(job, job.parent / "other")
    (other / "job.toml").write_text(JOB.format(title="Other"))
    (book / "contents.json").write_bytes(b"")
    assert bind(other, book).ok
    assert "Not bound again" in (book / "index.html").read_text("utf-8")


def facts(path):
    found = os.lstat(path)
    return found.st_mode, found.st_ino, found.st_size, found.st_mtime


@pytest.mark.parametrize(
    "lay", [lambda p: p.write_text("mine"), os.mkdir, os.mkfifo, lambda p: p.symlink_to("x")]
)
def test_a_page_of_ours_whose_place_is_taken_is_said_and_the_others_are_written(job, tmp_path, lay):
    book = tmp_path / "book"
    bind(job, tmp_path / "whole")
    book.mkdir()
    lay(book / "woods.html")
    before = facts(book / "woods.html")
    for _ in range(2):
        bound = bind(job, book)
        assert not bound.ok
        (said,) = [str(problem) for problem in bound.problems]
        assert said.startswith(str(book / "woods.html"))
        assert facts(book / "woods.html") == before
        whole = {k: v for k, v in every_file(tmp_path / "whole").items() if k != "woods.html"}
        lists = {"contents.json", f"{OWN}/book.json"}
        found = {k: v for k, v in every_file(book).items() if k != "woods.html"}
        assert {k: v for k, v in found.items() if k not in lists} == {
            k: v for k, v in whole.items() if k not in lists
        }

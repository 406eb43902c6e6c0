"""One job bound before the others are looked at: nothing but its page comes sooner."""

import shutil

import pytest

from buildbook.book.at_once import bind_at_once
from buildbook.book.bind import bind, waits_silently
from tests.conftest import every_file

FACTS = 'number = "1"\ntitle = "A box"\n'
NOTES = "## 2026-01-05 Begun\n\nHours: design 1\n"


@pytest.fixture
def shelf(make_job):
    box = make_job("box", **{"job.toml": FACTS, "notes.md": NOTES})
    make_job("chest", **{"job.toml": FACTS.replace("1", "2").replace("box", "chest"), "notes.md": NOTES})
    return box.parent


@pytest.fixture
def book(shelf, tmp_path):
    book = tmp_path / "book"
    assert bind(shelf, book).ok
    return book


def at_once(path, book):
    placed = []
    return bind_at_once(path, book, placed.append, waits_silently), placed


def test_with_the_binding_after_it_the_book_is_that_of_a_fresh_one(shelf, book, tmp_path):
    others = {name: data for name, data in every_file(book).items() if "/box" not in name}
    (shelf / "box/notes.md").write_text(NOTES + "\nThen the lid split.\n")
    job, placed = at_once(shelf / "box", book)
    assert job.bound
    assert placed == [job]
    assert {name: data for name, data in every_file(book).items() if "/box" not in name} == others
    after = bind(shelf, book)
    assert [one.redone for one in after.jobs] == [False, False]
    assert bind(shelf, tmp_path / "fresh").ok
    assert every_file(book) == every_file(tmp_path / "fresh")


def test_pages_lie_there_when_they_are_told(shelf, book):
    (shelf / "box/notes.md").write_text(NOTES + "\nThen the lid split.\n")
    seen = []

    def placed(job):
        seen.append(b"Then the lid split." in (book / "jobs/box/index.html").read_bytes())

    bind_at_once(shelf / "box", book, placed, waits_silently)
    assert seen == [True]


def test_a_job_with_an_error_keeps_its_pages(shelf, book):
    before = every_file(book)
    (shelf / "box/job.toml").write_text(FACTS + 'price = "dear"\n')
    job, placed = at_once(shelf / "box", book)
    assert not job.bound
    assert job.problems
    assert placed == []
    assert every_file(book) == before


@pytest.mark.parametrize(
    "change", ["it was renamed", "it has another title", "it is none any more", "no book"]
)
def test_what_hangs_on_others_too_is_left_to_the_whole_binding(shelf, book, change):
    path = shelf / "box"
    if change == "it was renamed":
        path = path.rename(shelf / "crate")
    elif change == "it has another title":
        (path / "job.toml").write_text(FACTS.replace("1", "2").replace("box", "chest"))
    elif change == "it is none any more":
        shutil.rmtree(path)
        path.mkdir()
    else:
        shutil.rmtree(book)
    before = every_file(book)
    assert at_once(path, book) == (None, [])
    assert every_file(book) == before

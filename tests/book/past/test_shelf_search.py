"""Finding on a shelf: a job that a book near it has as it is now is not read again, and the answers stay the same."""

import pytest

from buildbook.book import place
from buildbook.book.bind import bind
from buildbook.book.past import shelf_search
from buildbook.book.past.search import open_past_work
from buildbook.cli import parser as cli_parser
from buildbook.problems import Problems
from tests.make_shelf import made_jobs, write_shelf

QUESTIONS = ("oak", "walnut glass", '"dovetailed"', "1200 mm", "zebra")


@pytest.fixture
def shelf(tmp_path):
    write_shelf(tmp_path / "shelf", made_jobs(6))
    return tmp_path / "shelf"


@pytest.fixture
def read(monkeypatch):
    """The jobs that were read, by name."""
    names, real = [], shelf_search.read_job

    def noting(path, **how):
        names.append(path.name)
        return real(path, **how)

    monkeypatch.setattr(shelf_search, "read_job", noting)
    return names


def answers(shelf):
    ask = open_past_work(shelf, Problems())
    return [ask(text, None) for text in QUESTIONS]


@pytest.mark.parametrize("where", ["shelf/book", "book"])
def test_what_a_book_has_as_it_is_now_is_not_read(shelf, tmp_path, read, where):
    without = answers(shelf)
    assert len(read) == 6
    read.clear()
    bind(shelf, tmp_path / where)
    before = {path: path.stat().st_mtime_ns for path in (tmp_path / where).rglob("*")}
    assert answers(shelf) == without
    assert read == []
    assert {path: path.stat().st_mtime_ns for path in (tmp_path / where).rglob("*")} == before


def test_a_job_that_has_changed_is_read_and_found_by_its_new_words(shelf, tmp_path, read):
    bind(shelf, tmp_path / "book")
    notes = sorted(shelf.glob("*/notes.md"))[2]
    notes.write_text(notes.read_text("utf-8") + "\nA zebra walked in.\n", "utf-8")
    assert [job.key for job in open_past_work(shelf, Problems())("zebra", None)[1]] == [notes.parent.name]
    assert read == [notes.parent.name]


def test_a_book_of_other_jobs_of_the_same_names_tells_nothing(shelf, tmp_path, read):
    write_shelf(tmp_path / "other", made_jobs(6))
    bind(tmp_path / "other", shelf / "book")
    for job in sorted(shelf.glob("*/job.toml")):
        job.write_text(job.read_text("utf-8") + "\n# of another shop\n", "utf-8")
    answers(shelf)
    assert len(read) == 6


def test_the_command_line_and_the_search_mean_the_same_book():
    assert place.DEFAULT_BOOK == cli_parser.DEFAULT_BOOK

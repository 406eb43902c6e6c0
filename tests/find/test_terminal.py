"""`buildbook find` as it is used: a table, JSON, nothing found, nowhere to look, a book and its shelf."""

import json
import re

import pytest

from buildbook.cli import main
from tests.make_shelf import made_jobs, write_book, write_shelf
from tests.test_cli import run

FACTS = ["job", "title", "page", "score", "passage"]
MANY = 120
SHOWN = 20


@pytest.fixture(scope="module")
def shelf(tmp_path_factory):
    place = tmp_path_factory.mktemp("terminal") / "shelf"
    write_shelf(place, made_jobs(8, seed=9))
    return place


@pytest.fixture(scope="module")
def big_book(tmp_path_factory):
    place = tmp_path_factory.mktemp("terminal") / "book"
    write_book(place, made_jobs(MANY, seed=9))
    return place


def found(capsys, *arguments):
    """Exit code and what was printed as JSON."""
    code = main(["find", *map(str, arguments), "--json"])
    return code, json.loads(capsys.readouterr().out)


def test_a_table_names_each_job_with_why_it_was_found(shelf):
    code, out, error = run("find", "oak", "--in", shelf)
    assert (code, error) == (0, "")
    head, *rows = out.splitlines()
    assert head.split() == ["job", "title", "date", "why"]
    _, listed, _ = run("find", "oak", "--in", shelf, "--json")
    keys = [job["job"] for job in json.loads(listed)]
    assert keys
    assert [row.split()[0] for row in rows if row[:1].strip()] == keys
    assert "oak" in "".join(rows).lower()


def test_a_long_table_stops_and_says_how_many_are_left(big_book, capsys):
    assert main(["find", "the", "--in", str(big_book)]) == 0
    *table, last = capsys.readouterr().out.splitlines()
    assert last == f"and {MANY - SHOWN} more: add a word."
    assert sum(1 for row in table[1:] if row[:1].strip()) == SHOWN


def test_json_lists_every_job_with_the_same_facts(big_book, capsys):
    code, jobs = found(capsys, "oak", "--in", big_book)
    assert code == 0
    assert len(jobs) > SHOWN  # not only what a table shows
    for job in jobs:
        assert list(job) == FACTS
        page, _, place = job["page"].partition("#")
        assert page == f"jobs/{job['job']}/index.html"
        assert (big_book / page).is_file()
        assert re.fullmatch(r"(day-[\w-]+|cut_list|hardware|supplies|finishes|worked)?", place)
        assert job["title"]
        assert "oak" in job["passage"].lower()
    scores = [job["score"] for job in jobs]
    assert all(isinstance(score, int) for score in scores)
    assert scores == sorted(scores, reverse=True)


def test_words_are_one_question_however_the_shell_parts_them(shelf, capsys):
    assert found(capsys, "oak", "dovetail", "--in", shelf) == found(capsys, "oak dovetail", "--in", shelf)
    quoted = found(capsys, '"frame and panel"', "--in", shelf)[1]
    assert {job["job"] for job in quoted} <= {
        job["job"] for job in found(capsys, "frame", "panel", "--in", shelf)[1]
    }


def test_nothing_found_is_no_error(shelf, capsys):
    assert found(capsys, "zzzz", "--in", shelf) == (0, [])
    code, out, error = run("find", "zzzz", "--in", shelf)
    assert (code, error) == (0, "")
    assert "No job" in out
    assert "word" in out  # what to do


def test_where_no_job_has_all_of_it_that_is_said(shelf):
    code, out, _ = run("find", "oak", "dovetail", "zzzz", "--in", shelf)
    first, _, *rows = out.splitlines()
    assert (code, first) == (0, "No job has all of this. These have most of it.")
    assert rows


def test_each_reason_ends_in_where_it_stands(shelf):
    _, out, _ = run("find", "glue", "--in", shelf)
    led = [line.split()[-1] for line in out.splitlines() if "#day-" in line]
    assert led
    assert all(place.startswith("jobs/") for place in led)


def test_where_no_job_is_it_says_so_and_gives_code_1(tmp_path):
    code, out, error = run("find", "oak", "--in", tmp_path / "nowhere")
    assert (code, out) == (1, "")
    assert "nowhere" in error
    assert "--in" in error
    assert "Traceback" not in error


def test_an_index_that_is_broken_says_what_to_do(big_book, tmp_path):
    (tmp_path / "search.js").write_text((big_book / "search.js").read_text()[:5000])
    code, _, error = run("find", "oak", "--in", tmp_path)
    assert code == 1
    assert "Bind the book again" in error


@pytest.mark.parametrize("text", ["oak", "walnut table", '"sliding dovetail"', "1200 mm", "wlanut", "oka"])
def test_a_book_and_its_shelf_give_the_same(shelf, tmp_path_factory, capsys, text):
    book = tmp_path_factory.getbasetemp() / "terminal-book"
    if not book.exists():
        assert main(["bind", str(shelf), "--to", str(book)]) == 0
        capsys.readouterr()
    assert found(capsys, text, "--in", book) == found(capsys, text, "--in", shelf)
    assert found(capsys, "oak", "--in", book)[1]


def test_here_is_the_usual_place(shelf):
    assert run("find", "oak", "--json", cwd=shelf)[1] == run("find", "oak", "--json", "--in", shelf)[1]

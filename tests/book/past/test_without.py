"""One job at which this program fails costs the others nothing: it is named, and everything goes on without it."""

import json
from datetime import date

import pytest

import buildbook.book.bind
import buildbook.book.estimate
import buildbook.book.past.across
import buildbook.book.past.index_files
import buildbook.book.past.past_jobs
import buildbook.book.past.shelf_search
import buildbook.book.past.top
import buildbook.job.proof
from buildbook.book.bind import bind
from buildbook.book.estimate import estimate
from buildbook.book.past.search import find_in
from buildbook.book.past.without import without_failing
from buildbook.job.proof import proof
from buildbook.problems import Problems
from buildbook.render.html.theme import ThemeError

PARTS = "part,qty,material,length,width,thickness\nSide,2,European oak,700,400,19\n"
NOTES = "## 2026-03-02 Sides\n\nHours: joinery 2\n"


class OursError(Exception):
    """A fault that nobody thought of."""


@pytest.fixture
def shelf(make_job):
    for name in ("good-one", "bad-one", "good-two"):
        make_job(
            name,
            job_dot_toml=f'title = "{name}"\ndelivered = 2026-04-11\n',
            parts_dot_csv=PARTS,
            notes_dot_md=NOTES,
        )
    folder = make_job("good-one").parent
    (folder / "shop.toml").write_text('name = "Shop"\n')
    return folder


def failing(monkeypatch, module, name, key=lambda first: first.key):
    """A step of a module that fails at one job."""
    real = getattr(module, name)

    def step(first, *more, **named):
        if "bad-one" in key(first):
            raise OursError("nobody thought of it")
        return real(first, *more, **named)

    monkeypatch.setattr(module, name, step)


def keys(some):
    return " ".join(one.key for one in some)


def test_find_answers_without_it(shelf, monkeypatch):
    failing(monkeypatch, buildbook.book.past.shelf_search, "summarise")
    problems = Problems()
    _, found = find_in(shelf, "oak", None, problems)
    assert {job.key for job in found} == {"good-one", "good-two"}
    assert [p.file for p in problems] == ["bad-one"]
    assert "OursError: nobody thought of it" in str(next(iter(problems)))


def test_find_builds_its_index_without_it(shelf, monkeypatch):
    failing(monkeypatch, buildbook.book.past.shelf_search, "build", lambda records: keys(records))
    problems = Problems()
    _, found = find_in(shelf, "oak", None, problems)
    assert {job.key for job in found} == {"good-one", "good-two"}
    assert [p.file for p in problems] == ["bad-one"]


def test_proof_tells_of_the_others(shelf, monkeypatch):
    failing(monkeypatch, buildbook.job.proof, "record_gaps")
    report = dict(proof(shelf).jobs)
    assert set(report) == {"good-one", "bad-one", "good-two"}
    assert not proof(shelf).ok
    assert [p.severity for p in report["bad-one"]] == ["error"]


@pytest.mark.parametrize(
    ("step", "key"), [("reckon", lambda first: first.key), ("read_job", lambda path: path.name)]
)
def test_an_estimate_goes_on_without_it(step, key, shelf, make_job, tmp_path, monkeypatch):
    enquiry = make_job("../asked", job_dot_toml='title = "x"\n', parts_dot_csv=PARTS)
    real = buildbook.book.estimate.reckon

    def reckon(job, past, day):
        if "bad-one" in keys(past):
            raise OursError("nobody thought of it")
        return real(job, past, day)

    if step == "reckon":
        monkeypatch.setattr(buildbook.book.estimate, "reckon", reckon)
    else:
        failing(monkeypatch, buildbook.book.past.past_jobs, "read_job", key)
    made = estimate(enquiry, shelf, tmp_path / "estimate", date(2026, 5, 1))
    assert made.estimate, made.fault
    assert {like.job for like in made.estimate.like} == {"good-one", "good-two"}
    assert [p.file for p in made.problems if "itself failed" in p.message] == ["bad-one"]


@pytest.mark.parametrize(
    ("module", "step", "jobs"),
    [
        (buildbook.book.past.top, "past_work", keys),
        (buildbook.book.past.across, "across_pages", lambda shelf: keys(shelf.records)),
        (buildbook.book.past.index_files, "build", keys),
    ],
    ids=["the list", "the pages across jobs", "the index"],
)
def test_the_pages_of_all_jobs_are_made_without_it(module, step, jobs, shelf, tmp_path, monkeypatch):
    failing(monkeypatch, module, step, jobs)
    result = bind(shelf, tmp_path / "book")
    assert all(job.bound for job in result.jobs)
    assert [p.file for p in result.problems] == ["bad-one"]
    assert result.ok, "the others are whole"
    woods = (tmp_path / "book" / "woods.html").read_text("utf-8")
    assert "good-one" in woods
    assert json.loads((tmp_path / "book" / "contents.json").read_text())["files"]


def test_where_no_one_job_is_at_fault_it_is_told_and_the_jobs_stand(shelf, tmp_path, monkeypatch):
    def never(*_, **__):
        raise OursError("nobody thought of it")

    monkeypatch.setattr(buildbook.book.past.top, "past_work", never)
    result = bind(shelf, tmp_path / "book")
    assert all(job.bound for job in result.jobs)
    assert not result.ok
    assert "OursError" in str(result.problems[0])


def test_what_is_no_fault_of_a_job_is_not_blamed_on_one():
    def make(jobs):
        raise ThemeError("no theme")

    with pytest.raises(ThemeError):
        without_failing(make, ["a", "b"], str, Problems())

"""Nothing is ever laid over a job or beside its files, wherever the output is sent and by whatever links."""

import os
import shutil
import unicodedata
from datetime import date
from pathlib import Path

import pytest

from buildbook import bench
from buildbook.book.bind import bind
from buildbook.book.estimate import estimate
from buildbook.book.sealed.pack import pack
from buildbook.cli import main
from buildbook.job import find_jobs
from buildbook.job.begin import BeginError, begin
from buildbook.job.proof import proof
from tests.conftest import noise

NOTES = "## 2026-01-05 Begun\n\nHours: design 1\n"
JOB = 'title = "A box"\nnumber = "1"\ndelivered = 2026-02-01\n'
PARTS = "part,kind,material,length,width,thickness\nTop,wood,oak,600,300,20\n"


@pytest.fixture
def shelf(tmp_path):
    """A shelf of two jobs, each with a photo, in a folder called as a book calls its own."""
    shelf = tmp_path / "work" / "jobs"
    for name in ("a", "b"):
        job = shelf / name
        (job / "photos").mkdir(parents=True)
        (job / "photos" / "x.jpg").write_bytes(noise(1))
        (job / "job.toml").write_text(JOB)
        (job / "notes.md").write_text(NOTES)
        (job / "parts.csv").write_text(PARTS)
    (shelf / "shop.toml").write_text('name = "The Workshop"\ncurrency = "EUR"\nhour_rate = 50\n')
    return shelf


def everything(folder):
    """Every name below a folder, folders and links too, with what is in it; links are not followed."""
    found = {}
    for here, folders, files in os.walk(folder):
        for name in (*folders, *files):
            path = os.path.join(here, name)
            plain = os.path.isfile(path) and not os.path.islink(path)
            found[os.path.relpath(path, folder)] = Path(path).read_bytes() if plain else os.path.islink(path)
    return found


def link(tmp_path, target, name="link"):
    path = tmp_path / name
    path.symlink_to(target, target_is_directory=True)
    return path


OVER = {
    "the shelf itself": lambda shelf, tmp: (shelf, shelf),
    "the folder around the shelf": lambda shelf, tmp: (shelf, shelf.parent),
    "far around the shelf": lambda shelf, tmp: (shelf, tmp),
    "a job of it": lambda shelf, tmp: (shelf, shelf / "a"),
    "in a job": lambda shelf, tmp: (shelf, shelf / "a" / "book"),
    "deep in a job": lambda shelf, tmp: (shelf, shelf / "a" / "photos" / "of" / "mine"),
    "by way of two dots": lambda shelf, tmp: (shelf, shelf / "a" / "photos" / ".." / "book"),
    "one job into the shelf": lambda shelf, tmp: (shelf / "a", shelf),
    "one job into its neighbour": lambda shelf, tmp: (shelf / "a", shelf / "b"),
    "one job deep into its neighbour": lambda shelf, tmp: (shelf / "a", shelf / "b" / "photos" / "book"),
    "a link to a job": lambda shelf, tmp: (shelf, link(tmp, shelf / "a")),
    "in a link to a job": lambda shelf, tmp: (shelf, link(tmp, shelf / "a") / "book"),
    "a link to the shelf": lambda shelf, tmp: (shelf, link(tmp, shelf)),
    "the shelf by a link": lambda shelf, tmp: (link(tmp, shelf), shelf.parent),
    "a job by a link": lambda shelf, tmp: (link(tmp, shelf / "a"), shelf / "a" / "book"),
    "a neighbour by a link": lambda shelf, tmp: (link(tmp, shelf / "a"), shelf / "b" / "book"),
    "a job that is a link": lambda shelf, tmp: (
        link(shelf, shutil.move(shelf / "a", tmp / "far" / "a"), "a").parent,
        tmp / "far" / "a" / "book",
    ),
    "around a job that is a link": lambda shelf, tmp: (
        link(shelf, shutil.move(shelf / "a", tmp / "far" / "a"), "a").parent,
        tmp / "far",
    ),
}


@pytest.mark.parametrize("where", OVER.values(), ids=OVER)
def test_a_book_that_would_lie_over_a_job_is_refused(shelf, tmp_path, where):
    (tmp_path / "far").mkdir()
    folder, book = where(shelf, tmp_path)
    before = everything(tmp_path)
    bound = bind(folder, book)
    assert not bound.ok
    assert [p.severity for p in bound.problems] == ["error"]
    assert bound.jobs == ()
    assert everything(tmp_path) == before


@pytest.mark.parametrize("to", [".", "./", "../jobs", "a", "..", "a/photos"])
def test_standing_in_the_shelf(shelf, monkeypatch, to):
    monkeypatch.chdir(shelf)
    before = everything(shelf.parent)
    assert main(["bind", ".", "--to", to]) == 1
    assert everything(shelf.parent) == before


CONTAINERS = {
    "jobs": lambda book, shelf: shutil.copytree(shelf, book / "jobs"),
    "jobs by a link": lambda book, shelf: link(book, shelf, "jobs"),
    "handover by a link": lambda book, shelf: link(book, shelf, "handover"),
    "handover": lambda book, shelf: shutil.copytree(shelf, book / "handover"),
    "papers": lambda book, shelf: (book / "handover" / "a" / "papers").mkdir(parents=True),
    "scans": lambda book, shelf: shutil.copytree(shelf / "a" / "photos", book / "jobs" / "c"),
    "one page by a link": lambda book, shelf: link(
        (book / "handover").mkdir() or book / "handover", shelf, "c"
    ),
    "the list by another": lambda book, shelf: (book / "contents.json").write_text("my own list"),
}


@pytest.mark.parametrize("lay", CONTAINERS.values(), ids=CONTAINERS)
def test_a_folder_of_the_makers_where_the_book_puts_its_own_is_not_written_into(shelf, tmp_path, lay):
    job = tmp_path / "other" / "c"
    shutil.copytree(shelf / "a", job)
    book = tmp_path / "place"
    book.mkdir()
    lay(book, shelf)
    before = everything(tmp_path)
    assert not bind(job, book).ok
    assert everything(tmp_path) == before


def test_a_job_folder_that_an_older_binding_wrote_into_is_a_job_all_the_same(shelf, tmp_path):
    """Pages of ours lie in a maker's folder, with a list that names them: its job.toml says whose it is."""
    job = tmp_path / "other" / "a"
    shutil.copytree(shelf / "a", job)
    bind(job, tmp_path / "book")
    shutil.copytree(tmp_path / "book" / "jobs" / "a", shelf / "a", dirs_exist_ok=True)
    (tmp_path / "book" / "contents.json").rename(shelf.parent / "contents.json")
    assert [path.name for path in find_jobs(shelf)] == ["a", "b"]
    before = everything(shelf.parent)
    assert not bind(job, shelf.parent).ok
    assert everything(shelf.parent) == before


def test_a_book_beside_the_jobs_is_bound_and_never_read_as_a_job(shelf):
    book = shelf / "book"
    before = {path: everything(path) for path in find_jobs(shelf)}
    for _ in range(2):
        bound = bind(shelf, book)
        assert [job.key for job in bound.jobs if job.bound] == ["a", "b"]
    assert {path: everything(path) for path in before} == before
    (book / "notes.md").write_text("what I think of the book")
    (book / "parts.csv").write_text(PARTS)
    assert [path.name for path in find_jobs(shelf)] == ["a", "b"]
    assert [job.key for job in bind(shelf, book).jobs] == ["a", "b"]
    assert find_jobs(book) == []
    (book / "contents.json").write_bytes(b"")
    assert [path.name for path in find_jobs(shelf)] == ["a", "b"]
    assert bind(shelf, book).ok


def test_a_book_that_is_a_link_is_bound_where_it_leads(shelf, tmp_path):
    (tmp_path / "disk").mkdir()
    book = link(tmp_path, tmp_path / "disk", "book")
    assert bind(shelf, book).ok
    assert (tmp_path / "disk" / "handover" / "a" / "index.html").is_file()


def test_notes_of_another_kind_in_a_folder_around_the_book_are_no_job(shelf, tmp_path):
    (tmp_path / "notes").mkdir()
    (tmp_path / "notes.md").write_text("to buy")
    assert bind(shelf, tmp_path / "book").ok


# -- the other commands --------------------------------------------------------------------------


@pytest.mark.parametrize("to", ["jobs", "jobs/a", "jobs/b/photos", "link", "jobs/a/estimate"])
def test_an_estimate_is_not_laid_over_a_job(shelf, tmp_path, to):
    link(shelf.parent, shelf / "b")
    before = everything(tmp_path)
    made = estimate(shelf / "a", shelf, shelf.parent / to, date(2026, 5, 1))
    assert [p.severity for p in made.problems] == ["error"]
    assert made.folder is None
    assert everything(tmp_path) == before


def test_an_estimate_is_not_laid_over_a_folder_of_the_makers(shelf, tmp_path):
    shutil.copytree(shelf / "a" / "photos", tmp_path / "estimate" / "a" / "photos")
    before = everything(tmp_path)
    assert not estimate(shelf / "a", shelf, tmp_path / "estimate", date(2026, 5, 1)).ok
    assert everything(tmp_path) == before


@pytest.mark.parametrize("to", ["jobs/a", "jobs/b", "jobs/b/photos", "link", "jobs/a/packed"])
def test_a_handover_is_not_packed_into_a_job(shelf, tmp_path, to):
    link(shelf.parent, shelf / "b")
    before = everything(tmp_path)
    packed = pack(shelf / "a", shelf.parent / to, lambda *_: None)
    assert "never written into" in str(packed.problems[0])
    assert packed.archive is None
    assert everything(tmp_path) == before


@pytest.mark.parametrize("to", ["jobs", "jobs/a/book", "."])
def test_the_bench_writes_over_no_job(shelf, tmp_path, to):
    before = everything(tmp_path)
    with pytest.raises(bench.BenchError):
        bench.run(
            shelf,
            shelf.parent / to,
            0,
            told=lambda bound: None,
            said=lambda text: None,
            ready=lambda where: None,
        )
    assert everything(tmp_path) == before


@pytest.mark.parametrize("name", ["a/new", "a/photos/new", "link/new", "book/new", "book/jobs/new", "A"])
def test_no_job_is_begun_in_a_job_or_a_book_nor_under_a_name_that_is_taken(shelf, tmp_path, name):
    bind(shelf, shelf / "book")
    link(shelf, shelf / "b")
    before = everything(tmp_path)
    with pytest.raises(BeginError):
        begin(shelf / name)
    assert everything(tmp_path) == before


# -- names ---------------------------------------------------------------------------------------

TWO = {
    "capitals": ("Table", "table"),
    "the form of accents": (unicodedata.normalize("NFC", "Tür"), unicodedata.normalize("NFD", "Tür")),
    "both": (unicodedata.normalize("NFC", "TÜR"), unicodedata.normalize("NFD", "tür")),
}


@pytest.mark.parametrize("names", TWO.values(), ids=TWO)
def test_two_names_that_are_one_on_some_disks_are_refused_for_the_second(make_job, tmp_path, names):
    jobs = sorted(make_job(name, **{"notes.md": NOTES, "job.toml": JOB}) for name in names)
    if len(find_jobs(jobs[0].parent)) == 1:
        return  # this disk is one of those
    bound = bind(jobs[0].parent, tmp_path / "book")
    assert [(job.key, job.bound) for job in bound.jobs] == [(jobs[0].name, True), (jobs[1].name, False)]
    assert "capitals" in str(bound.jobs[1].problems[0])
    checked = dict(proof(jobs[0].parent).jobs)
    assert bound.jobs[1].problems[0] in checked[jobs[1].name]
    assert bound.jobs[1].problems[0] not in checked[jobs[0].name]


def test_the_pages_of_another_job_under_a_like_name_are_kept(make_job, tmp_path):
    one = make_job("Table", **{"notes.md": NOTES, "job.toml": JOB})
    other = tmp_path / "other" / "table"
    shutil.copytree(one, other)
    assert bind(one, tmp_path / "book").ok
    before = everything(tmp_path / "book" / "jobs")
    (result,) = bind(other, tmp_path / "book").jobs
    assert not result.bound
    assert "Table" in str(result.problems[0])
    assert everything(tmp_path / "book" / "jobs") == before
    assert bind(one, tmp_path / "book").ok


def test_a_job_that_is_a_link_has_the_name_of_the_link_whether_it_is_bound_or_not(make_job, tmp_path):
    job = make_job("real", **{"notes.md": NOTES, "job.toml": JOB})
    named = link(tmp_path, job, "named")
    assert [done.key for done in bind(named, tmp_path / "book").jobs] == ["named"]
    (job / "job.toml").write_text("title = \n")
    assert [done.key for done in bind(named, tmp_path / "book").jobs] == ["named"]
    assert [key for key, _ in proof(named).jobs] == ["named"]

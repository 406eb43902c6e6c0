"""Estimating from a shelf: a job that has not changed since a book near it was bound is not read again, and whatever
became of the book, the estimate is the same to the byte.
"""

import os
import shutil
import sys
from dataclasses import replace
from datetime import date

import pytest

from buildbook.book.bind import bind
from buildbook.book.estimate import estimate
from buildbook.book.past import past_jobs
from buildbook.book.redo.made import keep_made, place_of, place_of_past, read_made
from buildbook.cli import main
from buildbook.estimate.past import past_job
from buildbook.job import find_jobs, read_job
from buildbook.left.for_estimates import decoded_past, encoded_past
from tests.conftest import ROOT

SHELF = ROOT / "tests" / "shelf"
ENQUIRIES = [ROOT / "tests" / "enquiries" / name for name in ("linen-press", "low-bench")]
"""One with its parts, and one of sizes alone, which is scaled from the rows of past jobs."""
JOB, OTHER = "2024-015-hall-table", "2022-021-garden-bench"
DAY = date(2026, 11, 25)


@pytest.fixture(scope="module")
def bound(tmp_path_factory):
    """A shelf with its book, bound until nothing of it is too fresh to trust."""
    shelf = tmp_path_factory.mktemp("past") / "shelf"
    shutil.copytree(SHELF, shelf, ignore=shutil.ignore_patterns("photos", "*.py"))
    for _ in range(3):
        assert bind(shelf, shelf / "book").ok
    return shelf


@pytest.fixture
def shelf(bound, tmp_path):
    """A copy, of which the system tells other times and identities."""
    return shutil.copytree(bound, tmp_path / "shelf")


@pytest.fixture
def read(monkeypatch):
    """The jobs that were read, by name."""
    names, real = [], past_jobs.read_job

    def noting(path, *how, **more):
        names.append(path.name)
        return real(path, *how, **more)

    monkeypatch.setattr(past_jobs, "read_job", noting)
    return names


def estimated(shelf, enquiries=ENQUIRIES):
    """All that is written and told of some enquiries."""
    place = shelf.parent / "estimates"
    shutil.rmtree(place, ignore_errors=True)
    made = [estimate(one, shelf, place, DAY) for one in enquiries]
    assert all(one.estimate for one in made), [one.fault for one in made]
    files = {
        path.relative_to(place): path.read_bytes() for path in sorted(place.rglob("*")) if path.is_file()
    }
    return files, [one.problems for one in made]


def jobs_of(shelf):
    return [path.name for path in find_jobs(shelf)]


def without_book(shelf):
    shutil.rmtree(shelf / "book")
    return estimated(shelf)


def test_where_nothing_changed_no_job_is_read(shelf, read):
    found = estimated(shelf)
    assert read == []
    assert found == without_book(shelf)
    assert read == 2 * jobs_of(shelf)


def test_the_command_line_says_the_same(bound, tmp_path, capsys):
    asked = [
        "estimate",
        str(ENQUIRIES[0]),
        "--to",
        str(tmp_path),
        "--on",
        DAY.isoformat(),
        "--json",
        "--from",
    ]
    shutil.copytree(bound, tmp_path / "bare", ignore=shutil.ignore_patterns("book"))
    assert [main([*asked, str(shelf)]) for shelf in (bound, tmp_path / "bare")] == [0, 0]
    one, other = capsys.readouterr().out.split("\n}\n")[:2]
    assert one == other


class Opened:
    """The files that are opened while `watching`."""

    def __init__(self):
        self.files, self.watching = set(), False
        sys.addaudithook(self.hook)  # one cannot be taken out again

    def hook(self, event, args):
        if self.watching and event == "open" and isinstance(args[0], str | bytes | os.PathLike):
            self.files.add(os.path.realpath(os.fsdecode(args[0])))


def test_no_file_of_a_job_is_opened_and_none_of_the_book_written(bound):
    opened, top = Opened(), f"{os.path.realpath(bound)}/"
    before = {path: path.stat().st_mtime_ns for path in bound.rglob("*")}
    opened.watching = True
    estimated(bound)
    opened.watching = False
    inside = {name.removeprefix(top) for name in opened.files if name.startswith(top)}
    left = {f"book/.own/made/jobs/{key}.{kind}" for key in jobs_of(bound) for kind in ("json", "past")}
    assert inside == {"shop.toml", "prices.csv", "book/contents.json", *left}
    assert {path: path.stat().st_mtime_ns for path in bound.rglob("*")} == before


def cut(data):
    return data[: len(data) // 2]


def bit(data):
    return data[:100] + bytes([data[100] ^ 1]) + data[101:]


def cheaper(data):
    """A forged one, whose own digest is right."""
    past = decoded_past(data, read_job(SHELF / JOB).shop)
    return encoded_past(replace(past, facts=replace(past.facts, hours_h=1.0, name="Forged")))


@pytest.mark.parametrize("harm", [cut, bit, cheaper, lambda _: b"", lambda _: b"{}\n" * 9])
def test_a_record_that_is_not_what_was_left_is_none(harm, shelf, read):
    place = place_of_past(shelf / "book", JOB)
    place.write_bytes(harm(place.read_bytes()))
    found = estimated(shelf)
    assert read == [JOB] * 2
    assert found == without_book(shelf)


def deleted(book):
    place_of_past(book, JOB).unlink()


def of_another_job(book):
    shutil.copyfile(place_of_past(book, OTHER), place_of_past(book, JOB))


def of_another_job_whole(book):
    of_another_job(book)
    shutil.copyfile(place_of(book, OTHER), place_of(book, JOB))


def of_another_program(book):
    keep_made(place_of(book, JOB), replace(read_made(place_of(book, JOB)), program="another"))


def of_another_schema(book):
    keep_made(place_of(book, JOB), replace(read_made(place_of(book, JOB)), schema=1))


def torn(book):
    place_of(book, JOB).write_bytes(cut(place_of(book, JOB).read_bytes()))


def a_folder(book):
    deleted(book)
    place_of_past(book, JOB).mkdir()


@pytest.mark.parametrize(
    "harm",
    [deleted, of_another_job, of_another_job_whole, of_another_program, of_another_schema, torn, a_folder],
)
def test_a_record_that_is_missing_or_another_one_is_none(harm, shelf, read):
    harm(shelf / "book")
    found = estimated(shelf)
    assert read == [JOB] * 2
    assert found == without_book(shelf)


def test_the_next_binding_makes_good_what_is_gone(shelf, read):
    bind(shelf, shelf / "book")
    place = place_of_past(shelf / "book", JOB)
    was = place.read_bytes()
    deleted(shelf / "book")
    made = {job.key: job for job in bind(shelf, shelf / "book").jobs}
    assert [key for key, job in made.items() if job.redone] == [JOB]
    assert place.read_bytes() == was
    estimated(shelf)
    assert read == []


def test_pages_that_were_harmed_do_not_matter(shelf, read):
    (shelf / "book" / "jobs" / JOB / "index.html").write_text("")
    found = estimated(shelf)
    assert read == []
    assert found == without_book(shelf)


def hours(shelf):
    notes = shelf / JOB / "notes.md"
    notes.write_text(notes.read_text("utf-8").replace("Hours: ", "Hours: finishing 30, ", 1), "utf-8")
    return [JOB]


def hours_unseen(shelf):
    """Other hours at the same size, with the time put back."""
    notes = shelf / JOB / "notes.md"
    seen, text = notes.stat(), notes.read_text("utf-8")
    digit = next(place for place in range(text.index("Hours:"), len(text)) if text[place] in "12345678")
    notes.write_text(f"{text[:digit]}{int(text[digit]) + 1}{text[digit + 1 :]}", "utf-8")
    os.utime(notes, ns=(seen.st_atime_ns, seen.st_mtime_ns))
    assert notes.stat().st_size == seen.st_size
    return [JOB]


def no_longer_a_job_that_is_bound(shelf):
    (shelf / JOB / "job.toml").write_text("number = = 3")
    return [JOB]


def dearer(shelf):
    prices = shelf / "prices.csv"
    prices.write_text(prices.read_text("utf-8").replace(",1", ",2"), "utf-8")
    return jobs_of(shelf)


def another_rate(shelf):
    shop = shelf / "shop.toml"
    shop.write_text(shop.read_text("utf-8") + "\n# nothing but a word\n", "utf-8")
    return jobs_of(shelf)


def a_shop_in_a_job(shelf):
    """The job is bound in its own shop, and estimated from in that of the shelf."""
    (shelf / JOB / "shop.toml").write_text('name = "Own"\nhour_rate = 99\n')
    assert bind(shelf, shelf / "book").ok
    return [JOB]


def no_shop(shelf):
    for name in ("shop.toml", "prices.csv"):
        (shelf / name).unlink()
    bind(shelf, shelf / "book")
    return []


def a_job_that_is_new(shelf):
    shutil.copytree(shelf / JOB, shelf / "2026-999-new")
    return ["2026-999-new"]


def a_job_that_went(shelf):
    shutil.rmtree(shelf / JOB)
    return []


@pytest.mark.parametrize(
    "edit",
    [
        hours,
        hours_unseen,
        no_longer_a_job_that_is_bound,
        dearer,
        another_rate,
        a_shop_in_a_job,
        no_shop,
        a_job_that_is_new,
        a_job_that_went,
    ],
)
def test_what_changed_since_is_read_and_nothing_else(edit, shelf, read):
    expected = edit(shelf)
    found = estimated(shelf)
    assert read == 2 * expected
    assert found == without_book(shelf)


@pytest.mark.parametrize("said", ['language = "de"\n', 'country = "United States"\n'])
def test_an_enquiry_with_a_shop_of_its_own_reads_them_all_the_same(said, shelf, tmp_path, read):
    """What was left is in no language: the reasons of likeness are worded for the enquiry."""
    enquiries = [shutil.copytree(one, tmp_path / "asked" / one.name) for one in ENQUIRIES]
    for one in enquiries:
        (one / "shop.toml").write_text(f'name = "Another"\ncurrency = "EUR"\nhour_rate = 50\n{said}')
    found = estimated(shelf, enquiries)
    assert read == []
    shutil.rmtree(shelf / "book")
    assert found == estimated(shelf, enquiries)


def test_where_nothing_can_be_left_the_job_is_bound_and_read(shelf, read, monkeypatch):
    shutil.rmtree(shelf / "book")
    with monkeypatch.context() as patch:
        patch.setattr(past_jobs, "encoded_past", lambda _: 1 / 0)
        assert bind(shelf, shelf / "book").ok
    assert not list((shelf / "book").rglob("*.past"))
    assert not any(job.redone for job in bind(shelf, shelf / "book").jobs)
    estimated(shelf, ENQUIRIES[:1])
    assert read == jobs_of(shelf)


@pytest.mark.parametrize("job", [ROOT / "sample_job", *find_jobs(SHELF), *find_jobs(ROOT / "tests" / "jobs")])
def test_what_a_binding_leaves_is_what_an_estimate_would_read(job):
    """A binding reads the pictures, an estimate does not; and what is written reads back as it was."""
    bound = read_job(job)
    left, wanted = past_job(bound), past_job(read_job(job, bound.shop, pictures=False))
    back = decoded_past(encoded_past(left), bound.shop)
    assert left == wanted == back
    assert left.stuff() == wanted.stuff() == back.stuff()

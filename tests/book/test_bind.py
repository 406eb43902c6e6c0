"""Binding a shelf: one bad job never holds up the others, and nothing that is not ours is touched."""

import pytest

from buildbook.book import bind_job as binding
from buildbook.book.bind import bind
from tests.conftest import every_file, noise

JOB = 'title = "{title}"\nnumber = "{number}"\ndelivered = {day}\n'
NOTES = "## 2026-01-05 Begun\n\nHours: design 1\n"


def a_job(make_job, name, *, title="A box", day="2026-02-01", **files):
    return make_job(
        name, **{"job.toml": JOB.format(title=title, number=name, day=day), "notes.md": NOTES, **files}
    )


@pytest.fixture
def book(tmp_path):
    return tmp_path / "book"


def test_every_job_of_a_shelf_is_bound_and_listed_newest_first(make_job, book):
    a_job(make_job, "a", title="Old bench", day="2024-02-01")
    a_job(make_job, "b", title="New table", day="2026-02-01")
    shelf = a_job(make_job, "c", title="Middle box", day="2025-02-01").parent
    result = bind(shelf, book)
    assert result.ok
    page = (book / "index.html").read_text("utf-8")
    places = [page.index(title) for title in ("New table", "Middle box", "Old bench")]
    assert places == sorted(places)


def test_one_bad_job_does_not_hold_up_the_others_and_keeps_its_last_good_pages(make_job, book):
    good, bad = a_job(make_job, "good"), a_job(make_job, "bad", title="Chair")
    bind(good.parent, book)
    pages = every_file(book / "handover" / "bad"), every_file(book / "jobs" / "bad")
    (bad / "job.toml").write_text("title = \n")
    (good / "job.toml").write_text(JOB.format(title="A better box", number="1", day="2026-02-01"))
    result = bind(good.parent, book)
    assert not result.ok
    assert {job.key: job.bound for job in result.jobs} == {"bad": False, "good": True}
    assert (every_file(book / "handover" / "bad"), every_file(book / "jobs" / "bad")) == pages
    index = (book / "index.html").read_text("utf-8")
    assert "A better box" in index
    assert "Chair" in index
    assert "Not bound again" in index
    (bad / "job.toml").write_text(JOB.format(title="Chair", number="2", day="2026-02-01"))
    assert bind(good.parent, book).ok
    assert "Not bound again" not in (book / "index.html").read_text("utf-8")


def test_a_fault_of_ours_in_one_job_does_not_hold_up_the_others(make_job, book, monkeypatch):
    a_job(make_job, "good")
    shelf = a_job(make_job, "odd", title="odd").parent
    real = binding.summarise

    def summarise(job):
        assert job.title != "odd"
        return real(job)

    monkeypatch.setattr(binding, "summarise", summarise)
    result = bind(shelf, book)
    assert {job.key: job.bound for job in result.jobs} == {"good": True, "odd": False}
    assert "AssertionError" in next(job.fault for job in result.jobs if job.key == "odd")
    assert (book / "jobs" / "good" / "index.html").is_file()


def test_a_job_bound_alone_keeps_the_others_of_the_book_in_the_list(make_job, book):
    one, two = a_job(make_job, "one", title="One"), a_job(make_job, "two", title="Two")
    bind(one, book)
    bind(two, book)
    index = (book / "index.html").read_text("utf-8")
    assert "One" in index
    assert "Two" in index


def test_an_index_that_is_not_ours_is_left_alone_and_said(make_job, book):
    job = a_job(make_job, "one")
    book.mkdir()
    (book / "index.html").write_text("theirs")
    (book / "photo.jpg").write_bytes(b"theirs")
    result = bind(job, book)
    assert not result.ok
    assert "index.html" in str(result.problems[0])
    assert (book / "index.html").read_text() == "theirs"
    assert (book / "photo.jpg").read_bytes() == b"theirs"
    assert (book / "jobs" / "one" / "index.html").is_file()


def test_a_book_in_a_job_folder_is_refused(make_job):
    job = a_job(make_job, "one")
    before = every_file(job)
    result = bind(job, job / "book")
    assert "never written into" in str(result.problems[0])
    assert every_file(job) == before


def test_unchanged_photos_are_never_made_again(make_job, book, monkeypatch):
    job = a_job(make_job, "one", **{"photos/a.jpg": noise(1), "photos/b.jpg": noise(2)})
    assert bind(job, book).jobs[0].photos_made == 2
    (job / "photos" / "c.jpg").write_bytes(noise(3))
    assert bind(job, book).jobs[0].photos_made == 1
    (job / "photos" / "a.jpg").rename(job / "photos" / "renamed.jpg")
    assert bind(job, book).jobs[0].photos_made == 0


def test_a_photo_that_is_gone_leaves_the_book(make_job, book):
    job = a_job(make_job, "one", **{"photos/a.jpg": noise(1), "photos/b.jpg": noise(2)})
    bind(job, book)
    (job / "photos" / "b.jpg").unlink()
    bind(job, book)
    fresh = book.parent / "fresh"
    bind(job, fresh)
    assert every_file(book) == every_file(fresh)


def test_a_truncated_photo_is_named_and_the_rest_goes_on(make_job, book):
    job = a_job(make_job, "one", **{"photos/a.jpg": noise(1), "photos/half.jpg": noise(2)[:9000]})
    result = bind(job, book).jobs[0]
    assert result.bound
    assert [p.file for p in result.problems if "half" in p.file] == ["photos/half.jpg"]
    log = (book / "jobs" / "one" / "index.html").read_text("utf-8")
    assert "photos/half.jpg" in log


def test_progress_tells_every_photo(make_job, book):
    job = a_job(make_job, "one", **{"photos/a.jpg": noise(1), "photos/b.jpg": noise(2)})
    told = []
    bind(job, book, progress=lambda *one: told.append(one))
    assert [one[1:] for one in told if one[0] == "photos"] == [(0, 2), (1, 2), (2, 2)]
    assert [one[1:] for one in told if one[0] == "jobs"] == [(0, 1), (1, 1)]


def test_what_the_print_fonts_lack_is_told(make_job, book):
    """A problem of the card or the booklet is not lost between rendering and the maker."""
    job = make_job("one", **{"job.toml": 'title = "A box \\u6f22"\n', "notes.md": NOTES})
    told = [str(problem) for problem in bind(job, book).jobs[0].problems]
    assert any(line.startswith("care-card.pdf: ") and "漢" in line for line in told)


def test_a_job_bound_alone_is_listed_under_the_shop_around_it(make_job, book):
    job = a_job(make_job, "one")
    (job.parent / "shop.toml").write_text('name = "Half Rood"\n')
    bind(job, book)
    assert "Half Rood" in (book / "index.html").read_text("utf-8")


def test_a_job_is_told_when_its_pages_are_there_and_those_across_jobs_are_yet_to_come(make_job, book):
    """Who shows a book while it is bound shows the page of what was saved without waiting for the rest."""
    for name in ("a", "b", "c"):
        shelf = a_job(make_job, name, title=f"Piece {name}").parent
    bind(shelf, book)
    (shelf / "b" / "job.toml").write_text(JOB.format(title="A better box", number="b", day="2026-02-01"))
    places = [book / "jobs" / "b" / "index.html", book / "handover" / "b" / "index.html", book / "index.html"]
    told = []
    bind(
        shelf,
        book,
        told=lambda job: told.append(
            (job.key, job.redone, ["A better box" in place.read_text("utf-8") for place in places])
        ),
    )
    before, shown = [False, False, False], [True, True, False]
    assert told == [("a", False, before), ("c", False, before), ("b", True, shown)]
    assert "A better box" in places[-1].read_text("utf-8")

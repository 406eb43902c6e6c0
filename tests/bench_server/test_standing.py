"""What an open page is told: what is wrong with it, since when it stands, and when all is well again."""

import errno
import json
import os
import re
import shutil
import threading
import time
import urllib.error
import urllib.parse
import urllib.request

import pytest
from PIL import Image

from buildbook.bench import running as bench_running
from buildbook.book.disk import write
from tests.bench_server import LONGEST_S, running, wait_for

NOTES = "## 2026-01-05 Begun\n\nHours: design 1\n"
GOOD = "part,qty,kind,material,length,width,thickness\nTop,1,wood,European oak,1200,420,22\n"
BAD = GOOD.replace("420", "forty-two")


@pytest.fixture
def job(make_job):
    return make_job("box", **{"job.toml": 'title = "A box"\n', "notes.md": NOTES, "parts.csv": GOOD})


def page_now(at, page="/jobs/box/"):
    of = urllib.parse.quote(page, safe="")
    with urllib.request.urlopen(f"{at.address}-/page?of={of}", timeout=LONGEST_S) as answer:
        return json.load(answer)


def band_of(at, page="/jobs/box/"):
    return page_now(at, page)["band"]


def test_a_broken_job_is_told_on_its_page_and_mended_by_itself(job, tmp_path):
    other = shutil.copytree(job, job.parent / "chest")
    book = tmp_path / "book"
    with running(job.parent, book) as at:
        assert band_of(at) is None
        (job / "parts.csv").write_text(BAD)
        wait_for(lambda: band_of(at))
        band = band_of(at)
        assert band["lines"][0].startswith("parts.csv, row 2, width: “forty-two”")
        written = time.localtime(os.stat(book / "jobs/box/index.html").st_mtime)
        assert time.strftime("%H:%M", written) in band["head"]
        assert band_of(at, "/handover/box/index.html")["lines"] == band["lines"]
        assert band_of(at, "/jobs/chest/") is None
        assert band_of(at, "/")["lines"][0].startswith("box: parts.csv, row 2")
        on_disk = b"".join(path.read_bytes() for path in book.rglob("*.html"))
        for never in (b"bench-band", b"cannot be bound as it stands", b"/-/bench", b"forty-two", b"as of"):
            assert never not in on_disk
        (job / "parts.csv").write_text(GOOD)
        wait_for(lambda: band_of(at) is None)
        assert band_of(at, "/") is None
    assert other.is_dir()


def test_a_band_speaks_the_language_of_the_shop(job, tmp_path):
    (job / "shop.toml").write_text('name = "Werkstatt"\nlanguage = "de"\n')
    (job / "parts.csv").write_text(BAD)
    with running(job, tmp_path / "book") as at:
        band = band_of(at)
        assert "lässt sich" in band["head"]
        assert "Zeile 2" in band["lines"][0]


def test_more_than_a_band_holds_is_counted(job, tmp_path):
    (job / "parts.csv").write_text(GOOD + "".join(f"P{n},many{n},wood,oak,1,1,1\n" for n in range(9)))
    with running(job, tmp_path / "book") as at:
        band = band_of(at)
        assert len(band["lines"]) == 5
        assert re.search(r"\d more", band["more"])


def test_a_fault_of_ours_is_told_without_its_insides(job, tmp_path, monkeypatch):
    import buildbook.book.bind_job as module

    with running(job, tmp_path / "book") as at:
        true = module.summarise
        monkeypatch.setattr(module, "summarise", lambda job: [][0])
        (job / "notes.md").write_text(NOTES + "\nMore.\n")
        wait_for(lambda: band_of(at))
        assert "buildbook itself failed" in band_of(at)["lines"][0]
        monkeypatch.setattr(module, "summarise", true)
        (job / "notes.md").write_text(NOTES + "\nMore still.\n")
        wait_for(lambda: band_of(at) is None)


def test_a_full_disk_is_told_and_tried_again_by_itself(job, tmp_path, monkeypatch):
    monkeypatch.setattr(bench_running, "AGAIN_S", 0.5)
    with running(job, tmp_path / "book") as at:
        true = write.Staging.write

        def full(self, name, content):
            raise OSError(errno.ENOSPC, "No space left on device", str(tmp_path / "book" / name))

        monkeypatch.setattr(write.Staging, "write", full)
        (job / "notes.md").write_text(NOTES + "\nOn a full disk.\n")
        wait_for(lambda: band_of(at))
        assert "The disk is full: make room on it." in band_of(at)["lines"][0]
        assert page_now(at)["mark"]  # the last good page stays
        time.sleep(1.5)
        assert len(at.bound) == 2  # tried again without a word, as long as nothing is other
        monkeypatch.setattr(write.Staging, "write", true)
        wait_for(lambda: band_of(at) is None)
        with urllib.request.urlopen(f"{at.address}jobs/box/", timeout=LONGEST_S) as answer:
            assert b"On a full disk." in answer.read()


def test_a_page_is_told_of_what_is_new_on_it_and_of_nothing_else(job, tmp_path):
    shutil.copytree(job, job.parent / "chest")
    with running(job.parent, tmp_path / "book") as at:
        box, chest, top = (page_now(at, page)["mark"] for page in ("/jobs/box/", "/jobs/chest/", "/"))
        (job / "notes.md").write_text(NOTES + "\nA word that is searched: quirk.\n")
        wait_for(lambda: len(at.bound) > 1)
        assert page_now(at)["mark"] != box
        assert page_now(at, "/jobs/chest/")["mark"] == chest
        assert page_now(at, "/")["mark"] != top  # its index is new


def test_pages_that_are_gone_have_no_mark_and_none_is_made_up(job, tmp_path):
    with running(job, tmp_path / "book") as at:
        assert page_now(at, "/jobs/other/")["mark"] == ""
        for page in ("/../x", "", "/jobs/%2e%2e/", "nonsense"):
            with pytest.raises(urllib.error.HTTPError, match=r"40[04]"):
                page_now(at, page)


def test_two_hundred_photos_copied_at_once_are_bound_at_most_twice(job, tmp_path):
    with running(job, tmp_path / "book") as at:
        (job / "photos").mkdir()
        picture = tmp_path / "one.jpg"
        Image.new("RGB", (64, 48), "peru").save(picture)
        for number in range(200):
            content = picture.read_bytes() + number.to_bytes(2, "big")
            (job / f"photos/20260105_10{number // 60:02}{number % 60:02}.jpg").write_bytes(content)
        wait_for(lambda: at.bound[-1].jobs[0].photos_made and at.bound[-1].ok, 120)
        time.sleep(1)
        assert len(at.bound) <= 3  # with the first, before there were any
        with urllib.request.urlopen(f"{at.address}jobs/box/", timeout=LONGEST_S) as answer:
            assert answer.read().count(b"20260105_10") >= 200


@pytest.mark.parametrize("then", [0, 2**31 + 10_000], ids=["1970", "2038"])
def test_a_clock_that_jumps_keeps_no_save_back(job, tmp_path, then):
    """Sync programs and dead batteries give files any time; what is noted of a file includes others of its facts."""
    with running(job, tmp_path / "book") as at:
        for number in range(2):
            (job / "notes.md").write_text(NOTES + f"\nAt another time {number}.\n")
            os.utime(job / "notes.md", (then, then))

            def is_given(number=number):
                with urllib.request.urlopen(f"{at.address}jobs/box/", timeout=LONGEST_S) as answer:
                    return f"At another time {number}.".encode() in answer.read()

            wait_for(is_given)


def test_a_note_that_is_still_being_written_is_not_taken_for_whole(job, tmp_path):
    """An editor empties a file first; a binding of that would show a job without parts for a moment."""
    with running(job, tmp_path / "book") as at:
        (job / "parts.csv").write_text("")
        time.sleep(0.2)
        (job / "parts.csv").write_text(GOOD.replace("Top", "Lid"))
        wait_for(lambda: len(at.bound) > 1)
        time.sleep(0.6)
        assert len(at.bound) == 2


@pytest.mark.parametrize(("language", "missing"), [("en", "Missing"), ("de", "Fehlt")])
def test_a_folder_that_is_lost_is_told_on_every_page_until_it_is_back(job, tmp_path, language, missing):
    (job.parent / "shop.toml").write_text(f'name = "Shop"\nlanguage = "{language}"\n')
    shelf = job.parent.rename(tmp_path / "lost")
    with running(shelf, tmp_path / "book") as at:
        before = page_now(at)
        shelf.rename(tmp_path / "elsewhere")
        wait_for(lambda: band_of(at))
        for page in ("/", "/jobs/box/", "/handover/box/"):
            band = band_of(at, page)
            assert (band["label"], "“lost”" in band["head"] or "„lost“" in band["head"]) == (missing, True)
        assert page_now(at)["edition"] != before["edition"]  # so that an open page looks
        assert page_now(at)["mark"] == before["mark"]  # and stays as it is
        (tmp_path / "elsewhere").rename(shelf)
        wait_for(lambda: band_of(at) is None)


def test_a_book_that_is_lost_is_told_until_it_is_bound_again(job, tmp_path, monkeypatch):
    may_go_on = threading.Event()
    bind = bench_running.bind
    book = tmp_path / "book"
    with running(job, book) as at:

        def slow(*given, **more):
            may_go_on.wait(LONGEST_S)
            return bind(*given, **more)

        monkeypatch.setattr(bench_running, "bind", slow)
        shutil.rmtree(book)
        wait_for(lambda: band_of(at))
        band = page_now(at)
        assert band["band"]["label"] == "Missing"
        assert "book" in band["band"]["head"]
        assert band["mark"] == ""  # nothing to reload to: what is shown stays
        may_go_on.set()
        wait_for(lambda: band_of(at) is None)
        assert page_now(at)["mark"]


def test_a_job_that_is_lost_is_told_on_its_own_pages(job, tmp_path):
    shutil.copytree(job, job.parent / "chest")
    with running(job.parent, tmp_path / "book") as at:
        job.rename(tmp_path / "away")
        wait_for(lambda: band_of(at))
        assert band_of(at)["label"] == "Missing"
        assert band_of(at, "/jobs/chest/") is None
        (tmp_path / "away").rename(job)
        wait_for(lambda: band_of(at) is None)


def test_the_list_is_loaded_once_for_a_save_however_long_its_files_take(job, tmp_path, monkeypatch):
    """Its scripts and its page are put in place one after the other; who looks in between is told to wait."""
    laid, may_go_on = threading.Event(), threading.Event()
    bind = bench_running.bind
    book = tmp_path / "book"
    with running(job.parent, book) as at:
        before = page_now(at, "/")["mark"]

        def slow(*given, **more):
            bound = bind(*given, **more)
            laid.set()
            may_go_on.wait(LONGEST_S)
            return bound

        monkeypatch.setattr(bench_running, "bind", slow)
        (job / "notes.md").write_text(NOTES + "\nA word more.\n")
        assert laid.wait(LONGEST_S)
        assert page_now(at, "/")["mark"] == ""
        assert page_now(at)["mark"]
        may_go_on.set()
        wait_for(lambda: page_now(at, "/")["mark"] not in ("", before))

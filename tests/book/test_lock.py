"""Bindings of one book at the same time, by real processes: one after the other, and the book is that of one."""

import errno
import fcntl
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time

import pytest

from buildbook.book.bind import bind
from buildbook.book.lock import OWN, one_at_a_time
from tests.conftest import every_file, noise

JOB = 'title = "A box"\nnumber = "{name}"\ndelivered = 2026-02-01\n'
NOTES = "## 2026-01-05 Begun\n\nHours: design 1\n"
LONGEST_S = 120
HOLDS = """
import sys, time
from pathlib import Path
from buildbook.book.lock import one_at_a_time
with one_at_a_time(Path(sys.argv[1]), print):
    print("held", flush=True)
    time.sleep(600)
"""


@pytest.fixture
def shelf(make_job):
    for name in ("a", "b", "c"):
        job = make_job(
            name, **{"job.toml": JOB.format(name=name), "notes.md": NOTES, "photos/x.jpg": noise(name)}
        )
    return job.parent


@pytest.fixture
def started():
    """A function that starts a program; whatever still runs at the end is killed."""
    running = []

    def start(*arguments):
        process = subprocess.Popen(
            [sys.executable, *map(str, arguments)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
        )
        running.append(process)
        return process

    yield start
    for process in running:
        process.kill()
        process.communicate()


def binding(start, shelf, book, *more):
    return start("-m", "buildbook", "bind", shelf, "--to", book, *more)


def is_as_bound_once(book, shelf, tmp_path):
    assert bind(shelf, tmp_path / "once").ok
    return every_file(book) == every_file(tmp_path / "once")


@pytest.mark.parametrize("count", [2, 3, 4])
def test_bindings_at_the_same_time_make_the_book_of_one(shelf, tmp_path, started, count):
    book = tmp_path / "book"
    every = [binding(started, shelf, book) for _ in range(count)]
    said = [process.communicate(timeout=LONGEST_S) for process in every]
    assert [process.returncode for process in every] == [0] * count, said
    assert is_as_bound_once(book, shelf, tmp_path)


def test_two_jobs_of_a_book_bound_at_the_same_time_are_both_listed(shelf, tmp_path, started):
    book = tmp_path / "book"
    every = [binding(started, shelf / name, book) for name in ("a", "b", "c")]
    for process in every:
        assert process.wait(LONGEST_S) == 0
    assert is_as_bound_once(book, shelf, tmp_path)


def test_the_second_says_that_it_waits_and_json_stays_whole(shelf, tmp_path, started):
    book = tmp_path / "book"
    with one_at_a_time(book, lambda _: pytest.fail("nobody else holds it")):
        second = binding(started, shelf, book, "--json")
        line = second.stderr.readline()
        assert str(book) in line
        assert "waiting" in line
        assert second.poll() is None
        assert sorted(os.listdir(book)) == [OWN]
    out, _ = second.communicate(timeout=LONGEST_S)
    assert [job["bound"] for job in json.loads(out)["jobs"]] == [True] * 3


def test_one_that_was_killed_holds_nobody_up(shelf, tmp_path, started):
    book = tmp_path / "book"
    holder = started("-c", HOLDS, book)
    assert holder.stdout.readline() == "held\n"
    holder.send_signal(signal.SIGKILL)
    holder.wait()
    assert bind(shelf, book, waits=lambda _: pytest.fail("it is held by nobody")).ok
    assert is_as_bound_once(book, shelf, tmp_path)


def test_one_that_was_killed_while_it_wrote_is_finished_by_the_next(shelf, tmp_path, started):
    book = tmp_path / "book"
    first = binding(started, shelf, book)
    end = time.monotonic() + LONGEST_S
    while not list(book.glob("jobs/.laying-*/*")):
        assert time.monotonic() < end
        assert first.poll() is None
        time.sleep(0.002)
    first.send_signal(signal.SIGKILL)
    first.wait()
    assert bind(shelf, book).ok
    assert is_as_bound_once(book, shelf, tmp_path)


def test_one_that_is_stopped_from_the_keyboard_says_how_far_it_came_and_the_next_goes_on(
    shelf, tmp_path, started
):
    for number in range(20):  # so many that it is in the middle when the second is done
        shutil.copytree(shelf / "c", shelf / f"d{number:02}")
    book = tmp_path / "book"
    first = binding(started, shelf, book)
    end = time.monotonic() + LONGEST_S
    while len(list((book / OWN / "made" / "jobs").glob("*.json"))) < 9:  # so some are done and counted
        assert time.monotonic() < end
        assert first.poll() is None
        time.sleep(0.002)
    first.send_signal(signal.SIGINT)
    out, err = first.communicate(timeout=LONGEST_S)
    assert first.returncode == 130
    assert out == ""
    assert re.match(r"Stopped: [1-9][0-9]? of 23 jobs are done;", err)
    assert "Traceback" not in err
    left = {path.name for part in ("jobs", "handover") for path in (book / part).iterdir()}
    assert not any(name.startswith(".") for name in left)
    done = bind(shelf, book)
    assert not done.jobs[0].redone
    assert done.jobs[-1].redone
    assert is_as_bound_once(book, shelf, tmp_path)


@pytest.mark.parametrize("number", [errno.ENOSYS, errno.ENOLCK, errno.EOPNOTSUPP])
def test_a_disk_without_locks_is_told_and_bound_all_the_same(shelf, tmp_path, monkeypatch, number):
    def none(*_):
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(fcntl, "flock", none)
    bound = bind(shelf, tmp_path / "book")
    assert bound.ok
    (said,) = [str(problem) for problem in bound.problems]
    assert "cannot be locked" in said
    assert os.strerror(number) in said
    monkeypatch.undo()
    assert is_as_bound_once(tmp_path / "book", shelf, tmp_path)

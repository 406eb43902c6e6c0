"""Several processes bind what one would: the same bytes, the same words, and a dead one costs its job only."""

import errno
import multiprocessing
import os
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from buildbook.book import bind as binding
from buildbook.book import workers
from buildbook.book.bind import bind
from buildbook.book.lock import one_at_a_time
from buildbook.book.workers import bind_in_processes
from buildbook.job import find_jobs
from tests.conftest import every_file
from tests.make_shelf import made_jobs, write_shelf

JOBS = 14
PROGRAM = """
import sys
from pathlib import Path
from buildbook.book import bind as binding
from buildbook.book import workers

if __name__ == "__main__":
    said = lambda what, done, of: print(done, flush=True)
    binding.bind(Path(sys.argv[1]), Path(sys.argv[2]), processes=2, progress=said)
"""


@pytest.fixture
def shelf(tmp_path):
    write_shelf(tmp_path / "shelf", made_jobs(JOBS))
    (sorted((tmp_path / "shelf").glob("*/parts.csv"))[3]).write_text("part,qty\nTop,\xff", encoding="latin-1")
    return tmp_path / "shelf"


def test_the_same_bytes_and_the_same_words(shelf, tmp_path):
    one, two = (bind(shelf, tmp_path / f"book{many}", processes=many) for many in (1, 3))
    assert one == two
    assert every_file(tmp_path / "book1") == every_file(tmp_path / "book3")


def test_what_is_told_while_it_goes_on_is_complete(shelf, tmp_path):
    told, steps = [], []
    bound = bind(
        shelf, tmp_path / "book", processes=2, told=told.append, progress=lambda *step: steps.append(step)
    )
    assert sorted(told, key=lambda job: job.key) == sorted(bound.jobs, key=lambda job: job.key)
    assert [done for what, done, _ in steps if what == "jobs"] == list(range(JOBS + 1))


def test_few_jobs_are_bound_here(shelf, tmp_path, monkeypatch):
    monkeypatch.setattr(binding, "WORTH_PROCESSES", JOBS + 1)
    monkeypatch.setattr(binding, "bind_in_processes", None)
    assert len(bind(shelf, tmp_path / "book", processes=2).jobs) == JOBS


def test_a_process_that_dies_costs_its_job_only(shelf, tmp_path):
    jobs = find_jobs(shelf)
    results = {}
    for path, result in bind_in_processes(jobs, tmp_path / "book", again=False, processes=2):
        results[path] = result
        if len(results) == 1:
            os.kill(max(child.pid for child in multiprocessing.active_children()), signal.SIGKILL)
    assert set(results) == set(jobs)
    (dead,) = [job for job in results.values() if any("ended" in p.message for p in job.problems)]
    assert not dead.bound
    assert "exit code -9" in dead.problems[0].message
    bind(shelf, tmp_path / "fresh")
    bind(shelf, tmp_path / "book")
    assert every_file(tmp_path / "book") == every_file(tmp_path / "fresh")
    assert not multiprocessing.active_children()


def test_a_process_that_dies_before_it_is_given_the_next_job_costs_none(shelf, tmp_path, monkeypatch):
    real, given = workers._Worker.give, []

    def give(worker, path):
        given.append(path)
        if len(given) == 4:  # each of two has had one, and one its second
            worker.process.kill()
            worker.process.join()
        return real(worker, path)

    monkeypatch.setattr(workers._Worker, "give", give)
    jobs = find_jobs(shelf)
    results = dict(bind_in_processes(jobs, tmp_path / "book", again=False, processes=2))
    assert set(results) == set(jobs)
    assert sum(not result.bound for result in results.values()) == 1  # the one whose parts cannot be read
    assert len(given) == JOBS + 1


@pytest.mark.parametrize("starts", [0, 1])
def test_where_the_system_gives_no_process_jobs_are_bound_here(shelf, tmp_path, monkeypatch, starts):
    real, left = multiprocessing.process.BaseProcess.start, starts

    def start(process):
        nonlocal left
        left -= 1
        if left < 0:
            raise BlockingIOError(errno.EAGAIN, os.strerror(errno.EAGAIN))
        real(process)

    monkeypatch.setattr(multiprocessing.process.BaseProcess, "start", start)
    two = bind(shelf, tmp_path / "two", processes=2)
    assert two == bind(shelf, tmp_path / "one")
    assert every_file(tmp_path / "two") == every_file(tmp_path / "one")


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="processes are looked for in /proc")
@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGINT])
def test_no_process_outlives_the_program(shelf, tmp_path, how):
    (tmp_path / "program.py").write_text(PROGRAM)
    arguments = [sys.executable, tmp_path / "program.py", shelf, tmp_path / "book"]
    with subprocess.Popen(arguments, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as program:
        while int(program.stdout.readline()) < 2:
            pass
        children = children_of(program.pid)
        program.send_signal(how)
    assert len(children) >= 2
    end = time.monotonic() + 10
    while any(map(is_alive, children)):
        assert time.monotonic() < end
        time.sleep(0.01)
    bind(shelf, tmp_path / "book")
    bind(shelf, tmp_path / "fresh")
    assert every_file(tmp_path / "book") == every_file(tmp_path / "fresh")


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="processes are looked for in /proc")
def test_the_next_waits_until_the_processes_of_one_that_was_killed_have_ended(shelf, tmp_path):
    (tmp_path / "program.py").write_text(PROGRAM)
    arguments = [sys.executable, tmp_path / "program.py", shelf, tmp_path / "book"]
    with subprocess.Popen(arguments, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as program:
        while int(program.stdout.readline()) < 2:
            pass
        children = children_of(program.pid)
        for child in children:
            os.kill(child, signal.SIGSTOP)
        program.kill()
    told, waited = [], threading.Event()

    def next_one():
        with one_at_a_time(tmp_path / "book", told.append):
            waited.set()

    thread = threading.Thread(target=next_one)
    thread.start()
    try:
        assert not waited.wait(1)
    finally:
        for child in children:
            os.kill(child, signal.SIGCONT)
    thread.join(60)
    assert waited.is_set()
    assert told == [tmp_path / "book"]


def children_of(pid):
    return [int(child) for child in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]


def is_alive(pid):
    """A process that has ended but was not yet asked for is none."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except FileNotFoundError:
        return False

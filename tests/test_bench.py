"""The bench binds again on a save, serves the book on this machine only, and tells the open page."""

import contextlib
import http.client
import threading
import time
import urllib.request

import pytest

from buildbook import bench

NOTES = "## 2026-01-05 Begun\n\nHours: design 1\n"
LONGEST_S = 20


def wait_for(condition):
    """Poll until the condition holds; fails after a generous time."""
    end = time.monotonic() + LONGEST_S
    while not condition():
        assert time.monotonic() < end, "it never came"
        time.sleep(0.02)


def get(address):
    with urllib.request.urlopen(address, timeout=LONGEST_S) as answer:
        return answer.read().decode()


@contextlib.contextmanager
def running(folder, book):
    """The bench on a free port: its address, what it has bound so far, and how to stop it."""
    bound, where, stop = [], [], threading.Event()
    thread = threading.Thread(
        target=bench.run,
        args=(folder, book, 0),
        kwargs={"told": bound.append, "ready": where.append, "stop": stop},
    )
    thread.start()
    wait_for(lambda: where)
    yield where[0], bound
    stop.set()
    thread.join(LONGEST_S)
    assert not thread.is_alive()


@pytest.fixture
def job(make_job):
    return make_job("box", **{"job.toml": 'title = "First title"\n', "notes.md": NOTES})


def test_a_save_is_bound_and_shown(job, tmp_path):
    with running(job, tmp_path / "book") as (address, bound):
        assert "First title" in get(address)
        (job / "job.toml").write_text('title = "Second title"\n')
        wait_for(lambda: len(bound) > 1)
        assert "Second title" in get(f"{address}jobs/box/")
        assert "Second title" in get(f"{address}handover/box/index.html")


def test_saves_in_a_burst_are_bound_once(job, tmp_path):
    with running(job, tmp_path / "book") as (_, bound):
        for number in range(10):
            (job / "job.toml").write_text(f'title = "Title {number}"\n')
            time.sleep(0.02)
        wait_for(lambda: len(bound) > 1)
        time.sleep(bench.QUIET_S * 3)
        assert len(bound) == 2


def test_binding_does_not_set_itself_off(job, tmp_path):
    """The book may lie inside the shelf that is watched."""
    with running(job.parent, job.parent / "book") as (_, bound):
        time.sleep(bench.QUIET_S * 3)
        assert len(bound) == 1


def test_a_bad_save_is_told_and_the_next_good_one_bound(job, tmp_path):
    with running(job, tmp_path / "book") as (address, bound):
        (job / "job.toml").write_text("title = \n")
        wait_for(lambda: len(bound) > 1)
        assert not bound[-1].ok
        assert "First title" in get(f"{address}jobs/box/")
        (job / "job.toml").write_text('title = "Third title"\n')
        wait_for(lambda: len(bound) > 2)
        assert "Third title" in get(f"{address}jobs/box/")


def test_it_serves_on_the_loopback_only(job, tmp_path):
    with running(job, tmp_path / "book") as (address, _):
        assert address.startswith("http://127.0.0.1:")


def test_the_script_that_reloads_is_only_in_what_is_served(job, tmp_path):
    with running(job, tmp_path / "book") as (address, _):
        assert "/-/bound" in get(address)
    for page in (tmp_path / "book").rglob("*.html"):
        assert "/-/bound" not in page.read_text("utf-8")


def test_a_path_out_of_the_book_is_not_served(job, tmp_path):
    with running(job, tmp_path / "book") as (address, _):
        server = http.client.HTTPConnection(address.split("/")[2], timeout=LONGEST_S)
        server.request("GET", "/../shelf/box/job.toml")
        assert server.getresponse().status == 404
        server.close()


def test_a_port_that_is_taken_is_said(job, tmp_path):
    with running(job, tmp_path / "book") as (address, _):
        port = int(address.rstrip("/").rpartition(":")[2])
        with pytest.raises(bench.BenchError, match="--port"):
            bench.run(job, tmp_path / "other", port, told=lambda b: None, ready=lambda w: None)


@pytest.mark.browser
def test_an_open_page_reloads_itself(job, tmp_path, chromium):
    with running(job, tmp_path / "book") as (address, _):
        page = chromium.new_page()
        page.goto(f"{address}jobs/box/")
        page.wait_for_timeout(500)
        (job / "job.toml").write_text('title = "Fresh title"\n')
        page.wait_for_function("document.body.innerText.includes('Fresh title')", timeout=LONGEST_S * 1000)
        page.close()

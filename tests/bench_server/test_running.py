"""The bench binds again on a save, serves the book on this machine only, and tells the open page."""

import ctypes
import os
import shutil
import time
import urllib.request

import pytest

from buildbook import bench
from buildbook.bench import running as bench_running
from buildbook.bench import watching
from buildbook.bench.saves import QUIET_S
from tests.bench_server import LONGEST_S, running, wait_for

NOTES = "## 2026-01-05 Begun\n\nHours: design 1\n"


def get(address):
    with urllib.request.urlopen(address, timeout=LONGEST_S) as answer:
        return answer.read().decode()


@pytest.fixture
def job(make_job):
    return make_job("box", **{"job.toml": 'title = "First title"\n', "notes.md": NOTES})


def test_a_save_is_bound_and_shown(job, tmp_path):
    with running(job, tmp_path / "book") as at:
        assert "First title" in get(at.address)
        (job / "job.toml").write_text('title = "Second title"\n')
        wait_for(lambda: len(at.bound) > 1)
        assert "Second title" in get(f"{at.address}jobs/box/")
        assert "Second title" in get(f"{at.address}handover/box/index.html")


def test_a_burst_of_saves_ends_in_what_was_saved_last(job, tmp_path):
    """However the machine stretches it; how often one is bound says `test_saves`, where no clock runs."""
    with running(job, tmp_path / "book") as at:
        for number in range(10):
            (job / "job.toml").write_text(f'title = "Title {number}"\n')
            time.sleep(0.02)
        shows(at, "Title 9")
        time.sleep(QUIET_S * 3)
        assert len(at.bound) < 10


def test_binding_does_not_set_itself_off(job, tmp_path):
    """The book may lie inside the shelf that is watched."""
    with running(job.parent, job.parent / "book") as at:
        time.sleep(QUIET_S * 3)
        assert len(at.bound) == 1


def test_a_bad_save_is_told_and_the_next_good_one_bound(job, tmp_path):
    with running(job, tmp_path / "book") as at:
        (job / "job.toml").write_text("title = \n")
        wait_for(lambda: len(at.bound) > 1)
        assert not at.bound[-1].ok
        assert "First title" in get(f"{at.address}jobs/box/")
        (job / "job.toml").write_text('title = "Third title"\n')
        wait_for(lambda: len(at.bound) > 2)
        assert "Third title" in get(f"{at.address}jobs/box/")


def test_it_serves_on_the_loopback_only(job, tmp_path):
    with running(job, tmp_path / "book") as at:
        assert at.address.startswith("http://127.0.0.1:")


def test_the_script_that_reloads_is_only_in_what_is_served(job, tmp_path):
    with running(job, tmp_path / "book") as at:
        assert "/-/bench.js" in get(at.address)
    for page in (tmp_path / "book").rglob("*.html"):
        assert "/-/bench" not in page.read_text("utf-8")


def test_a_port_that_is_taken_is_said(job, tmp_path):
    with running(job, tmp_path / "book") as at:
        port = int(at.address.rstrip("/").rpartition(":")[2])
        with pytest.raises(bench.BenchError, match="--port"):
            bench.run(job, tmp_path / "other", port, told=print, said=print, ready=print)


# -- whatever happens meanwhile ------------------------------------------------------------------


def save(job, title):
    (job / "job.toml").write_text(f'title = "{title}"\n')


def shows(at, title):
    """Wait until the log shows a title."""

    def there():
        try:
            return title in get(f"{at.address}jobs/box/")
        except OSError:
            return False

    wait_for(there)


def test_a_loop_of_links_in_the_job(job, tmp_path):
    with running(job, tmp_path / "book") as at:
        (job / "loop").symlink_to(job / "loop")
        (job / "up").symlink_to(job)
        (job / "photos").mkdir()
        (job / "photos" / "a.jpg").symlink_to(job / "photos" / "b.jpg")
        (job / "photos" / "b.jpg").symlink_to(job / "photos" / "a.jpg")
        time.sleep(QUIET_S * 2)
        save(job, "After the loop")
        shows(at, "After the loop")


@pytest.mark.parametrize("alone", [True, False], ids=["a job", "a shelf"])
def test_a_job_that_is_deleted_and_copied_anew(job, tmp_path, alone):
    kept = shutil.copytree(job, tmp_path / "kept")
    other = shutil.copytree(job, job.parent / "other")
    with running(job if alone else job.parent, tmp_path / "book") as at:
        for number in range(3):
            shutil.rmtree(job)
            wait_for(lambda: at.said)
            assert "box" in at.said[-1]
            assert "no longer" in at.said[-1]
            at.said.clear()
            shutil.copytree(kept, job)
            save(job, f"Anew {number}")
            shows(at, f"Anew {number}")
            save(job, f"Once more {number}")
            shows(at, f"Once more {number}")
            at.said.clear()
    assert other.is_dir()


@pytest.mark.parametrize("alone", [True, False], ids=["a job", "a shelf"])
def test_a_job_that_is_deleted_and_copied_anew_at_once(job, tmp_path, alone):
    """Before anybody could look; the new folder may even get the identity of the old."""
    kept = shutil.copytree(job, tmp_path / "kept")
    with running(job if alone else job.parent, tmp_path / "book") as at:
        for number in range(4):
            shutil.rmtree(job)
            shutil.copytree(kept, job)
            time.sleep(QUIET_S * number)
            save(job, f"Anew {number}")
            shows(at, f"Anew {number}")


def test_a_job_that_is_another_folder_now(job, tmp_path):
    """An editor or a sync program may put a whole new folder in the place of the old in one step."""
    new = shutil.copytree(job, tmp_path / "new")
    with running(job, tmp_path / "book") as at:
        job.rename(tmp_path / "old")
        new.rename(job)
        save(job, "In the new one")
        shows(at, "In the new one")


def test_a_watched_folder_that_is_renamed(job, tmp_path):
    with running(job, tmp_path / "book") as at:
        job.rename(job.with_name("elsewhere"))
        wait_for(lambda: at.said)
        assert "no longer there" in at.said[0]
        assert "First title" in get(f"{at.address}jobs/box/")
        job.with_name("elsewhere").rename(job)
        wait_for(lambda: len(at.said) > 1)
        assert "there again" in at.said[1]
        save(job, "Back again")
        shows(at, "Back again")


@pytest.mark.parametrize("replaced", [False, True])
def test_a_book_that_is_removed(job, tmp_path, replaced):
    book = tmp_path / "book"
    with running(job, book) as at:
        shutil.rmtree(book)
        if replaced:
            book.mkdir()
        shows(at, "First title")
        assert any("removed" in text for text in at.said)
        save(job, "After that")
        shows(at, "After that")


def test_a_job_that_cannot_be_read_for_a_while(job, tmp_path):
    """Not one that is not allowed to be: what is a folder where a file should be cannot be read by anybody."""
    with running(job, tmp_path / "book") as at:
        (job / "job.toml").unlink()
        (job / "job.toml").mkdir()
        wait_for(lambda: len(at.bound) > 1)
        (job / "job.toml").rmdir()
        save(job, "A file again")
        shows(at, "A file again")


def test_a_binding_that_raises_does_not_end_the_bench(job, tmp_path, monkeypatch):
    with running(job, tmp_path / "book") as at:
        true_bind = bench_running.bind

        def broken(folder, book, **more):
            raise RuntimeError("the disk is on fire")

        monkeypatch.setattr(bench_running, "bind", broken)
        save(job, "Lost")
        wait_for(lambda: any("the disk is on fire" in text for text in at.said))
        monkeypatch.setattr(bench_running, "bind", true_bind)
        save(job, "Found")
        shows(at, "Found")


def test_a_save_by_writing_beside_and_renaming(job, tmp_path):
    """Many editors write a hidden file first."""
    with running(job, tmp_path / "book") as at:
        (job / ".job.toml.tmp").write_text('title = "Renamed into place"\n')
        time.sleep(QUIET_S)
        (job / ".job.toml.tmp").rename(job / "job.toml")
        shows(at, "Renamed into place")


def test_what_programs_keep_for_themselves_is_no_save(job, tmp_path):
    with running(job, tmp_path / "book") as at:
        for name in (".git/index", ".job.toml.swp", "~$parts.csv"):
            (job / name).parent.mkdir(exist_ok=True)
            (job / name).write_text("x")
        time.sleep(QUIET_S * 3)
        assert len(at.bound) == 1


def test_the_shop_around_a_job_counts_and_its_neighbours_do_not(job, tmp_path):
    with running(job, tmp_path / "book") as at:
        (job.parent / "something.txt").write_text("x")
        time.sleep(QUIET_S * 3)
        assert len(at.bound) == 1
        (job.parent / "shop.toml").write_text('name = "The Shop"\n')
        wait_for(lambda: len(at.bound) > 1)


def test_a_job_and_a_shelf_that_are_links(job, tmp_path):
    elsewhere = tmp_path / "elsewhere"
    job.rename(elsewhere)
    job.symlink_to(elsewhere)
    for folder in (job, job.parent):
        with running(folder, tmp_path / f"book of {folder.name}") as at:
            save(elsewhere, f"Through the link, {folder.name}")
            shows(at, f"Through the link, {folder.name}")


def test_a_system_that_gives_no_notices(job, tmp_path, monkeypatch):
    class Full(watching.Observer):
        def start(self):
            raise OSError(28, "inotify watch limit reached")

    monkeypatch.setattr(watching, "Observer", Full)
    (job / "loop").symlink_to(job)
    (job / "loop2").symlink_to(job)
    with running(job, tmp_path / "book") as at:
        assert "inotify watch limit reached" in at.said[0]
        save(job, "Seen by looking")
        shows(at, "Seen by looking")
        assert len(at.said) == 1


def without_rights_of_root():
    """From here on this thread, and those that it starts, may open only what their user may."""
    if os.geteuid() != 0:
        return
    libc = ctypes.CDLL(None, use_errno=True)
    version_3, of_this_thread = 0x20080522, 0  # linux/capability.h
    head, no_rights = (ctypes.c_uint32 * 2)(version_3, of_this_thread), (ctypes.c_uint32 * 6)()
    assert libc.capset(head, no_rights) == 0


@pytest.mark.filterwarnings("ignore:Callback with id:RuntimeWarning")
def test_folders_that_may_not_be_opened(job, tmp_path):
    kept = job / "photos"
    shut = [job.parent / "another", kept / "raw"]
    for folder in shut:
        folder.mkdir(parents=True)
        folder.chmod(0)
    try:
        with running(job.parent, tmp_path / "book", before=without_rights_of_root) as at:
            save(job, "Beside what is shut")
            shows(at, "Beside what is shut")
            kept.chmod(0)
            time.sleep(QUIET_S * 2)
            save(job, "With photos shut")
            wait_for(lambda: len(at.bound) > 2)
            kept.chmod(0o755)
            save(job, "Open again")
            shows(at, "Open again")
            job.chmod(0)
            time.sleep(QUIET_S * 3)
            job.chmod(0o755)
            save(job, "All of it open again")
            shows(at, "All of it open again")
            assert [text for text in at.said if "failed" in text] == []
    finally:
        for folder in (job, kept, *shut):
            folder.chmod(0o755)

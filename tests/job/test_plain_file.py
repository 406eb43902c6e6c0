"""Only plain files of a job are read: whatever else bears the name of one is told, and neither waited for nor read."""

import ast
import os
import signal
import socket
from pathlib import Path

import pytest

import buildbook.job
from buildbook import limits
from buildbook.job import read_job, read_shop
from buildbook.job.photos.headers import check
from tests.conftest import noise

SECRET = "canary-of-another-place"
LONGEST_S = 20
FILES = (
    "job.toml",
    "parts.csv",
    "notes.md",
    "notes/2026-03-02.md",
    "estimate.json",
    "photos/a.jpg",
    "shop.toml",
)
NOTES = "## 2026-03-02 A day\n\nwords\n"
LEAKY = f'title = {SECRET}\n## 2026-03-02 {SECRET}\n{SECRET},qty\n"{SECRET}'


class Waited(BaseException):
    """Somebody waited for a pipe. No `Exception`: readers may well catch those."""


@pytest.fixture(autouse=True)
def _never_waits():
    """A pipe that is waited for fails the test instead of stopping all of them."""

    def late(*_):
        raise Waited

    before = signal.signal(signal.SIGALRM, late)
    signal.alarm(LONGEST_S)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, before)


@pytest.fixture
def outside(tmp_path):
    """A place that is no business of the job's."""
    folder = tmp_path / "elsewhere"
    folder.mkdir()
    (folder / "secret").write_text(LEAKY)
    return folder


def pipe(path, outside):
    os.mkfifo(path)


def folder(path, outside):
    path.mkdir()
    (path / "secret").write_text(LEAKY)


def link_out(path, outside):
    path.symlink_to(outside / "secret")


def link_that_climbs(path, outside):
    path.symlink_to(os.path.relpath(outside / "secret", path.parent))


def link_to_a_link_out(path, outside):
    between = path.with_name("between")
    between.symlink_to(outside / "secret")
    path.symlink_to("between")


def link_to_zeros(path, outside):
    path.symlink_to("/dev/zero")


def link_to_itself(path, outside):
    path.symlink_to(path.name)


def link_to_nothing(path, outside):
    path.symlink_to(outside / "nowhere")


def link_to_a_pipe_in_the_job(path, outside):
    os.mkfifo(path.with_name("pipe"))
    path.symlink_to("pipe")


def link_to_the_system(path, outside):
    path.symlink_to("/proc/self/environ")


def mailbox(path, outside):
    at = os.getcwd()
    os.chdir(path.parent)  # the name of a socket may only be short
    with socket.socket(socket.AF_UNIX) as listening:
        listening.bind(path.name)
    os.chdir(at)


TRICKS = (
    pipe, folder, link_out, link_that_climbs, link_to_a_link_out, link_to_zeros, link_to_itself, link_to_nothing,
    link_to_a_pipe_in_the_job, link_to_the_system, mailbox,
)  # fmt: skip


@pytest.mark.parametrize("name", FILES)
@pytest.mark.parametrize("trick", TRICKS, ids=lambda trick: trick.__name__)
def test_what_is_no_plain_file_of_the_job_is_told_and_not_read(make_job, outside, name, trick):
    job = make_job(**{"a.md": "x", "notes.md": NOTES})
    path = job / name
    path.parent.mkdir(exist_ok=True)
    path.unlink(missing_ok=True)
    trick(path, outside)
    read = read_job(job)
    assert [p for p in read.problems if p.file in (name, name.rpartition("/")[0])], "nothing was said of it"
    assert SECRET not in repr(read)
    assert not read.photos


@pytest.mark.parametrize("name", ["notes", "photos"])
def test_a_folder_that_is_a_link_out_is_told_and_not_looked_into(make_job, outside, name):
    (outside / "2026-03-02.md").write_text(SECRET)
    (outside / f"{SECRET}.jpg").write_bytes(noise(1))
    job = make_job(**{"parts.csv": "part,material\n"})
    (job / name).symlink_to(outside, target_is_directory=True)
    read = read_job(job)
    assert SECRET not in repr(read)
    assert any("leads out of the job folder" in p.message and p.file == name for p in read.problems)


def test_links_inside_a_job_and_a_job_that_is_a_link_are_followed(make_job):
    job = make_job(**{"kept/2026.md": NOTES, "kept/x.jpg": noise(1)})
    (job / "notes.md").symlink_to("kept/2026.md")
    (job / "photos").symlink_to("kept", target_is_directory=True)
    link = job.with_name("linked")
    link.symlink_to(job, target_is_directory=True)
    for folder in (job, link):
        read = read_job(folder)
        assert [entry.title for entry in read.entries] == ["A day"]
        assert [photo.name for photo in read.photos] == ["photos/x.jpg"]
        assert check(read.photos[0]) is None


def test_a_job_may_link_to_the_shop_of_its_shelf_and_no_farther(make_job, outside):
    job = make_job(**{"notes.md": NOTES})
    (job / "shop.toml").symlink_to("../shop.toml")
    (job.parent / "shop.toml").write_text('name = "The Workshop"\n')
    assert read_job(job).shop.name == "The Workshop"
    (job.parent / "shop.toml").unlink()
    (job.parent / "shop.toml").symlink_to(outside / "secret")
    (job.parent / "prices.csv").symlink_to(outside / "secret")
    for shop, problems in (read_shop(job), read_shop(job.parent)):
        assert shop.name == ""
        assert SECRET not in str([str(p) for p in problems])
        assert any("leads out of the shelf" in p.message for p in problems)


def test_a_link_to_what_lies_beside_a_job_without_a_shelf_is_not_followed(make_job):
    job = make_job(**{"notes.md": NOTES})
    (job.parent / "private").write_text(LEAKY)
    (job / "shop.toml").symlink_to("../private")
    assert SECRET not in repr(read_job(job))


MOST = {
    "job.toml": limits.TOML_BYTES,
    "parts.csv": limits.TABLE_BYTES,
    "notes.md": limits.NOTE_BYTES,
    "notes/2026-03-02.md": limits.NOTE_BYTES,
    "estimate.json": limits.RECORD_BYTES,
    "photos/a.jpg": limits.PICTURE_BYTES,
    "shop.toml": limits.TOML_BYTES,
    "prices.csv": limits.TABLE_BYTES,
}


@pytest.mark.parametrize(("name", "most"), MOST.items(), ids=MOST)
def test_a_file_that_is_too_large_is_told_and_not_read(make_job, name, most):
    """Holes make a file of any size that takes no disk; one of a terabyte would take hours to read."""
    job = make_job(**{"a.md": "x", name: "x"})
    for size in (most + 1, 10**12):
        os.truncate(job / name, size)
        problems = read_shop(job)[1] if name == "prices.csv" else read_job(job).problems
        (told,) = [p for p in problems if p.file == name]
        assert "MB or more; at most" in told.message


def test_a_picture_that_was_swapped_for_a_pipe_after_it_was_found_is_told(make_job):
    job = make_job(**{"photos/a.jpg": noise(1), "notes.md": NOTES})
    (photo,) = read_job(job).photos
    photo.path.unlink()
    os.mkfifo(photo.path)
    assert "pipe" in str(check(photo))


# -- the rule ------------------------------------------------------------------------------------

PACKAGE = Path(buildbook.job.__file__).parent
OPENERS = {"open", "read_text", "read_bytes", "fdopen", "file_digest"}
MAY = {"plain_file.py"}
"""The one reader; the one writer is the room `begin`."""


def opens(path):
    """The lines of a module that open a file by its path; the package's own data and files already open are none."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        called = ast.unparse(node.func)
        if called.rpartition(".")[2] in OPENERS and not called.startswith(("resources.files(", "read_bytes")):
            yield f"{path.name}: {ast.unparse(node)}"


def test_nothing_else_that_reads_a_job_opens_files():
    found = [
        line
        for path in PACKAGE.rglob("*.py")
        if path.name not in MAY and path.parent.name != "begin"
        for line in opens(path)
    ]
    assert sorted(found) == [
        "decode.py: Image.open(file, formats=_known_formats())",
        "film_day.py: folder.joinpath(*name.split('/')).open('rb')",  # the zones that tzdata brings
        "film_day.py: folder.joinpath(_TABLE).read_text('utf-8')",
        "film_process.py: av.open(file, options=options, io_open=_refused, metadata_errors='replace')",
        "film_process.py: open(0, 'rb', closefd=False)",  # handed over open
        "headers.py: hashlib.file_digest(file, 'sha256')",
        "workbook.py: archive.open(one)",  # a member of what was read
    ]

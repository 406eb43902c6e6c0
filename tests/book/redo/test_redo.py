"""What is made again and what is not: each kind of change by its name, what costs nothing, and what is doubted."""

import os
import sys
import time
from pathlib import Path

import pytest

import buildbook
from buildbook.book import bind_job as binding
from buildbook.book import pictures
from buildbook.book.bind import bind
from buildbook.book.disk import write
from buildbook.book.lock import OWN
from buildbook.book.redo import seen as seen_jobs
from buildbook.book.redo.made import place_of, read_made
from buildbook.book.redo.noted import FileFacts, is_settled
from buildbook.job.photos import decode, headers
from buildbook.render.html.theme import themes_folder
from buildbook.render.print import typeset
from tests.conftest import every_file, noise

JOB = 'title = "{title}"\nnumber = "{name}"\ndelivered = 2026-02-01\n[photos]\nlead = "photos/x.jpg"\n'
NOTES = "## 2026-01-05 Begun\n\nHours: design 1\n"
SHOP = 'name = "Half Rood"\n'
SETTLE_S = 0.05  # longer than the clock of any disk that tests run on takes to move on


@pytest.fixture
def shelf(make_job):
    for name in ("a", "b"):
        made = {"job.toml": JOB.format(title=name, name=name), "notes.md": NOTES, "photos/x.jpg": noise(name)}
        folder = make_job(name, **made)
    (folder.parent / "shop.toml").write_text(SHOP)
    time.sleep(SETTLE_S)
    return folder.parent


@pytest.fixture
def book(shelf, tmp_path):
    assert bind(shelf, tmp_path / "book").ok
    time.sleep(SETTLE_S)
    return tmp_path / "book"


def redone(shelf, book, **how):
    """Why each job was made again, by name; the pages are those of a fresh binding."""
    result = bind(shelf, book, **how)
    assert result.ok, [job.fault or job.problems for job in result.jobs]
    bind(shelf, book.parent / "fresh")
    assert every_file(book) == every_file(book.parent / "fresh")
    return {job.key: job.why for job in result.jobs if job.redone}


def facts_below(book):
    """What the system tells of every file of a book, but for those of our own."""
    return {
        path: (seen.st_ino, seen.st_mtime_ns, seen.st_ctime_ns)
        for path in sorted(book.rglob("*"))
        if OWN not in path.parts and (seen := path.lstat())
    }


# -- nothing changed ---------------------------------------------------------------------------------


def test_what_did_not_change_is_neither_read_nor_made_nor_written(shelf, book, monkeypatch):
    def never(*_, **__):
        raise AssertionError("not needed")

    for module, name in (
        (binding, "read_job"),
        (pictures, "encode"),
        (typeset, "typeset"),
        (write, "write_whole"),
    ):
        monkeypatch.setattr(module, name, never)
    before = facts_below(book)
    result = bind(shelf, book)
    assert [(job.bound, job.redone, job.why) for job in result.jobs] == [(True, False, ())] * 2
    assert result.ok
    assert facts_below(book) == before


def test_a_job_that_is_passed_over_still_says_its_own(shelf, book):
    first = bind(shelf, book.parent / "first").jobs
    again = bind(shelf, book).jobs
    assert not any(job.redone for job in again)
    assert [(job.key, job.problems, job.sealed) for job in again] == [
        (job.key, job.problems, job.sealed) for job in first
    ]
    assert again[0].problems


def test_a_shelf_that_was_moved_or_copied_is_not_made_again(shelf, book, monkeypatch):
    moved = shelf.rename(shelf.parent / "elsewhere")
    os.utime(moved / "a" / "notes.md")
    assert redone(moved, book) == {}


def test_where_only_times_changed_the_content_decides_and_is_asked_once(shelf, book, monkeypatch):
    for path in shelf.rglob("*.*"):
        os.utime(path)
    time.sleep(SETTLE_S)
    assert redone(shelf, book) == {}
    asked = []
    monkeypatch.setattr("buildbook.book.redo.inputs.content_of", lambda found, *_: asked.append(found.name))
    assert bind(shelf, book).ok
    assert asked == []


def settled(shelf, book):
    """Bound until nothing of it is too fresh to be trusted."""
    for _ in range(2):
        time.sleep(SETTLE_S)
        assert redone(shelf, book) == {}


def looked_at(shelf, book, monkeypatch):
    """The jobs of which each file is held against what was noted of it."""
    looked = []
    look = seen_jobs._look

    def watch(path, *rest, **how):
        looked.append(path.name)
        return look(path, *rest, **how)

    with monkeypatch.context() as patch:
        patch.setattr(seen_jobs, "_look", watch)
        assert not any(job.redone for job in bind(shelf, book).jobs)
    return looked


def test_what_is_settled_is_known_by_one_digest(shelf, book, monkeypatch):
    settled(shelf, book)
    assert looked_at(shelf, book, monkeypatch) == []
    os.utime(shelf / "b" / "notes.md")
    assert looked_at(shelf, book, monkeypatch) == ["b"]
    os.utime(shelf / "shop.toml")
    assert looked_at(shelf, book, monkeypatch) == ["a", "b"]


@pytest.mark.parametrize("where", ["jobs/a/mine.txt", "handover/a/mine.txt", "jobs/a/mine/any.txt"])
def test_a_file_of_the_makers_among_the_pages_costs_a_look_and_no_binding(shelf, book, where, monkeypatch):
    (book / where).parent.mkdir(exist_ok=True)
    (book / where).write_text("mine")
    for _ in range(2):
        time.sleep(SETTLE_S)
        assert not any(job.redone for job in bind(shelf, book).jobs)
    assert looked_at(shelf, book, monkeypatch) == ["a"]


def test_a_job_with_a_link_is_always_looked_at(shelf, book, monkeypatch):
    (shelf / "a" / "photos" / "y.jpg").symlink_to("x.jpg")
    assert bind(shelf, book).ok
    settled(shelf, book)
    assert looked_at(shelf, book, monkeypatch) == ["a"]


# -- each change by its name -------------------------------------------------------------------------


def put_back(path, text):
    """Other content of the same size, with the times that the file had."""
    seen = path.stat()
    assert len(text) == seen.st_size
    path.write_text(text)
    os.utime(path, ns=(seen.st_atime_ns, seen.st_mtime_ns))


CHANGES = {
    "a note": (lambda s: (s / "a" / "notes.md").write_text(NOTES + "More.\n"), "notes.md changed", "a"),
    "an edit that hides": (lambda s: put_back(s / "a" / "notes.md", NOTES.replace("Begun", "Start")), "notes.md changed", "a"),
    "a rename": (lambda s: (s / "a" / "photos" / "x.jpg").rename(s / "a" / "photos" / "y.jpg"), "photos/x.jpg is gone", "a"),
    "a new photo": (lambda s: (s / "a" / "photos" / "n.jpg").write_bytes(noise(7)), "photos/n.jpg is new", "a"),
    "a folder": (lambda s: (s / "a" / "notes").mkdir(), "notes is new", "a"),
    "a photo put in the place of another": (
        lambda s: os.replace(s / "b" / "photos" / "x.jpg", s / "a" / "photos" / "x.jpg"), "photos/x.jpg changed", "ab"),
    "the shop": (lambda s: (s / "shop.toml").write_text('name = "Other"\n'), "shop.toml of the shelf changed", "ab"),
    "no shop": (lambda s: (s / "shop.toml").unlink(), "shop.toml of the shelf is gone", "ab"),
    "prices": (lambda s: (s / "Prices.csv").write_text("material,price,per\noak,3,m3\n"), "Prices.csv of the shelf is new", "ab"),
    "a shop of its own": (lambda s: (s / "a" / "shop.toml").write_text(SHOP), "shop.toml is new", "a"),
    "a link": (lambda s: os.symlink("x.jpg", s / "a" / "photos" / "y.jpg"), "photos/y.jpg is new", "a"),
}  # fmt: skip


@pytest.mark.parametrize("name", CHANGES)
def test_a_change_makes_its_jobs_again_and_is_named(shelf, book, name):
    change, said, jobs = CHANGES[name]
    change(shelf)
    found = redone(shelf, book)
    assert set(found) == set(jobs)
    assert said in found["a"]


def lay_theme(place, colour):
    place.mkdir(exist_ok=True)
    (place / "theme.toml").write_text('after = "plain"\n[paper]\nday = "#ffffff"\nnight = "#101010"\n')
    (place / "style.css").write_text(f"body {{ color: {colour} }}")


def test_files_of_a_theme_count_and_that_they_come_to_lie_elsewhere(shelf, book):
    lay_theme(shelf / "ours", "red")
    (shelf / "shop.toml").write_text('name = "S"\ntheme = "ours"\n')
    assert set(redone(shelf, book)) == {"a", "b"}
    time.sleep(SETTLE_S)
    assert redone(shelf, book) == {}
    put_back(shelf / "ours" / "style.css", "body { color: tan }")
    assert redone(shelf, book) == dict.fromkeys("ab", ("ours/style.css of the shelf changed",))
    time.sleep(SETTLE_S)
    (shelf / "ours" / "client.css").write_text("/* none */")
    assert redone(shelf, book) == dict.fromkeys("ab", ("ours/client.css of the shelf is new",))


def test_another_program_makes_everything_again(shelf, book, monkeypatch):
    for module in ("redo.decide", "redo.seen", "past.top"):
        monkeypatch.setattr(f"buildbook.book.{module}.program", lambda: "another")
    found = bind(shelf, book)
    assert {job.why for job in found.jobs} == {("buildbook or one of its libraries is another one",)}


def test_again_makes_everything_from_nothing(shelf, book):
    made = bind(shelf, book, again=True)
    assert [(job.redone, job.why, job.photos_made) for job in made.jobs] == [(True, ("asked to",), 1)] * 2
    assert redone(shelf, book) == {}


# -- what was made -----------------------------------------------------------------------------------

HARMS = {
    "altered": lambda path: put_back(path, "x" * path.stat().st_size),
    "cut short": lambda path: os.truncate(path, path.stat().st_size // 2),
    "deleted": lambda path: path.unlink(),
    "touched": lambda path: os.utime(path),
    "a link to the same": lambda path: (path.rename(path.with_name("kept")), os.symlink("kept", path)),
}


def is_wholly_ours(path):
    return OWN not in path.parts or "made" not in path.parts


@pytest.mark.parametrize("harm", HARMS)
@pytest.mark.parametrize("what", ["handover/a/*", "jobs/a/*", f"{OWN}/jobs/a.json"])
def test_a_file_of_the_book_that_is_not_as_it_was_made_is_made_again(shelf, book, what, harm):
    for path in sorted(p for p in book.glob(what) if p.is_file() and not p.is_symlink()):
        if path.name in ("contents.json", "seal.json") and harm == "a link to the same":
            continue  # the second list takes its place; the file kept under another name is not ours
        HARMS[harm](path)
        result = bind(shelf, book)
        (book / path.relative_to(book).parent / "kept").unlink(missing_ok=True)
        if harm == "a link to the same":
            continue
        assert [job.key for job in result.jobs if job.redone] == ["a"], path
        bind(shelf, book.parent / "fresh")
        assert every_file(book) == every_file(book.parent / "fresh")


@pytest.mark.parametrize("harm", ["altered", "cut short", "deleted"])
def test_pages_across_jobs_that_are_not_as_they_were_made_are_made_again(shelf, book, harm):
    for name in ("index.html", "search.js", "years.html"):
        HARMS[harm](book / name)
        assert redone(shelf, book) == {}


@pytest.mark.parametrize("harm", ["altered", "cut short", "deleted"])
def test_a_record_that_is_damaged_costs_time_only(shelf, book, harm):
    for path in sorted((book / OWN / "made").rglob("*.json")):
        HARMS[harm](path)
    assert redone(shelf, book) == dict.fromkeys("ab", ("no record of an earlier binding is here",))


def test_a_record_that_was_written_by_someone_else_is_none(shelf, book):
    place = book / OWN / "made" / "jobs" / "a.json"
    place.write_bytes(place.read_bytes().replace(b"notes.md", b"notes.xx"))
    assert set(redone(shelf, book)) == {"a"}


# -- what is kept of a job that is made again --------------------------------------------------------


def counted(monkeypatch, module, name):
    calls = []
    real = getattr(module, name)

    def counting(*args, **kwargs):
        calls.append(args)
        return real(*args, **kwargs)

    monkeypatch.setattr(module, name, counting)
    return calls


def test_a_private_note_costs_no_typesetting_and_opens_no_photo(shelf, book, monkeypatch):
    (shelf / "a" / "notes.md").write_text(NOTES + "Nobody's business.\n")
    typesetting = counted(monkeypatch, sys.modules["buildbook.render.print.card"], "typeset")
    booklets = counted(monkeypatch, sys.modules["buildbook.render.print.booklet"], "typeset")
    opening = [counted(monkeypatch, module, "open_plain") for module in (decode, headers)]
    assert [job.key for job in bind(shelf, book).jobs if job.redone] == ["a"]
    assert (typesetting, booklets, opening) == ([], [], [[], []])
    monkeypatch.undo()
    assert redone(shelf, book) == {}


def test_a_title_for_the_client_is_typeset(shelf, book):
    (shelf / "a" / "job.toml").write_text(JOB.format(title="Another", name="a"))
    assert redone(shelf, book) == {"a": ("job.toml changed",)}


def test_pictures_of_a_handover_are_links_to_those_of_the_log(book):
    for picture in (book / "handover" / "a" / "photos").iterdir():
        assert picture.samefile(book / "jobs" / "a" / "photos" / picture.name)


def test_only_pages_whose_bytes_differ_are_written_at_the_top(shelf, book):
    before = facts_below(book)
    (shelf / "a" / "notes.md").write_text(NOTES + "Nobody's business.\n")
    bind(shelf, book)
    changed = {p.name for p, facts in facts_below(book).items() if p.parent == book and before[p] != facts}
    assert changed - {"jobs", "handover"} == {"contents.json", "search.js"}


# -- what comes in between ---------------------------------------------------------------------------


def test_a_file_that_changes_while_it_is_bound_is_bound_again(shelf, book, monkeypatch):
    real = binding.read_job

    def read_job(path, **how):
        job = real(path, **how)
        (path / "notes.md").write_text(NOTES.replace("Begun", "Later"))
        return job

    (shelf / "a" / "notes.md").write_text(NOTES + "More.\n")
    monkeypatch.setattr(binding, "read_job", read_job)
    bind(shelf, book)
    monkeypatch.undo()
    assert set(redone(shelf, book)) == {"a"}


def test_what_is_too_fresh_to_trust_is_read_again():
    second = 1_000_000_000
    old = FileFacts("file", 1, 0, 5 * second + 1, 5 * second + 1, 7)
    assert is_settled(old, 6 * second)
    assert not is_settled(old, 5 * second + 2)
    assert not is_settled(old, 4 * second)  # the clock went back
    whole = old._replace(mtime_ns=5 * second)  # a disk that keeps seconds only
    assert not is_settled(whole, 6 * second)
    assert is_settled(whole, 8 * second)


def test_what_a_stopped_program_left_is_swept_away_though_its_job_is_passed_over(shelf, book):
    for left in (book / "jobs" / ".laying-a", book / "handover" / ".laying-b"):
        left.mkdir()
        (left / "half").write_text("half")
    assert redone(shelf, book) == {}


# -- every file that is opened is noted --------------------------------------------------------------

PROGRAM = Path(buildbook.__file__).parent


class Opened:
    """Every file that is opened, and every folder that is listed, while `watching`."""

    def __init__(self):
        self.files = set()
        self.watching = False
        sys.addaudithook(self.hook)  # one cannot be taken out again

    def hook(self, event, args):
        if (
            self.watching
            and event in ("open", "os.listdir", "os.scandir")
            and isinstance(args[0], str | bytes | Path)
        ):
            self.files.add(os.path.realpath(os.fsdecode(args[0])))


@pytest.fixture(scope="module")
def opened():
    return Opened()


def watched(opened, shelf, book):
    opened.files.clear()
    opened.watching = True
    try:
        result = bind(shelf, book)
    finally:
        opened.watching = False
    assert result.ok
    return set(opened.files)


def noted_files(shelf, book):
    """The places that the records of a book name, and the folders around the shelf."""
    found = {str(shelf), *map(str, shelf.parents)}
    for key in ("a", "b"):
        made = read_made(place_of(book, key))
        starts = {"job/": shelf / key, "themes/": themes_folder(), "shelf/": shelf}
        for one in made.inputs:
            start = next(start for start in starts if one.name.startswith(start))
            found.add(os.path.realpath(starts[start] / one.name.removeprefix(start).split("\0")[0]))
        found.add(str(shelf / key))
    return found


def foreign(files, shelf, book):
    """Those that are neither noted, nor the program's or Python's own, nor in the book."""
    own = [
        str(PROGRAM),
        str(themes_folder()),
        sys.prefix,
        sys.base_prefix,
        str(book),
        "/proc",
        "/usr/share/zoneinfo",
    ]
    inside = tuple(f"{os.path.realpath(place)}/" for place in own) + tuple(own)
    noted = noted_files(shelf, book)
    return {
        name for name in files if not name.startswith(inside) and name not in noted and "/print-" not in name
    }


def test_every_file_that_a_binding_opens_is_among_what_it_noted(shelf, tmp_path, opened):
    lay_theme(shelf / "ours", "red")
    (shelf / "shop.toml").write_text('name = "S"\ntheme = "ours"\n')
    (shelf / "prices.csv").write_text("material,price,per\noak,3,m3\n")
    (shelf / "a" / "notes").mkdir()
    (shelf / "a" / "notes" / "2026-01-07.md").write_text(NOTES)
    (shelf / "a" / "estimate.json").write_text("{}")
    os.symlink("../shop.toml", shelf / "b" / "shop.toml")
    book = tmp_path / "book"
    files = watched(opened, shelf, book)
    assert {str(shelf / "a" / name) for name in ("notes.md", "notes/2026-01-07.md", "photos/x.jpg")} <= files
    assert foreign(files, shelf, book) == set()


def test_the_tripwire_is_seen_to_be_torn(shelf, tmp_path, opened, monkeypatch):
    other = tmp_path / "elsewhere.txt"
    other.write_text("x")
    real = binding.read_job
    monkeypatch.setattr(binding, "read_job", lambda path, **how: (other.read_text(), real(path, **how))[1])
    files = watched(opened, shelf, tmp_path / "book")
    assert foreign(files, shelf, tmp_path / "book") == {str(other)}

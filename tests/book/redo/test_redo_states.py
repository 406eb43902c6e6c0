"""Whatever is edited, harmed or interrupted in whatever order: after the next binding the book is, byte for byte, that of
a fresh one, but for what it keeps for itself.

The same few cases each time; HYPOTHESIS_PROFILE=search tries many more.
"""

import operator
import os
import shutil
import tempfile
from contextlib import suppress
from functools import cache
from pathlib import Path

import pytest
from hypothesis import Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from buildbook.book.bind import bind
from buildbook.book.disk import write
from buildbook.book.lock import OWN
from buildbook.book.past import past_jobs
from buildbook.book.past.near import books_near
from buildbook.job import read_shop
from buildbook.problems import Problems
from tests.book.faults import FAULTS, LESS, Disk, Killed, failing, killed, watched
from tests.conftest import every_file, noise
from tests.films import film

OPERATIONS = 120  # changes of the disk that binding one job takes
CHANGES = operator.attrgetter("changes")
SEARCHES = settings.default.max_examples > 500
JOBS = ("a", "b")
PHOTOS = {name: noise(name, (40, 30)) for name in ("one", "two", "six")}
TEXTS = {
    "job.toml": [f'title = "A {what}"\nnumber = "1"\ndelivered = 2026-02-01\n' for what in ("box", "bed")],
    "notes.md": [f"## 2026-01-05 {what}\n\nHours: design {n}\n" for what, n in (("Begun", 1), ("Start", 2))],
    "parts.csv": [f"part,material,length,width,thickness\nTop,{what},600 mm,300 mm,20 mm\n" for what in ("oak", "ash")],
    "notes/2026-01-07.md": ["## 2026-01-07 Glue\n\nx\n"],
    "shop.toml": ['name = "Own"\n'],
    "prices.csv": ["material,price,per\noak,3000,m3\n"],
}  # fmt: skip
THEME = 'after = "plain"\n[paper]\nday = "#ffffff"\nnight = "#101010"\n'
STYLES = ["body { color: red }", "body { color: tan }"]

job = st.sampled_from(JOBS)
which = st.integers(0, 1000)
step = st.integers(1, OPERATIONS)
less = st.sampled_from([None, *sorted(LESS)])


@cache
def videos():
    """Two that can be read, one on its side, and one that cannot."""
    with tempfile.TemporaryDirectory() as place:
        path = Path(place, "a.mp4")
        return [
            film(path, size=(64, 48), pictures=3).read_bytes(),
            film(path, size=(64, 48), pictures=9, turn=90).read_bytes(),
            b"no video",
        ]


def edited(path, content):
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(content)


class Shelf(RuleBasedStateMachine):
    """A shelf that is edited, and its book, which is bound after each edit."""

    fresh: dict = {}  # noqa: RUF012 - of every shelf that was met, what a fresh binding makes of it

    @initialize()
    def begin(self):
        self.place = Path(tempfile.mkdtemp(prefix="states-"))
        self.shelf, self.book = self.place / "shelf", self.place / "book"
        for name in JOBS:
            edited(self.shelf / name / "job.toml", TEXTS["job.toml"][0])
            edited(self.shelf / name / "notes.md", TEXTS["notes.md"][0])
        self.shop = {"name": "Half Rood"}
        self.write_shop()
        edited(self.shelf / "ours" / "theme.toml", THEME)
        edited(self.shelf / "ours" / "style.css", STYLES[0])

    def teardown(self):
        if hasattr(self, "place"):
            shutil.rmtree(self.place)

    def write_shop(self):
        edited(self.shelf / "shop.toml", "".join(f'{key} = "{value}"\n' for key, value in self.shop.items()))

    def inputs(self):
        return sorted(path for path in self.shelf.rglob("*") if path.is_file())

    # -- edits

    @rule(job=job, name=st.sampled_from(sorted(TEXTS)), which=which)
    def text(self, job, name, which):
        edited(self.shelf / job / name, TEXTS[name][which % len(TEXTS[name])])

    @rule(job=job, name=st.sampled_from(["job.toml", "notes.md"]))
    def edit_that_hides(self, job, name):
        """Other content of the same size, in the same file, with its time put back."""
        path = self.shelf / job / name
        seen, now = path.stat(), path.read_text()
        one, other = TEXTS[name]
        path.write_text(other if now == one else one)
        assert path.stat().st_size == seen.st_size
        os.utime(path, ns=(seen.st_atime_ns, seen.st_mtime_ns))

    @rule(which=which, back=st.booleans())
    def touch(self, which, back):
        every = self.inputs()
        os.utime(every[which % len(every)], (1, 1) if back else None)

    @rule(job=job, name=st.sampled_from(["a.jpg", "b.jpg"]), photo=st.sampled_from(sorted(PHOTOS)))
    def photo(self, job, name, photo):
        path = self.shelf / job / "photos" / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(PHOTOS[photo])

    @rule(job=job, video=st.integers(0, 2))
    def video(self, job, video):
        path = self.shelf / job / "photos" / "c.mp4"
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(videos()[video])

    @rule(job=job)
    def rename(self, job):
        photos = self.shelf / job / "photos"
        if (photos / "a.jpg").exists():
            (photos / "a.jpg").rename(photos / "b.jpg")

    @rule(name=st.sampled_from(["job.toml", "notes.md", "photos"]))
    def exchange(self, name):
        one, other = (self.shelf / job / name for job in JOBS)
        if one.exists() and other.exists():
            kept = self.place / "kept"
            one.rename(kept)
            other.rename(one)
            kept.rename(other)

    @rule(
        job=job,
        name=st.sampled_from(
            ["parts.csv", "notes/2026-01-07.md", "shop.toml", "photos/a.jpg", "photos/c.mp4"]
        ),
    )
    def delete(self, job, name):
        (self.shelf / job / name).unlink(missing_ok=True)

    @precondition(
        lambda self: self.shop.get("theme") != "ours"
    )  # which lies beside the shelf's shop.toml only
    @rule(job=job)
    def move_the_shop(self, job):
        """From the shelf into a job, or back."""
        one, other = self.shelf / "shop.toml", self.shelf / job / "shop.toml"
        if one.exists():
            one.rename(other)
        elif other.exists():
            other.rename(one)

    @rule(there=st.booleans())
    def prices(self, there):
        (self.shelf / "prices.csv").unlink(missing_ok=True)
        if there:
            edited(self.shelf / "prices.csv", TEXTS["prices.csv"][0])

    @rule(key=st.sampled_from(["theme", "language", "units"]), usual=st.booleans())
    def change_the_shop(self, key, usual):
        values = {"theme": ("plain", "ours"), "language": ("en", "de"), "units": ("mm", "in")}[key]
        self.shop[key] = values[not usual]
        self.write_shop()

    @rule(which=which, file=st.sampled_from(["style.css", "_own.html"]))
    def theme(self, which, file):
        """The style changes at the same size and time; a file comes or goes."""
        path = self.shelf / "ours" / file
        if file == "style.css":
            seen = path.stat()
            path.write_text(STYLES[which % 2])
            os.utime(path, ns=(seen.st_atime_ns, seen.st_mtime_ns))
        elif path.exists():
            path.unlink()
        else:
            path.write_text("x")

    # -- harm

    @precondition(lambda self: self.book.exists())
    @rule(which=which, harm=st.sampled_from(["alter", "cut", "delete", "touch"]), own=st.booleans())
    def harm(self, which, harm, own):
        """A file of the book, or one of its own records."""
        every = sorted(
            p for p in self.book.rglob("*") if p.is_file() and (OWN in p.parts) == own and p.name != "lock"
        )
        path = every[which % len(every)]
        content = path.read_bytes()
        if harm == "delete":
            path.unlink()
        elif harm == "touch":
            os.utime(path)
        elif content:
            place = which % len(content)
            other = bytes([content[place] ^ 1])
            path.write_bytes(content[:place] + (other + content[place + 1 :] if harm == "alter" else b""))

    def bound_with(self, job, fails, less):
        """A binding after an edit, on a disk that fails and maybe can less than others."""
        self.edit_that_hides(job, "job.toml")

        def before(one):
            fails(one)
            if less:
                LESS[less](one)

        with watched(Disk(self.book, before=before)), suppress(Killed):
            bind(self.shelf, self.book)

    @rule(job=job, step=step, fault=st.sampled_from(FAULTS), less=less)
    def failure(self, job, step, fault, less):
        self.bound_with(job, failing(step, fault, CHANGES), less)

    @rule(job=job, step=step, less=less)
    def kill(self, job, step, less):
        self.bound_with(job, killed(step, CHANGES), less)

    # -- what must hold

    @invariant()
    def the_book_is_that_of_a_fresh_binding(self):
        if not hasattr(self, "place"):
            return
        assert known_of(self.shelf, books_near(self.shelf)) == known_of(self.shelf, [])
        made = bind(self.shelf, self.book)
        assert made.ok, [(j.key, j.fault, j.problems) for j in made.jobs] + [made.problems]
        shelf = tuple(sorted(every_file(self.shelf).items()))
        folders = tuple(sorted(p.relative_to(self.shelf) for p in self.shelf.rglob("*") if p.is_dir()))
        if (shelf, folders) not in self.fresh:
            first = bind(self.shelf, self.place / "fresh")
            self.fresh[shelf, folders] = first.jobs, pages(self.place / "fresh")
            shutil.rmtree(self.place / "fresh")
        jobs, expected = self.fresh[shelf, folders]
        found = pages(self.book)
        assert [
            name for name in found.keys() | expected.keys() if found.get(name) != expected.get(name)
        ] == []
        told = [(j.key, j.bound, j.problems, j.sealed) for j in made.jobs]
        assert told == [(j.key, j.bound, j.problems, j.sealed) for j in jobs]


def known_of(shelf, books):
    """What an estimate knows of the jobs, what an edit left of the book at hand."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(past_jobs, "books_near", lambda _: books)
        known = past_jobs.past_jobs(shelf, read_shop(shelf)[0], shelf / "none", Problems())
    return [(one, one.stuff()) for one in known]


def pages(book):
    """Name and digest of every file but what a book keeps for itself."""
    files = every_file(book).items()
    return {name: write.sha256(content) for name, content in files if not name.startswith(f"{OWN}/")}


Shelf.TestCase.settings = settings(
    max_examples=200 if SEARCHES else 8,
    stateful_step_count=20 if SEARCHES else 10,
    phases=[Phase.generate, Phase.shrink] if SEARCHES else [Phase.generate],
)
TestShelf = Shelf.TestCase

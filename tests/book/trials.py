"""Bindings that something goes wrong with, and what must hold after each: a scene of a shelf, its book as it was and as it
is to be; an attempt on copies of them; and a list of what is not as it must be.
"""

import contextlib
import hashlib
import io
import os
import shutil
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pytest

from buildbook import limits
from buildbook.book import bind as binding
from buildbook.book.bind import bind
from buildbook.book.disk import swap
from buildbook.book.lock import OWN
from buildbook.book.redo.decide import outputs_as_noted
from buildbook.book.redo.made import keep_made, place_of, read_made
from buildbook.book.redo.noted import content_of, found_at
from buildbook.book.sealed.verify import verify
from buildbook.cli import main
from buildbook.render.html.theme import themes_folder
from buildbook.render.print import booklet, card, typeset
from tests.book.faults import Disk, Killed, Operation, watched
from tests.conftest import every_file, noise

JOBS = ("a", "b")
TOP = ""
THEIRS = {
    "jobs/a/letter.odt": b"mine, beside a log",
    "handover/a/scans/1.png": b"mine, in a handover",
    "to do.txt": b"mine, at the top",
}
"""Files of the maker's in a book, which stay whatever happens."""

SETTLE_S = 0.03  # longer than the clock of a disk takes to move on
Kind = tuple[str, ...]
Before = Callable[[Operation], None]

BEGUN = 'title = "{title}"\nnumber = "{name}"\ndelivered = 2026-02-01\n[photos]\nlead = "photos/x.jpg"\n'
SMALL = (48, 36)


@dataclass(frozen=True)
class Scene:
    """`shelf` has an edit that `old` does not have yet; `new` is the book of a fresh binding. `tops`: what each file at
    the top of a book may be, whichever jobs could not be bound.
    """

    shelf: Path
    old: Path
    new: Path
    tops: dict[str, set[bytes]]


def write_shelf(shelf: Path) -> None:
    for name in JOBS:
        (shelf / name / "photos").mkdir(parents=True)
        (shelf / name / "job.toml").write_text(BEGUN.format(title=f"Box {name}", name=name))
        (shelf / name / "notes.md").write_text("## 2026-01-05 Begun\n\nHours: design 1\n")
        (shelf / name / "notes").mkdir()
        (shelf / name / "notes" / "2026-01-07.md").write_text("## 2026-01-07 Glued\n\nHours: design 2\n")
        (shelf / name / "parts.csv").write_text(
            "part,material,length,width,thickness\nTop,oak,600 mm,300 mm,20 mm\n"
        )
        for photo in ("x", "y"):
            (shelf / name / "photos" / f"{photo}.jpg").write_bytes(noise(name + photo, SMALL))
    (shelf / "shop.toml").write_text('name = "Half Rood"\n')


def edit(shelf: Path) -> None:
    (shelf / "a" / "job.toml").write_text(BEGUN.format(title="Chest a", name="a"))
    (shelf / "a" / "photos" / "y.jpg").write_bytes(noise("another", SMALL))


def lay_theirs(book: Path) -> None:
    for name, content in THEIRS.items():
        (book / name).parent.mkdir(exist_ok=True)
        (book / name).write_bytes(content)


def made_scene(place: Path) -> Scene:
    scene = Scene(place / "shelf", place / "old", place / "new", {})
    write_shelf(scene.shelf)
    assert bind(scene.shelf, scene.old).ok
    lay_theirs(scene.old)
    spoilt = place / "spoilt"
    edit(scene.shelf)
    shutil.copytree(scene.shelf, spoilt)
    assert bind(scene.shelf, scene.new).ok
    lay_theirs(scene.new)
    for edition in (scene.old, scene.new, None):
        for bad in ((), ("a",), ("b",), JOBS):
            book = place / "with stale"
            if edition:
                shutil.copytree(edition, book)
            for name in bad:
                (spoilt / name / "job.toml").write_text("title = ")
            if bad:
                bind(spoilt, book)
            for name in bad:
                shutil.copy(scene.shelf / name / "job.toml", spoilt / name / "job.toml")
            for path in (p for p in book.glob("*") if p.is_file()):
                scene.tops.setdefault(path.name, set()).add(path.read_bytes())
            shutil.rmtree(book, ignore_errors=True)
    shutil.rmtree(spoilt)
    return scene


def trust(book: Path, shelf: Path) -> None:
    """Bring the records of a copied book to what the system tells of the copies: what is as it was made stays known."""
    for key in (*JOBS, TOP):
        place = place_of(book, key)
        made = read_made(place)
        assert made is not None
        top = {"job/": shelf / key, "shelf/": shelf, "jobs/": book / "jobs"}
        inputs = tuple(
            one._replace(facts=now.facts) if one.content == content_of(now, limits.PICTURE_BYTES, "") else one
            for one in made.inputs
            for start, rest in [(f"{one.name.split('/')[0]}/", one.name.partition("/")[2])]
            for now in [found_at(one.name, str(top.get(start, themes_folder()) / rest))]
        )
        outputs = outputs_as_noted(book, ((one.name, one.content) for one in made.outputs))
        later = time.time_ns() + 60 * 10**9
        keep_made(place, replace(made, inputs=inputs, outputs=outputs, begun_ns=later, done_ns=later))


@dataclass(frozen=True)
class Outcome:
    """What came of a binding: its exit code, None where it was killed or raised; what it said; what it did."""

    code: int | None
    said: str
    seen: tuple[Operation, ...]
    raised: BaseException | None = None


class Attempt:
    """One binding of a scene on copies of its own.

    edition  of the book with which it begins, "" for none; known: whether that is known to be as it was made, so that
             only what was edited is bound
    """

    def __init__(self, scene: Scene, place: Path, edition: str = "old", *, known: bool = True) -> None:
        self.scene, self.edition, self.place = scene, edition, place
        self.shelf, self.book = place / "shelf", place / "book"
        shutil.copytree(scene.shelf, self.shelf, symlinks=True)
        if edition:
            shutil.copytree(getattr(scene, edition), self.book, symlinks=True)
            if known:
                trust(self.book, self.shelf)
        time.sleep(SETTLE_S)
        self.shelf_before = everything(self.shelf)

    def run(self, before: Before, after: Before = lambda one: None) -> Outcome:
        disk = Disk(self.place, before=before, after=after)
        said = io.StringIO()
        code, raised = None, None
        with watched(disk), contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
            try:
                code = main(["bind", str(self.shelf), "--to", str(self.book)])
            except Killed:
                pass
            except BaseException as fault:
                raised = fault
        return Outcome(code, said.getvalue(), tuple(disk.seen), raised)

    def kind(self, one: Operation) -> Kind:
        """What an operation does, and in which folders."""
        return one.name, *(os.path.dirname(os.path.relpath(path, self.place)) for path in one.paths)

    # -- what must hold

    def wrong(self, outcome: Outcome, *, killed: bool = False) -> list[str]:
        return [
            *self.wrong_in_what_was_said(outcome, killed),
            *self.wrong_in_the_book(outcome, killed),
            *self.wrong_in_the_next(),
        ]

    def wrong_in_what_was_said(self, outcome: Outcome, killed: bool) -> Iterator[str]:
        if outcome.raised:
            yield f"raised {outcome.raised!r}"
        if not killed:
            if "Traceback" in outcome.said or "buildbook itself" in outcome.said:
                yield f"a fault of our own: {outcome.said.strip().splitlines()[-1]}"
            elif outcome.code and not any(is_clear(line) for line in outcome.said.splitlines()):
                yield f"not clear: {outcome.said}"

    def wrong_in_the_book(self, outcome: Outcome, killed: bool) -> Iterator[str]:
        if everything(self.shelf) != self.shelf_before:
            yield "the shelf was touched"
        found = visible(files_of(self.book))
        new = every_file(self.scene.new)
        old = every_file(self.scene.old) if self.edition else {}
        if self.edition:
            yield from (
                f"{name} of the maker's was touched" for name in THEIRS if found.get(name) != THEIRS[name]
            )
            if self.edition != "old":
                old = every_file(getattr(self.scene, self.edition))
        else:
            new = {name: content for name, content in new.items() if name not in THEIRS}
        if outcome.code == 0 and (diff := differing(found, new)):
            yield f"said that all is well, and is not: {diff}"
        for job in JOBS:
            editions = []
            for part in ("jobs", "handover"):
                is_old, is_new = (
                    below(e, f"{part}/{job}/") == below(found, f"{part}/{job}/") for e in (old, new)
                )
                editions.append((is_old, is_new))
                if not is_old and not is_new:
                    yield f"{part}/{job} is neither old nor new: {sorted(below(found, f'{part}/{job}/'))}"
            both = [all(one) for one in zip(*editions, strict=True)]
            if not killed and not any(both):
                yield f"log and handover of {job} are of different editions"
            page = self.book / "handover" / job
            if page.exists() and (said := wrong_with_seal(page, below(found, f"handover/{job}/"))):
                yield said
        for name, content in found.items():
            if "/" not in name and content not in self.scene.tops.get(name, ()):
                yield f"{name} is neither old nor new"

    def wrong_in_the_next(self) -> Iterator[str]:
        """The next binding, with nothing amiss, makes the book of a fresh one."""
        bound = bind(self.shelf, self.book)
        if not bound.ok:
            yield f"the next binding fails: {[(j.key, j.fault, list(map(str, j.problems))) for j in bound.jobs]}"
        expected = every_file(self.scene.new)
        if not self.edition:
            expected = {name: content for name, content in expected.items() if name not in THEIRS}
        if diff := differing(files_of(self.book), expected):
            yield f"after the next binding: {diff}"
        if left := [name for name in hidden(self.book) if name != OWN]:
            yield f"left behind: {left}"


def is_clear(line: str) -> bool:
    """Whether a line is a problem with a place, what is there, and one thing to do."""
    found = line.strip()
    return (
        found.startswith("error: ") and ": " in found[7:] and found.endswith(".") and found.count(". ") >= 1
    )


def visible(files: dict[str, bytes]) -> dict[str, bytes]:
    """The files of a book without those that are being written, and with those of a folder that is set aside where its
    place is empty: the next binding puts it back.
    """
    shown = {
        name: content for name, content in files.items() if "/." not in f"/{name}" or name.startswith(OWN)
    }
    shown = {name: content for name, content in shown.items() if ".laying-" not in name}
    aside = {
        name.replace(f"/{swap.ASIDE}", "/"): content for name, content in files.items() if swap.ASIDE in name
    }
    places = {"/".join(name.split("/")[:2]) for name in shown}
    return shown | {name: c for name, c in aside.items() if "/".join(name.split("/")[:2]) not in places}


def wrong_with_seal(page: Path, files: dict[str, bytes]) -> str:
    """A maker's file lies in that of job a, which the seal does not name."""
    theirs = {name.removeprefix("handover/a/") for name in THEIRS if name.startswith("handover/a/")}
    found = verify(page)
    missing = [*found.changed, *found.missing]
    return (
        f"the seal is broken: {missing}" if missing else "" if found.ok or theirs else "the seal is not true"
    )


def below(files: dict[str, bytes], folder: str) -> dict[str, bytes]:
    return {name: content for name, content in files.items() if name.startswith(folder)}


def differing(one: dict[str, bytes], other: dict[str, bytes]) -> list[str]:
    names = (one.keys() | other.keys()) - {f"{OWN}/lock"}
    return sorted(name for name in names if one.get(name) != other.get(name))


def files_of(book: Path) -> dict[str, bytes]:
    """As `every_file`, where there may be no book."""
    return every_file(book) if book.is_dir() else {}


def hidden(book: Path) -> list[str]:
    return [
        name for _, folders, files in os.walk(book) for name in (*folders, *files) if name.startswith(".")
    ]


def everything(folder: Path) -> dict[str, Any]:
    """Every name below a folder, with what the system tells of it and what is in it."""
    found: dict[str, Any] = {}
    for here, folders, files in os.walk(folder):
        for name in (*folders, *files):
            path = Path(here, name)
            seen = path.lstat()
            content = hashlib.sha256(path.read_bytes()).digest() if path.is_file() else b""
            found[str(path.relative_to(folder))] = (
                seen.st_mode,
                seen.st_ino,
                seen.st_mtime_ns,
                seen.st_ctime_ns,
                content,
            )
    return found


@contextlib.contextmanager
def place_in_memory() -> Iterator[Path]:
    """A folder on a disk that is memory, where the system has one: to wait for a real one at each step takes minutes."""
    memory = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None
    with tempfile.TemporaryDirectory(prefix="trial-", dir=memory) as place:
        os.chmod(place, 0o755)  # whoever binds may see it
        yield Path(place).resolve()


@contextlib.contextmanager
def pages_made_quickly() -> Iterator[None]:
    """Templates compiled once, and the typesetter asked once for each print: they take most of the time of a binding, and
    touch no book.
    """
    real = typeset.typeset
    made: dict[str, Any] = {}

    def once(*args: Any, **how: Any) -> Any:
        key = hashlib.sha256(repr((args, sorted(how.items()))).encode()).hexdigest()
        if key not in made:
            made[key] = real(*args, **how)
        return made[key]

    with pytest.MonkeyPatch.context() as patch:
        for module in (card, booklet):
            patch.setattr(module, "typeset", once)
        patch.setattr(binding, "forget_templates", lambda: None)
        yield

"""Where jobs, shelves and books lie: what is written is never laid over a job, nor into one, by whatever links.

Folders are compared by what they are on disk (device and inode), so that links, other capitals and other ways to the
same place make no difference.
"""

from __future__ import annotations

import json
import os
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from buildbook import limits
from buildbook.job.plain_file import NotRead, read_plain
from buildbook.job.text import as_text, shown
from buildbook.problems import Problem

BOOK_LIST = "contents.json"
"""The list of the files of a book, by which one is known; each folder of pages has one of the same name."""

_FACTS, _SHOP = "job.toml", "shop.toml"
_PARTS = frozenset(("parts.csv", "parts.xlsx", "parts.ods"))
_NOTES = frozenset(("notes.md", "notes"))
_BESIDE_PARTS = _NOTES | {"photos"}
_OTHER_PLACE = "Name another place with --to."


# -- what a folder is ----------------------------------------------------------------------------


def is_book(folder: Path) -> bool:
    """Whether a folder is a book, by its own list; where that is damaged, by what else lies in it."""
    if not os.path.lexists(folder / BOOK_LIST):
        return False
    try:
        facts = json.loads(read_plain(folder / BOOK_LIST, limits.LEFT_BYTES))
    except (NotRead, ValueError, RecursionError):
        facts = None
    if isinstance(facts, dict) and "files" in facts:
        return "stale" in facts
    pages = all((folder / name).is_dir() for name in ("jobs", "handover"))
    return pages and _FACTS not in _names(folder)


def is_surely_job(folder: Path) -> bool:
    """Whether a folder that nobody called a job is one. Notes alone make a job only on a shelf: many folders have
    some.
    """
    names = _names(folder)
    if _SHOP in names and _FACTS not in names:
        return False
    likely = _FACTS in names or (names & _PARTS and names & _BESIDE_PARTS)
    maybe = names & (_PARTS | _NOTES)
    return bool(likely or (maybe and _SHOP in _names(folder.parent))) and not is_book(folder)


def _names(folder: Path) -> set[str]:
    """The names in a folder, in small letters; none where it cannot be looked into."""
    try:
        return {name.casefold() for name in os.listdir(folder)}
    except OSError:
        return set()


# -- what lies in what ---------------------------------------------------------------------------


def _identity(path: Path) -> tuple[int, int] | None:
    try:
        facts = path.stat()
    except (OSError, ValueError):
        return None
    return facts.st_dev, facts.st_ino


def around(path: Path) -> Iterator[Path]:
    """A place and every folder that it lies in, links followed, from the inside out; those that are there."""
    try:
        real = path.resolve()
    except (OSError, RuntimeError):  # a link that leads to itself
        real = Path(os.path.abspath(path))
    return (folder for folder in (real, *real.parents) if folder.is_dir())


def _lies_in(path: Path, folders: Iterable[Path]) -> Path | None:
    """The first of some folders that a place lies in, or is."""
    above = {_identity(folder) for folder in around(path)}
    return next((folder for folder in folders if _identity(folder) in above), None)


def job_around(place: Path) -> Path | None:
    """The job folder that a place lies in, or is; None where there is none."""
    return next((folder for folder in around(place) if is_surely_job(folder)), None)


def in_a_job(place: Path, jobs: Iterable[Path]) -> Problem | None:
    """A problem where a place lies in one of these jobs, or in any other."""
    job = _lies_in(place, jobs) or job_around(place)
    if job is None:
        return None
    said = f"lies in a job folder ({as_text(str(job))}), which is never written into."
    return Problem("error", as_text(str(place)), said, _OTHER_PLACE)


def _lies_below(here: tuple[int, int], folder: Path) -> bool:
    return here in map(_identity, around(folder))


def _ends_of(shelf: Path, jobs: Iterable[Path]) -> Iterator[Path]:
    """The shelf, and those of the jobs that a link puts there: what else lies on it has the same folders around."""
    yield shelf
    yield from (job for job in jobs if job.parent != shelf or job.is_symlink())


def in_the_way(place: Path, jobs: Sequence[Path], shelf: Path) -> Problem | None:
    """Why no folder of ours may be here: it lies in a job, or a job or the shelf lies in it. None where it may."""
    if problem := in_a_job(place, jobs):
        return problem
    here = _identity(place)
    if here and (
        any(_lies_below(here, other) for other in _ends_of(shelf, jobs)) or here in map(_identity, jobs)
    ):
        said = "is where your job folders lie, and they are never written over."
        return Problem("error", as_text(str(place)), said, _OTHER_PLACE)
    return None


# -- names ---------------------------------------------------------------------------------------


def job_name(path: Path) -> str:
    """The name of a job's folder; of a link to one, the name of the link."""
    return as_text(os.path.basename(os.path.abspath(path)))


def one_name(name: str) -> str:
    """A name as a disk compares it that ignores capitals and the form of accents."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFD", name).casefold())


def clash(path: Path, before: Iterable[str], where: str = "here") -> Problem | None:
    """A problem where one of the names before is the same as that of a job, but for capitals and accents' form."""
    name = job_name(path)
    other = next((b for b in before if b != name and one_name(b) == one_name(name)), None)
    if other is None:
        return None
    said = (
        f"There is {shown(other)} {where}, and on a disk that ignores capitals or the form of accents"
        f" that is the same name."
    )
    return Problem("error", name, said, "Rename one of the two folders.")


def clashes(jobs: Iterable[Path]) -> dict[Path, Problem]:
    """The jobs whose name is one with that of a job before, and why they are refused."""
    found: dict[Path, Problem] = {}
    before: dict[str, str] = {}
    for path in jobs:
        name = job_name(path)
        first = before.setdefault(one_name(name), name)
        if problem := clash(path, (first,)):
            found[path] = problem
    return found

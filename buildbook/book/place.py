"""Whether a book may lie where it is asked for: never over a job, nor over a folder that the maker uses otherwise."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from buildbook.book.disk.write import LIST, SEAL
from buildbook.book.lock import lock_in_the_way
from buildbook.job.places import clash, in_the_way, is_book, is_surely_job, job_name, one_name
from buildbook.problems import Problem

DEFAULT_BOOK = "book"
"""The folder that a book is bound into where no other is named."""

LOGS, HANDOVERS = "jobs", "handover"
"""The folders of a book that hold one a job."""

_RENAME = "Rename the folder, or take the pages of the other out of the book."
_OTHER_PLACE = "Move it, or name another place with --to."


def refused(folder: Path, book: Path, jobs: Sequence[Path]) -> Problem | None:
    """Why the jobs of a folder cannot be bound into this book; None where they can."""
    if os.path.lexists(book) and not book.is_dir():
        return Problem("error", str(book), "is a file, not a folder.", "Name another place with --to.")
    if problem := in_the_way(book, jobs, folder):
        return problem
    if own := lock_in_the_way(book):
        return Problem("error", str(own), "stands in the way and is no folder of this book.", _OTHER_PLACE)
    return _of_the_maker(book)


def _of_the_maker(book: Path) -> Problem | None:
    """A folder or list of the maker's where the book puts its own."""
    ours = is_book(book)
    pages = False
    for part in (book / LOGS, book / HANDOVERS):
        if not os.path.lexists(part):
            continue
        if part.is_symlink() or not part.is_dir():
            return Problem(
                "error", str(part), "stands in the way and is no folder of this book.", _OTHER_PLACE
            )
        inside = [child for child in _inside(part) if not child.name.startswith(".")]
        if job := next((child for child in inside if _is_job(child)), None):
            said = f"holds a job folder ({job.name}), which is never written into."
            return Problem("error", str(part), said, _OTHER_PLACE)
        bound = any(_list_of(child) for child in inside)
        if inside and not ours and not bound:
            return Problem("error", str(part), "holds files that are none of a book.", _OTHER_PLACE)
        pages = pages or bound
    if os.path.lexists(book / LIST) and not ours and not pages:
        said = "stands in the way and is not a file of this book."
        return Problem("error", str(book / LIST), said, _OTHER_PLACE)
    return None


def _inside(folder: Path) -> list[Path]:
    try:
        return sorted(folder.iterdir(), key=lambda path: path.name)
    except OSError:
        return []


def _is_job(folder: Path) -> bool:
    """Pages of ours may have a file of the maker's beside them, but never a job.toml."""
    if not folder.is_dir():
        return False
    return is_surely_job(folder) and (not _list_of(folder) or (folder / "job.toml").exists())


def _list_of(folder: Path) -> bool:
    return any(os.path.lexists(folder / name) for name in (LIST, SEAL))


def like_named(jobs: Sequence[Path], book: Path) -> dict[Path, Problem]:
    """The jobs whose name is, on some disks, that of another job with pages in the book, and why they are refused."""
    held: dict[str, list[str]] = {}
    for child in _inside(book / LOGS):
        if not child.name.startswith("."):
            held.setdefault(one_name(child.name), []).append(child.name)
    found = {}
    for job in jobs:
        alike = held.get(one_name(job_name(job)), [])
        problem = clash(job, alike, "in this book already")
        if problem and not (len(alike) == 1 and (book / LOGS / job_name(job)).exists()):
            found[job] = replace(problem, hint=_RENAME)
        # else the disk itself takes the two for one, and the job was renamed
    return found

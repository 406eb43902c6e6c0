"""What a folder is, told by the names in it: an empty one, a job, a shelf, a book, a handover … Nothing is opened, so
that it takes no time; what is read, and whether it is whole, is the business of the commands.
"""

from __future__ import annotations

import os
from collections.abc import Callable

EMPTY, JOB, SHELF, BOOK, HANDOVER = "empty", "job", "shelf", "book", "handover"
OF_A_JOB, PAGES, HANDOVERS, MATERIAL, OTHER = "of a job", "pages", "handovers", "material", "other"
"""Kinds of folders. `OF_A_JOB` lies in a job (its photos); `PAGES` is the log of a job in a book, or an estimate;
`HANDOVERS` holds some; `MATERIAL` holds photos or notes of which no job was made yet.
"""

FACTS, SHOP, SEAL, LIST = "job.toml", "shop.toml", "seal.json", "contents.json"
PARTS = frozenset(("parts.csv", "parts.xlsx", "parts.ods"))
NOTES = frozenset(("notes.md", "notes"))
PICTURES = (".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif", ".tif", ".tiff")
TEXTS = (".md", ".markdown", ".txt")
_PHOTOS, _BOOK_FOLDERS = "photos", frozenset(("jobs", "handover"))


def what_is(folder: str) -> str:
    """The kind of a folder, by the names in it and in the folders right inside it. Raises OSError where it cannot be
    listed.
    """
    names = _names(folder)
    if not names:
        return EMPTY
    if SEAL in names:
        return HANDOVER
    if LIST in names:
        return BOOK if names >= _BOOK_FOLDERS else PAGES
    inside = [_names_if_any(os.path.join(folder, name)) for name in _folders(folder)]
    jobs = any(map(_has_files_of_job, inside))
    if FACTS in names or (_has_files_of_job(names) and not (jobs and SHOP in names)):
        return OF_A_JOB if FACTS not in names and is_in_job(folder) else JOB
    if jobs or SHOP in names:
        return SHELF
    if any(SEAL in below for below in inside):
        return HANDOVERS
    if is_in_job(folder):
        return OF_A_JOB
    if _PHOTOS in names or any(name.endswith(PICTURES + TEXTS) for name in names):
        return MATERIAL
    return OTHER


def is_in_job(folder: str) -> bool:
    """Whether the folder around is surely a job."""
    return FACTS in _names_if_any(os.path.join(folder, os.pardir))


def jobs_in(folder: str) -> list[str]:
    """The names of the folders right inside that look like jobs, in their order."""
    return _those(folder, _has_files_of_job)


def handovers_in(folder: str) -> list[str]:
    """The names of the folders right inside that look like handovers, in their order."""
    return _those(folder, lambda names: SEAL in names)


def _those(folder: str, wanted: Callable[[frozenset[str]], bool]) -> list[str]:
    return [name for name in _folders(folder) if wanted(_names_if_any(os.path.join(folder, name)))]


def _has_files_of_job(names: frozenset[str]) -> bool:
    return bool(names & (PARTS | NOTES | {FACTS})) and LIST not in names


def _folders(folder: str) -> list[str]:
    with os.scandir(folder) as entries:
        return sorted(one.name for one in entries if not one.name.startswith(".") and os.path.isdir(one.path))


def _names(folder: str) -> frozenset[str]:
    """The names in a folder, in small letters, without those that are hidden."""
    return frozenset(name.casefold() for name in os.listdir(folder) if not name.startswith("."))


def _names_if_any(folder: str) -> frozenset[str]:
    try:
        return _names(folder)
    except OSError:
        return frozenset()

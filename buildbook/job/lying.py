"""What lies in a job folder: files by their names, whatever their capitals; notes; names that no folder may have.

In: a folder. Out: paths and names; what is in the way is told. Nothing is opened here.
"""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Callable, Sequence
from pathlib import Path

from buildbook.job.notes import entries as notes
from buildbook.job.plain_file import NotRead, disk_fails, inside, not_read
from buildbook.job.text import as_text, shown
from buildbook.problems import Problems, listed

_NOTE_SUFFIXES = (".md", ".markdown")
_LEFT_ASIDE = ("thumbs.db", "desktop.ini")
_NAMED = 3  # files that a warning names
_NOT_IN_NAMES = re.compile(r'[<>:"/\\|?*\x00-\x1f\x7f]')
_RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)
_LONGEST_NAME = 120  # bytes; leaves room for what a book puts around it


def note_files(folder: Path, problems: Problems) -> list[tuple[str, Path]]:
    """notes.md, then the notes of notes/ by name; other files there are told."""
    found = [(notes.MAIN, path)] if (path := find(folder, notes.MAIN)) else []
    others = []
    for path in _in_notes(folder, problems):
        if path.name.startswith(".") or path.name.casefold() in _LEFT_ASIDE:
            continue
        name = f"{notes.FOLDER}/{path.name}"
        if (
            path.suffix.casefold() in _NOTE_SUFFIXES
            and _is_text(path.name)
            and _is_file(path, name, problems)
        ):
            found.append((name, path))
        else:
            others.append(path.name)
    if others:
        more = [f"{len(others) - _NAMED} more"] if len(others) > _NAMED else []
        listing = listed([*map(shown, others[:_NAMED]), *more])
        problems.warn(
            notes.FOLDER,
            f"{listing} {'is no note and is' if len(others) == 1 else 'are no notes and are'} passed over.",
            "Notes are files such as 2026-03-02.md; pictures go in photos.",
        )
    return found


def _in_notes(folder: Path, problems: Problems) -> list[Path]:
    """What lies in notes/; nothing of a folder elsewhere, which is told."""
    path = find(folder, notes.FOLDER)
    if path is None:
        return []
    try:
        inside(path, folder)
        is_folder = stat.S_ISDIR(_mode(path))
    except NotRead as why:
        problems.error(notes.FOLDER, why.message, why.hint)
        return []
    if not is_folder:
        hint = f"Save it as {notes.MAIN}, or put the notes of each day in a folder of this name."
        problems.warn(notes.FOLDER, "This is no folder; it is passed over.", hint)
        return []
    try:
        return sorted(path.iterdir())
    except OSError as fault:
        said = f"This folder cannot be read: {fault.strerror}."
        problems.error(notes.FOLDER, said, "See that you may open it.")
        return []


def why_not_listed(folder: Path) -> str:
    try:
        os.listdir(folder)
    except OSError as fault:
        return fault.strerror or str(fault)
    return ""


def listing(folder: Path) -> list[str]:
    """The names in a folder, in order; none where it cannot be looked into."""
    try:
        return sorted(os.listdir(folder))
    except OSError:
        return []


def can_be(question: Callable[[], bool]) -> bool:
    """The answer to a question about a path; no where the system does not let us ask."""
    try:
        return question()
    except OSError:
        return False


def _is_file(path: Path, name: str, problems: Problems) -> bool:
    """Whether it is a plain file, or a link to one; where the system does not say, that is told."""
    try:
        return stat.S_ISREG(_mode(path))
    except NotRead as why:
        problems.error(name, why.message, why.hint)
        return False


def _mode(path: Path) -> int:
    """What is at a place, a link followed; 0 where there is nothing. Raises `NotRead`."""
    try:
        return path.stat().st_mode
    except OSError as fault:
        if disk_fails(fault):
            raise not_read(fault) from fault
        return 0


def find(folder: Path, name: str) -> Path | None:
    """A file or folder by its name, whatever the capitals."""
    if can_be((folder / name).exists):
        return folder / name
    alike = [other for other in listing(folder) if other.casefold() == name]
    return folder / alike[0] if len(alike) == 1 else None


def saved_otherwise(folder: Path, name: str) -> str:
    """A file of the same name in another format (`parts.xlsx`, `job.toml.txt`)."""
    stem = name.split(".")[0]
    names = [name for name in listing(folder) if (folder / name).is_file()]
    return next((other for other in names if "." in name and other.casefold().startswith(f"{stem}.")), "")


def _is_text(name: str) -> bool:
    """Whether the characters of a name are some: the system also gives names that are only bytes."""
    return as_text(name) == name


def check_name(name: str, problems: Problems) -> None:
    """A name that some system cannot have as a folder cannot go on a stick or a web host."""
    bad: Sequence[str] = _NOT_IN_NAMES.findall(name)
    if not _is_text(name):
        why = "It has characters that are none."
    elif bad:
        why = f"It has {listed([shown(sign) for sign in dict.fromkeys(bad)])} in it."
    elif name != name.strip() or name.endswith("."):
        why = "It begins or ends with a blank, or ends with a dot."
    elif _RESERVED.fullmatch(name):
        why = "Some systems keep this name for themselves."
    elif len(name.encode()) > _LONGEST_NAME:
        why = "It is too long."
    else:
        return
    problems.error(
        as_text(name), f"Not every system can have a folder of this name. {why}", "Rename the folder."
    )

"""What `verify` was given where that is no handover: in words what it is, and what to give instead.

It is asked only of what `verify` refused already, and vouches for nothing.
"""

from __future__ import annotations

import os
import stat
from pathlib import Path

from buildbook import limits
from buildbook.book.sealed.names import PAGE, PRINTS, SEAL, shown
from buildbook.cli import here

_HEAD = 64  # bytes that tell what a file is
_NAMED = 3  # handovers that are offered by name
_GIVE = (
    "Give a handover: its folder in a book (book/handover/…), or the archive that buildbook handover packed"
)
_OF_A_PRINT = (
    "A print cannot be checked alone: give the folder or the archive that it came in, and with --fingerprint "
    "what stands on the printed card"
)
_OF_A_PAGE = (
    "A page that was mailed alone is not sealed: give the archive that came with it. Its fingerprint can be "
    "compared with the printed card by eye"
)
_ENDS, _SIZE_AT = (
    b"PK\x05\x06",
    12,
)  # how the end of an archive begins, and where it says how long its directory is
_ARCHIVE = b"PK\x03\x04", _ENDS  # with files in it, and an empty one
_TAIL = limits.HANDOVER_FILES * limits.ARCHIVE_LINE_BYTES + 0xFFFF  # with the longest comment behind it

_STARTS = (
    (b"\xff\xd8\xff", "a photo"),
    (b"\x89PNG\r\n\x1a\n", "a picture"),
    (b"GIF8", "a picture"),
    (b"II*\0", "a photo"),
    (b"MM\0*", "a photo"),
    (b"%PDF-", "a PDF"),
    (b"\x1f\x8b", "an archive of another kind"),
    (b"7z\xbc\xaf\x27\x1c", "an archive of another kind"),
    (b"Rar!", "an archive of another kind"),
)
"""How files begin, as their formats say."""

_INSIDE = ((8, b"WEBP", "a photo"), (4, b"ftyp", "a photo or a video"))
"""What stands so many bytes after the beginning."""

_BY_NAME = {
    ".html": "a page",
    ".htm": "a page",
    ".ics": "a calendar",
    ".toml": "a file of a job",
    ".csv": "a table",
    ".md": "a file of notes",
    ".txt": "a text",
}
_OFFICE = {".xlsx": "a spreadsheet", ".ods": "a spreadsheet", ".docx": "a document", ".odt": "a document"}
"""Archives by nature, but nobody calls them that."""

_OF_FOLDERS = {
    here.EMPTY: "an empty folder",
    here.JOB: "a job folder",
    here.OF_A_JOB: "a folder of a job",
    here.SHELF: "a shelf of jobs",
    here.BOOK: "a book",
    here.PAGES: "a folder of pages for the maker",
    here.HANDOVERS: "a folder that handovers lie in",
    here.MATERIAL: "a folder of photos or notes",
    here.OTHER: "a folder",
}


def instead_of_handover(path: Path) -> str | None:
    """What something is that is no handover, and what to give instead: sentences without the first subject and the last
    stop. None for what may be a handover, however damaged. Never raises.
    """
    try:
        mode = path.stat().st_mode
        if stat.S_ISDIR(mode):
            return _of_folder(path)
        return _of_file(path) if stat.S_ISREG(mode) else None
    except FileNotFoundError:
        return _missing(path)
    except (OSError, ValueError):  # told by `verify` already
        return None


def _missing(path: Path) -> str:
    from buildbook.problems import listed, nearest

    try:
        near = nearest(path.name, (name for name in os.listdir(path.parent) if name.isprintable()))
    except OSError:
        return f"is not there, nor is the folder {shown(str(path.parent))}. {_GIVE}"
    meant = f"Perhaps {listed([str(path.parent / name) for name in near], 'or')} is meant" if near else ""
    return f"is not there. {meant or _GIVE}"


# -- folders -------------------------------------------------------------------------------------


def _of_folder(path: Path) -> str | None:
    kind = here.what_is(str(path))
    if kind == here.HANDOVER:
        return None
    below = {here.BOOK: "handover", here.HANDOVERS: ""}.get(kind)
    give = _GIVE if below is None else _one_of(path / below)
    return f"is {_OF_FOLDERS[kind]}, no handover. {give}"


def _one_of(place: Path) -> str:
    """What to give where there are handovers."""
    found = here.handovers_in(str(place)) if place.is_dir() else []
    if not found:
        return _GIVE
    named = ", ".join(str(place / name) for name in found[:_NAMED])
    return f"Give one handover: {f'{named} or another of the {len(found)} there' if len(found) > _NAMED else named}"


# -- files ---------------------------------------------------------------------------------------


def _of_file(path: Path) -> str | None:
    with path.open("rb") as file:
        head = file.read(_HEAD)
    if not head:
        return f"is an empty file, no handover. {_GIVE}"
    if head.startswith(_ARCHIVE):
        return _of_archive(path)
    if (path.parent / SEAL).is_file():
        give = f"Give the folder that it lies in: {path.parent}"
        return f"is one file of a handover, which is checked as a whole. {give}"
    what = _what_file(path, head)
    if path.name.casefold() in PRINTS or what == "a PDF":
        return f"is {what}, no handover. {_OF_A_PRINT}"
    if what == "a page" and path.name != PAGE:
        return f"is {what}, no handover. {_OF_A_PAGE}"
    return f"is {what}, no handover. {_GIVE}"


def _what_file(path: Path, head: bytes) -> str:
    for start, what in _STARTS:
        if head.startswith(start):
            return what
    for at, mark, what in _INSIDE:
        if head[at:].startswith(mark):
            return what
    return _BY_NAME.get(path.suffix.casefold(), "a file of another kind")


def _of_archive(path: Path) -> str | None:
    """Of an archive whose directory names no seal; one that names it, or one that is damaged, may be a handover.

    The directory is only searched for the name, and no further back than that of a handover can begin: what reads it
    line by line may be kept busy by whoever made it.
    """
    with path.open("rb") as file:
        file.seek(max(0, file.seek(0, os.SEEK_END) - _TAIL))
        tail = file.read(_TAIL)
    end = tail.rfind(_ENDS)
    size = int.from_bytes(tail[end + _SIZE_AT : end + _SIZE_AT + 4], "little")
    if end < 0 or size > end or SEAL.encode() in tail.lower():
        return None
    what = _OFFICE.get(path.suffix.casefold(), "a zip archive")
    return f"is {what}, no handover: there is no {SEAL} in it. {_GIVE}"

"""Opens plain files and nothing else, so that no pipe, device, folder or link out of a job is ever read.

Every byte that is read of a job passes through here, and whatever a book is asked for again. A link is followed only
where what it leads to lies in the folder that is given.
"""

from __future__ import annotations

import os
import stat
from contextlib import suppress
from io import BufferedReader
from pathlib import Path

from buildbook.problems import Problems

_HOW = (
    os.O_RDONLY
    | getattr(os, "O_NONBLOCK", 0)  # a pipe must not be waited for
    | getattr(os, "O_NOFOLLOW", 0)
    | getattr(os, "O_NOCTTY", 0)
    | getattr(os, "O_BINARY", 0)
)
_KINDS = (
    (stat.S_ISDIR, "a folder"),
    (stat.S_ISFIFO, "a pipe"),
    (stat.S_ISSOCK, "a socket"),
    (stat.S_ISCHR, "a device"),
    (stat.S_ISBLK, "a device"),
    (stat.S_ISLNK, "a link"),
)
_MEGABYTE = 1_000_000


class NotRead(Exception):
    """A file was not opened, or not read to its end: why, and one thing to do, as a problem says it."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint


def inside(path: Path, folder: Path, called: str = "the job folder") -> Path:
    """Where a file or folder really is, every link followed. Raises `NotRead` where that is out of `folder`."""
    try:
        real = path.resolve(strict=True)
        if real.is_relative_to(folder.resolve()):
            return real
    except (OSError, RuntimeError) as fault:  # RuntimeError: a link that leads to itself
        raise _unreadable(fault) from fault
    raise NotRead(f"This is a link that leads out of {called}; it is passed over.", "Copy it in.")


def open_plain(path: Path, most: int) -> BufferedReader:
    """A plain file of at most so many bytes, to be read and closed by the caller; a link is not followed.

    Raises `NotRead`.
    """
    try:
        _check(path.lstat(), most)  # before it is opened: opening a device may already do something
        handle = os.open(path, _HOW)
    except (OSError, ValueError) as fault:  # ValueError: a name with a NUL
        raise _unreadable(fault) from fault
    try:
        _check(os.fstat(handle), most)
        return os.fdopen(handle, "rb")
    except BaseException:
        with suppress(OSError):
            os.close(handle)
        raise


def read_plain(path: Path, most: int) -> bytes:
    """The bytes of a plain file; a link is not followed. Raises `NotRead`, for one of more than `most` bytes too."""
    with open_plain(path, most) as file:
        try:
            data = file.read(most + 1)  # it may have grown, and some systems state no size
        except OSError as fault:
            raise _unreadable(fault) from fault
    if len(data) > most:
        raise _too_large(len(data), most)
    return data


def read_bytes(
    path: Path, name: str, folder: Path, most: int, problems: Problems, called: str = "the job folder"
) -> bytes | None:
    """The bytes of a maker's file in `folder`, or None with a problem. `called`: what the maker calls the folder."""
    try:
        return read_plain(inside(path, folder, called), most)
    except NotRead as why:
        problems.error(name, why.message, why.hint)
        return None


def _check(facts: os.stat_result, most: int) -> None:
    if not stat.S_ISREG(facts.st_mode):
        kind = next((name for is_one, name in _KINDS if is_one(facts.st_mode)), "something else")
        raise NotRead(f"This is {kind}, not a plain file; it is passed over.", "Move it out of the folder.")
    if facts.st_size > most:
        raise _too_large(facts.st_size, most)


def _too_large(size: int, most: int) -> NotRead:
    """Sizes rounded so that the one above the limit is never said to be the limit."""
    megabytes = -(-size * 10 // _MEGABYTE) / 10
    return NotRead(
        f"This file has {megabytes:,.1f} MB or more; at most {most / _MEGABYTE:,.0f} MB are read.",
        "Keep only what belongs to this job in it.",
    )


def _unreadable(fault: Exception) -> NotRead:
    said = fault.strerror if isinstance(fault, OSError) and fault.strerror else str(fault)
    return NotRead(f"This file cannot be read: {said}.", "See that you may open it.")

"""Opens plain files and nothing else, so that no pipe, device, folder or link out of a job is ever read.

Every byte that is read of a job passes through here, and whatever a book is asked for again. A link is followed only
where what it leads to lies in the folder that is given.
"""

from __future__ import annotations

import errno
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


_OF_THE_FILE = frozenset(
    {
        errno.ENOENT, errno.ENOTDIR, errno.EISDIR, errno.ELOOP, errno.ENAMETOOLONG, errno.EACCES, errno.EPERM,
        errno.ENXIO, errno.EINVAL,
    }
)  # fmt: skip
"""What the system says of a file itself; whatever else it says, it says of the disk, of the network or of itself."""


class NotRead(Exception):
    """A file was not opened, or not read to its end: why, and one thing to do, as a problem says it.

    `fails`: whether it was the system that failed, and not the file that is none to be read: see `disk_fails`.
    """

    def __init__(self, message: str, hint: str, *, fails: bool = False) -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint
        self.fails = fails


def disk_fails(fault: BaseException | None) -> bool:
    """Whether a file could not be read because the system failed. It may be read the next time, and nothing is to be
    concluded from it now: neither that it is gone nor that it is broken.
    """
    if isinstance(fault, OSError):  # a decoder raises some of its own, without a number
        return fault.errno is not None and fault.errno not in _OF_THE_FILE
    return isinstance(fault, NotRead) and fault.fails


def inside(path: Path, folder: Path, called: str = "the job folder") -> Path:
    """Where a file or folder really is, every link followed. Raises `NotRead` where that is out of `folder`."""
    try:
        real = path.resolve(strict=True)
        if real.is_relative_to(folder.resolve()):
            return real
    except (OSError, RuntimeError) as fault:  # RuntimeError: a link that leads to itself
        raise not_read(fault) from fault
    raise NotRead(f"This is a link that leads out of {called}; it is passed over.", "Copy it in.")


def open_plain(path: Path, most: int) -> BufferedReader:
    """A plain file of at most so many bytes, to be read and closed by the caller; a link is not followed.

    Raises `NotRead`.
    """
    try:
        _check(path.lstat(), most)  # before it is opened: opening a device may already do something
        handle = os.open(path, _HOW)
    except (OSError, ValueError) as fault:  # ValueError: a name with a NUL
        raise not_read(fault) from fault
    try:
        _check(os.fstat(handle), most)
        return os.fdopen(handle, "rb")
    except BaseException as fault:
        with suppress(OSError):
            os.close(handle)
        if isinstance(fault, OSError):
            raise not_read(fault) from fault
        raise


def read_plain(path: Path, most: int) -> bytes:
    """The bytes of a plain file; a link is not followed. Raises `NotRead`, for one of more than `most` bytes too."""
    try:
        with open_plain(path, most) as file:
            data = file.read(most + 1)  # it may have grown, and some systems state no size
    except OSError as fault:
        raise not_read(fault) from fault
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


def not_read(fault: Exception) -> NotRead:
    """What it means that the system does not give a file; the same words on every system, and no path in them."""
    if isinstance(fault, RuntimeError) or (isinstance(fault, OSError) and fault.errno == errno.ELOOP):
        return NotRead("This is a link that leads to itself; it is passed over.", "Copy the file itself in.")
    said = fault.strerror if isinstance(fault, OSError) and fault.strerror else str(fault)
    fails = disk_fails(fault)
    hint = "Try again; if it stays so, copy the file elsewhere." if fails else "See that you may open it."
    return NotRead(f"This file cannot be read: {said}.", hint, fails=fails)

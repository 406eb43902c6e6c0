"""Opens what a request names: plain files that lie in the book itself.

No link is followed, in it or out of it: what it leads to may be anything. Nothing but a plain file is opened: a pipe
would wait, a device may do anything.
"""

from __future__ import annotations

import os
import stat
from pathlib import Path
from typing import BinaryIO

_PLAIN = (
    os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
)


def is_folder(book: Path, parts: tuple[str, ...]) -> bool:
    """Whether a path of the book is a folder in it."""
    place = _place(book, parts)
    return place is not None and os.path.isdir(place)


def open_plain(book: Path, parts: tuple[str, ...]) -> tuple[BinaryIO, int] | None:
    """A file of the book, open, and its size in bytes; None where there is no plain one that may be read."""
    place = _place(book, parts)
    if place is None:
        return None
    try:
        seen = os.lstat(place)
        if not stat.S_ISREG(seen.st_mode):
            return None
        handle = os.open(place, _PLAIN)
    except OSError:
        return None
    now = os.fstat(handle)
    if not stat.S_ISREG(now.st_mode) or (now.st_dev, now.st_ino) != (seen.st_dev, seen.st_ino):
        os.close(handle)  # exchanged for another between looking and opening
        return None
    return os.fdopen(handle, "rb"), now.st_size


def facts_of_scripts(book: Path, folder: tuple[str, ...]) -> list[tuple[str, int, int]]:
    """Name, size and time of the scripts in a folder of the book."""
    place = _place(book, folder)
    try:
        with os.scandir(place or "") as entries:
            ours = [one for one in entries if one.name.endswith(".js") and one.is_file(follow_symlinks=False)]
            told = [(one.name, one.stat(follow_symlinks=False)) for one in ours]
    except OSError:
        return []
    return sorted((name, seen.st_size, seen.st_mtime_ns) for name, seen in told)


def _place(book: Path, parts: tuple[str, ...]) -> str | None:
    """The real path of what the parts name; None where a link stands anywhere on the way."""
    top = os.path.realpath(book)
    place = os.path.join(top, *parts)
    try:
        return place if os.path.realpath(place) == place else None
    except (OSError, ValueError):
        return None

"""What lies in a handover, a folder or an archive, looked at without trusting any of it.

Nothing is unpacked and no link is followed; sizes are known, and within their limits, before anything is read; only
plain files are opened. What a handover never holds is told, never passed over.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from buildbook import limits
from buildbook.book.sealed.names import PAGE, PHOTOS, SEAL, is_ours, shown

PIECE = 1 << 18
"""Bytes that are held of a file at a time."""

# Does not wait for a pipe's other end, or does not follow a link; a system without them lacks the word for it.
_PLAINLY = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
_NO_LINK = getattr(os, "O_NOFOLLOW", 0)
_KINDS = {
    stat.S_IFLNK: "a link",
    stat.S_IFIFO: "a pipe",
    stat.S_IFSOCK: "a socket",
    stat.S_IFBLK: "a device",
    stat.S_IFCHR: "a device",
    stat.S_IFDIR: "a folder",
}


class Refused(Exception):
    """It is not looked at any further; the text says why, to follow the thing's name (“is …”, “holds …”)."""


@dataclass(frozen=True)
class Contents:
    """Size in bytes of each file whose name we make, whatever else is there, and a file's content in pieces."""

    sizes: dict[str, int]
    strays: tuple[str, ...]
    pieces: Callable[[str], Iterator[bytes]]

    def content(self, name: str) -> bytes:
        """All of a small file."""
        return b"".join(self.pieces(name))


def kind_of(mode: int) -> str:
    """What a mode of a Unix file system stands for, in words; empty for a plain file."""
    kind = stat.S_IFMT(mode)
    return "" if kind == stat.S_IFREG else _KINDS.get(kind, "no file")


def check_sizes(sizes: dict[str, int]) -> None:
    """Refuse what would take too long or too much memory to read."""
    for name, size in sizes.items():
        most = {SEAL: limits.SEAL_BYTES, PAGE: limits.PAGE_BYTES}.get(name, limits.HANDED_FILE_BYTES)
        if size > most:
            raise Refused(f"holds {shown(name)} of {_mb(size)}, more than the {_mb(most)} that are read")
    if sum(sizes.values()) > limits.HANDOVER_BYTES:
        held = f"{_mb(sum(sizes.values()))}, more than the {_mb(limits.HANDOVER_BYTES)}"
        raise Refused(f"holds {held} that are read")


def check_count(count: int) -> None:
    """Refuse more files than any handover has."""
    if count > limits.HANDOVER_FILES:
        raise Refused(f"holds more than {limits.HANDOVER_FILES:,} files, which no handover does")


def _mb(size: int) -> str:
    return f"{size / 1e6:,.0f} MB"


@contextmanager
def plain_file(path: Path, *, follow: bool = True) -> Iterator[tuple[BinaryIO, int]]:
    """A plain file opened to be read, and its size. Raises `Refused` for anything else, without waiting for it.

    follow  a link to a plain file will do: the one that was asked about may be named by one, nothing inside it
    """
    try:
        if kind := kind_of(os.stat(path, follow_symlinks=follow).st_mode):
            raise Refused(f"is {kind}, not a plain file")
        with open(os.open(path, _PLAINLY | (0 if follow else _NO_LINK)), "rb") as file:
            facts = os.fstat(file.fileno())
            if kind_of(facts.st_mode):
                raise Refused("was replaced while it was read")
            yield file, facts.st_size
    except (OSError, ValueError) as error:
        raise Refused(f"cannot be read: {getattr(error, 'strerror', None) or error}") from error


def folder_contents(folder: Path) -> Contents:
    """What lies in a folder. Raises `Refused`."""
    sizes: dict[str, int] = {}
    strays: list[str] = []
    seen = 0

    def look(place: Path, before: str) -> None:
        nonlocal seen
        with os.scandir(place) as every:
            for entry in every:
                seen += 1
                check_count(seen)
                name, facts = before + entry.name, entry.stat(follow_symlinks=False)
                kind = kind_of(facts.st_mode)
                if name == PHOTOS and stat.S_ISDIR(facts.st_mode):
                    look(place / entry.name, f"{name}/")
                elif kind or not is_ours(name):
                    strays.append(f"{shown(name)} ({kind})" if kind else shown(name))
                else:
                    sizes[name] = facts.st_size

    try:
        look(folder, "")
    except OSError as error:
        raise Refused(f"cannot be read: {error.strerror or error}") from error
    check_sizes(sizes)

    def pieces(name: str) -> Iterator[bytes]:
        left = sizes[name]
        with plain_file(folder / name, follow=False) as (file, size):
            while size == sizes[name] and (piece := file.read(PIECE)):
                left -= len(piece)
                if left < 0:
                    break
                yield piece
        if left or size != sizes[name]:
            raise Refused(f"holds {name}, which changed while it was read")

    return Contents(sizes, tuple(sorted(strays)), pieces)

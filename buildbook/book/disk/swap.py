"""Puts a folder in the place of another so that a reader sees the old or the new one, never half of either.

Linux (`renameat2`) and macOS (`renamex_np`) exchange two folders in one step. Elsewhere it takes two renames: between
them the place is empty, and `mend` puts the old folder back if the program was stopped just then.
"""

from __future__ import annotations

import ctypes
import ctypes.util
import errno
import os
import shutil
import stat
import sys
from pathlib import Path

_AT_FDCWD = -100  # Linux: paths are relative to the working directory
_RENAME_EXCHANGE = 2  # Linux, linux/fs.h
_RENAME_SWAP = 2  # macOS, sys/stdio.h
ASIDE = ".aside-"
_CANNOT_SYNC = (errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS, errno.EBADF)
"""What a disk says that has no such call for folders."""


def _exchange(one: Path, other: Path) -> bool:
    """Exchange two folders in one step; False where the system or the disk cannot."""
    try:
        libc = ctypes.CDLL(ctypes.util.find_library("c"), use_errno=True)
        if sys.platform.startswith("linux"):
            done = libc.renameat2(
                _AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), _RENAME_EXCHANGE
            )
        elif sys.platform == "darwin":
            done = libc.renamex_np(os.fsencode(one), os.fsencode(other), _RENAME_SWAP)
        else:
            return False
    except (OSError, AttributeError):
        return False
    return bool(done == 0)


def put_in_place(new: Path, place: Path) -> None:
    """Move the finished folder `new` to `place`. What was there is at `new` then, and may be taken back until whoever
    has it removes it. Not waited for until the disk has it. Raises OSError; then all is as it was.
    """
    if not place.exists():
        new.rename(place)
    elif not _exchange(new, place):
        _move_round(new, place)


def take_back(new: Path, place: Path) -> None:
    """Undo `put_in_place`. Raises OSError."""
    if not new.exists():
        place.rename(new)
    elif not _exchange(new, place):
        _move_round(new, place)


def _move_round(new: Path, place: Path) -> None:
    """Exchange two folders by renaming. Raises OSError; then both are where they were."""
    aside = place.with_name(ASIDE + place.name)
    place.rename(aside)
    try:
        new.rename(place)
        try:
            aside.rename(new)
        except OSError:
            place.rename(new)
            raise
    except OSError:
        aside.rename(place)
        raise


def mend(parent: Path) -> None:
    """Finish what a stopped program left: a folder set aside goes back where its place is empty, else goes."""
    if not parent.is_dir():
        return
    for aside in sorted(parent.glob(f"{ASIDE}*")):
        place = parent / aside.name.removeprefix(ASIDE)
        if place.exists():
            sync_folder(parent)
            remove(aside)
        else:
            aside.rename(place)


def remove(folder: Path) -> None:
    """Remove a folder and all in it, though somebody may have made it one that is only read. Raises OSError."""
    try:
        shutil.rmtree(folder)
    except PermissionError:
        for here, _, _ in os.walk(folder):
            os.chmod(here, stat.S_IRWXU)
        shutil.rmtree(folder)


def sync_folder(folder: Path) -> None:
    """A name survives a power cut only when its folder is on the disk too; not every system or disk can. Raises
    OSError.
    """
    if not hasattr(os, "O_DIRECTORY"):
        return
    try:
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    except PermissionError:  # a folder may be written to and not read
        return
    try:
        os.fsync(handle)
    except OSError as fault:
        if fault.errno not in _CANNOT_SYNC:
            raise
    finally:
        os.close(handle)

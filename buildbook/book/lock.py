"""One binding of a book at a time, by a lock of the system: one that a killed program held is free at once."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from filelock import FileLock, Timeout

from buildbook.book.disk.write import make_folder

OWN = ".own"
"""What a book keeps for itself: the lock, and a second copy of each list of files."""

_LOCK = "lock"
_ASK_S = 0.1  # how often a waiting program looks again


@contextmanager
def one_at_a_time(book: Path, waits: Callable[[Path], None]) -> Iterator[str]:
    """Hold the lock of a book; `waits` is called once if another program holds it. Gives why there is no lock, "" where
    there is one: not every disk has them.
    """
    lock = FileLock(book / OWN / _LOCK, poll_interval=_ASK_S, fallback_to_soft=False)
    missing = ""
    try:
        make_folder(book / OWN)
        try:
            lock.acquire(timeout=0)
        except Timeout:
            waits(book)
            lock.acquire()
    except (OSError, NotImplementedError) as fault:
        missing = (fault.strerror if isinstance(fault, OSError) else "") or str(fault)
    try:
        yield missing
    finally:
        if lock.is_locked:
            with suppress(OSError):  # it is free at the latest when this program ends
                lock.release()


def second_list(book: Path, folder: str = "", key: str = "") -> Path:
    """Where the second copy of a list is: that of a folder of a job (`jobs`, `handover`), or of the book's top."""
    return book / OWN / folder / f"{key}.json" if folder else book / OWN / "book.json"


def lock_in_the_way(book: Path) -> Path | None:
    """What stands where the book keeps its own, if that is no folder of it."""
    own = book / OWN
    return own if own.is_symlink() or (os.path.lexists(own) and not own.is_dir()) else None

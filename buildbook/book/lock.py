"""One binding of a book at a time, by a lock of the system: one that a killed program held is free at once.

Its processes may outlive it for a moment. They hold a lock of their own together, on the folder of the book's own, and
the next binding waits until that is free too.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from functools import cache
from pathlib import Path
from typing import Any

from filelock import FileLock, Timeout

from buildbook.book.disk.write import make_folder

try:
    import fcntl
except ImportError:  # Windows
    fcntl = None  # type: ignore[assignment]

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
    once = cache(waits)
    try:
        make_folder(book / OWN)
        try:
            lock.acquire(timeout=0)
        except Timeout:
            once(book)
            lock.acquire()
        _wait_for_processes(book, once)
    except (OSError, NotImplementedError) as fault:
        missing = (fault.strerror if isinstance(fault, OSError) else "") or str(fault)
    try:
        yield missing
    finally:
        if lock.is_locked:
            with suppress(OSError):  # it is free at the latest when this program ends
                lock.release()


class Held:
    """A lock that each process holds to which this is handed over, until the last of them has ended."""

    def __init__(self, handle: int) -> None:
        self.handle = handle

    def __reduce__(self) -> tuple[Callable[..., Held], tuple[object]]:
        from multiprocessing.reduction import DupFd  # only where processes are begun

        return _handed_over, (DupFd(self.handle),)


def _handed_over(given: Any) -> Held:
    """`given`: what the system makes of a handle that goes to another process."""
    return Held(given.detach())


@contextmanager
def held_by_processes(book: Path) -> Iterator[Held | None]:
    """A lock for processes of this program; None where the system or the disk has none."""
    handle = None
    with suppress(OSError):
        handle = _locked(book, wait=False)
    try:
        yield Held(handle) if handle is not None else None
    finally:
        if handle is not None:
            with suppress(OSError):
                fcntl.flock(handle, fcntl.LOCK_UN)  # for all that hold it: they are idle
            os.close(handle)


def _wait_for_processes(book: Path, waits: Callable[[Path], None]) -> None:
    """Until those of a program that was killed have ended, which is at once but for what they are in the middle of."""
    with suppress(OSError):  # a disk that locks no folders
        try:
            handle = _locked(book, wait=False)
        except BlockingIOError:
            waits(book)
            handle = _locked(book, wait=True)
        if handle is not None:
            os.close(handle)


def _locked(book: Path, *, wait: bool) -> int | None:
    if fcntl is None:
        return None
    handle = os.open(book / OWN, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | (0 if wait else fcntl.LOCK_NB))
    except BaseException:
        os.close(handle)
        raise
    return handle


def second_list(book: Path, folder: str = "", key: str = "") -> Path:
    """Where the second copy of a list is: that of a folder of a job (`jobs`, `handover`), or of the book's top."""
    return book / OWN / folder / f"{key}.json" if folder else book / OWN / "book.json"


def lock_in_the_way(book: Path) -> Path | None:
    """What stands where the book keeps its own, if that is no folder of it."""
    own = book / OWN
    return own if own.is_symlink() or (os.path.lexists(own) and not own.is_dir()) else None

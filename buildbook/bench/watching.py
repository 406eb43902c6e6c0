"""Says when something was saved (`saves`), whatever becomes of what is watched.

Watches through the system's own notices; where it has none to give (too many folders, no rights), by looking every
second. A watched folder that goes away, comes back, or is another one now, is noticed by its identity: the system's
notices end with the folder. No link is followed but a job that is a link itself.
"""

from __future__ import annotations

import math
import os
import threading
import time
import warnings
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Literal

from watchdog.observers import Observer
from watchdog.observers.api import BaseObserver
from watchdog.observers.polling import PollingObserverVFS

from buildbook.bench.saves import FEW, QUIET_S, Saves, is_in
from buildbook.bench.standing import Lost
from buildbook.book.past.top import INDEX

_LOOK_S = 1.0  # between two looks, where the system gives no notices

Identity = tuple[int, int]
Woken = Literal["saved", "waited", "stopped"]

# watchdog's own word on two folders that may not be opened; they cannot be watched, and the readers tell of them
warnings.filterwarnings("ignore", "Callback with id", RuntimeWarning)


class Watch:
    """Watches a folder as long as it is told to, whatever becomes of it; `said` is told what did, in a sentence, `lost`
    what is no longer there, or that all is again.

    saved  what the last save touched, as far as it is all known: real paths; nothing where there may be more
    """

    def __init__(
        self,
        folder: Path,
        book: Path,
        said: Callable[[str], None],
        lost: Callable[[Lost], None] = lambda what: None,
    ) -> None:
        self._folder = folder
        self._book = book
        self._said = said
        self._lost = lost
        self._observer: BaseObserver | None = None
        self._polls = False
        self._seen = _identity(folder)
        self._seen_book: tuple[Identity, bool] | None = None
        self._saves = Saves((), "")
        self.saved: tuple[str, ...] = ()
        self._begin()

    def wait(self, stop: threading.Event, longest_s: float = math.inf) -> Woken:
        """Block until there is something to bind, or so long has passed, or told to stop; which of them."""
        end = time.monotonic() + longest_s
        self._seen_book = _state(self._book)
        while not stop.is_set():
            saved = self._saves.wait(QUIET_S)
            self._look_at_folder()
            if self._seen is not None and (saved or self._book_is_gone()):
                self.saved = tuple(saved.paths) if saved and len(saved.paths) <= FEW else ()
                return "saved"
            if self._seen is not None and time.monotonic() >= end:
                return "waited"
        return "stopped"

    def end(self) -> None:
        """Stop watching."""
        if self._observer is not None:
            _stop(self._observer)
            self._observer = None

    def _book_is_gone(self) -> bool:
        if self._seen_book is None or _state(self._book) == self._seen_book:
            return False
        self._said(f"{self._book} was removed; it is bound again.")
        self._lost("book")
        return True

    def _look_at_folder(self) -> None:
        now, before = _identity(self._folder), self._seen
        if now == before and (now is None or self._is_alive()):
            return
        self._seen = now
        self.end()
        if now is None:
            self._lost("folder")
            self._said(f"{self._folder} is no longer there. The book stays; put the folder back to go on.")
            return
        if now != before:
            self._said(
                f"{self._folder} is there again." if before is None else f"{self._folder} is a new one."
            )
        self._lost("")
        self._begin()
        self._saves.note()

    def _is_alive(self) -> bool:
        observer = self._observer
        return bool(observer and observer.is_alive() and all(one.is_alive() for one in observer.emitters))

    def _begin(self) -> None:
        places = list(_places(self._folder))
        folders = tuple(path for path, below in places if below)
        self._saves = Saves(folders, os.path.realpath(self._book))
        if not self._polls:
            try:
                self._observer = _observe(Observer(), self._saves, places)
                return
            except OSError as error:
                self._polls = True
                why = error.strerror or error
                self._said(f"The system gives no notice of saves ({why}); they are looked for every second.")
        polling = PollingObserverVFS(os.lstat, os.scandir, polling_interval=_LOOK_S)
        try:
            self._observer = _observe(polling, self._saves, places)
        except OSError:  # the folder went meanwhile: the next look at it tells
            self._observer = None


def _observe(observer: BaseObserver, saves: Saves, places: list[tuple[str, bool]]) -> BaseObserver:
    """Start watching. Raises OSError."""
    try:
        for path, below in places:
            observer.schedule(saves, path, recursive=below)
        observer.start()
    except OSError:
        _stop(observer)
        raise
    return observer


def _stop(observer: BaseObserver) -> None:
    observer.unschedule_all()
    if observer.is_alive():
        observer.stop()
        observer.join()


def _places(folder: Path) -> Iterator[tuple[str, bool]]:
    """What is watched, each with whether also below: the folder, jobs in it that are links, the shelf around it."""
    real = os.path.realpath(folder)
    yield real, True
    for path in _links(real):
        if not is_in(path, real) and not is_in(real, path):
            yield path, True
    if os.path.dirname(real) != real:
        yield os.path.dirname(real), False


def _links(folder: str) -> set[str]:
    """Where links to folders in a folder lead."""
    try:
        with os.scandir(folder) as entries:
            return {os.path.realpath(one.path) for one in entries if one.is_symlink() and one.is_dir()}
    except OSError:
        return set()


def _state(book: Path) -> tuple[Identity, bool] | None:
    """Which folder the book is and whether it holds one: a new folder may get the identity of the one removed."""
    identity = _identity(book)
    return (identity, (book / INDEX).exists()) if identity else None


def _identity(folder: Path) -> Identity | None:
    """What tells a folder from another of the same name; None where there is none."""
    try:
        seen = os.stat(folder)
    except (OSError, ValueError):
        return None
    return (seen.st_dev, seen.st_ino) if os.path.isdir(folder) else None

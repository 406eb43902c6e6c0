"""What was saved, and when it has been quiet for long enough to bind."""

from __future__ import annotations

import math
import os
import stat
import threading
import time
from collections.abc import Collection, Iterable
from dataclasses import dataclass, field

from watchdog.events import FileSystemEvent, FileSystemEventHandler

QUIET_S = 0.4  # editors save in several steps, and what is copied comes in one file after the other
QUICK_S = 0.04  # where a few texts were saved, whole, and nothing before them: what one step of a save takes
CLOSED_S = 0.015  # where the system says, too, that whoever wrote them is done with each
FEW = 4  # files that an editor touches to save one, its spare copies among them
LONGEST_WAIT_S = 3.0  # a folder that never falls quiet (a long copy) is still bound now and then
_CHANGES = frozenset({"created", "modified", "moved", "deleted", "closed"})
_DONE = frozenset({"moved", "deleted", "closed"})  # nobody is writing the file any more
_OF_SHELF = (
    "shop.toml",
    "prices.csv",
    "prices.xlsx",
    "prices.ods",
)  # what counts in the folder around a single job
_TEXTS = (".toml", ".csv", ".md", ".markdown", ".txt")
_OF_PROGRAMS = (".", "~$")  # begin names that programs keep for themselves


@dataclass
class Saved:
    """What was saved since the last binding, and when: in seconds, by any clock.

    paths  each with whether whoever wrote it is done; when there are more than `FEW`, one more is all that is kept
    """

    first: float
    last: float
    paths: dict[str, bool] = field(default_factory=dict)

    def add(self, now: float, paths: Iterable[str], *, is_done: bool) -> None:
        self.last = now
        for path in paths:
            if path in self.paths or len(self.paths) <= FEW:
                self.paths[path] = is_done

    def is_ripe_at(self, told: float) -> float:
        """When to bind, if nothing else is saved until then. told: when it was last said that something was saved."""
        latest = self.first + LONGEST_WAIT_S
        is_quick = self.first - told >= QUIET_S and _are_few_whole_texts(self.paths)
        quiet_s = (CLOSED_S if all(self.paths.values()) else QUICK_S) if is_quick else QUIET_S
        return min(self.last + quiet_s, latest)


class Saves(FileSystemEventHandler):
    """Collects saves and says when they have been quiet for long enough: a moment after a note, longer in a flood.

    What lies below `folders` counts, but for the book; around them only the files of a shop.
    """

    def __init__(self, folders: tuple[str, ...], book: str) -> None:
        self._folders = folders
        self._book = book
        self._saved: Saved | None = None
        self._told = -math.inf
        self._changed = threading.Condition()

    def on_any_event(self, event: FileSystemEvent) -> None:
        if event.event_type not in _CHANGES or (event.is_directory and event.event_type == "modified"):
            return
        # a program that writes beside and renames has only the new name to show
        paths = [os.fsdecode(path) for path in (event.src_path, event.dest_path) if path]
        if counting := [path for path in paths if self._counts(path)]:
            self.note(counting, is_done=event.event_type in _DONE)

    def note(self, paths: Iterable[str] = (), *, is_done: bool = False) -> None:
        """Something is to be bound."""
        with self._changed:
            now = time.monotonic()
            self._saved = self._saved or Saved(now, now)
            self._saved.add(now, paths, is_done=is_done)
            self._changed.notify_all()

    def wait(self, longest_s: float) -> Saved | None:
        """What was saved, as soon as it is quiet; None when so long has passed."""
        end = time.monotonic() + longest_s
        with self._changed:
            while (now := time.monotonic()) < end:
                if self._saved is None:
                    self._changed.wait(end - now)
                    continue
                if now >= (ripe := self._saved.is_ripe_at(self._told)):
                    saved, self._saved, self._told = self._saved, None, now
                    return saved
                self._changed.wait(ripe - now)
        return None

    def _counts(self, path: str) -> bool:
        if is_in(path, self._book):
            return False
        around = next((folder for folder in self._folders if is_in(path, folder)), None)
        if around is None:
            return os.path.basename(path).casefold() in _OF_SHELF
        return not any(name.startswith(_OF_PROGRAMS) for name in path[len(around) :].split(os.sep))


def _are_few_whole_texts(paths: Collection[str]) -> bool:
    """An empty one is being written still; one that is gone was an editor's spare copy, but not alone."""
    sizes = [_size(path) for path in paths if os.path.splitext(path)[1].lower() in _TEXTS]
    return (
        len(paths) <= FEW
        and any(sizes)
        and 0 not in sizes
        and not any(
            os.path.lexists(path) for path in paths if os.path.splitext(path)[1].lower() not in _TEXTS
        )
    )


def _size(path: str) -> int | None:
    """In bytes; None where there is no plain file."""
    try:
        seen = os.lstat(path)
    except OSError:
        return None
    return seen.st_size if stat.S_ISREG(seen.st_mode) else None


def is_in(path: str, folder: str) -> bool:
    return path == folder or path.startswith(folder.rstrip(os.sep) + os.sep)

"""The sized copies of a job's photos: those of the last edition are kept, the others made on all cores."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial

from buildbook import limits
from buildbook.book.disk.write import Staging
from buildbook.job.model import Photo
from buildbook.job.photos.decode import points_held, what_is_wrong
from buildbook.job.photos.films import first_picture
from buildbook.job.photos.films import what_is_wrong as of_video
from buildbook.problems import Problem
from buildbook.render.copies import Copy, copies_of, small_copies_of
from buildbook.render.photo import UnreadablePicture, encode, encode_still

Progress = Callable[[str, int, int], None]
"""Called with what is being done, how many are done, how many there are."""


@dataclass(frozen=True)
class Encoded:
    """Photos whose copies are in the folder, and a problem for each that could not be read."""

    readable: tuple[Photo, ...]
    problems: tuple[Problem, ...]
    made: int


def picture_files(photo_digest: str, width: int, height: int) -> list[str]:
    """The names of a photo's copies inside a page's folder."""
    return [f"photos/{copy.name}" for copy in copies_of(photo_digest, width, height)]


class InFlight:
    """Lets pictures be opened while together they hold no more than so many points; one alone is always let in."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._held = 0
        self._change = threading.Condition()

    @contextmanager
    def hold(self, points: int) -> Iterator[None]:
        with self._change:
            self._change.wait_for(lambda: not self._held or self._held + points <= self._most)
            self._held += points
        try:
            yield
        finally:
            with self._change:
                self._held -= points
                self._change.notify_all()


def encode_all(photos: Iterable[Photo], staging: Staging, progress: Progress, share: int = 1) -> Encoded:
    """Fill the folder with every copy of every photo.

    Threads, not processes: the decoder lets go of Python's lock, and threads need half the memory. How many work at
    once is also bounded by what their pictures hold: a small file may be huge once it is opened. `share`: how many
    processes do the same at once.
    """
    in_flight = InFlight(limits.POINTS_IN_FLIGHT // share)
    every = list(photos)
    waiting = [photo for photo in every if not _kept(photo, staging)]
    problems: list[Problem] = []
    bad: set[str] = set()

    def make(photo: Photo) -> Problem | None:
        copies = _of_log(photo)
        try:
            with in_flight.hold(_held(photo, copies[0])):
                for copy, content in copies_made(photo, copies):
                    if (name := f"photos/{copy}") not in staging:  # one that the last edition still had
                        staging.write(name, content)
        except UnreadablePicture as error:
            told = of_video if photo.of_video else what_is_wrong
            return told(photo.name, error.__cause__)
        return None

    progress("photos", 0, len(waiting))
    with ThreadPoolExecutor(max_workers=os.cpu_count() or 1) as pool:
        try:
            for done, (photo, problem) in enumerate(zip(waiting, pool.map(make, waiting), strict=True), 1):
                if problem:
                    problems.append(problem)
                    bad.add(photo.name)
                progress("photos", done, len(waiting))
        except BaseException:  # stopped: what is not begun is not waited for
            pool.shutdown(wait=False, cancel_futures=True)
            raise
    readable = tuple(photo for photo in every if photo.name not in bad)
    return Encoded(readable, tuple(problems), len(waiting) - len(bad))


def copies_made(
    photo: Photo, copies: tuple[Copy, ...], *, turned: bool = True
) -> Iterator[tuple[str, bytes]]:
    """Name and JPEG bytes of each copy of a photo, or of what stands for a video; `turned`: as the maker says.

    Raises `UnreadablePicture`.
    """
    if photo.of_video:
        return encode_still(partial(first_picture, photo.path), copies)
    return encode(photo.path, copies, photo.turn if turned else 0)


def _held(photo: Photo, copy: Copy) -> int:
    """Points that are held at once; a video is opened in a process of its own, and its picture comes back three times:
    as it is sent, as it is told apart and as it is turned.
    """
    if photo.of_video:
        return photo.width * photo.height * 3
    return points_held(photo.path, (copy.width, copy.height))


def _kept(photo: Photo, staging: Staging) -> bool:
    names = [f"photos/{copy.name}" for copy in _of_log(photo)]
    return sum(staging.keep(name) for name in names) == len(names)


def _of_log(photo: Photo) -> tuple[Copy, ...]:
    """Every copy that a build log keeps, largest first: those of the pages and the small one of the list."""
    of = (photo.digest, photo.width, photo.height)
    return tuple(dict.fromkeys((*copies_of(*of), *small_copies_of(*of))))

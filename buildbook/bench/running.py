"""Binds, shows the book, and binds again on every save, whatever happens to job, book or a binding meanwhile."""

from __future__ import annotations

import math
import os
import threading
import time
import traceback
from collections.abc import Callable, Collection, Sequence
from dataclasses import replace
from pathlib import Path

from buildbook.bench.desks import desks
from buildbook.bench.edition import Edition
from buildbook.bench.language import shop_language
from buildbook.bench.server import Server
from buildbook.bench.standing import Lost, Standing
from buildbook.bench.watching import Watch
from buildbook.book.at_once import bind_at_once
from buildbook.book.bind import Bound, bind, waits_silently
from buildbook.book.bind_job import BoundJob
from buildbook.book.workers import cores
from buildbook.job.places import job_name
from buildbook.problems import listed

GIVE_WAY_S = 0.12
"""For the open page to fetch what is new, before the pages across jobs are made and take the processor from it."""

AGAIN_S = 10.0
"""Until what could not be bound is tried again though nothing was saved: a disk may have room again."""


class BenchError(Exception):
    """The bench cannot start; the text says why and what to do."""


def run(
    folder: Path,
    book: Path,
    port: int,
    *,
    told: Callable[[Bound], None],
    said: Callable[[str], None],
    ready: Callable[[str], None],
    waits: Callable[[Path], None] = waits_silently,
    stop: threading.Event | None = None,
) -> None:
    """Bind, serve, and bind again on every save until stopped. Raises `BenchError` when it cannot start.

    `told` gets what became of each binding, `said` what else happened, a line at a time, `ready` the address, `waits`
    the book that another program binds.
    """
    stop = stop or threading.Event()
    if not folder.is_dir():
        raise BenchError(f"{folder} is not a folder. Give a job folder or a shelf.")
    edition = Edition()
    standing = Standing(lambda: shop_language(folder), folder.absolute().name)
    bindings = _Bindings(folder, book, told, said, waits, edition, standing)

    def lost(what: Lost) -> None:
        standing.lost(what)
        edition.bound()

    watch = Watch(folder, book, said, lost)  # before the first binding: what is saved meanwhile counts
    try:
        if not bindings.again():
            raise BenchError("there is nothing to show.")
        try:
            server = Server(
                book, port, edition, lambda fault: _say_fault(said, fault), desks(folder, book), standing
            )
        except (OSError, OverflowError) as error:
            raise BenchError(f"port {port} cannot be had ({error}). Give another with --port.") from error
        server.start()
        try:
            ready(server.address)
            while (woken := watch.wait(stop, math.inf if bindings.ok else AGAIN_S)) != "stopped":
                bindings.again(quietly=woken == "waited", saved=watch.saved if woken == "saved" else ())
        finally:
            server.stop()
    finally:
        watch.end()


def _say_fault(said: Callable[[str], None], fault: str) -> None:
    for line in (
        "buildbook itself failed; the bench goes on, and the last good pages stay.",
        *fault.splitlines(),
    ):
        said(line)


class _Bindings:
    """Binds again and again, and tells what each came to."""

    def __init__(
        self,
        folder: Path,
        book: Path,
        told: Callable[[Bound], None],
        said: Callable[[str], None],
        waits: Callable[[Path], None],
        edition: Edition,
        standing: Standing,
    ) -> None:
        self._folder = folder
        self._book = book
        self._told = told
        self._said = said
        self._waits = waits
        self._edition = edition
        self._standing = standing
        self._keys: set[str] = set()
        self._gone: set[str] = set()
        self._last: Bound | None = None
        self._gave_way = False
        self.ok = True

    def again(self, *, quietly: bool = False, saved: Sequence[str] = ()) -> bool:
        """Bind once; whether there was a job. Never raises: what went wrong is said, and the bench goes on.

        A job's open pages are told as soon as it is bound, those across jobs when they are. `quietly`: nothing is said
        if all is as it was the last time. `saved`: the files, as far as they are known, that were; the job that they
        are of is bound before the others are looked at.
        """
        self._gave_way = self._last is None  # at the first binding no page is open
        self._edition.is_binding = True
        try:
            early = self._at_once(saved)
            bound = bind(self._folder, self._book, told=self._job_told, waits=self._waits, processes=cores())
            bound = replace(bound, jobs=tuple(_result_of(job, early) for job in bound.jobs))
            self._edition.is_binding = False
            keys = {job.key for job in bound.jobs}
            if not (quietly and bound == self._last):
                self._gone = (self._gone | self._keys) - keys
                self._told(bound)
                self._standing.all(bound)
                self._standing.gone(self._gone)
                self._edition.bound()
            self._last, self.ok = bound, bound.ok
            if bound.jobs:
                self._book.mkdir(parents=True, exist_ok=True)
        except Exception:
            self._edition.is_binding = False
            self._edition.bound()
            _say_fault(self._said, traceback.format_exc())
            return True
        if gone := sorted(self._keys - keys):
            self._said(
                f"{gone[0]} is no longer in {self._folder}; its pages stay in the book."
                if len(gone) == 1
                else f"{listed(gone)} are no longer in {self._folder}; their pages stay in the book."
            )
        self._keys = keys
        return bool(bound.jobs)

    def _at_once(self, saved: Sequence[str]) -> BoundJob | None:
        """What became of the one job that was saved; None where it is not one alone, or is bound with the others."""
        before = self._last.jobs if self._last else ()
        path = _job_of(self._folder, saved, {job.key for job in before if job.bound or job.why})
        if path is None:  # or new, or refused for what it has to do with others
            return None
        in_place: list[BoundJob] = []

        def placed(job: BoundJob) -> None:
            in_place.append(job)
            self._tell(job)

        job = bind_at_once(path, self._book, placed, self._waits)
        if job and (in_place or self._tell(job)):
            self._give_way()
        return job

    def _job_told(self, job: BoundJob) -> None:
        if self._tell(job):
            self._give_way()

    def _tell(self, job: BoundJob) -> bool:
        """Tell open pages of a job, if there is something to tell."""
        if is_news := self._standing.job(job):
            self._edition.bound()
        return is_news

    def _give_way(self) -> None:
        if not self._gave_way:
            self._gave_way = True
            time.sleep(GIVE_WAY_S)


def _job_of(folder: Path, saved: Sequence[str], keys: Collection[str]) -> Path | None:
    """The job of these keys that all of the files are of, by their real paths; None where it is not one."""
    top = os.path.realpath(folder) + os.sep
    if not saved or not all(path.startswith(top) for path in saved):
        return None
    inside = {path[len(top) :].partition(os.sep)[0] for path in saved}
    if len(inside) == 1 and (path := folder / inside.pop()) and job_name(path) in keys:
        return path
    return folder if keys == {job_name(folder)} else None


def _result_of(job: BoundJob, early: BoundJob | None) -> BoundJob:
    """What became of a job that a binding may have found done already."""
    was_done = early is not None and early.bound and early.key == job.key and not job.redone
    return early if was_done and early else job

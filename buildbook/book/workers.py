"""Binds jobs in several processes at once, since most of a job's work is Python's own, of which a process does one
thing at a time.

Each process binds one job after the other and hands back what became of it. A process that dies costs the job that it
was at, and another takes its place. When the program that began them is gone, they end at once; until they have, they
keep the book from the next one by a lock that they hold together.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections import deque
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from pathlib import Path

from buildbook.book.bind_job import BoundJob, bind_job, silent
from buildbook.book.lock import Held, held_by_processes
from buildbook.book.redo.inputs import Inputs
from buildbook.job.places import job_name
from buildbook.problems import Problem

_SYSTEM = multiprocessing.get_context(
    "spawn"
)  # the same on every system, and nothing inherited but what is handed over


def cores() -> int:
    """How many processes may work at once: the cores that this program may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


@dataclass
class _Worker:
    """A process, its end of the line, and the job that it is at."""

    process: BaseProcess
    line: Connection
    at: Path | None = None

    def give(self, path: Path) -> bool:
        """Whether it took a job: one that has died does not."""
        self.at = path
        try:
            self.line.send(path)
        except OSError:
            return False
        return True


def bind_in_processes(
    paths: Sequence[Path], book: Path, *, again: bool, processes: int
) -> Iterator[tuple[Path, BoundJob]]:
    """Bind jobs of which each needs it; what became of them as they are done. Processes end with the iteration.

    Where no process can be begun, the jobs are bound here.
    """
    waiting = deque(paths)
    many = min(processes, len(paths))
    workers: list[_Worker] = []

    with held_by_processes(book) as held:

        def begin() -> None:
            with suppress(OSError):  # then there are fewer
                while waiting and len(workers) < many:
                    workers.append(_begin(waiting[0], held, book, again, many))
                    waiting.popleft()

        try:
            begin()
            while workers:
                ready = wait([worker.line for worker in workers])
                for worker in [worker for worker in workers if worker.line in ready]:
                    path, result = _outcome(worker)
                    if result is None:
                        result = BoundJob(job_name(path), False, (_ended(worker, path),), redone=False)
                    if worker.line.closed or not waiting or not worker.give(waiting[0]):
                        workers.remove(worker)
                        worker.line.close()
                        begin()
                    else:
                        waiting.popleft()
                    yield path, result
            inputs = Inputs()
            for path in waiting:
                yield path, bind_job(path, book, silent, inputs, again)
        finally:
            for worker in workers:
                worker.process.kill()
                worker.process.join()


def _begin(path: Path, held: Held | None, book: Path, again: bool, many: int) -> _Worker:
    """Raises OSError where the system gives no process."""
    ours, its = _SYSTEM.Pipe()
    with its:
        try:
            process = _SYSTEM.Process(target=_work, args=(its, held, book, again, many), daemon=True)
            process.start()
        except OSError:
            ours.close()
            raise
    worker = _Worker(process, ours)
    worker.give(path)  # one that has died already says so when it is waited for
    return worker


def _outcome(worker: _Worker) -> tuple[Path, BoundJob | None]:
    """The job that a worker was at, and what became of it; None where the worker is dead."""
    assert worker.at is not None
    try:
        result: BoundJob = worker.line.recv()
    except (EOFError, OSError):
        worker.line.close()
        worker.process.join()
        return worker.at, None
    return worker.at, result


def _ended(worker: _Worker, path: Path) -> Problem:
    said = f"The process that bound this job ended before it was done (exit code {worker.process.exitcode})."
    hint = f"See that there is memory enough, and try it alone: buildbook bind {path.name}"
    return Problem("error", job_name(path), said, hint)


# -- in a worker -------------------------------------------------------------------------------------


def _work(line: Connection, held: Held | None, book: Path, again: bool, many: int) -> None:
    """Bind what comes down the line until nothing does. `held` is free when this process has ended."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # stopping is the business of the program that began us
    threading.Thread(target=_end_with_parent, daemon=True).start()
    inputs = Inputs()
    while True:
        try:
            path = line.recv()
        except EOFError:
            return
        line.send(bind_job(path, book, silent, inputs, again, share=many))


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        wait([parent.sentinel])
        os._exit(1)

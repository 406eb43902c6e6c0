"""What is wrong at the moment, for the pages that are open: the band that a page carries until it is mended.

It is told by the server alone. The book on disk never holds it, nor the time that it names.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from typing import Literal

from buildbook.book.bind import Bound
from buildbook.book.bind_job import BoundJob
from buildbook.book.place import HANDOVERS, LOGS
from buildbook.pages.notice import place_said
from buildbook.problems import Problem, failed
from buildbook.words import Words
from buildbook.words.told import told

Lost = Literal["", "folder", "book"]
"""What is no longer there: nothing, the folder of the jobs, the book."""

SHOWN = 5
"""Problems that a band names; the terminal has them all."""


@dataclass(frozen=True)
class Band:
    """What a page that is not of now says: which page it is, what is wrong, and how much more is not named."""

    label: str
    head: str
    lines: tuple[str, ...]
    more: str


class Standing:
    """The errors of the last binding, by job, and what is no longer there. Read from other threads: each value is put
    there whole.
    """

    def __init__(self, language: Callable[[], str], folder: str = "") -> None:
        """`language` of the shop is asked for when something is to be said; `folder`: the name of that of the jobs."""
        self._language = language
        self._folder = folder
        self._words = Words("en")
        self._broken: dict[str, tuple[Problem, ...]] = {}
        self._around: tuple[Problem, ...] = ()
        self._lost: Lost = ""
        self._gone: frozenset[str] = frozenset()

    def lost(self, what: Lost) -> None:
        """Note that the folder of the jobs or the book is no longer there, until it is again or is bound again."""
        self._lost = what

    def gone(self, keys: Collection[str]) -> None:
        """Note the jobs that were in the folder and no longer are; their pages are still in the book."""
        self._gone = frozenset(keys)

    def job(self, job: BoundJob) -> bool:
        """Note what became of a job; whether an open page is to look."""
        before = self._broken.get(job.key)
        now = None if job.bound else _errors_of(job)
        if now == before:
            return job.redone
        broken = {key: problems for key, problems in self._broken.items() if key != job.key}
        if now:
            self._words = Words(self._language())
            broken[job.key] = now
        self._broken = broken
        return True

    def all(self, bound: Bound) -> None:
        """Note what became of a binding: of every job, and of what is no single job's."""
        self._words = Words(self._language())  # what will be gone cannot be asked any more
        self._lost = ""
        around = tuple(problem for problem in bound.problems if problem.severity == "error")
        self._broken = {job.key: _errors_of(job) for job in bound.jobs if not job.bound}
        self._around = around

    def band(self, page: Sequence[str], written: float) -> Band | None:
        """Of the page at these parts of a path, written at a time (seconds since 1970); None where all is well."""
        words, broken, around, lost, gone = self._words, self._broken, self._around, self._lost, self._gone
        of_job = page[1] if len(page) > 1 and page[0] in (LOGS, HANDOVERS) else ""
        time_said = _clock(written)
        if lost:
            head = words.text(f"bench.{lost}_gone", folder=self._folder, time=time_said)
            return Band(words.text("bench.missing"), head, (words.text(f"bench.{lost}_back"),), "")
        if own := broken.get(of_job):
            head, lines = "bench.job", [_said(problem, words) for problem in own]
        elif of_job in gone:
            head = words.text("bench.job_gone", time=time_said)
            return Band(words.text("bench.missing"), head, (words.text("bench.job_back"),), "")
        else:
            head, lines = "bench.around", [_said(problem, words) for problem in around]
            if not of_job:
                lines += [
                    f"{key}: {_said(problems[0], words)}" for key, problems in broken.items() if problems
                ]
        if not lines:
            return None
        more = words.text("bench.more", count=len(lines) - SHOWN) if len(lines) > SHOWN else ""
        return Band(words.text("bench.label"), words.text(head, time=time_said), tuple(lines[:SHOWN]), more)


def _errors_of(job: BoundJob) -> tuple[Problem, ...]:
    errors = tuple(problem for problem in job.problems if problem.severity == "error")
    return errors or (failed(job.key, RuntimeError(job.fault.strip().rpartition("\n")[2])),)


def _said(problem: Problem, words: Words) -> str:
    said = told(problem, words.language)
    return f"{place_said(problem, words)}: {said.message}" + (f" {said.hint}" if said.hint else "")


def _clock(written: float) -> str:
    """The time of day where it is today's, else with its day."""
    then, now = time.localtime(written), time.localtime()
    return time.strftime("%H:%M" if then[:3] == now[:3] else "%Y-%m-%d %H:%M", then)

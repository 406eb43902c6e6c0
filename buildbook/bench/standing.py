"""What is wrong at the moment, for the pages that are open: the band that a page carries until it is mended.

It is told by the server alone. The book on disk never holds it, nor the time that it names.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from buildbook.book.bind import Bound
from buildbook.book.bind_job import BoundJob
from buildbook.book.place import HANDOVERS, LOGS
from buildbook.pages.notice import place_said
from buildbook.problems import Problem, failed
from buildbook.words import Words
from buildbook.words.told import told

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
    """The errors of the last binding, by job. Read from other threads: each value is put there whole."""

    def __init__(self, language: Callable[[], str]) -> None:
        """`language` of the shop is asked for when something is to be said."""
        self._language = language
        self._words = Words("en")
        self._broken: dict[str, tuple[Problem, ...]] = {}
        self._around: tuple[Problem, ...] = ()

    def job(self, job: BoundJob) -> bool:
        """Note what became of a job; whether an open page is to look."""
        before = self._broken.get(job.key)
        now = None if job.bound else _errors_of(job)
        if now == before:
            return job.redone
        broken = {key: problems for key, problems in self._broken.items() if key != job.key}
        self._say(broken | ({job.key: now} if now else {}), self._around)
        return True

    def all(self, bound: Bound) -> None:
        """Note what became of a binding: of every job, and of what is no single job's."""
        around = tuple(problem for problem in bound.problems if problem.severity == "error")
        self._say({job.key: _errors_of(job) for job in bound.jobs if not job.bound}, around)

    def _say(self, broken: dict[str, tuple[Problem, ...]], around: tuple[Problem, ...]) -> None:
        if broken or around:
            self._words = Words(self._language())
        self._broken, self._around = broken, around

    def band(self, page: Sequence[str], written: float) -> Band | None:
        """Of the page at these parts of a path, written at a time (seconds since 1970); None where all is well."""
        words, broken, around = self._words, self._broken, self._around
        own = broken.get(page[1]) if len(page) > 1 and page[0] in (LOGS, HANDOVERS) else None
        if own:
            head, lines = "bench.job", [_said(problem, words) for problem in own]
        elif len(page) > 1 and page[0] in (LOGS, HANDOVERS):
            head, lines = "bench.around", [_said(problem, words) for problem in around]
        else:
            head = "bench.around"
            lines = [_said(problem, words) for problem in around]
            lines += [f"{key}: {_said(problems[0], words)}" for key, problems in broken.items() if problems]
        if not lines:
            return None
        more = words.text("bench.more", count=len(lines) - SHOWN) if len(lines) > SHOWN else ""
        return Band(
            words.text("bench.label"), words.text(head, time=_clock(written)), tuple(lines[:SHOWN]), more
        )


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

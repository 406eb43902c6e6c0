"""Proofs a job or a shelf: reads everything, decodes every picture, says what is wrong or missing, writes
nothing.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from pathlib import Path

from buildbook.job import find_jobs, no_jobs, read_job, record_gaps
from buildbook.job.folder import in_parts_file
from buildbook.job.lacks.asked import open_questions
from buildbook.job.lacks.gaps import Readiness
from buildbook.job.model import Job
from buildbook.job.photos.headers import check
from buildbook.job.places import clashes, job_name
from buildbook.job.row_names import row_name
from buildbook.job.slug import same_slug
from buildbook.job.table.parts import FILE as PARTS
from buildbook.job.toml.job_toml import FILE as JOB_TOML
from buildbook.job.toml.shop_toml import FILE as SHOP_TOML
from buildbook.problems import Problem, Problems, failed
from buildbook.words.told import sentence, told

Further = Callable[[Job], Iterable[Problem]]
"""What there is to say of a job that can be bound, found by a later part of the program."""


@dataclass(frozen=True)
class Proof:
    """The problems of each job by its folder's name, most serious first; and how far each is, in the same order, None
    where that cannot be known.
    """

    jobs: tuple[tuple[str, tuple[Problem, ...]], ...]
    readiness: tuple[Readiness | None, ...]

    @property
    def ok(self) -> bool:
        return bool(self.jobs) and not any(
            p.severity == "error" for _, problems in self.jobs for p in problems
        )


def proof(folder: Path, also: Iterable[Further] = ()) -> Proof:
    """Everything there is to say about a folder's jobs, with what the functions of `also` say. Never raises for what a
    maker wrote.
    """
    further = tuple(also)
    jobs = find_jobs(folder)
    if problem := no_jobs(folder, jobs):
        return Proof(((job_name(folder) or str(folder), (problem,)),), (None,))
    refused = same_slug(folder, jobs) | clashes(jobs)
    told_of = [_told_of(path, refused.get(path), further) for path in jobs]
    return Proof(
        tuple((job_name(path), problems) for path, (problems, _) in zip(jobs, told_of, strict=True)),
        tuple(ready for _, ready in told_of),
    )


_ToldOf = tuple[tuple[Problem, ...], Readiness | None]
"""The problems of a job, and how far it is, where that can be known."""


def _told_of(path: Path, refused: Problem | None, further: tuple[Further, ...]) -> _ToldOf:
    """The problems of a job; of one at which this program fails, that."""
    try:
        return _proof_job(path, refused, further)
    except Exception as fault:  # one job must not keep the others from being told of
        return (replace(failed(job_name(path), fault), severity="error"),), None


def _proof_job(path: Path, refused: Problem | None, further: tuple[Further, ...]) -> _ToldOf:
    job = read_job(path)
    problems = Problems()
    if refused:
        problems.add(refused)
    problems.extend(job.problems)
    problems.extend(open_questions(job))
    if not problems.errors:
        problems.extend(problem for find in further for problem in find(job))
    with ThreadPoolExecutor(max_workers=os.cpu_count() or 1) as pool:
        problems.extend(problem for problem in pool.map(check, job.photos) if problem)
    said = Problems()
    said.extend(told(problem, job.shop.language, row_name) for problem in problems.ordered())
    ordered = in_parts_file(path, said.ordered())
    ready = None if any(map(_hides_the_job, ordered)) else _in_language(record_gaps(job), job.shop.language)
    return ordered, ready


def _hides_the_job(problem: Problem) -> bool:
    """Whether a problem is that of a whole file, so that what the job lacks is not known."""
    whole = problem.severity == "error" and not problem.field and problem.row is None
    return whole and problem.file in (JOB_TOML, SHOP_TOML, PARTS)


def _in_language(ready: Readiness, language: str) -> Readiness:
    """What a job lacks, in the language of its shop."""

    def said(english: str) -> str:
        return sentence(english, language, row_name)

    return replace(
        ready,
        missing=tuple(
            replace(gap, missing=said(gap.missing), without=said(gap.without), asked_by=said(gap.asked_by))
            for gap in ready.missing
        ),
    )

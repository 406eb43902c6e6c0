"""What the command line says: problems, what was made, what was found. All of it goes through `terminal`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

from buildbook.cli.spoken import ENGLISH
from buildbook.cli.terminal import err, out
from buildbook.problems import Problem

if TYPE_CHECKING:  # a command that says no more than its problems loads nothing for these
    from buildbook.book.bind import Bound, BoundJob


def spoken(english: str, language: str) -> str:
    """A text of the command line in a language."""
    if language == ENGLISH:
        return english
    from buildbook.words.told import sentence  # words of another language take time to read

    return sentence(english, language)


def spoken_day(iso: str, language: str) -> str:
    """A day as ISO 8601 has it, which English keeps, as a language writes it; any other text as it is."""
    if language == ENGLISH:
        return iso
    from buildbook.words import Words

    return Words(language).short_day(iso)


def say(problems: Iterable[Problem], heading: str = "", language: str = ENGLISH) -> None:
    """Problems on standard error, most serious first, under the job's name."""
    lines = [f"  {spoken(_severity(p), language)}: {_line(p, language)}" for p in problems]
    if lines:
        err(*([heading] if heading else []), *lines)


def _severity(problem: Problem) -> str:
    return "error" if problem.severity == "error" else "warning"


def _line(problem: Problem, language: str) -> str:
    if language == ENGLISH:
        return str(problem)
    from buildbook.words.told import line

    return line(problem, language)


def count(problems: Sequence[Problem], language: str = ENGLISH) -> str:
    errors = sum(p.severity == "error" for p in problems)
    warnings = len(problems) - errors

    found = [
        (errors, "1 error" if errors == 1 else f"{errors} errors"),
        (warnings, "1 warning" if warnings == 1 else f"{warnings} warnings"),
    ]
    return ", ".join(spoken(said, language) for number, said in found if number) or spoken(
        "nothing to put right", language
    )


def problem_facts(problems: Iterable[Problem]) -> list[dict[str, object]]:
    return [asdict(problem) | {"text": str(problem)} for problem in problems]


def bound_facts(bound: Bound) -> dict[str, object]:
    return {
        "jobs": [
            {
                "job": job.key,
                "bound": job.bound,
                "redone": job.redone,
                "why": list(job.why),
                "problems": problem_facts(job.problems),
            }
            for job in bound.jobs
        ],
        "problems": problem_facts(bound.problems),
    }


def tell(
    job: BoundJob, book: Path, *, quiet: bool = False, why: bool = False, language: str = ENGLISH
) -> None:
    """What became of a job; `why` also says what changed since it was bound before."""

    def came_to(what: str) -> str:
        return f"{job.key}: {spoken(what, language)}, {found}"

    found = count(job.problems, language)
    because = spoken("because", language)
    reasons = [f"  {because}: {spoken(reason, language)}" for reason in job.why] if why and not quiet else []
    if job.fault:
        failed = spoken("buildbook itself failed on this job; its last good pages stay.", language)
        err(f"{job.key}: {failed}", *job.fault.splitlines())
        return
    if not job.bound:
        say(job.problems, came_to("not bound"), language)
        return
    if not job.redone and not quiet:
        out(came_to("unchanged"))
    elif not quiet:
        out(came_to("bound"), *reasons)
        out(f"  {spoken('for the client', language)}  {book / 'handover' / job.key / 'index.html'}")
        out(f"  {spoken('build log     ', language)}  {book / 'jobs' / job.key / 'index.html'}")
    say(job.problems, f"{job.key}: {found}" if quiet else "", language)


def tell_waiting(book: Path, language: str = ENGLISH) -> None:
    """That another program binds the same book: without a word it would look as if nothing happened."""
    err(spoken(f"{book} is being bound by another program; waiting until it is done.", language))

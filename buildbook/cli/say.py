"""What the command line says: problems, what was made, what was found. All of it goes through `terminal`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

from buildbook.cli.terminal import err, out
from buildbook.problems import Problem

if TYPE_CHECKING:  # a command that says no more than its problems loads nothing for these
    from buildbook.book.bind import Bound, BoundJob


def say(problems: Iterable[Problem], heading: str = "") -> None:
    """Problems on standard error, most serious first, under the job's name."""
    lines = [f"  {'error' if p.severity == 'error' else 'warning'}: {p}" for p in problems]
    if lines:
        err(*([heading] if heading else []), *lines)


def count(problems: Sequence[Problem]) -> str:
    errors = sum(p.severity == "error" for p in problems)
    warnings = len(problems) - errors

    def some(number: int, word: str) -> str:
        return f"{number} {word}{'' if number == 1 else 's'}"

    return (
        ", ".join(some(n, w) for n, w in ((errors, "error"), (warnings, "warning")) if n)
        or "nothing to put right"
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


def tell(job: BoundJob, book: Path, *, quiet: bool = False, why: bool = False) -> None:
    """What became of a job; `why` also says what changed since it was bound before."""
    reasons = [f"  because: {reason}" for reason in job.why] if why and not quiet else []
    if job.fault:
        err(
            f"{job.key}: buildbook itself failed on this job; its last good pages stay.",
            *job.fault.splitlines(),
        )
        return
    if not job.bound:
        say(job.problems, f"{job.key}: not bound, {count(job.problems)}")
        return
    if not job.redone and not quiet:
        out(f"{job.key}: unchanged, {count(job.problems)}")
    elif not quiet:
        out(f"{job.key}: bound, {count(job.problems)}", *reasons)
        out(f"  for the client  {book / 'handover' / job.key / 'index.html'}")
        out(f"  build log       {book / 'jobs' / job.key / 'index.html'}")
    say(job.problems, f"{job.key}: {count(job.problems)}" if quiet else "")


def tell_waiting(book: Path) -> None:
    """That another program binds the same book: without a word it would look as if nothing happened."""
    err(f"{book} is being bound by another program; waiting until it is done.")

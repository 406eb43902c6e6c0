"""What the command line says: problems, what was made, what was found. All of it goes through `terminal`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TaskID, TextColumn
from rich.table import Table
from rich.text import Text

from buildbook.book.bind import Bound, BoundJob
from buildbook.book.estimate import LETTER, LETTER_PDF, WORKSHEET
from buildbook.book.past.search import FoundJob
from buildbook.cli.terminal import err, out, plain_text
from buildbook.estimate import Estimate
from buildbook.problems import Problem
from buildbook.summary.as_json import plain

PIPE_WIDTH = 160  # characters of a line that goes to a file or another program


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
    return [plain(problem) | {"text": str(problem)} for problem in problems]


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
    say(job.problems)


def tell_waiting(book: Path) -> None:
    """That another program binds the same book: without a word it would look as if nothing happened."""
    err(f"{book} is being bound by another program; waiting until it is done.")


def tell_estimate(made: Estimate, folder: Path) -> None:
    hours, price, bought = made.hours.total, made.price, made.materials
    out(f"{made.enquiry.name}, estimated on {made.day.isoformat()}")
    if hours:
        out(f"hours           {hours.low:.0f} to {hours.high:.0f}, likeliest {hours.median:.0f}")
    out(f"materials       {bought.amount.amount} {bought.amount.currency}")
    if price:
        out(f"price           {price.low.amount} to {price.high.amount}, likeliest {price.median.amount}")
    out(f"worksheet       {folder / WORKSHEET}  (private)")
    out(f"for the client  {folder / LETTER}, {folder / LETTER_PDF}")


def found_facts(job: FoundJob) -> dict[str, object]:
    passage = job.passages[0].text if job.passages else ""
    return {"job": job.key, "title": job.title, "page": job.page, "score": job.score, "passage": passage}


def print_found(found: Sequence[FoundJob]) -> None:
    """A plain table; what matched is set bold where a person is looking."""
    console = Console(highlight=False)
    if not console.is_terminal:
        console = Console(highlight=False, width=PIPE_WIDTH)
    table = Table("job", "title", "date", "why", box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for job in found:
        why = Text()
        for shown in job.passages:
            text = Text(plain_text(shown.text))
            for start, end in shown.marks:
                text.stylize("bold", start, end)
            why.append("\n" if why else "").append(
                plain_text(f"{shown.where}: ") if shown.where else "", "dim"
            ).append(text)
        table.add_row(*(Text(plain_text(text)) for text in (job.key, job.title, job.day)), why)
    console.print(table)


class Bar:
    """A progress bar on standard error, only where a person is looking."""

    def __init__(self) -> None:
        console = Console(stderr=True)
        self._bar = Progress(
            TextColumn("{task.description}", markup=False), BarColumn(), MofNCompleteColumn(),
            console=console, transient=True, disable=not console.is_terminal,
        )  # fmt: skip
        self._task: TaskID | None = None

    def __enter__(self) -> Bar:
        self._bar.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._bar.stop()

    def show(self, what: str, done: int, of: int) -> None:
        """A line for each job's photos; nothing where nothing is to be made."""
        if done == 0:
            self._task = self._bar.add_task(plain_text(what), total=of) if of else None
        elif self._task is not None:
            self._bar.update(self._task, completed=done)

"""Binds a job or a shelf: each job that is not in the book as it is now, then the pages across jobs.

One bad job never holds up the others: its last good pages stay, and the list of past work says so.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterable, Iterator, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from buildbook.book.bind_job import BoundJob, bind_job, silent
from buildbook.book.disk import write
from buildbook.book.faults import problem_of
from buildbook.book.lock import OWN, one_at_a_time
from buildbook.book.past.top import ShelfNow, lay_top
from buildbook.book.pictures import Progress
from buildbook.book.place import HANDOVERS, LOGS, like_named, refused
from buildbook.book.redo.inputs import Inputs
from buildbook.book.redo.made import Brief, Made, place_of
from buildbook.book.redo.seen import as_before
from buildbook.book.workers import bind_in_processes
from buildbook.job import find_jobs, no_jobs, read_shop, shop_around
from buildbook.job.places import clashes, job_name
from buildbook.job.shop_model import Shop
from buildbook.job.slug import same_slug
from buildbook.problems import Problem, Problems, any_error
from buildbook.render.html.theme import forget_templates
from buildbook.render.print.typeset import forget_fonts

WORTH_PROCESSES = 12
"""Jobs to be bound: for fewer, what processes take to begin is more than they save."""


@dataclass(frozen=True)
class Bound:
    """What became of a binding. `problems` are those of no single job."""

    jobs: tuple[BoundJob, ...]
    problems: tuple[Problem, ...] = ()

    @property
    def ok(self) -> bool:
        return not any_error(self.problems) and bool(self.jobs) and all(job.bound for job in self.jobs)


def waits_silently(book: Path) -> None:
    """Nothing said while another program binds the same book."""


def bind(
    folder: Path,
    book: Path,
    *,
    progress: Progress = silent,
    told: Callable[[BoundJob], None] | None = None,
    waits: Callable[[Path], None] = waits_silently,
    again: bool = False,
    processes: int = 1,
) -> Bound:
    """Bind every job of a folder into a book; a job that is in there as it is now is passed over. Never raises for what
    a maker wrote.

    `told` gets each job as soon as its pages lie in the book, before those across jobs are made; first those that are
    passed over (`redone` is false). `waits` is called once where another program binds the same book; then it is waited
    for. `again` binds every job from nothing. `processes`: how many bind jobs at once, where there are enough of them;
    whatever it is, the bytes and what is said are the same.
    """
    try:
        jobs = find_jobs(folder)
        problem = no_jobs(folder, jobs) or refused(folder, book, jobs)
    except OSError as fault:
        problem = problem_of(fault, book)
    if problem:
        return Bound((), (problem,))
    problems = Problems()
    with one_at_a_time(book, waits) as no_lock:
        if no_lock:
            said = f"cannot be locked here ({no_lock}); what can be bound is bound all the same."
            problems.warn(str(book), said, "See that nobody else binds it at the same time.")
        _sweep(book, problems)
        forget_templates()
        forget_fonts()
        inputs = Inputs()
        before = {} if again else {path: made for path in jobs if (made := as_before(path, book, inputs))}
        try:
            not_bound = like_named(jobs, book) | clashes(jobs)
            names = {path: made.named for path, made in before.items()}
            for path, problem in same_slug(folder, jobs, names).items():
                if problem.severity == "error":
                    not_bound.setdefault(path, problem)
                else:
                    problems.add(problem)
        except OSError as fault:
            return Bound((), (problem_of(fault, book), *problems.ordered()))
        done: dict[Path, BoundJob] = {}
        progress("jobs", 0, len(jobs))
        try:
            with closing(
                _bound(jobs, not_bound, before, book, inputs, progress, again, processes)
            ) as results:
                for path, result in results:
                    done[path] = result
                    progress("jobs", len(done), len(jobs))
                    if told:
                        told(result)
        except BaseException:  # stopped: what was begun goes
            _sweep(book, problems)
            raise
        every = tuple(done[path] for path in jobs)
        bound = {job.key for job in every if job.bound}
        failed = [job.key for job in every if not job.bound]
        shelf = ShelfNow(folder, jobs == [folder], _shop_of(folder, jobs), bound, failed)
        lay_top(book, shelf, inputs, problems, again=again)
    return Bound(every, problems.ordered())


def _bound(
    jobs: Sequence[Path],
    not_bound: Mapping[Path, Problem],
    before: Mapping[Path, Brief | Made],
    book: Path,
    inputs: Inputs,
    progress: Progress,
    again: bool,
    processes: int,
) -> Generator[tuple[Path, BoundJob]]:
    """What becomes of each job, as it is known: first those that need nothing."""
    waiting: list[Path] = []
    for path in jobs:
        if problem := not_bound.get(path):
            yield path, BoundJob(job_name(path), False, (problem,))
        elif made := before.get(path):
            yield path, BoundJob(job_name(path), True, made.problems, sealed=made.sealed, redone=False)
        else:
            waiting.append(path)
    if processes > 1 and len(waiting) >= WORTH_PROCESSES:
        yield from bind_in_processes(waiting, book, again=again, processes=processes)
    else:
        yield from _one_by_one(waiting, book, inputs, progress, again)


def _one_by_one(
    paths: Iterable[Path], book: Path, inputs: Inputs, progress: Progress, again: bool
) -> Iterator[tuple[Path, BoundJob]]:
    for path in paths:
        yield path, bind_job(path, book, progress, inputs, again)


def _sweep(book: Path, problems: Problems) -> None:
    """What a stopped program left goes, before anything is looked at."""
    own = book / OWN
    made = place_of(book).parent
    for folder in (book, book / LOGS, book / HANDOVERS, own, own / LOGS, own / HANDOVERS, made, made / LOGS):
        try:
            write.sweep(folder)
        except OSError as fault:
            problems.add(problem_of(fault, book))


def _shop_of(folder: Path, jobs: list[Path]) -> Shop:
    """The shop of the whole binding: that of the folder, else the one around its first job."""
    shop, _ = read_shop(folder)
    return shop if shop.name else shop_around(jobs[0].absolute())[0]

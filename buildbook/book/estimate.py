"""An enquiry into an estimate: reads it and the shelf, reckons, and writes worksheet, letter and estimate.json whole.

The letter lies in a folder of its own, so that what may leave the shop is never beside what may not.
"""

from __future__ import annotations

import os
import traceback
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from buildbook.book.disk import write
from buildbook.book.faults import problem_of
from buildbook.book.past.past_jobs import past_jobs
from buildbook.book.past.without import without_failing
from buildbook.book.themes import theme_of
from buildbook.estimate import Estimate, currencies, reckon
from buildbook.estimate.as_json import estimate_facts
from buildbook.job import find_jobs, no_jobs, read_job, read_shop
from buildbook.job.model import Job
from buildbook.job.places import in_the_way, job_name
from buildbook.job.shop_model import Shop
from buildbook.job.table.parts import FILE as PARTS
from buildbook.pages.letter.letter import letter_of
from buildbook.pages.worksheet.sheet import worksheet_of
from buildbook.problems import Problem, Problems, any_error
from buildbook.render.html.theme import Theme, ThemeError
from buildbook.render.print.letter import letter_pdf
from buildbook.render.print.typeset import TypesetError
from buildbook.summary.as_json import as_text

WORKSHEET, FACTS = "worksheet.html", "estimate.json"
LETTER, LETTER_PDF = "letter/index.html", "letter/letter.pdf"
_NOT_ASKED = ("notes.md", "photos", PARTS)
"""What an enquiry need not have."""


@dataclass(frozen=True)
class Estimated:
    """What became of an enquiry. `folder` holds its files; None when nothing was written."""

    problems: tuple[Problem, ...]
    folder: Path | None = None
    estimate: Estimate | None = None
    fault: str = ""

    @property
    def ok(self) -> bool:
        return self.estimate is not None and not any_error(self.problems)


def estimate(enquiry: Path, shelf: Path, to: Path, day: date) -> Estimated:
    """Estimate an enquiry from the jobs of a shelf, into a folder of its own name in `to`. Never raises for what a
    maker wrote.
    """
    problems = Problems()
    try:
        if refused := _refuse(enquiry, shelf, to):
            return Estimated(tuple(refused))
        shop, found = read_shop(shelf)
        problems.extend(found)
        job = _enquiry(enquiry, shop)
        past = past_jobs(shelf, shop, enquiry, problems)
        problems.extend(p for p in job.problems if p.severity == "error")
        problems.extend(currencies(job, past))
        if any_error(problems):
            return Estimated(problems.ordered())
        made = without_failing(lambda some: reckon(job, some, day), past, lambda one: one.key, problems)
        problems.extend(made.problems)
        made = replace(made, problems=problems.ordered())
        theme = theme_of(job.shop, enquiry, shelf, Path(os.path.abspath(enquiry)).parent)
        return _lay(made, theme, to / job.key)
    except (ThemeError, write.NotOurs, OSError) as fault:
        problems.add(problem_of(fault, to))
        return Estimated(problems.ordered())
    except Exception:  # a fault of ours is told, not thrown at the maker
        return Estimated(problems.ordered(), fault=traceback.format_exc())


def _refuse(enquiry: Path, shelf: Path, to: Path) -> list[Problem]:
    """Why there is nothing to be estimated, or nowhere to write it."""
    jobs = find_jobs(enquiry)
    if problem := no_jobs(enquiry, jobs):
        return [problem]
    if len(jobs) > 1 or jobs[0].resolve() != enquiry.resolve():
        return [Problem("error", str(enquiry), "holds several jobs.", "Name the folder of one enquiry.")]
    if not shelf.is_dir():
        hint = "Name the folder of your past jobs with --from."
        return [Problem("error", str(shelf), "is not a folder.", hint)]
    every = (*jobs, *find_jobs(shelf))
    problem = in_the_way(to / job_name(enquiry), every, shelf)
    return [problem] if problem else []


def _enquiry(folder: Path, shop: Shop) -> Job:
    """The enquiry, in its own shop where it has one, else in that of the shelf."""
    own = read_job(folder, pictures=False)
    job = own if own.shop != Shop() else read_job(folder, shop, pictures=False)
    kept = [p for p in job.problems if p.severity == "error" or p.file not in _NOT_ASKED or p.field]
    return replace(job, problems=tuple(kept))


def _lay(made: Estimate, theme: Theme, place: Path) -> Estimated:
    """Write everything beside its place, then put it there."""
    letter, problems = letter_of(made), Problems()
    problems.extend(made.problems)
    try:
        printed = letter_pdf(letter, theme)
    except TypesetError as error:
        raise ThemeError(f"theme {theme.name}, {error}") from error
    problems.extend(printed.problems)
    with write.Staging(place, write.LIST) as folder:
        folder.write(LETTER, theme.letter_page(letter).encode())
        folder.write(LETTER_PDF, printed.pdf)
        folder.write(WORKSHEET, theme.worksheet_page(worksheet_of(made)).encode())
        folder.write(FACTS, as_text(estimate_facts(made)).encode())
        folder.finish()
        write.put_all(folder)
    return Estimated(problems.ordered(), place, made)

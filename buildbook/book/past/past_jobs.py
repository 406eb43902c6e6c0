"""The past jobs that an enquiry is reckoned from: of a job that is as a book near it has it, what its binding left for
this; the others are read.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from buildbook.book.past.near import books_near
from buildbook.book.redo.inputs import Inputs
from buildbook.book.redo.seen import past_as_before
from buildbook.estimate.past import KnownJob, past_job
from buildbook.job import find_jobs, read_job
from buildbook.job.model import Job
from buildbook.job.shop_model import Shop
from buildbook.left.for_estimates import decoded_past, encoded_past
from buildbook.problems import Problems, any_error, failed, listed
from buildbook.summary.model import Summary


def for_estimates(job: Job, summary: Summary) -> bytes:
    """What a bound job leaves for estimates; nothing where this program fails at it, which the estimate will tell."""
    try:
        return encoded_past(past_job(job, summary))
    except Exception:  # no estimate is worth the pages of a job
        return b""


def past_jobs(shelf: Path, shop: Shop, enquiry: Path, problems: Problems) -> list[KnownJob]:
    """The jobs of a shelf but the enquiry; one with errors is left out, and told."""
    out: list[KnownJob] = []
    bad: list[Job] = []
    own_shop = shop if shop != Shop() else None
    books, inputs = books_near(shelf), Inputs()
    for path in find_jobs(shelf):
        if path.resolve() == enquiry.resolve():
            continue
        try:
            if left := _left(path, books, inputs, shop):
                out.append(left)
                continue
            job = read_job(path, own_shop, pictures=False)
            if any_error(job.problems):
                bad.append(job)
            else:
                out.append(past_job(job))
        except Exception as fault:  # one job must not cost the estimate the others
            problems.add(failed(path.resolve().name, fault))
    if bad:
        names = listed([job.key for job in bad])
        hint = "See what is wrong with: buildbook proof."
        problems.warn(str(shelf.name), f"These jobs have errors and are not counted: {names}.", hint)
    return out


def _left(path: Path, books: Sequence[Path], inputs: Inputs, shop: Shop) -> KnownJob | None:
    """What the binding of a job left, in a book near it, if it was read in this shop."""
    for book in books:
        data = past_as_before(path, book, inputs)
        if data is not None and (past := decoded_past(data, shop)):
            return past
    return None

"""Binds one job of a book before anything is looked at but that job: for who waits for its page.

Only where that can do no harm: the book has a record of the job, and its name is as it was. All that hangs on other
jobs too is the business of the next whole binding, which finds this one done.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from buildbook.book.bind_job import BoundJob, bind_job, silent
from buildbook.book.lock import lock_in_the_way, one_at_a_time
from buildbook.book.redo.inputs import Inputs
from buildbook.book.redo.made import place_of, read_brief
from buildbook.job import find_jobs
from buildbook.job.places import in_the_way, job_name
from buildbook.job.slug import named
from buildbook.render.html.theme import forget_templates
from buildbook.render.print.typeset import forget_fonts


def bind_at_once(
    path: Path, book: Path, placed: Callable[[BoundJob], None], waits: Callable[[Path], None]
) -> BoundJob | None:
    """Bind a job that was bound before; None, and nothing done, where it is to be looked at with all the others.

    `placed` gets it as soon as its pages lie in the book, before what the next binding goes by is written down; not
    where it was not bound, or is as it was. `waits`: as in `bind`. Raises OSError.
    """
    known = read_brief(place_of(book, job_name(path)))
    if known is None or known.named != named(path) or find_jobs(path) != [path]:
        return None
    if in_the_way(book, [path], path) or lock_in_the_way(book):
        return None
    with one_at_a_time(book, waits):
        forget_templates()
        forget_fonts()
        return bind_job(path, book, silent, Inputs(), again=False, placed=placed)

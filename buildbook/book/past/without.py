"""What is made of many jobs is made without those at which this program fails, and they are named."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from buildbook.book.disk import write
from buildbook.problems import Problems, failed
from buildbook.render.html.theme import ThemeError

T = TypeVar("T")
R = TypeVar("R")

NO_JOBS_FAULT = (ThemeError, write.NotOurs, OSError)
"""What has nothing to do with any one job."""


def without_failing(
    make: Callable[[Sequence[T]], R], jobs: Sequence[T], key: Callable[[T], str], problems: Problems
) -> R:
    """`make(jobs)`; where that fails, of those only that do not fail when they are alone. Each that does is a problem.

    Raises what `make` raises where no job can be blamed, or all of them.
    """
    try:
        return make(jobs)
    except NO_JOBS_FAULT:
        raise
    except Exception as fault:  # whatever it is: one job must not cost the others their pages
        faults = [(job, _fault_of(make, job)) for job in jobs]
        sound = [job for job, own in faults if own is None]
        if not sound or len(sound) == len(jobs):
            raise fault
        problems.extend(failed(key(job), own) for job, own in faults if own)
        return make(sound)


def _fault_of(make: Callable[[Sequence[T]], R], job: T) -> Exception | None:
    try:
        make([job])
    except NO_JOBS_FAULT:
        raise
    except Exception as fault:  # as above
        return fault
    return None

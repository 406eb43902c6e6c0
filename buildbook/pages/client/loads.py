"""What the piece carries: in all, and each place that the maker names, in the order of the job.

In: `Job`. Out: sentences. Nothing is invented: where there are shelves or drawers and nothing tells what one carries,
that is said.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.care.piece import piece_of
from buildbook.job.model import Job
from buildbook.pages.phrases import Phrases
from buildbook.signs import says

_PLACES = {"drawers": "drawer", "shelves": "shelf"}
"""What a piece has that things are put into or on, and the sign of it in a maker's words."""

_CARRIES_PEOPLE = frozenset({"seat", "people"})


TELL_IT_ALL = frozenset({"loaded-weight", "seat-load"})
"""Instructions whose title says what the piece carries in all."""


def loads(job: Job, phrases: Phrases, in_all: bool = True) -> tuple[str, ...]:
    """`Up to 60 kg in all, spread evenly.`, `Up to 15 kg in each drawer.`; empty where there is nothing to say.

    in_all  whether to say what it carries in all: not where an instruction beside it does.
    """
    return tuple(_loads(job, phrases, in_all))


def _loads(job: Job, phrases: Phrases, in_all: bool) -> Iterator[str]:
    has = piece_of(job).has
    if in_all and job.contents_kg is not None:
        what = "people" if has & _CARRIES_PEOPLE else "all"
        of = "each" if job.quantity > 1 else "one"
        yield phrases(f"loads.{what}.{of}", mass=phrases.style.mass_alone(job.contents_kg))
    for load in job.loads:
        yield phrases("loads.place", mass=phrases.style.mass_alone(load.kg), place=load.place)
    told = (*(load.place for load in job.loads), *job.limits)
    if untold := [what for what, sign in _PLACES.items() if what in has and not says(sign, *told)]:
        yield phrases("loads.not_recorded", what=phrases.either(phrases(f"loads.{what}") for what in untold))

"""What does not fit together, for `proof`: sums that do not come out, slots too short for the seasons, shelves that
will be seen to sag; and where a piece has doors, drawers or shelves and no sum, that one be written.

In: a job that can be bound. Out: warnings. Pure. Nothing is said of what would have to be guessed: which parts stand
beside which is told by `adds` alone.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.job.model import Job
from buildbook.job.text import shown
from buildbook.job.toml.adds import EXAMPLE
from buildbook.problems import Problem
from buildbook.signs import says
from buildbook.summary import summarise
from buildbook.summary.sag import shelves
from buildbook.summary.sag_model import Sag
from buildbook.summary.slots import slots_of
from buildbook.summary.style import style_of
from buildbook.words import Words
from buildbook.words.told import told

_PARTS, _JOB = "parts.csv", "job.toml"


def held_together(job: Job) -> list[Problem]:
    """A warning for each thing that does not fit."""
    return [told(problem, job.shop.language) for problem in _found(job)]


def _found(job: Job) -> Iterator[Problem]:
    summary, style = summarise(job), style_of(job, Words(job.shop.language))
    for one in summary.sums:
        if not one.ok:
            yield _warn(
                _JOB,
                "adds",
                f"{shown(one.words)} comes to {style.length(one.sum_m)}, not {style.length(one.size_m)}:"
                f" the difference is {style.small(abs(one.difference_m))}.",
                "Put right the size of a part, a gap, or the sum.",
            )
    for slot in slots_of(job, summary.movement):
        if not slot.ok:
            yield _warn(
                _PARTS,
                slot.field,
                f"The slot of {shown(slot.part)}, {style.small(slot.slot_m)}, is shorter than its edge travels"
                f" over a year, {style.small(slot.travel_m)}.",
                "Make the slot longer; it needs the thickness of the screw on top.",
                slot.row,
            )
    for shelf in summary.sag:
        if shelf.ok is False and shelf.sag_m is not None:
            yield _sagging(shelf, style.small(shelf.sag_m), style.length(shelf.span_m))
    yield from _unsaid(job)


def _sagging(shelf: Sag, sags: str, span: str) -> Problem:
    """That a shelf sags; where it is not told what it carries, that it would under books."""
    if shelf.load_told:
        message = f"{shown(shelf.part)} sags {sags} in years over {span}, which is seen."
        hint = "Make it thicker or shorter, or put a lipping or a rail under it."
    else:
        message = f"{shown(shelf.part)} would sag {sags} in years over {span} if it were full of books."
        hint = "Say in loads what it carries, or put a lipping or a rail under it."
    return _warn(_PARTS, "thickness", message, hint, shelf.row)


def _unsaid(job: Job) -> Iterator[Problem]:
    """That a sum be written, where doors, drawers or shelves have to fit and none is."""
    if job.adds or not job.parts:
        return
    wood = [part.name for part in job.parts if part.kind in ("wood", "panel") and part.length]
    fits = (job.doors or 0) > 0 or (job.drawers or 0) > 0 or says("door", *wood) or says("drawer", *wood)
    if fits or shelves(job):
        yield _warn(
            _JOB,
            "adds",
            "No sum says that its doors, drawers or shelves fit.",
            f'Write adds = ["{EXAMPLE}"], with the names of parts.csv.',
        )


def _warn(file: str, field: str, message: str, hint: str, row: int | None = None) -> Problem:
    return Problem("warning", file, message, hint, row=row, field=field)

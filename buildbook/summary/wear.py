"""How the surfaces of a piece are handled, and so how soon a finish is renewed.

In: a `Job` and a finish of it. Out: a `Wear`; months. Pure. Common practice: what is handled daily is renewed at the
shorter interval of its family, what is handled now and then at the longer one, what nobody touches never.
"""

from __future__ import annotations

from buildbook.job.model import Finish, Job, Part, Wear
from buildbook.signs import says
from buildbook.summary.place import is_outdoors
from buildbook.trade.kinds import kind_of
from buildbook.trade.records import FinishFamily

DAILY: Wear = "daily"
NOW_AND_THEN: Wear = "now and then"
NEVER: Wear = "never"


def is_inside(part: Part, job: Job) -> bool:
    """Whether a part is where nobody puts a cup: in a drawer, a lining, the back of a case; by its name.

    A sheet called only `back` closes a case, unless the piece is to sit on.
    """
    if says("inside", part.name):
        return True
    kind = kind_of(job.piece, job.title)
    return part.kind == "panel" and says("back", part.name) and not (kind and "seat" in kind.has)


def is_only_inside(job: Job, finish: Finish) -> bool:
    """Whether a finish is on inner surfaces only, as far as the client reads about the parts that bear it, and the job
    does not say that they are handled.
    """
    if finish.wear in (DAILY, NOW_AND_THEN):
        return False
    bearing = _bearing(job, finish)
    return bool(bearing) and all(is_inside(part, job) for part in bearing)


def wear_of(job: Job, finish: Finish) -> Wear:
    """How a finish is handled: as the job says, else by the kind of piece and the parts that bear it.

    Out of doors the weather wears it daily. On a piece that is in hand daily every part counts; on any other only the
    parts that hands, cups and elbows meet. What hangs and is neither furniture nor carries anybody is not touched.
    """
    if finish.wear:
        return finish.wear
    if is_only_inside(job, finish) or _is_out_of_reach(job):
        return NEVER
    if is_outdoors(job) or _in_daily_use(job):
        return DAILY
    return DAILY if any(says("handled", part.name) for part in _bearing(job, finish)) else NOW_AND_THEN


def renewed_after(family: FinishFamily, wear: Wear) -> int | None:
    """How often a finish is renewed, in months; None for never, and for a family that goes by its look."""
    if wear == NEVER or family.refresh_months is None:
        return None
    months = family.refresh_months
    return max(1, int(months.low if wear == DAILY else months.high))


def _bearing(job: Job, finish: Finish) -> list[Part]:
    """The parts that bear a finish, of those that the client reads about: a row that is kept in says nothing."""
    return [part for part in job.bearing(finish.key) if part.faces != "none" and part.for_client]


def _in_daily_use(job: Job) -> bool:
    """Whether the whole piece is in hand daily: a seat, a table, what is made for a child, what feet or food meet."""
    if job.food:
        return True
    kind = kind_of(job.piece, job.title)
    if kind is None:
        return False
    return bool(kind.has & _IN_HAND or kind.reaches & _MEETS) or kind.has >= _TABLE


def _is_out_of_reach(job: Job) -> bool:
    """Whether no hand wears it: a picture frame, a panel on a wall, what is used but once."""
    kind = kind_of(job.piece, job.title)
    if kind is None:
        return False
    return "once" in kind.has or ("hangs" in kind.has and not kind.has & _TOUCHED)


_IN_HAND = frozenset({"seat", "child", "food"})
_MEETS = frozenset({"feet", "food", "mouth", "steam"})
_TABLE = frozenset({"top", "frame"})
_TOUCHED = frozenset({"furniture", "people"})

"""How a finish is renewed, in a few plain sentences: what it is, how often, how much one coat of this piece takes, and
what to take when it is no longer sold.

In: a finish of the job and its figures. Out: sentences. What the record does not know is said; nothing is advised that
is the maker's to do.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.care.figures import interval
from buildbook.care.piece import piece_of
from buildbook.care.surfaces import BARE
from buildbook.folding import folded
from buildbook.job.model import Finish, Job
from buildbook.pages.phrases import Phrases, capital
from buildbook.signs import small_first
from buildbook.summary.finish import area_m2
from buildbook.summary.model import FinishUse
from buildbook.summary.wear import DAILY, NEVER
from buildbook.trade import tables
from buildbook.trade.finish import per_coat_l
from buildbook.trade.records import FinishFamily

_FOR_THE_MOUTH = {"child": "child", "food": "food", "washed-up": "food"}
"""What a piece is or meets, and whose safety then chooses what is put on it."""

_FOR_ROOMS = frozenset({"oiled", "hardwax"})
"""Surfaces whose usual product is sold for rooms."""


def renewal(job: Job, finish: Finish, use: FinishUse, phrases: Phrases) -> tuple[str, ...]:
    """What an owner is told of a finish."""
    what = " ".join(_what(finish, use, phrases))
    return tuple(filter(None, (what, *_renewing(job, use, phrases))))


def _what(finish: Finish, use: FinishUse, phrases: Phrases) -> Iterator[str]:
    """What its name above does not tell: its kind and its sheen; plainly, that no product was written down."""
    if use.family == BARE:
        yield phrases("renewing.bare")
    elif not use.product:
        yield phrases("renewing.unnamed")
    elif folded(phrases.family(use)) not in folded(use.product):
        yield phrases("renewing.kind", family=small_first(phrases.family(use), phrases.words))
    if finish.sheen:
        yield phrases("renewing.sheen", sheen=finish.sheen)


def _renewing(job: Job, use: FinishUse, phrases: Phrases) -> Iterator[str]:
    if use.family == BARE:
        return
    if job.is_beneath(use.key):
        yield phrases("renewing.beneath")
        return
    if use.wear == NEVER:
        yield phrases("renewing.untouched")
        return
    family, has = tables.finishes()[use.family], piece_of(job).has
    mouth = next((whose for what, whose in _FOR_THE_MOUTH.items() if what in has), "")
    at_home = family.has("home")
    handled = "daily" if use.wear == DAILY else "seldom"
    if use.refresh_months:
        every = interval(use.refresh_months, phrases.words)
        often = phrases(f"renewing.{handled if at_home else 'maker'}", interval=every)
    else:
        often = phrases("renewing.by_sheet")
    yield f"{often} {_amount(job, use, phrases)}" if at_home else often
    instead = f"for_{mouth}" if mouth else _cared_as(family, has)
    where = phrases(f"renewing.try_{'drawer' if 'drawers' in has else 'hidden'}")
    yield capital(phrases(f"renewing.instead.{instead}", where=where))


def _cared_as(family: FinishFamily, has: frozenset[str]) -> str:
    """What is taken in its place, by the care that it asks for: out of doors no oil for furniture."""
    return "exterior-oil" if "outdoors" in has and family.cared_as in _FOR_ROOMS else family.cared_as


def _amount(job: Job, use: FinishUse, phrases: Phrases) -> str:
    """What one coat takes, on the parts that the client reads of: a later coat, for the wood has drunk the first."""
    area = area_m2(part for part in job.bearing(use.key) if part.for_client) / job.quantity
    if not area or not use.later_m2_per_l:
        return phrases("renewing.amount_unknown")
    of = "each" if job.quantity > 1 else "one"
    return phrases(f"renewing.amount.{of}", amount=phrases.style.can(per_coat_l(area, use.later_m2_per_l)))

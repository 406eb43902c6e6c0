"""The days on which something is to be done or looked at, for the page, the card and a calendar."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from buildbook.care import CareItem
from buildbook.job.model import Job
from buildbook.pages.client.piece import Due
from buildbook.pages.phrases import Phrases
from buildbook.summary.model import FinishUse, Summary
from buildbook.trade.days import MONTHS_OF_YEAR, add_months

_HELD_UP = ("hang", "tip", "fix", "cleat")  # checks of what keeps the piece from falling stand alone


def due_dates(job: Job, summary: Summary, care: Iterable[CareItem], phrases: Phrases) -> tuple[Due, ...]:
    """Curing and renewing of each finish, and the yearly look-over, in the order of their days."""
    items = list(care)
    due = [day for n, use in enumerate(summary.finish, 1) for day in _of_finish(n, use, items, phrases)]
    start = job.delivered or job.last_day
    if start and (year_on := add_months(start, MONTHS_OF_YEAR)):
        due += _yearly(year_on, items, phrases)
    return tuple(sorted(due, key=lambda d: (d.day, d.key)))


def _of_finish(which: int, use: FinishUse, items: list[CareItem], phrases: Phrases) -> Iterable[Due]:
    name = phrases.finish(use)
    if use.full_cure_to:
        yield Due(
            f"cure-{which}",
            use.full_cure_to,
            phrases("due.cured", finish=name),
            phrases("due.cured_text", finish=name),
        )
    how = next((item.text for item in items if item.key == f"renew-{use.family}"), phrases("due.renew_text"))
    for number, day in enumerate(use.refresh, 1):
        yield Due(f"renew-{which}-{number}", day, phrases("due.renew", finish=name), how)


def _yearly(first: date, items: list[CareItem], phrases: Phrases) -> Iterable[Due]:
    checks = [item for item in items if item.season == "year"]
    alone = [item for item in checks if item.key.startswith(_HELD_UP)]
    for item in alone:
        yield Due(f"check-{item.key}", first, item.title, item.text, MONTHS_OF_YEAR)
    rest = [item for item in checks if item not in alone]
    if rest:
        text = "\n\n".join(f"{item.title}. {item.text}" for item in rest)
        yield Due("look-over", first, phrases("due.look_over"), text, MONTHS_OF_YEAR)

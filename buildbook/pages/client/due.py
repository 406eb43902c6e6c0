"""The days on which something is to be done or looked at, for the page, the card and a calendar."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date

from buildbook.care import CareItem
from buildbook.job.model import Job
from buildbook.job.toml.pieces import told_pieces
from buildbook.pages.client.piece import Due
from buildbook.pages.phrases import Phrases
from buildbook.pages.sets import of_pieces
from buildbook.summary.model import BatchDates, FinishUse, Summary
from buildbook.trade.days import MONTHS_OF_YEAR, add_months

_HELD_UP = ("hang", "tip", "fix", "cleat")  # checks of what keeps the piece from falling stand alone


def due_dates(job: Job, summary: Summary, care: Iterable[CareItem], phrases: Phrases) -> tuple[Due, ...]:
    """Curing and renewing of each finish, and the yearly look-over, in the order of their days."""
    items = list(care)
    due: list[Due] = []
    for which, use in enumerate(summary.finish, 1):
        for days in use.batches or (use,):
            pieces = days.pieces if isinstance(days, BatchDates) else ()
            due += _of_some(_of_finish(which, use, days, items, phrases), pieces, phrases)
    batches = job.batches
    for batch in batches:
        start = batch.day or (job.last_day if len(batches) == 1 else None)
        if start and (year_on := add_months(start, MONTHS_OF_YEAR)):
            pieces = batch.pieces if len(batches) > 1 else ()
            due += _of_some(_yearly(year_on, items, phrases), pieces, phrases)
    return tuple(sorted(due, key=lambda d: (d.day, d.key)))


def _of_some(due: Iterable[Due], pieces: tuple[int, ...], phrases: Phrases) -> Iterator[Due]:
    """What is due, for some pieces of a set: told, and under a key that stays when others go later."""
    for day in due:
        key = f"{day.key}/{told_pieces(pieces)}" if pieces else day.key
        yield replace(day, key=key, title=of_pieces(day.title, pieces, phrases), pieces=pieces)


def _of_finish(
    which: int, use: FinishUse, days: FinishUse | BatchDates, items: list[CareItem], phrases: Phrases
) -> Iterable[Due]:
    """Curing and renewing of a finish by its days, or by those of some pieces."""
    name = phrases.finish(use)
    if days.full_cure_to:
        yield Due(
            f"cure-{which}",
            days.full_cure_to,
            phrases("due.cured", finish=name),
            phrases("due.cured_text", finish=name),
        )
    how = next((item.text for item in items if item.key == f"renew-{use.family}"), phrases("due.renew_text"))
    for number, day in enumerate(days.refresh, 1):
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

"""The days on which something is to be done or looked at, for the card, the booklet and a calendar."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date

from buildbook.care import CareItem
from buildbook.care.rules import WHENS, When
from buildbook.care.surfaces import labels
from buildbook.job.model import Job
from buildbook.job.toml.pieces import told_pieces
from buildbook.pages.client.piece import Due
from buildbook.pages.phrases import Phrases
from buildbook.pages.sets import of_pieces
from buildbook.summary.model import BatchDates, FinishUse, Summary
from buildbook.summary.place import is_southern, month_of
from buildbook.trade import tables
from buildbook.trade.days import MONTHS_OF_YEAR, add_months, days_after, next_first_of, repeatable

_APART: dict[When, int] = {
    "delivery": 0,
    "settled": 0,
    "month": 1,
    "half-year": MONTHS_OF_YEAR // 2,
    "spring": MONTHS_OF_YEAR,
    "autumn": MONTHS_OF_YEAR,
    "year": MONTHS_OF_YEAR,
}
"""How many months lie between one time and the next; 0 is once."""


def due_dates(job: Job, summary: Summary, care: Iterable[CareItem], phrases: Phrases) -> tuple[Due, ...]:
    """Everything that is dated, in the order of the days: curing and renewing of each finish, and what the instructions
    call for, of pieces that went apart by their own days. What repeats has no end: a piece outlives any number.

    Where nothing was handed over the last day of the record counts, and nothing is due on the first day.
    """
    items = list(care)
    called = labels(job, phrases.words)
    first_gone = job.batches[0].day or job.last_day
    found: dict[Due, tuple[int, ...]] = {}

    def of_pieces_too(due: Iterable[Due], pieces: tuple[int, ...]) -> None:
        for one in due:
            found[one] = (*found.get(one, ()), *pieces)

    for number, use in enumerate(summary.finish, 1):
        for days in use.batches or (use,):
            start, pieces = first_gone, tuple(job.numbers)
            if isinstance(days, BatchDates):
                start, pieces = days.delivered, days.pieces
            of_pieces_too(_hardening(number, days, start, called[use.key], phrases), pieces)
            of_pieces_too(_renewing(number, use, days, called[use.key], items, phrases), pieces)
    for batch in job.batches:
        if start := batch.day or (job.last_day if len(job.batches) == 1 else None):
            due = _of_times(start, is_southern(job), items, phrases, handed_over=bool(batch.day))
            of_pieces_too(due, batch.pieces)
    every = set(job.numbers)
    told = (_of_some(one, () if set(pieces) == every else pieces, phrases) for one, pieces in found.items())
    return tuple(sorted(told, key=lambda d: (d.day, d.key)))


def _of_some(due: Due, pieces: tuple[int, ...], phrases: Phrases) -> Due:
    """What is due, for some pieces of a set: told, and under a key that stays when others go later."""
    key = f"{due.key}/{told_pieces(pieces)}" if pieces else due.key
    return replace(due, key=key, title=of_pieces(due.title, pieces, phrases), pieces=pieces)


def _hardening(
    number: int, days: FinishUse | BatchDates, start: date | None, called: str, phrases: Phrases
) -> Iterator[Due]:
    """From when a finish may be used with care, and when it is hard: only what is still to come at the start."""
    for key, day in (("light", days.light_use_from), ("cured", days.full_cure_to)):
        if day and (start is None or day > start):
            title, text = phrases(f"due.{key}", finish=called), phrases(f"due.{key}_text", finish=called)
            yield Due(f"{key}-{number}", day, title, text)


def _renewing(
    number: int,
    use: FinishUse,
    days: FinishUse | BatchDates,
    called: str,
    items: list[CareItem],
    phrases: Phrases,
) -> Iterator[Due]:
    """The renewing of a finish, where there is an instruction for it."""
    how = next((item for item in items if item.renews and called in item.finishes), None)
    if how and days.refresh and use.refresh_months:
        title = phrases("due.renew", finish=called)
        yield Due(f"renew-{number}", repeatable(days.refresh[0]), title, how.text, use.refresh_months)


def _of_times(
    start: date, southern: bool, items: list[CareItem], phrases: Phrases, *, handed_over: bool
) -> Iterator[Due]:
    for when in WHENS:
        if handed_over or when != "delivery":
            yield from _called_for(when, start, southern, items, phrases)


def _called_for(
    when: When, start: date, southern: bool, items: list[CareItem], phrases: Phrases
) -> Iterator[Due]:
    """What the instructions call for at one time: what keeps from harm stands alone, the rest in one look-over."""
    first = _first(when, start, southern)
    if first is None:
        return
    called = [item for item in items if when in item.times]
    rest = [item for item in called if item.severity == "note"]
    for item in called:
        if item not in rest:
            title = f"{phrases('due.delivery')}: {item.title}" if when == "delivery" else item.title
            yield Due(f"{when}-{item.key}", first, title, item.text, _APART[when])
    if rest:
        text = "\n\n".join(f"{item.title}. {item.text}" for item in rest)
        yield Due(when, first, phrases(f"due.{when}"), text, _APART[when])


def _first(when: When, start: date, southern: bool) -> date | None:
    """The first day of a time, after the start but for the day of handing over itself; None beyond the calendar."""
    if when == "delivery":
        return start
    if when == "settled":
        return days_after(start, tables.constant("settled_days"))
    if when == "spring" or when == "autumn":
        return next_first_of(month_of(when, southern), start)
    day = add_months(start, _APART[when])
    return repeatable(day) if day else None

"""A past job as the next piece is reckoned from it: all that is read of it, and no more.

In: `Job`, `Summary`. Out: `KnownJob`. Pure. A binding leaves it beside the pages (`kept`), so that an estimate need not
read the jobs again.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal

from buildbook.estimate.likeness.traits import PieceFacts, drivers_of, piece_of
from buildbook.estimate.materials.waste import Tally, tallied_of
from buildbook.estimate.money.prices import KnownPrice, paid_by
from buildbook.job.log_model import LogEntry
from buildbook.job.model import Job
from buildbook.job.shop_model import Shop
from buildbook.summary import summarise
from buildbook.summary.model import HoursBooked, Summary


@dataclass(frozen=True)
class PastFacts:
    """Of a past job what every estimate reads. All of it is *private*.

    last_day   see `Job.last_day`. quantity: how many like pieces; hours, price and board feet are for all.
    drivers    of one piece, by the names of `likeness.traits.DRIVERS`
    hours      by stage, those that name none shared among the others; hours_h: of all, as booked
    books_hours, books_stages  whether a line of its notes has hours, and whether one of them names their stage
    paid       the prices in its parts file; tallied: its woods that were bought by a tally
    """

    key: str
    name: str
    begun: date | None
    last_day: date | None
    is_delivered: bool
    quantity: int
    price: Decimal | None
    currency: str
    piece: PieceFacts
    drivers: Mapping[str, float]
    hours: Mapping[str, float]
    hours_h: float
    books_hours: bool
    books_stages: bool
    board_feet: float
    paid: tuple[KnownPrice, ...]
    tallied: tuple[Tally, ...]

    @property
    def is_done(self) -> bool:
        """Whether its hours are all there: it was delivered, and some were booked."""
        return self.is_delivered and self.books_stages


def was_by(facts: PastFacts, day: date) -> bool:
    """Whether a job had ended by a day; one without a day ended long ago."""
    return facts.last_day is None or facts.last_day <= day


@dataclass(frozen=True)
class KnownJob:
    """A past job. shop: that in which it was read; stuff: gives the job as `stuff_of` leaves it, from whose rows an
    enquiry without parts is scaled: it is asked of the likest jobs only.
    """

    facts: PastFacts
    shop: Shop
    stuff: Callable[[], Job] = field(compare=False)

    @property
    def key(self) -> str:
        return self.facts.key


def past_job(job: Job, summary: Summary | None = None) -> KnownJob:
    """A job that was read."""
    return KnownJob(facts_of(job, summary or summarise(job)), job.shop, lambda: stuff_of(job))


def facts_of(job: Job, summary: Summary) -> PastFacts:
    booked = [line for entry in job.entries for line in entry.hours]
    return PastFacts(
        key=job.key,
        name=job.name,
        begun=job.begun,
        last_day=job.last_day,
        is_delivered=job.delivered is not None,
        quantity=job.quantity,
        price=job.price,
        currency=job.shop.currency,
        piece=piece_of(job, summary),
        drivers=drivers_of(job, summary),
        hours=told_by_stage(summary.hours),
        hours_h=summary.hours.total_h,
        books_hours=bool(booked),
        books_stages=any(line.stage for line in booked),
        board_feet=summary.timber.rough_bf,
        paid=paid_by(job),
        tallied=tallied_of(summary),
    )


def stuff_of(job: Job) -> Job:
    """A job as far as what it took hangs on it: without its words, its pictures and its log, of which only the last day
    counts.
    """
    last = tuple(
        LogEntry(day, "", "") for day in [max((one.day for one in job.entries), default=None)] if day
    )
    return replace(
        job,
        client="",
        description="",
        entries=last,
        photos=(),
        aside=(),
        videos=(),
        lead="",
        lead_of_job_toml="",
        client_photos=(),
        quoted=None,
        problems=(),
    )


def told_by_stage(hours: HoursBooked) -> dict[str, float]:
    """Hours by stage; those that name none are shared among the others as these were booked, so that none are lost."""
    staged = {line.stage: line.hours_h for line in hours.by_stage if line.stage}
    named_h = math.fsum(staged.values())
    share = hours.total_h / named_h if named_h else 0.0
    return {stage: took * share for stage, took in staged.items()}

"""Reckons an enquiry from the shop's past: likeness, materials, hours, price, and how well that would have quoted.

In: the enquiry, past jobs. Out: `Estimate`. Pure.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from buildbook.estimate.hours.backtest import backtest_of, quotes, triable
from buildbook.estimate.hours.by_stage import hours_of
from buildbook.estimate.hours.forecast import Past, PieceSought
from buildbook.estimate.likeness.similarity import compare, likeness, ranges_of
from buildbook.estimate.likeness.traits import Traits, drivers_of, piece_of, traits_of
from buildbook.estimate.materials.quantities import materials
from buildbook.estimate.materials.scaled import scaled_drivers
from buildbook.estimate.model import Estimate, HoursEstimate, Like, MaterialsEstimate, Range
from buildbook.estimate.money import offer
from buildbook.estimate.past import KnownJob, PastFacts, was_by
from buildbook.estimate.settings import method
from buildbook.job.model import Job
from buildbook.problems import Problem, Problems, listed
from buildbook.summary import summarise
from buildbook.summary.model import Money
from buildbook.trade import tables
from buildbook.trade.days import days_after
from buildbook.words import Words


@dataclass(frozen=True)
class _Known:
    """A past job with its traits in the language of the enquiry."""

    facts: PastFacts
    traits: Traits


_BINDING = "AT"  # KSchG § 5 (2), read in the text in force


def reckon(enquiry: Job, past: Sequence[KnownJob], day: date) -> Estimate:
    """The estimate of an enquiry on a day, from the jobs that were done by then. `offer.currencies` goes before it:
    amounts of two currencies are never added.
    """
    words = Words(enquiry.shop.language)
    others = [job for job in past if job.key != enquiry.key and was_by(job.facts, day)]
    known = [_Known(job.facts, traits_of(job.facts.piece, words)) for job in others]
    here = traits_of(piece_of(enquiry, summarise(enquiry)), words)
    like = _like(here, known)
    priced, summary, bought, problems = materials(enquiry, others, like, day)
    done = [past_of(item.facts, item.traits) for item in known if item.facts.is_done]
    scaled = {} if enquiry.parts else _scaled(enquiry, others, like)
    drivers = {name: amount.median for name, amount in scaled.items()} or drivers_of(enquiry, summary)
    wanted = PieceSought(here, drivers, frozenset(enquiry.stages), day, enquiry.quantity)
    quoted = quotes(done)
    hours = hours_of(wanted, done, quoted, enquiry.shop.stages, scaled)
    valid = enquiry.shop.quoting.valid_days
    return Estimate(
        enquiry=priced,
        summary=summary,
        day=day,
        hours=hours,
        materials=bought,
        price=offer.price(bought, hours, enquiry.shop),
        like=like,
        backtest=backtest_of(quoted, triable(done)),
        lead=offer.lead(hours, enquiry.shop, day),
        holds_until=days_after(day, math.floor(valid)) if valid is not None else None,
        problems=(
            *enquiry.problems,
            *problems,
            *_told(enquiry, [job.facts for job in others], hours, bought),
        ),
    )


def past_of(facts: PastFacts, traits: Traits) -> Past:
    """What a past job tells of hours."""
    return Past(
        key=facts.key,
        title=facts.name,
        day=facts.last_day,
        begun=facts.begun,
        traits=traits,
        drivers=facts.drivers,
        hours=facts.hours,
        board_feet=facts.board_feet,
        pieces=facts.quantity,
    )


def _like(here: Traits, known: Sequence[_Known]) -> tuple[Like, ...]:
    """The past jobs by likeness, the likest first; of two as like, the later."""
    ranges = ranges_of([here, *(item.traits for item in known)])
    out = []
    for item in known:
        compared, facts = compare(here, item.traits, ranges), item.facts
        price = Money(facts.price, facts.currency) if facts.price is not None else None
        out.append(
            Like(
                facts.key,
                facts.name,
                facts.last_day,
                likeness(compared),
                compared,
                facts.hours_h,
                price,
                facts.quantity,
            )
        )
    out.sort(key=lambda found: (found.day or date.min, found.job), reverse=True)
    out.sort(key=lambda found: -found.likeness)
    return tuple(out)


def _scaled(enquiry: Job, past: Sequence[KnownJob], like: Sequence[Like]) -> dict[str, Range]:
    """The drivers of an enquiry without parts, from past jobs; those that no past job tells are none."""
    return scaled_drivers(enquiry, [(job.facts, job.facts.drivers) for job in past], like)


# -- what is told ----------------------------------------------------------------------------------


def _told(
    enquiry: Job, past: Sequence[PastFacts], hours: HoursEstimate, bought: MaterialsEstimate
) -> tuple[Problem, ...]:
    """What the estimate lacks, and what would mend it."""
    problems = Problems()
    left_out = [job.name for job in past if job.books_hours and not job.is_delivered]
    if left_out:
        problems.warn(
            "job.toml",
            f"Not delivered yet, so what they took is not known and not counted: {listed(left_out)}.",
            "Write delivered when a piece has gone.",
            field="delivered",
        )
    if hours.total is None:
        least = method().range.learnt
        problems.warn(
            "notes.md",
            f"Only {hours.jobs} past jobs tell their hours, and {least} are needed: this is materials only."
            if hours.jobs
            else "Past hours name no stage of the work, and each stage is reckoned apart: this is materials only."
            if any(job.is_delivered and job.books_hours for job in past)
            else "No past job tells its hours: this is materials only.",
            "Book hours in the notes, such as Hours: milling 2.5, joinery 1 1/4.",
        )
    untold = [stage.stage for stage in hours.by_stage if stage.hours is None]
    if untold:
        problems.warn(
            "notes.md",
            f"No past job tells how long this takes, so it is not in the sum: {listed(untold)}.",
            "Add these hours by hand.",
        )
    if bought.unpriced:
        problems.warn(
            "prices.csv",
            f"No price is known for these, so they are not in the sum: {listed(bought.unpriced)}.",
            "Write it in parts.csv (price, per), or in prices.csv.",
        )
    if enquiry.shop.country_code == _BINDING:
        problems.warn(
            "shop.toml",
            "In Austria an estimate binds towards a consumer where nothing else is said (KSchG § 5).",
            "If it is not to bind, say so in excluded.",
            field="country",
        )
    for wood in enquiry.woods:
        if not tables.species().key_of(wood, enquiry.shop.place):
            near = tables.species().nearest(wood, 1)
            hint = f"Did you mean “{near[0]}”?" if near else "Name it as in parts.csv."
            problems.warn("job.toml", f"“{wood}” is not a wood that is known here.", hint, field="woods")
    if enquiry.shop.hour_rate is None:
        problems.warn(
            "shop.toml",
            "There is no rate for an hour, so there is no price.",
            "Write hour_rate.",
            field="hour_rate",
        )
    return problems.ordered()

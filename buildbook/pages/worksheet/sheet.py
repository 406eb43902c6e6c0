"""Worksheet: everything that an estimate says and leans on, for the maker. Private.

Ready-made text and figures; a theme lays out and never computes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from buildbook.estimate.model import Estimate, HoursEstimate, Like, SetHours
from buildbook.estimate.wording import NEAR, differences, reasons
from buildbook.job.model import Job
from buildbook.pages import sets
from buildbook.pages.drawn.ranges import RangeChart, low_to_high
from buildbook.pages.ledger import Ledger, sum_of_money
from buildbook.pages.materials import woods_colours
from buildbook.pages.notice import Notice, problem_line
from buildbook.pages.phrases import Phrases, capital
from buildbook.pages.shared import Line
from buildbook.pages.worksheet.hours import hours_chart, hours_table, untold
from buildbook.pages.worksheet.money import materials_table, payments_table, price_table
from buildbook.pages.worksheet.tested import tested_chart, tested_sentences, tested_table
from buildbook.summary.sets import each_of, share_of

_LIKE_SHOWN = 6  # past jobs that are told in full
_METHOD = ("stages", "weights", "range", "materials", "price")


@dataclass(frozen=True)
class Answer:
    """A figure that was asked for, from low over the middle to high; no figure stands alone."""

    label: str
    low: str
    middle: str
    high: str


@dataclass(frozen=True)
class LikeJob:
    """A past job that is like the enquiry. `folder` is the name of its folders in a book."""

    title: str
    day: str
    iso: str
    likeness: str
    alike: tuple[str, ...]
    differs: tuple[str, ...]
    hours: str
    price: str
    folder: str


@dataclass(frozen=True)
class Worksheet:
    """An estimate as the maker reads it: the answer first, then what it leans on, at last how it was reckoned."""

    language: str
    title: str
    number: str
    facts: tuple[Line, ...]
    answers: tuple[Answer, ...]
    leans: tuple[str, ...]
    problems: tuple[Notice, ...]
    like: tuple[LikeJob, ...]
    like_more: str
    hours: Ledger | None
    hours_chart: RangeChart | None
    untold: tuple[str, ...]
    materials: Ledger | None
    price: Ledger | None
    payments: Ledger | None
    tested: tuple[str, ...]
    tested_chart: RangeChart | None
    tested_table: Ledger | None
    reckoned: tuple[str, ...]
    wood_colours: tuple[str, str]

    @property
    def tables(self) -> tuple[Ledger, ...]:
        """Every table that there is, in the order of the page."""
        every = (self.hours, self.materials, self.price, self.payments, self.tested_table)
        return tuple(table for table in every if table)


def worksheet_of(estimate: Estimate) -> Worksheet:
    """The whole worksheet of an estimate. Pure."""
    job = estimate.enquiry
    phrases = Phrases.of(job)
    rest = len(estimate.like) - _LIKE_SHOWN
    return Worksheet(
        language=phrases.words.language,
        title=job.name,
        number=job.number,
        facts=tuple(_facts(estimate, phrases)),
        answers=tuple(_answers(estimate, phrases)),
        leans=tuple(_leans(estimate, phrases)),
        problems=tuple(problem_line(problem, phrases) for problem in estimate.problems),
        like=tuple(_like(like, phrases) for like in estimate.like[:_LIKE_SHOWN]),
        like_more=phrases.count("worksheet.like_more", rest) if rest > 0 else "",
        hours=hours_table(estimate.hours, phrases),
        hours_chart=hours_chart(estimate.hours, phrases),
        untold=tuple(untold(estimate.hours, phrases)),
        materials=materials_table(estimate, phrases),
        price=price_table(estimate, phrases),
        payments=payments_table(estimate, phrases),
        tested=tuple(tested_sentences(estimate.backtest, phrases)),
        tested_chart=tested_chart(estimate.backtest, phrases),
        tested_table=tested_table(estimate.backtest, phrases),
        reckoned=tuple(phrases(f"worksheet.reckoned_by.{step}") for step in _METHOD),
        wood_colours=woods_colours(job, estimate.summary),
    )


def _facts(estimate: Estimate, phrases: Phrases) -> Iterator[Line]:
    job, of = estimate.enquiry, estimate.summary
    rows = (
        ("log.client", job.client),
        ("log.piece", job.piece),
        ("set.label", phrases("letter.pieces", count=job.quantity) if job.quantity > 1 else ""),
        ("log.size", sets.each(phrases.style.size_both(*job.overall.metres), job, phrases)),
        ("figures.contents", sets.each(_carries(job, phrases), job, phrases)),
        ("log.mass", _kilograms(each_of(of).mass_kg, of.mass.total_kg, job, phrases)),
        ("figures.carbon", _kilograms(each_of(of).stored_kg_co2, of.carbon.stored_kg_co2, job, phrases)),
        ("worksheet.woods", ", ".join(job.woods)),
        ("log.joinery", ", ".join(job.joinery)),
        ("log.tags", ", ".join(job.tags)),
        ("worksheet.reckoned_on", phrases.short_date(estimate.day)),
        ("worksheet.holds", phrases.short_date(estimate.holds_until) if estimate.holds_until else ""),
    )
    for key, value in rows:
        if value:
            yield Line(phrases(key), value)


def _carries(job: Job, phrases: Phrases) -> str:
    return phrases.style.mass(job.contents_kg) if job.contents_kg and job.quantity > 1 else ""


def _kilograms(each_kg: float, all_kg: float, job: Job, phrases: Phrases) -> str:
    """What a piece of a set weighs or holds, and all of them, where parts tell."""
    if job.quantity == 1 or not all_kg:
        return ""
    return sets.each_and_all(phrases.style.mass(each_kg, 1), phrases.style.mass(all_kg, 1), job, phrases)


# -- the answer --------------------------------------------------------------------------------------


def _answers(estimate: Estimate, phrases: Phrases) -> Iterator[Answer]:
    hours, price, lead = estimate.hours.total, estimate.price, estimate.lead
    if hours:
        told = low_to_high(hours.low, hours.median, hours.high, phrases.style)
        yield Answer(phrases("worksheet.hours"), *told)
    if of_set := estimate.hours.of_set:
        following = phrases.count("worksheet.hours_following", of_set.quantity - 1)
        for label, part in (
            (phrases("worksheet.hours_first"), of_set.first),
            (following, of_set.following),
        ):
            yield Answer(label, *low_to_high(part.low, part.median, part.high, phrases.style))
    if price:
        taxed = price.net_median != price.median
        label = phrases("worksheet.price_with_tax" if taxed else "worksheet.price")
        asked = (price.low, price.median, price.high)
        yield Answer(label, *sum_of_money(asked, phrases))
        if taxed:
            net = (price.net_low, price.net_median, price.net_high)
            yield Answer(phrases("worksheet.price_net"), *sum_of_money(net, phrases, beside=asked))
        if (count := estimate.enquiry.quantity) > 1:
            each = [share_of(amount, count) for amount in asked]
            yield Answer(phrases("worksheet.price_each"), *sum_of_money(each, phrases, beside=asked))
    if lead.ready_median or lead.ready_high:
        yield Answer(
            phrases("worksheet.ready"), "", _day(lead.ready_median, phrases), _day(lead.ready_high, phrases)
        )


def _day(day: date | None, phrases: Phrases) -> str:
    return phrases.date(day) if day else ""


def _leans(estimate: Estimate, phrases: Phrases) -> Iterator[str]:
    """What the range means and what the answer leans on; what could not be told, and what that takes."""
    hours, lead = estimate.hours, estimate.lead
    if hours.total:
        yield phrases("worksheet.answer_means")
        yield _leaning(hours, phrases)
        if of_set := hours.of_set:
            yield _learning(of_set, phrases)
    else:
        yield phrases("worksheet.no_hours")
    if estimate.price is None:
        yield phrases("worksheet.no_price")
    if lead.begin:
        yield phrases("worksheet.begin", day=phrases.date(lead.begin))
    if lead.ready_median is None and hours.total:
        yield phrases("worksheet.no_lead")


def _leaning(hours: HoursEstimate, phrases: Phrases) -> str:
    lean = hours.lean if hours.lean in ("past", "few") else "usual"
    return phrases(
        f"worksheet.leans_{lean}",
        jobs=phrases.count("worksheet.jobs", hours.jobs),
        scores=phrases.count("worksheet.quotes", hours.scores),
    )


def _learning(of_set: SetHours, phrases: Phrases) -> str:
    """How much less following pieces take, and where that is from."""
    rate = phrases.style.percent(of_set.rate_pct)
    if not of_set.from_sets:
        return phrases("worksheet.learning_published", rate=rate)
    own = phrases.count("worksheet.own_sets", of_set.from_sets)
    return phrases("worksheet.learning_own", rate=rate, sets=own)


# -- like this one -----------------------------------------------------------------------------------


def _like(like: Like, phrases: Phrases) -> LikeJob:
    clearly = replace(like, compared=tuple(trait for trait in like.compared if trait.alike < NEAR))
    return LikeJob(
        title=like.title,
        day=phrases.short_date(like.day) if like.day else "",
        iso=like.day.isoformat() if like.day else "",
        likeness=phrases("worksheet.likeness", pct=phrases.style.percent(100 * like.likeness)),
        alike=tuple(capital(reason) for reason in reasons(like, phrases.words)),
        differs=tuple(capital(reason) for reason in differences(clearly, phrases.words)),
        hours=_for_pieces(phrases.style.hours(round(like.hours_h, 1)), like, phrases),
        price=_for_pieces(sum_of_money((like.price,), phrases)[0], like, phrases) if like.price else "",
        folder=like.job,
    )


def _for_pieces(whole: str, like: Like, phrases: Phrases) -> str:
    """What a past job came to; of a set, for how many pieces."""
    return phrases("worksheet.for_pieces", value=whole, count=like.quantity) if like.quantity > 1 else whole

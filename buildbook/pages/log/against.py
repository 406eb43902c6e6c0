"""The estimate that a job was ordered on against what it took, in the build log. Private."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from buildbook.pages.drawn.ranges import RangeChart, RangeRow, low_to_high, range_chart, signed, span_in_prose
from buildbook.pages.ledger import Ledger, ledger, sum_of_money
from buildbook.pages.phrases import Phrases
from buildbook.summary.model import MoneyAgainst, QuotedAgainst, StageAgainst, Summary


@dataclass(frozen=True)
class Against:
    """Hours by stage and money, estimated and actual, with the sentence that says how the whole came out."""

    heading: str
    sentence: str
    chart: RangeChart | None
    hours: Ledger | None
    money: Ledger | None


def against_of(summary: Summary, phrases: Phrases) -> Against | None:
    """The comparison; None for a job that holds no estimate."""
    quoted = summary.quoted
    if quoted is None:
        return None
    return Against(
        phrases("worksheet.against.heading"),
        _sentence(quoted, phrases),
        _chart(quoted, phrases),
        _hours(quoted, phrases),
        _money(summary, phrases),
    )


def _sentence(quoted: QuotedAgainst, phrases: Phrases) -> str:
    total, style = quoted.total, phrases.style
    actual = style.hours(total.actual_h)
    if total.low_h is None or total.median_h is None or total.high_h is None:
        return phrases("worksheet.against.no_total", actual=actual)
    told = span_in_prose(total.low_h, total.median_h, total.high_h, style)
    if quoted.delivered:
        side = _side(bool(total.in_range), total.actual_h, total.median_h)
        pct = style.percent(abs(total.difference_pct or 0.0))
        return phrases(f"worksheet.against.took_{side}", actual=actual, pct=pct, range=told)
    over = total.in_range is False
    return phrases(f"worksheet.against.{'over_already' if over else 'so_far'}", actual=actual, range=told)


def _side(in_range: bool, actual: float, median: float) -> str:
    return "inside" if in_range else "above" if actual > median else "below"


def _where(in_range: bool | None, actual: float, median: float, phrases: Phrases) -> str:
    """Whether the range held, in words; nothing while that is open."""
    if in_range is None:
        return ""
    return phrases(f"worksheet.in_range.{_side(in_range, actual, median)}")


# -- hours -------------------------------------------------------------------------------------------


def _hours(quoted: QuotedAgainst, phrases: Phrases) -> Ledger | None:
    columns = ("stage", "#low", "#middle", "#high", "#booked", "#difference", "judged")
    totals = (phrases("log.total"), *_figures(quoted.total, phrases))
    rows = [(phrases.stage(stage.stage), *_figures(stage, phrases)) for stage in quoted.by_stage]
    return ledger(
        phrases, "against_hours", columns, rows, heading="worksheet.against.by_stage", totals=totals
    )


def _figures(stage: StageAgainst, phrases: Phrases) -> tuple[str, ...]:
    style = phrases.style
    booked = style.hours(stage.actual_h) if stage.actual_h else phrases("worksheet.against.not_booked")
    if stage.low_h is None or stage.median_h is None or stage.high_h is None:
        return "", "", "", booked, "", phrases("worksheet.against.not_estimated")
    return (
        *low_to_high(stage.low_h, stage.median_h, stage.high_h, style),
        booked,
        signed(stage.difference_pct, style) if stage.difference_pct is not None else "",
        _where(stage.in_range, stage.actual_h, stage.median_h, phrases),
    )


def _chart(quoted: QuotedAgainst, phrases: Phrases) -> RangeChart | None:
    return range_chart(
        list(_rows(quoted, phrases)),
        phrases,
        title=phrases("worksheet.against.title"),
        sentence=phrases("worksheet.against.picture"),
    )


def _rows(quoted: QuotedAgainst, phrases: Phrases) -> Iterator[RangeRow]:
    """A stage each; what is neither estimated nor booked has nothing to draw. What goes on has no verdict yet."""
    for stage in quoted.by_stage:
        if stage.low_h is None and not stage.actual_h:
            continue
        shown = stage.actual_h or quoted.delivered
        yield RangeRow(
            label=phrases.stage(stage.stage),
            words=phrases.style.hours(stage.actual_h),
            low_h=stage.low_h,
            median_h=stage.median_h,
            high_h=stage.high_h,
            actual_h=stage.actual_h if shown else None,
            missed=stage.in_range is False,
        )


# -- money -------------------------------------------------------------------------------------------


def _money(summary: Summary, phrases: Phrases) -> Ledger | None:
    quoted = summary.quoted
    told = (("materials", quoted.materials), ("price", quoted.price)) if quoted else ()
    rows = [
        (
            phrases(f"worksheet.step.{key}"),
            *_amounts(against, phrases, whole=key == "price" or not summary.cost.unpriced),
        )
        for key, against in told
        if against
    ]
    notes = []
    if summary.cost.unpriced and quoted and quoted.materials and quoted.materials.actual:
        notes.append(phrases("cost.unpriced", what=phrases.without_price(summary)))
    if any(
        against and against.actual and against.actual.currency != against.low.currency for _, against in told
    ):
        notes.append(phrases("worksheet.against.other"))
    columns = ("what", "#low", "#middle", "#high", "#was", "#difference", "judged")
    return ledger(phrases, "against_money", columns, rows, heading="worksheet.against.money", notes=notes)


def _amounts(against: MoneyAgainst, phrases: Phrases, *, whole: bool) -> tuple[str, ...]:
    actual, median = against.actual, against.median
    difference = against.difference_pct
    compared = actual is not None and actual.currency == median.currency
    return (
        *sum_of_money((against.low, median, against.high), phrases),
        phrases.at_least(sum_of_money((actual,), phrases)[0], whole) if actual else "",
        signed(difference, phrases.style) if difference is not None else "",
        _where(against.in_range, float(actual.amount), float(median.amount), phrases)
        if actual and compared
        else "",
    )

"""Hours by stage on a worksheet: table, picture, and the stages that nobody can tell."""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.estimate.model import HoursEstimate, Range, StageEstimate
from buildbook.pages.drawn.ranges import RangeChart, RangeRow, low_to_high, range_chart, span
from buildbook.pages.ledger import Ledger, ledger
from buildbook.pages.phrases import Phrases, capital
from buildbook.pages.worksheet.figures import sentences, volume
from buildbook.quantity import Style

_NONE = "none"  # the driver of a stage that goes with nothing in the parts
_AREAS, _VOLUMES = ("finish_area",), ("rough_volume",)
_NOTICED_PCT = 1.0  # a smaller correction is none


def hours_table(hours: HoursEstimate, phrases: Phrases) -> Ledger | None:
    """The stages that past jobs tell of, with the whole below them."""
    style, whole = phrases.style, hours.total
    rows = [_row(stage, stage.hours, phrases) for stage in hours.by_stage if stage.hours]
    totals: tuple[str, ...] = ()
    if whole:
        totals = (phrases("log.total"), *_figures(whole, style), "", "", "", str(hours.jobs), "")
    return ledger(
        phrases,
        "by_stage",
        ("stage", "#low", "#middle", "#high", "driver", "#amount", "#exponent", "#from_jobs", "leans"),
        rows,
        totals=totals,
        notes=_notes(hours, phrases),
    )


def _row(stage: StageEstimate, hours: Range, phrases: Phrases) -> tuple[str, ...]:
    goes = stage.driver != _NONE
    return (
        stage.stage,
        *_figures(hours, phrases.style),
        capital(phrases.words.name("estimate.driver", stage.driver, stage.driver)),
        amount_of(stage, phrases.style) if goes else "",
        phrases.style.number(stage.exponent, 2) if goes else "",
        str(stage.from_jobs),
        sentences(stage.said, phrases),
    )


def _figures(hours: Range, style: Style) -> tuple[str, ...]:
    return low_to_high(hours.low, hours.median, hours.high, style)


def amount_of(stage: StageEstimate, style: Style) -> str:
    """How much of its driver the enquiry has, in the shop's units; a count that was scaled may be broken."""
    if stage.driver in _VOLUMES:
        return volume(stage.amount, style)
    return style.area(stage.amount) if stage.driver in _AREAS else style.trimmed(stage.amount, 1)


def _notes(hours: HoursEstimate, phrases: Phrases) -> Iterator[str]:
    if any(stage.hours and stage.driver != _NONE for stage in hours.by_stage):
        yield phrases("worksheet.note_exponent")
    if hours.of_set:
        yield phrases("worksheet.note_set", count=hours.of_set.quantity)
    if hours.total:
        yield phrases("worksheet.note_total")
    if hours.rare:
        yield phrases("worksheet.note_rare", stages=phrases.listed(hours.rare))
    changed = 100 * (hours.correction - 1)
    if abs(changed) >= _NOTICED_PCT:
        way = "up" if changed > 0 else "down"
        yield phrases(f"worksheet.corrected_{way}", pct=phrases.style.percent(abs(changed)))
    if abs(hours.drift_pct) >= _NOTICED_PCT:
        way = "slower" if hours.drift_pct > 0 else "faster"
        yield phrases(f"worksheet.{way}", pct=phrases.style.percent(abs(hours.drift_pct), 1))


def untold(hours: HoursEstimate, phrases: Phrases) -> Iterator[str]:
    """A sentence a stage that no past job tells of: it is not in the total, and not nothing."""
    for stage in hours.by_stage:
        if stage.hours is None:
            yield phrases("worksheet.untold", stage=stage.stage, said=sentences(stage.said, phrases))


def hours_chart(hours: HoursEstimate, phrases: Phrases) -> RangeChart | None:
    """A bar a stage; the whole is in the table, on an axis of its own it would say nothing of them."""
    told = [(stage.stage, stage.hours) for stage in hours.by_stage if stage.hours]
    if not told:
        return None
    rows = [RangeRow(name, _span(h, phrases.style), h.low, h.median, h.high) for name, h in told]
    most, most_h = max(told, key=lambda item: item[1].median)
    return range_chart(
        rows,
        phrases,
        title=phrases("worksheet.stages_title"),
        sentence=phrases("worksheet.stages_sentence", stage=most, hours=_span(most_h, phrases.style)),
    )


def _span(hours: Range, style: Style) -> str:
    return span(hours.low, hours.median, hours.high, style)

"""How well the shop's past would have been quoted: sentences, a picture and a table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from buildbook.estimate.model import Backtest, Tried
from buildbook.estimate.settings import method
from buildbook.pages.drawn.ranges import RangeChart, RangeRow, about, low_to_high, range_chart, signed
from buildbook.pages.ledger import Ledger, ledger
from buildbook.pages.phrases import Phrases

_DRAWN = 30  # jobs in the picture: more would not be read


def tested_sentences(test: Backtest, phrases: Phrases) -> Iterator[str]:
    """The figures, before anything is drawn: how far off, how often in the range, and what plain ways would do."""
    if not test.tried or test.median_abs_error_pct is None:
        yield phrases("worksheet.tested_none")
        return
    percent, count = phrases.style.percent, len(test.tried)
    error = percent(test.median_abs_error_pct)
    if test.could > count:
        yield phrases("worksheet.tested_error_latest", count=count, could=test.could, error=error)
    else:
        yield phrases("worksheet.tested_error", count=count, error=error)
    held = sum(tried.in_range for tried in test.tried)
    yield phrases(
        "worksheet.tested_range",
        held=held,
        count=count,
        pct=percent(100 * held / count),
        wanted=percent(100 * method().range.coverage),
    )
    if test.mean_hours_error_pct is not None:
        both = test.per_board_foot_error_pct is not None
        yield phrases(
            "worksheet.tested_plain_both" if both else "worksheet.tested_plain_mean",
            mean=percent(test.mean_hours_error_pct),
            board_feet=percent(test.per_board_foot_error_pct or 0.0),
        )


def in_order(tried: Sequence[Tried]) -> list[Tried]:
    """By the day they were done; what has no day first."""
    return sorted(tried, key=lambda job: (job.day or date.min, job.job))


def tested_chart(test: Backtest, phrases: Phrases) -> RangeChart | None:
    """The range of each estimate against what the job took, on an axis of ratios."""
    ordered = in_order(test.tried)
    drawn = ordered[-_DRAWN:]
    sentence = phrases("worksheet.tested_sentence")
    if len(drawn) < len(ordered):
        sentence += " " + phrases("worksheet.tested_last", shown=len(drawn), count=len(ordered))
    rows = [
        RangeRow(
            label=tried.title,
            words=judged(tried.actual_h, tried.hours.low, tried.hours.high, phrases),
            low_h=tried.hours.low,
            median_h=tried.hours.median,
            high_h=tried.hours.high,
            actual_h=tried.actual_h,
            missed=not tried.in_range,
        )
        for tried in drawn
    ]
    return range_chart(rows, phrases, title=phrases("worksheet.tested_title"), sentence=sentence, ratios=True)


def judged(actual_h: float, low_h: float, high_h: float, phrases: Phrases) -> str:
    """What it took, and on which side of the range where it lies outside: `84 h, above`."""
    hours = about(actual_h, phrases.style)
    side = "above" if actual_h > high_h else "below" if actual_h < low_h else ""
    return phrases(f"worksheet.{side}", hours=hours) if side else hours


def tested_table(test: Backtest, phrases: Phrases) -> Ledger | None:
    """Every job that was tried, in order of time."""
    columns = (
        "job",
        "done",
        "#from_jobs",
        "#took",
        "#low",
        "#middle",
        "#high",
        "#error",
        "judged",
        "#mean",
        "#board_feet",
    )
    rows = [_row(tried, phrases) for tried in in_order(test.tried)]
    return ledger(phrases, "tried", columns, rows)


def _row(tried: Tried, phrases: Phrases) -> tuple[str, ...]:
    style, hours = phrases.style, tried.hours
    where = "inside" if tried.in_range else "above" if tried.actual_h > hours.high else "below"
    plain = tried.per_board_foot_h
    return (
        tried.title,
        phrases.short_date(tried.day) if tried.day else "",
        str(tried.from_jobs),
        about(tried.actual_h, style),
        *low_to_high(hours.low, hours.median, hours.high, style),
        signed(tried.error_pct, style),
        phrases(f"worksheet.in_range.{where}"),
        about(tried.mean_h, style),
        about(plain, style) if plain is not None else "",
    )

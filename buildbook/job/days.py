"""A day as makers write it, in full: `2026-03-02`, `2.3.2026`, `2 March 2026`, `Mar 2, 2026`.

In: a text. Out: the day. QuantityError for a day that does not exist, for one whose figures could be either way round,
and for what is none. The shapes are those that open a day in the notes.
"""

from __future__ import annotations

import re
from datetime import date

from buildbook.job.text import shown
from buildbook.quantity import QuantityError
from buildbook.quantity.mangled import month_of
from buildbook.trade.days import MONTHS_OF_YEAR

_CENTURY = 2000
_SHORT_YEAR = 2  # digits
_WEEKDAY = r"(?:(?:mo|di|mi|do|fr|sa|so|mon|tue|wed|thu|fri|sat|sun)[a-zé]{0,9}\.?,?\s+)?"
_ORDINAL = r"(?:st|nd|rd|th)?"
_YEAR = r"(?P<year>\d{4})(?!\d)"
SHAPES = (
    re.compile(r"(?P<year>\d{4})(?P<sign>[-/.])(?P<month>\d{1,2})(?P=sign)(?P<day>\d{1,2})(?!\d)"),
    re.compile(r"(?P<year>20\d{2})(?P<month>0[1-9]|1[0-2])(?P<day>[0-3]\d)(?!\d)"),
    re.compile(
        rf"{_WEEKDAY}(?P<day>\d{{1,2}})(?P<sign>[- ])(?P<month>[^\W\d_]{{3,9}})\.?(?P=sign)"
        r"(?P<year>\d{4}|\d{2}(?=$|[\s:]))(?!\d)",
        re.IGNORECASE,
    ),
    re.compile(
        rf"{_WEEKDAY}(?P<day>\d{{1,2}})\.\s?(?P<month>\d{{1,2}})\.\s?(?P<year>\d{{4}}|\d{{2}})(?!\d)",
        re.IGNORECASE,
    ),
    re.compile(
        rf"{_WEEKDAY}(?P<day>\d{{1,2}}){_ORDINAL}\.?\s+(?:of\s+)?(?P<month>[^\W\d_]{{3,9}})\.?,?\s+{_YEAR}",
        re.IGNORECASE,
    ),
    re.compile(
        rf"{_WEEKDAY}(?P<month>[^\W\d_]{{3,9}})\.?\s+(?P<day>\d{{1,2}}){_ORDINAL},?\s+{_YEAR}", re.IGNORECASE
    ),
)
"""A day by figures with the year first, or by points with the day first, or with its month in words. One written with
strokes and the year last is none of these: which figure is the month hangs on who wrote it."""

_NO_SIZE = r"(?=$|[ :,–—-])(?! ?(?:in\b|\"|x\b|ply|stock))"
_MONTH_DAY, _DAY_MONTH = r"(?P<month>\d{1,2})/(?P<day>\d{1,2})", r"(?P<day>\d{1,2})/(?P<month>\d{1,2})"
MONTH_FIRST = re.compile(rf"{_WEEKDAY}{_MONTH_DAY}/(?P<year>\d{{4}}|\d{{2}})(?!\d)", re.IGNORECASE)
MONTH_FIRST_YEARLESS = re.compile(rf"{_WEEKDAY}{_MONTH_DAY}{_NO_SIZE}", re.IGNORECASE)
"""What a shop that writes the month first means by figures with strokes."""

DAY_FIRST = re.compile(rf"{_WEEKDAY}{_DAY_MONTH}/(?P<year>\d{{4}}|\d{{2}})(?!\d)", re.IGNORECASE)
DAY_FIRST_YEARLESS = re.compile(rf"{_WEEKDAY}{_DAY_MONTH}{_NO_SIZE}", re.IGNORECASE)
"""The same of a shop that writes the day first."""

ORDINAL = re.compile(rf"{_WEEKDAY}(?P<day>\d{{1,2}})(?:st|nd|rd|th)(?=\s*(?:$|[:,–—-]))", re.IGNORECASE)
"""A day of the month that the day above it says."""

YEARLESS = (
    re.compile(
        rf"{_WEEKDAY}(?P<day>\d{{1,2}})\.\s?(?P<month>\d{{1,2}})\.(?!\d)(?!\s?\d{{2,}})", re.IGNORECASE
    ),
    re.compile(
        rf"{_WEEKDAY}(?P<day>\d{{1,2}}){_ORDINAL}\.?\s+(?:of\s+)?(?P<month>[^\W\d_]{{3,9}})\b\.?",
        re.IGNORECASE,
    ),
    re.compile(
        rf"{_WEEKDAY}(?P<month>[^\W\d_]{{3,9}})\.?\s+(?P<day>\d{{1,2}})(?!\d){_ORDINAL}(?![\w/]|:\d)",
        re.IGNORECASE,
    ),
)
"""A day without its year, which its neighbours say."""

STROKES = re.compile(rf"{_WEEKDAY}\d{{1,2}}/\d{{1,2}}(?:/\d{{2,4}})?(?![\d/\"”″])", re.IGNORECASE)
"""A day of which it is not clear which figure is the month."""

BOTH_WAYS = "Write year-month-day, such as 2026-03-02."


def month(text: str) -> int | None:
    """The number of a month by its figures or its name."""
    return int(text) if text.isdigit() else month_of(text)


def full_year(text: str) -> int:
    """26 is 2026; 0001 is what it says."""
    return int(text) + (_CENTURY if len(text) == _SHORT_YEAR else 0)


def _sure(match: re.Match[str]) -> date | None:
    """The day of figures with strokes of which one can be no month: 13/10/2026."""
    one, other = int(match["day"]), int(match["month"])
    if (one > MONTHS_OF_YEAR) == (other > MONTHS_OF_YEAR):
        return None
    day, in_month = (one, other) if one > MONTHS_OF_YEAR else (other, one)
    try:
        return date(full_year(match["year"]), in_month, day)
    except ValueError:
        return None


def read_day(text: str) -> date:
    """The day that a text is, and nothing beside."""
    said = text.strip()
    found = next(
        (match for shape in SHAPES if (match := shape.fullmatch(said)) and month(match["month"])), None
    )
    if found is None:
        if (stroked := DAY_FIRST.fullmatch(said)) and (sure := _sure(stroked)):
            return sure
        if STROKES.fullmatch(said):
            raise QuantityError(f"{shown(said)} does not say which is the month.", BOTH_WAYS)
        raise QuantityError(f"{shown(said)} is not a day that can be read.", BOTH_WAYS)
    try:
        return date(full_year(found["year"]), month(found["month"]) or 0, int(found["day"]))
    except ValueError:
        raise QuantityError(
            f"{shown(said)} is a day that does not exist.", "Write such as 2026-03-02."
        ) from None

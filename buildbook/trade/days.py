"""Days reckoned from days: so many days or months on, or none where the calendar has no such day.

In: dates, days, months. Out: dates, or None beyond the year 9999 or before the year 1.
"""

from __future__ import annotations

import calendar
import math
from datetime import MAXYEAR, MINYEAR, date, timedelta

MONTHS_OF_YEAR = 12
SHORTEST_MONTH = 28


def days_after(start: date, days: float) -> date | None:
    """A date some days on; a part of a day counts as a day."""
    try:
        return start + timedelta(days=math.ceil(days))
    except (OverflowError, ValueError):  # beyond the calendar, or no number of days at all
        return None


def add_months(start: date, months: int) -> date | None:
    """The same day some months on; the last day of the month where it has no such day (31 January + 1 =
    28 or 29 February).
    """
    year, month = divmod(start.year * MONTHS_OF_YEAR + start.month - 1 + months, MONTHS_OF_YEAR)
    if not MINYEAR <= year <= MAXYEAR:
        return None
    last = calendar.monthrange(year, month + 1)[1]
    return date(year, month + 1, min(start.day, last))


def repeatable(day: date) -> date:
    """The day, or the 28th before it: one that every month of every year has, so that what repeats skips none."""
    return day.replace(day=min(day.day, SHORTEST_MONTH))


def half_a_year_on(month: int) -> int:
    """The month of the other half of the world that has the same season; 1 is January."""
    return (month - 1 + MONTHS_OF_YEAR // 2) % MONTHS_OF_YEAR + 1


def next_first_of(month: int, start: date) -> date | None:
    """The first of a month, on a day or after it; None beyond the calendar."""
    year = start.year + (date(start.year, month, 1) < start)
    return date(year, month, 1) if year <= MAXYEAR else None

"""What a cell of a spreadsheet says, as text: the one that the same table saved as CSV would hold, and readers of cells
read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal

from buildbook.job.signs import NO_SIGN
from buildbook.quantity.units import KINDS, LENGTH_UNITS

_DIGITS = 15  # significant ones that a spreadsheet keeps
_THOUSANDS = re.compile(r"-?\d{1,3}\.\d{3}")
_UNIT_AFTER = re.compile(r"\d\s*(?P<unit>[^\d\s.,/%-][^\d]*)$")
_MINUTE_S, _HOUR_S = 60, 3600


@dataclass(frozen=True)
class Cell:
    """What a cell says; `unsaved` where it is a formula whose value was never saved."""

    text: str
    unsaved: bool = False


Rows = Iterator[tuple[int, Sequence[Cell]]]
"""The rows that hold something, each with its number."""


def plain_text(text: str) -> str:
    """Text of a cell, its line breaks as they are, without what is no sign."""
    return NO_SIGN.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))


def number_text(value: float, shown: str, *, decimal_comma: bool) -> str:
    """A number with all its digits, and the unit or the percent sign that it is shown with. A third decimal gets a zero
    after it where it could be taken for a mark of thousands.
    """
    if value in (float("inf"), float("-inf")) or value != value:
        return str(value)
    percent = shown.rstrip().endswith("%")
    exact = Decimal(format(value, f".{_DIGITS}g")) * (100 if percent else 1)
    digits = format(exact, "f")
    if "." in digits:
        digits = digits.rstrip("0").rstrip(".")
    if _THOUSANDS.fullmatch(digits):
        digits += "0"
    if decimal_comma:
        digits = digits.replace(".", ",")
    return f"{digits}%" if percent else f"{digits} {unit}" if (unit := _unit_of(shown)) else digits


def _unit_of(shown: str) -> str:
    """The unit of a length or a mass at the end of a number as it is shown; empty where there is none."""
    match = _UNIT_AFTER.search(shown.strip())
    unit = match["unit"].strip() if match else ""
    return unit if unit in LENGTH_UNITS or unit in KINDS["mass"].spellings else ""


def day_text(day: date) -> str:
    """A day as year-month-day; with the time of it where it has one."""
    if isinstance(day, datetime):
        return f"{day:%Y-%m-%d %H:%M}" if day.time() != time() else f"{day:%Y-%m-%d}"
    return day.isoformat()


def time_text(of_day: time | timedelta) -> str:
    """A time of the day, or a duration, as hours:minutes; seconds where there are any."""
    if isinstance(of_day, time):
        of_day = timedelta(hours=of_day.hour, minutes=of_day.minute, seconds=of_day.second)
    sign, whole = ("-", -of_day) if of_day < timedelta() else ("", of_day)
    seconds = round(whole.total_seconds())
    hours, rest = divmod(seconds, _HOUR_S)
    minutes, left = divmod(rest, _MINUTE_S)
    return f"{sign}{hours:02}:{minutes:02}" + (f":{left:02}" if left else "")

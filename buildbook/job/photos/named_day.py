"""Day and time that the name of a file says, by the patterns of data/names.toml, which is read once. Pure."""

from __future__ import annotations

import re
import tomllib
from datetime import UTC, date, datetime, time, timedelta
from functools import cache
from importlib import resources
from typing import Any, NamedTuple

from buildbook.job.believable import believable
from buildbook.quantity.mangled import month_of

_BELIEVABLE = "day of a photo"
_MONTHS, _HALF_DAY, _CENTURY, _SHORT_YEAR = 12, 12, 2000, 2
_BEGIN = datetime(1970, 1, 1, tzinfo=UTC)
_FINGERPRINT = re.compile(
    r"(?=[^a-f]*[a-f])(?:[0-9a-f]{24,}|[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})", re.IGNORECASE
)


class NamedDay(NamedTuple):
    """What a name says: the day, and the time where it says that too."""

    day: date
    time: time | None

    @property
    def taken(self) -> datetime:
        """Without a time the first moment of the day."""
        return datetime.combine(self.day, self.time or time())


def day_in(stem: str) -> NamedDay | None:
    """The day that a file's name says, without its ending; None where it says none that there was and that is
    believable.
    """
    if _FINGERPRINT.search(stem):
        return None
    for pattern in _patterns():
        for match in pattern.finditer(stem):
            said = match.groupdict()
            day = _day(said)
            if day and believable(_BELIEVABLE).holds(day):
                return NamedDay(day, _time(said))
    return None


@cache
def table() -> dict[str, Any]:
    """The table of names as it stands in its file."""
    return tomllib.loads(resources.files(__package__).joinpath("data", "names.toml").read_text("utf-8"))


@cache
def _patterns() -> tuple[re.Pattern[str], ...]:
    return tuple(re.compile(_whole(row["pattern"]), re.IGNORECASE) for row in table()["name"])


def _whole(pattern: str) -> str:
    for name, piece in table()["pieces"].items():
        pattern = pattern.replace(f"{{{name}}}", piece)
    return pattern


def _day(said: dict[str, str | None]) -> date | None:
    if millis := said.get("millis"):
        return (_BEGIN + timedelta(milliseconds=int(millis))).date()
    year = int(said["year"] or 0)
    if len(said["year"] or "") == _SHORT_YEAR:
        year += _CENTURY
    month, day = said.get("month"), said.get("day")
    if one := said.get("one"):
        found = _in_order(int(one), int(said["two"] or 0))
        return _there_was(year, *found) if found else None
    in_figures = month.isdecimal() if month else False
    return _there_was(year, int(month or 0) if in_figures else month_of(month or "") or 0, int(day or 0))


def _in_order(one: int, two: int) -> tuple[int, int] | None:
    """Month and day, where only one of two figures can be the month, or both are the same."""
    if one > _MONTHS or one == two:
        return two, one
    return (one, two) if two > _MONTHS else None


def _there_was(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _time(said: dict[str, str | None]) -> time | None:
    """None where no time is said, or one that there is not; a single figure is no hour unless it is of a half day."""
    hour, minute, half = said.get("hour"), said.get("minute"), said.get("half")
    if not hour or not minute or (len(hour) == 1 and not half):
        return None
    at = int(hour)
    if half:
        if not 1 <= at <= _HALF_DAY:
            return None
        at = at % _HALF_DAY + (_HALF_DAY if half.lower() == "p" else 0)
    try:
        return time(at, int(minute), int(said.get("second") or 0))
    except ValueError:
        return None


def examples() -> list[tuple[str, str]]:
    """Every name of the table and what it comes to in ISO 8601; empty where it says no day."""
    shown = [pair for row in table()["name"] for pair in row["examples"].items()]
    return [*shown, *((name, "") for name in table()["without"]["examples"])]

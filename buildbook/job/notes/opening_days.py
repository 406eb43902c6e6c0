"""The headings of notes that open a day, whole or without its year.

In: the headings of a note, the day that the job was begun. Out: each with its day and its words; those that only look
like a day, or could be two, are told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from datetime import date
from typing import NamedTuple

from buildbook.job.believable import check
from buildbook.job.days import (
    DAY_FIRST,
    DAY_FIRST_YEARLESS,
    MONTH_FIRST,
    MONTH_FIRST_YEARLESS,
    SHAPES,
    STROKES,
    YEARLESS,
    full_year,
    month,
)
from buildbook.job.notes.markdown import Heading, Note
from buildbook.job.text import shown
from buildbook.problems import OF_A_JOB, Problems
from buildbook.quantity import QuantityError

_DAY_LEVEL = 2  # of the headings that open a day
_BELIEVABLE = "day of work"

_MONTH = (
    r"(?:jan(?:uary|uar)?|feb(?:ruary|ruar)?|mar(?:ch)?|märz?|apr(?:il)?|may|mai|june?|juni|july?|juli|aug(?:ust)?"
    r"|sept?(?:ember)?|o[ck]t(?:ober)?|nov(?:ember)?|de[cz](?:ember)?)\b"
)
_LIKE_A_DAY = re.compile(
    rf"\d{{1,4}}[-./]\d{{1,2}}[-./]\d{{1,4}}|\d{{1,2}}(?:st|nd|rd|th|\.)?\s+{_MONTH}|{_MONTH}\.?\s+\d{{1,2}}(?!\d)"
    r"|(?:mon|tue|wed|thu|fri|sat|sun)[a-z]{0,6},?\s+\d{1,2}(?:st|nd|rd|th)\b",
    re.IGNORECASE,
)


class Habits(NamedTuple):
    """How a shop writes days: `points`: 14.9. is one; `month_first`: 9/16/2026 is one, and so is 9/16; `day_first`:
    16/9/2026 is. Of a shop that is known for neither, figures with strokes are asked about.
    """

    points: bool = True
    month_first: bool = False
    day_first: bool = False

    @property
    def whole(self) -> tuple[re.Pattern[str], ...]:
        """The shapes of a day with its year."""
        return (
            (*SHAPES, MONTH_FIRST) if self.month_first else (*SHAPES, DAY_FIRST) if self.day_first else SHAPES
        )

    @property
    def yearless(self) -> tuple[re.Pattern[str], ...]:
        """The shapes of a day without its year."""
        if self.month_first:
            return (*YEARLESS, MONTH_FIRST_YEARLESS)
        return (*YEARLESS, DAY_FIRST_YEARLESS) if self.day_first else YEARLESS


USUAL = Habits()


def read_day(text: str, near: date | None = None, habits: Habits = USUAL) -> tuple[date | None, str]:
    """The day that a heading or a file name begins with, and the words after it; no day when it begins with
    none. A day without its year is of the year in which it is nearest to `near`, by the habits of the shop.

    ValueError for a day that does not exist; its kind QuantityError for one that is not believable.
    """
    found = day_at_start(text, near, habits)
    if found is None:
        return None, text.strip()
    day, end = found
    return day, text[end:].strip(" \t-–—:,._")


def day_at_start(text: str, near: date | None = None, habits: Habits = USUAL) -> tuple[date, int] | None:
    """The day that a text begins with, and where it ends there. Raises as `read_day` does."""
    match = next(
        (found for shape in habits.whole if (found := shape.match(text)) and month(found["month"])), None
    )
    if match:
        day = date(full_year(match["year"]), month(match["month"]) or 0, int(match["day"]))
    elif near and (match := _yearless(text, habits)):
        day = _nearest(month(match["month"]) or 0, int(match["day"]), near)
    else:
        return None
    check(day, _BELIEVABLE, shown(text))
    return day, match.end()


def _yearless(text: str, habits: Habits) -> re.Match[str] | None:
    """The day without a year that a text begins with; a month in words has its capital, so that `12 may` is none."""
    for shape in habits.yearless:
        match = shape.match(text)
        if (
            match
            and month(match["month"])
            and (
                (habits.points or habits.month_first or habits.day_first)
                if match["month"].isdigit()
                else match["month"][0].isupper()
            )
        ):
            return match
    return None


def _nearest(month: int, day: int, near: date) -> date:
    """The day of a month in the year in which it lies nearest to another. ValueError where no year has it."""
    found = []
    for year in (near.year - 1, near.year, near.year + 1):
        with suppress(ValueError):
            found.append(date(year, month, day))
    if not found:
        raise ValueError("no such day")
    return min(found, key=lambda one: abs((one - near).days))


def _is_stroked(words: str) -> bool:
    """Whether a heading begins with a day of which it is not clear which figure is the month; `3/4 ply` does not."""
    match = STROKES.match(words)
    if match is None:
        return False
    return not is_fraction(words)


def is_fraction(words: str) -> bool:
    """Whether words begin with a fraction of an inch and something that it may be the size of."""
    match = _FRACTION.match(words)
    return bool(match and match.end() < len(words))


_FRACTION = re.compile(r"\d{1,2}/(?:2|4|8|16|32|64)(?![\d/])")


def opening_days(
    name: str, note: Note, begun: date | None, problems: Problems, habits: Habits
) -> Iterator[tuple[Heading, date, str]]:
    """The headings that open a day, with the day and their words; those that only look like one are told."""
    near = begun or _first_full(note)
    for heading in note.headings:
        if heading.level > _DAY_LEVEL:
            continue
        try:
            day, words = read_day(heading.words, near, habits)
        except QuantityError as beyond:
            problems.error(name, beyond.message, beyond.hint, line=heading.start + 1)
            continue
        except ValueError:
            day, words = None, ""
        if day and heading.level == _DAY_LEVEL:
            near = day
            yield heading, day, words
        elif day and any(shape.match(heading.words) for shape in SHAPES):
            message = f"{shown(heading.words)} is a heading of level {heading.level}, so it opens no day."
            problems.error(name, message, "Write it with ##.", line=heading.start + 1)
        elif heading.level == _DAY_LEVEL and _is_stroked(heading.words):
            message = f"{shown(heading.words)} does not say which is the month."
            problems.error(name, message, _DAY_HINT, cause=f"{OF_A_JOB}strokes", line=heading.start + 1)
        elif heading.level == _DAY_LEVEL and _LIKE_A_DAY.match(heading.words):
            message = f"{shown(heading.words)} is not a day that can be read."
            problems.error(name, message, _DAY_HINT, line=heading.start + 1)


_DAY_HINT = "Write it as year-month-day: ## 2026-03-02 and then words."


def _first_full(note: Note) -> date | None:
    """The first day with its year that a heading opens."""
    for heading in note.headings:
        with suppress(ValueError):
            day, _ = read_day(heading.words)
            if day:
                return day
    return None

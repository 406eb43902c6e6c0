"""Lines of notes that open a day without being headings: `9/14`, `8.9.`, `Tues 6 Oct 26: picked up the iroko`, `8th:`.

In: a note in which no heading opens a day. Out: the lines that do, each with its day, and the note without what says
the day, line for line, so that what follows is text like any other. A line of a paragraph opens a day if it begins with
one and what stands above it has come to an end; a size (`3/4 walnut`) is none.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from typing import NamedTuple

from buildbook.job.days import ORDINAL, STROKES
from buildbook.job.notes.hours import ends_above
from buildbook.job.notes.markdown import Note, parse
from buildbook.job.notes.opening_days import Habits, day_at_start, is_fraction

_BETWEEN = re.compile(r"\s*(?:[-–—/+&]|to|and|bis|und|u\.)\s*", re.IGNORECASE)
_AFTER = re.compile(r"\s*[:.,;–—-]?(?:\s+|$)")
_SOON = timedelta(days=45)
"""How far a day that could be a size may lie from the one above it."""


class DayLine(NamedTuple):
    """A line, counted from 0, and the day that it opens."""

    line: int
    day: date


def plain_days(note: Note, begun: date | None, habits: Habits) -> tuple[Note, list[DayLine]]:
    """The days that lines of a note open, and the note without them."""
    found: list[DayLine] = []
    lines = list(note.lines)
    for number, is_first in _prose_lines(note):
        above = found[-1].day if found else begun
        read = _day_of(lines[number], above, bool(found), habits)
        if read is None:
            continue
        day, rest = read
        follows = (
            is_first or (bool(found) and found[-1].line == number - 1) or ends_above(note.lines[number - 1])
        )
        if follows and (is_first or not found or day >= found[-1].day):
            found.append(DayLine(number, day))
            lines[number] = rest
    if not found:
        return note, []
    return _split(parse("\n".join(lines)), [one.line for one in found]), found


def stroked(note: Note, habits: Habits) -> int | None:
    """The first line that may open a day of which nobody knows which figure is the month."""
    if habits.month_first or habits.day_first:
        return None
    starts = (number for number, is_first in _prose_lines(note) if is_first)
    return next(
        (
            number
            for number in starts
            if (match := STROKES.match(note.lines[number]))
            and not is_fraction(note.lines[number])
            and _AFTER.match(note.lines[number], match.end())
        ),
        None,
    )


def _prose_lines(note: Note) -> Iterator[tuple[int, bool]]:
    """Lines of paragraphs in the open, and whether each is the first of its own."""
    for first, last in note.prose:
        for number in range(first, last):
            if not note.in_comment(number):
                yield number, number == first


def _day_of(line: str, above: date | None, is_above_written: bool, habits: Habits) -> tuple[date, str] | None:
    """The day that a line begins with, and what stands behind it; of `9/8 - 9/9` the first."""
    day, length = _at_start(line, above, is_above_written, habits)
    if day is None:
        return None
    rest = line[length:]
    if (between := _BETWEEN.match(rest)) and between.end() > 0:
        later, more = _at_start(rest[between.end() :], day, True, habits)
        if later is not None and day <= later <= day + _SOON:
            rest = rest[between.end() + more :]
    behind = _AFTER.match(rest)
    return (day, rest[behind.end() :]) if behind else None


def _at_start(
    line: str, above: date | None, is_above_written: bool, habits: Habits
) -> tuple[date | None, int]:
    """The day at the beginning of a line, and how long it is written."""
    if is_above_written and above and (match := ORDINAL.match(line)):
        with suppress(ValueError):
            return _on_or_after(int(match["day"]), above), match.end()
    with suppress(ValueError):
        found = day_at_start(line, above, habits)
        if found and not (is_fraction(line) and not (above and above <= found[0] <= above + _SOON)):
            return found
    return None, 0


def _on_or_after(number: int, above: date) -> date:
    """The next day of this number. ValueError where the month has none."""
    if number >= above.day:
        return above.replace(day=number)
    return (above.replace(day=1) + timedelta(days=32)).replace(day=number)


def _split(note: Note, at: list[int]) -> Note:
    """A note whose paragraphs end where a day is opened in them."""
    spans: list[tuple[int, int]] = []
    for first, last in note.prose:
        cuts = [first, *(line for line in at if first < line < last), last]
        spans += pairwise(cuts)
    return replace(note, prose=tuple(spans))

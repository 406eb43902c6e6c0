"""notes.md and notes/*.md -> `LogEntry`s: dated, with hours, pictures and what the client may read.

The structure comes from a CommonMark parser, so that a heading in a fence, a list, a quote or a comment is
none. What is for the client is cut out of the text by the lines that the parser gives, without lines of hours
and without comments.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import PurePosixPath

from buildbook import limits
from buildbook.job.log_model import Hours, LogEntry, Picture
from buildbook.job.notes.bounds import within
from buildbook.job.notes.for_client import Cut, passages, tell_near_misses
from buildbook.job.notes.hours import (
    LIKE_HOURS,
    HoursLine,
    find_hours,
    read_items,
    stages_by_name,
    without_hours,
)
from buildbook.job.notes.local_links import is_local
from buildbook.job.notes.markdown import (
    Note,
    is_for_client,
    parse,
    with_references,
)
from buildbook.job.notes.marks import find_marks
from buildbook.job.notes.opening_days import Habits, opening_days, read_day
from buildbook.job.notes.pictures import Names, resolve, tell_missing
from buildbook.job.notes.plain_days import DayLine, plain_days, stroked
from buildbook.job.notes.said_hours import booked_in, perhaps_hours
from buildbook.job.text import decode, shown
from buildbook.problems import OF_A_JOB, Problems
from buildbook.quantity import QuantityError

MAIN = "notes.md"
FOLDER = "notes"
_DAY_LEVEL = 2  # of the headings that open a day
_BELIEVABLE = "day of work"

_LONGEST_NAME = 255  # signs of the name of a file, on any system


@dataclass(frozen=True)
class Known:
    """What the rest of the job says that notes are read against.

    begun_is_known  job.toml could be read, so that a day of beginning which is missing is told.
    points          the shop writes days with points: `14.9.` is one, and no number of a chapter.
    month_first     what 9/16/2026 means to this shop; day_first: what 16/9/2026 does; to any other each may mean two.
    """

    begun: date | None
    stages: tuple[str, ...]
    photos: Names
    undated: str = "Before the first date"
    begun_is_known: bool = True
    points: bool = False
    month_first: bool = False
    day_first: bool = False


@dataclass(frozen=True)
class _Stretch:
    """Lines of a note that are one entry: from `start` up to `end`, counted from 0; `body` begins after its
    heading.
    """

    day: date | None
    title: str
    start: int
    body: int
    end: int


def read_notes(files: Sequence[tuple[str, bytes]], known: Known, problems: Problems) -> tuple[LogEntry, ...]:
    """The entries of all note files, given as (name in the job folder, bytes), by day and then as written."""
    entries: list[LogEntry] = []
    texts = [(name, text) for name, data in files if (text := decode(data, name, problems)) is not None]
    for name, text in within(texts, problems):
        entries += _read_note(name, text, known, problems)
        if _too_many(name, entries, problems):
            return ()
    _tell_long_days(entries, problems)
    return tuple(sorted(entries, key=lambda entry: entry.day))


def _too_many(name: str, entries: Sequence[LogEntry], problems: Problems) -> bool:
    """Whether the entries so far are more than a job can have; told."""
    told = [passage.markdown for entry in entries for passage in entry.for_client]
    for count, most, what in (
        (len(entries), limits.ENTRIES, "entries"),
        (sum(map(len, told)), limits.PASSAGES_SIGNS, "signs for the client"),
        (sum(text.count("\n") + 1 for text in told), limits.PASSAGES_LINES, "lines for the client"),
    ):
        if count > most:
            problems.error(
                name,
                f"With this file the notes have {count:,} {what}; {most:,} can be read.",
                "Keep what belongs to this piece, and put the rest elsewhere.",
            )
            return True
    return False


def _read_note(name: str, text: str, known: Known, problems: Problems) -> Iterable[LogEntry]:
    note = parse(text)
    for line, what in note.unclosed:
        problems.warn(
            name, f"{what} that opens here is never closed.", "Close it where it ends.", line=line + 1
        )
    tell_near_misses(name, note, problems)
    note, stretches = _stretches(name, note, known, problems)
    for stretch in stretches:
        if (entry := _entry(name, note, stretch, known, problems)) is not None:
            yield entry


# -- dates ---------------------------------------------------------------------------------------


def _stretches(name: str, note: Note, known: Known, problems: Problems) -> tuple[Note, list[_Stretch]]:
    """The entries of a file: what stands before its first dated heading, then one a dated heading; where no heading is
    dated, the same by lines that begin with a day, and the note without these days.
    """
    habits = Habits(points=known.points, month_first=known.month_first, day_first=known.day_first)
    dated = list(opening_days(name, note, known.begun, problems, habits))
    if not dated and PurePosixPath(name).parent.name != FOLDER:
        plain, lines = plain_days(note, known.begun, habits)
        if lines:
            return plain, _by_lines(name, plain, lines, known, problems)
        if (line := stroked(note, habits)) is not None:
            message = f"{shown(note.lines[line])} does not say which is the month."
            problems.error(name, message, _COUNTRY_HINT, cause=f"{OF_A_JOB}strokes", line=line + 1)
            return note, [_Stretch(known.begun, known.undated, 0, 0, len(note.lines))]
    first = dated[0][0].start if dated else len(note.lines)
    stretches = _before(name, note, first, known.undated, problems)
    for number, (heading, day, words) in enumerate(dated):
        end = dated[number + 1][0].start if number + 1 < len(dated) else len(note.lines)
        stretches.append(_Stretch(day, words, heading.start, heading.end, end))
    return note, stretches


def _by_lines(
    name: str, note: Note, lines: Sequence[DayLine], known: Known, problems: Problems
) -> list[_Stretch]:
    """One a line that opens a day, and what stands before the first; a single line there is the title of that day."""
    ends = [*(one.line for one in lines[1:]), len(note.lines)]
    first, *later = (_Stretch(day, "", line, line, end) for (line, day), end in zip(lines, ends, strict=True))
    above = note.lines[: first.start]
    if _is_title(above):  # what the job is called
        return [replace(first, title=" ".join(above).strip(" #\t")), *later]
    return [*_before(name, note, first.start, known.undated, problems), first, *later]


_COUNTRY_HINT = (
    "Write country in shop.toml, which says how days are written there, or year-month-day: 2026-03-02."
)


def _before(name: str, note: Note, first: int, undated: str, problems: Problems) -> list[_Stretch]:
    """What stands before the first dated heading: an entry of the file's own day, else an undated one."""
    path = PurePosixPath(name)
    try:
        day, words = read_day(path.stem) if path.parent.name == FOLDER else (None, "")
        words = " ".join(re.split(r"[-_\s]+", words))
    except QuantityError as beyond:
        day, words = None, ""
        problems.error(name, beyond.message, "Rename the file.")
    except ValueError:
        day, words = None, ""
        problems.error(
            name, "The name of this file begins with a day that does not exist.", "Rename the file."
        )
    headings = [heading for heading in note.headings if heading.start < first]
    in_headings = {line for heading in headings for line in range(heading.start, heading.end)}
    has_text = any(note.lines[line].strip() for line in range(first) if line not in in_headings)
    if not has_text and (day is None or first < len(note.lines)):
        return []
    title, body = (words, 0) if day else (undated, 0)
    own = next((heading for heading in headings if not is_for_client(heading)), None) if day else None
    if own:
        title = own.words
        if not any(note.lines[line].strip() for line in range(own.start)):
            body = own.end
    return [_Stretch(day, title, 0, body, first)]


# -- one entry -----------------------------------------------------------------------------------


def _entry(name: str, note: Note, stretch: _Stretch, known: Known, problems: Problems) -> LogEntry | None:
    day = stretch.day or known.begun
    if stretch.day is None:
        _tell_undated(name, note, stretch, known, problems)
    if day is None:
        return None
    hours = find_hours(note, stretch.body, stretch.end, known.stages)
    said = list(_said_hours(note, stretch, hours))
    _tell_unbooked(name, note, stretch, (*hours, *said), known.stages, problems)
    inside = range(stretch.start, stretch.end)
    cuts = list(passages(name, note, inside, known.photos, problems, known.stages))
    return LogEntry(
        day=day,
        title=stretch.title,
        body=with_references(note, without_hours(note, hours, stretch.body, stretch.end)),
        for_client=tuple(cut.passage for cut in cuts),
        hours=tuple(_booked(name, sorted((*hours, *said), key=lambda one: one.line), known.stages, problems)),
        pictures=tuple(_pictures(name, note, stretch, cuts, known.photos, problems)),
        file=name,
        line=stretch.start + 1,
        marks=tuple(find_marks(note, stretch.body, stretch.end)),
    )


def _tell_undated(name: str, note: Note, stretch: _Stretch, known: Known, problems: Problems) -> None:
    line = next((number for number in range(stretch.end) if note.lines[number].strip()), 0) + 1
    hint = "Write a heading such as ## 2026-03-02 above it."
    message = "There is text before the first dated heading"
    if known.begun:
        where = f"; it is put at the day the job was begun, {known.begun.isoformat()}."
        problems.warn(name, message + where, hint, line=line)
    elif known.begun_is_known:
        problems.error(name, message + ", and job.toml does not say when the job was begun.", hint, line=line)


def _is_title(lines: Sequence[str]) -> bool:
    """Whether all that stands there is a line that says whose job it is."""
    said = [line for line in lines if line.strip()]
    return len(said) == 1 and len(said[0]) <= _TITLE and not any(map(str.isdigit, said[0]))


_TITLE = 80  # signs of the line over a maker's notes


# -- hours ---------------------------------------------------------------------------------------


def _booked(
    name: str, lines: Iterable[HoursLine], stages: Sequence[str], problems: Problems
) -> Iterator[Hours]:
    known = stages_by_name(tuple(stages))
    for line in lines:
        try:
            items = read_items(line.says)
        except QuantityError as wrong:
            problems.error(name, wrong.message, wrong.hint, line=line.line + 1)
            continue
        for stage, hours in items:
            if stage and stage.casefold() not in known:
                problems.warn(
                    name,
                    f"{shown(stage)} is not a stage of this shop; its hours are booked all the same.",
                    problems.near(stage, stages),
                    line=line.line + 1,
                )
            yield Hours(known.get(stage.casefold(), stage), hours)


def _said_hours(note: Note, stretch: _Stretch, lines: Sequence[HoursLine]) -> Iterator[HoursLine]:
    """What sentences book that are nothing but hours, in lines of prose; the words stay as they were written."""
    booked = {line.line for line in lines}
    for first, last in note.between(note.prose, lambda lines: lines[0], stretch.body, stretch.end):
        for line in range(first, min(last, stretch.end)):
            if line not in booked and not note.in_comment(line) and not LIKE_HOURS.match(note.lines[line]):
                amounts, _ = booked_in(note.lines[line])
                if amounts:
                    yield HoursLine(line, "; ".join(amounts), note.lines[line])


def _tell_unbooked(
    name: str,
    note: Note,
    stretch: _Stretch,
    hours: Sequence[HoursLine],
    stages: Sequence[str],
    problems: Problems,
) -> None:
    """Lines that look like hours of work and book none."""
    booked = {line.line for line in hours}
    for first, last in note.between(note.prose, lambda lines: lines[0], stretch.body, stretch.end):
        for line in range(first, min(last, stretch.end)):
            text = note.lines[line]
            if (
                line not in booked
                and not note.in_comment(line)
                and not LIKE_HOURS.match(text)
                and (said := perhaps_hours(text, tuple(stages)))
            ):
                message = f"{shown(said)} may be hours of work; none are booked."
                problems.warn(name, message, "If they are, write such as Hours: joinery 2.", line=line + 1)


def _tell_long_days(entries: Iterable[LogEntry], problems: Problems) -> None:
    by_day: dict[date, list[LogEntry]] = {}
    for entry in entries:
        by_day.setdefault(entry.day, []).append(entry)
    for day, noted in by_day.items():
        hours = math.fsum(entry.total_hours for entry in noted)
        if hours > _DAY_HOURS:
            problems.warn(
                noted[-1].file,
                f"{hours:g} hours are booked on {day.isoformat()}.",
                "See that the day and the hours are right.",
                line=noted[-1].line,
            )


_DAY_HOURS = 24


# -- pictures ------------------------------------------------------------------------------------


def _pictures(
    name: str,
    note: Note,
    stretch: _Stretch,
    cuts: Sequence[Cut],
    photos: Names,
    problems: Problems,
) -> Iterator[Picture]:
    for line, reference in note.between(note.spaced, lambda found: found[0], stretch.body, stretch.end):
        if is_local(reference, name):
            tell_missing(reference, name, line + 1, photos, problems)
            continue
        plain = reference.replace(" ", "%20")
        hint = f"Write {plain}." if len(plain) <= _LONGEST_NAME else "Give the picture a shorter name."
        problems.warn(
            name, f"{shown(reference)} has a blank in it, so it is no picture.", hint, line=line + 1
        )
    inside = iter(cuts)
    cut = next(inside, None)
    for image in note.between(note.images, lambda image: image.line, stretch.body, stretch.end):
        while cut and cut.end <= image.line:
            cut = next(inside, None)
        photo = resolve(image.reference, name, photos)
        if photo is None:
            tell_missing(image.reference, name, image.line + 1, photos, problems)
            continue
        for_client = cut is not None and cut.start <= image.line and image.reference in cut.shows
        yield Picture(photo, image.words, for_client, image.line + 1, image.reference)

"""Where each problem of a job stands in its log: at the row, the day or the picture that it concerns.

In: the problems in their order, the tables, the days of the notes, the pictures. Out: the numbered list at the top of
the log, which links to each place, and what stands at a place. What has no place in the log stays in the list, whole.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from buildbook.job.folder import PARTS_FILES
from buildbook.job.log_model import LogEntry
from buildbook.job.photo_model import Photo
from buildbook.job.row_names import row_name
from buildbook.pages.ledger import Ledger
from buildbook.pages.notice import place_said
from buildbook.pages.phrases import Phrases
from buildbook.problems import Problem
from buildbook.words.told import rows_and_lines, told

_TABLE = re.compile(r"(\w+)\[(\d+)\]")  # how a problem names a table of job.toml: `finish[2].coats`
_SPAN = re.compile(r"(\d+(?:–\d+)?)")  # and how rows are told: `rows 7, 9–12`


@dataclass(frozen=True)
class PlaceWords:
    """Words of a place; `anchor`: the id that they lead to, empty where they lead nowhere."""

    words: str
    anchor: str = ""


@dataclass(frozen=True)
class ListedProblem:
    """A problem in the list at the top of the log. `text` says what to do about it only where it has no place."""

    id: str
    where: tuple[PlaceWords, ...]
    text: str
    severity: str
    severity_word: str


@dataclass(frozen=True)
class PlacedProblem:
    """A problem at its place. `of`: the id of its line in the list, `number` that line's, `called` in words; `first`:
    the id of the first of its places where this is a further one, and then `text` only says what is wrong.
    """

    id: str
    of: str
    number: int
    called: str
    where: str
    text: str
    severity: str
    severity_word: str
    first: str = ""


@dataclass(frozen=True)
class Placed:
    """The list, and what stands where: below rows by what they are of, at days by their ids, at pictures by digest."""

    listed: tuple[ListedProblem, ...]
    at: Mapping[str, tuple[PlacedProblem, ...]]

    def below(self, tables: Iterable[Ledger]) -> tuple[Ledger, ...]:
        """The tables with what stands below their rows; what several tables tell of has it in the first."""
        done: set[str] = set()
        out = []
        for table in tables:
            here = [place if place in self.at and place not in done else "" for place in table.of]
            first = [place if place not in here[:number] else "" for number, place in enumerate(here)]
            done.update(first)
            below = tuple(self.at.get(place, ()) for place in first)
            out.append(replace(table, below=below) if any(below) else table)
        return tuple(out)


def placed(
    problems: Iterable[Problem],
    tables: Sequence[Ledger],
    entries: Sequence[tuple[str, LogEntry]],
    photos: Iterable[Photo],
    phrases: Phrases,
) -> Placed:
    """Each problem at its places. `entries`: each note with the id of its day; `photos`: those that days show."""
    rows = {place for table in tables for place in table.of}
    pictures = {name: photo.digest for photo in photos for name in (photo.name, *photo.also)}
    days = _Days(entries)
    listed, at = [], dict[str, list[PlacedProblem]]()
    for number, problem in enumerate(problems, 1):
        identity, said = f"problem-{number}", told(problem, phrases.words.language, row_name)
        severity, where = phrases(f"problem.{problem.severity}"), place_said(problem, phrases.words)
        whole = " ".join(filter(None, (said.message, said.hint)))
        by_number = {of: place for of, place in _places(problem, rows, days, pictures) if place}
        anchors = {
            place: f"{identity}-at" + (f"-{so_many}" if so_many > 1 else "")
            for so_many, place in enumerate(dict.fromkeys(by_number.values()), 1)
        }
        first = next(iter(anchors.values()), "")
        for place, anchor in anchors.items():
            further = anchor != first
            one = PlacedProblem(
                anchor,
                identity,
                number,
                phrases("log.problem_number", number=number),
                where,
                said.message if further else whole,
                problem.severity,
                severity,
                first if further else "",
            )
            at.setdefault(place, []).append(one)
        ways = {of: anchors[place] for of, place in by_number.items()}
        text = said.message if anchors else whole
        listed.append(
            ListedProblem(identity, tuple(_linked(problem, ways, phrases)), text, problem.severity, severity)
        )
    return Placed(tuple(listed), {place: tuple(ones) for place, ones in at.items()})


def row_place(row: int) -> str:
    """What a table's row of a part is of, by its row of the parts file."""
    return f"row-{row}"


def toml_place(name: str, number: int) -> str:
    """What a table's row is of that tells of a table of job.toml: the second `[[finish]]`. `number` from 1."""
    return f"{name}-{number}"


class _Days:
    """The days of the notes by where they begin in their files."""

    def __init__(self, entries: Iterable[tuple[str, LogEntry]]) -> None:
        self._of_file: dict[str, list[tuple[int, str]]] = {}
        for identity, entry in entries:
            if identity:
                self._of_file.setdefault(entry.file, []).append((entry.line, identity))
        for begins in self._of_file.values():
            begins.sort()

    def of(self, file: str, line: int | None) -> str:
        """The day of a line; without a line, that of a file of one day. Empty where none is."""
        begins = self._of_file.get(file, [])
        if line is None:
            return begins[0][1] if len(begins) == 1 else ""
        after = bisect_right(begins, line, key=lambda one: one[0])
        return begins[after - 1][1] if after else ""


def _places(
    problem: Problem, rows: set[str], days: _Days, pictures: Mapping[str, str]
) -> Iterator[tuple[int, str]]:
    """The places of a problem, each with its row or line (0 without one)."""
    if problem.row is not None and problem.file in PARTS_FILES:
        for row in (problem.row, *problem.also):
            yield row, row_place(row) if row_place(row) in rows else ""
    elif problem.file in pictures:
        yield 0, pictures[problem.file]
    elif table := _TABLE.match(problem.field):
        place = toml_place(table[1], int(table[2]))
        yield 0, place if place in rows else ""
    elif problem.row is None:
        for line in (problem.line, *problem.also):
            yield line or 0, days.of(problem.file, line)


def _linked(problem: Problem, ways: Mapping[int, str], phrases: Phrases) -> Iterator[PlaceWords]:
    """The words of where it is, with a link for each run of rows or lines that has a place; one for all where there is
    one place only.
    """
    where = place_said(problem, phrases.words)
    if len(set(ways.values())) < 2:
        yield PlaceWords(where, next(iter(ways.values()), ""))
        return
    numbers = ", ".join(rows_and_lines(problem, phrases.words.language))
    before, _, after = where.partition(numbers)
    for number, words in enumerate((before, *_SPAN.split(numbers), after)):
        begin, _, end = words.partition("–")
        run = range(int(begin), int(end or begin) + 1) if _SPAN.fullmatch(words) and number else ()
        if words:
            yield PlaceWords(words, next((ways[one] for one in run if one in ways), ""))

"""Bytes of a table -> records of cells, whatever spreadsheet wrote them.

Comma, semicolon or tab; the one that finds most headings that are known. A record's number is that of a
spreadsheet: the first is 1, empty ones count. Never raises for what is in a file.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from buildbook.job.table.guarded import unguarded
from buildbook.job.table.workbook import read_workbook
from buildbook.job.text import decode
from buildbook.problems import Problems

SEPARATORS = (",", ";", "\t")
DECIMAL_COMMA = (";", "\t")
"""Separators of the countries that write a comma where others write a point."""

HEADINGS_WITHIN = 10
"""Records in which the headings are looked for."""

_START = 65_536  # characters looked at to choose the separator


@dataclass(frozen=True)
class Record:
    """A row of cells, without blanks around them."""

    row: int
    cells: tuple[str, ...]

    @property
    def is_empty(self) -> bool:
        return not any(self.cells)


@dataclass(frozen=True)
class Records:
    """The rows of a file and how it writes them."""

    separator: str
    rows: tuple[Record, ...]

    @property
    def decimal_comma(self) -> bool:
        return self.separator in DECIMAL_COMMA


def read_records(
    data: bytes, name: str, is_heading: Callable[[str], bool], problems: Problems
) -> Records | None:
    """The records of a file, or None with a problem when it is no text. `is_heading` knows a heading."""
    text = decode(data, name, problems)
    if text is None:
        return None
    first, _, rest = text.partition("\n")
    named = first.strip().removeprefix("sep=")
    if (
        first.startswith("sep=") and named in SEPARATORS
    ):  # a spreadsheet's own mark, which it does not count as a row
        return Records(named, tuple(_records(rest, named, name, problems)))
    separator = max(SEPARATORS, key=lambda sign: _known(text[:_START], sign, is_heading))
    return Records(separator, tuple(_records(text, separator, name, problems)))


def workbook_records(
    data: bytes, name: str, sheets: Sequence[str], problems: Problems, *, decimal_comma: bool, most: int
) -> Records | None:
    """The records of a spreadsheet, as `read_workbook` takes it. `decimal_comma`: in its texts a comma is the mark."""
    read = read_workbook(data, name, sheets, problems, decimal_comma=decimal_comma, most=most)
    if read is None:
        return None
    separator = DECIMAL_COMMA[0] if decimal_comma else SEPARATORS[0]
    return Records(separator, tuple(Record(number, cells) for number, cells in read))


def _known(text: str, separator: str, is_heading: Callable[[str], bool]) -> tuple[int, int]:
    """How many headings of one of the first records are known with a separator, and how many cells it has."""
    best = (0, 0)
    records = _records(text, separator, "", Problems())
    for _, record in zip(range(HEADINGS_WITHIN), records, strict=False):
        best = max(best, (sum(map(is_heading, record.cells)), len(record.cells)))
    return best


def _records(text: str, separator: str, name: str, problems: Problems) -> Iterator[Record]:
    lines = io.StringIO(text, newline="")
    reader = csv.reader(lines, delimiter=separator)
    row = 0
    begins = 0
    while True:
        row += 1
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error:
            problems.error(
                name,
                f"A cell in this row is longer than {csv.field_size_limit():,} characters.",
                "See whether a quotation mark is never closed.",
                row=row,
            )
            continue
        if _never_closed(cells, text, begins, reader.line_num, separator):
            problems.error(
                name,
                "A quotation mark that opens in this row is never closed,"
                " so the rest of the file went into one cell.",
                'Close it, or delete it; an inch mark inside quotes is written "".',
                row=row,
            )
        begins = reader.line_num
        yield Record(row, tuple(unguarded(cell.strip()) for cell in cells))


def _never_closed(cells: list[str], text: str, first: int, last: int, separator: str) -> bool:
    """Whether a record that runs over several lines ends only because the file does."""
    if not cells or "\n" not in cells[-1].replace("\r", "\n"):
        return False
    lines = io.StringIO(text, newline="").readlines()
    if last < len(lines):
        return False
    try:
        for _ in csv.reader(lines[first:last], delimiter=separator, strict=True):
            pass
    except csv.Error as fault:
        return "unexpected end" in str(fault)
    return False

"""A table with headings -> rows by column: the headings found, duplicates, strange columns and total rows
told.

In: bytes and the columns that are known. Out: `Sheet` of `Row`s, which read their cells and tell what is
wrong with them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from buildbook import limits
from buildbook.job.believable import check
from buildbook.job.table.dialect import HEADINGS_WITHIN, Record, read_records, workbook_records
from buildbook.job.table.headings import Column, ColumnHeading, Headings, bare
from buildbook.job.table.workbook import column_letter, is_workbook
from buildbook.job.text import long_word, shown
from buildbook.problems import Problems, did_you_mean, listed
from buildbook.quantity import Length, QuantityError, read_length
from buildbook.quantity.beside import is_nothing

T = TypeVar("T")

_TOTALS = frozenset(("total", "totals", "sum", "subtotal", "sub total", "summe", "gesamt", "zwischensumme"))
_LEAST_HEADINGS = 2  # known ones, for a row to be the row of headings


def _choice_name(choice: object) -> str:
    return ("no", "yes")[choice] if isinstance(choice, bool) else str(choice)


@dataclass(frozen=True)
class Row:
    """A row: its cells by column, and by their own headings those of columns that are not known."""

    number: int
    cells: dict[str, str]
    units: dict[str, str]
    decimal_comma: bool
    file: str
    problems: Problems = field(repr=False)
    known: Mapping[str, Column] = field(repr=False)
    strange: tuple[tuple[str, str], ...] = ()

    def error(self, column: str, message: str, hint: str = "", cause: str = "") -> None:
        self.problems.error(self.file, message, hint, cause=cause, row=self.number, field=column)

    def warn(self, column: str, message: str, hint: str = "", cause: str = "") -> None:
        self.problems.warn(self.file, message, hint, cause=cause, row=self.number, field=column)

    def text(self, column: str) -> str:
        return self.cells.get(column, "")

    def read(self, column: str, reader: Callable[[str], T], units: str = "mm") -> T | None:
        """The cell as a reader takes it; None when it is empty, wrong, or beyond belief, which is told in `units`."""
        if not (text := self.text(column)):
            return None
        try:
            value = reader(text)
            check(value, self.known[column].within, shown(text), units)
            return value
        except QuantityError as wrong:
            self.error(column, wrong.message, wrong.hint, wrong.cause)
            return None

    def length(self, column: str, units: str) -> Length | None:
        unit = self.units.get(column) or units
        return self.read(
            column, lambda text: read_length(text, unit, decimal_comma=self.decimal_comma), units
        )

    def choice(self, column: str, choices: dict[str, T]) -> T | None:
        """One of a few words, by any of their spellings."""
        if not (text := self.text(column)):
            return None
        if (found := choices.get(bare(text))) is None:
            names = list(dict.fromkeys(map(_choice_name, choices.values())))
            hint = did_you_mean(text, names) or f"Write {listed(names, 'or')}."
            self.error(column, f"{shown(text)} is not a word that this column takes.", hint)
        return found


@dataclass(frozen=True)
class Sheet:
    """A table that could be read: the columns it has, and its rows."""

    columns: frozenset[str]
    rows: tuple[Row, ...]


def read_sheet(
    data: bytes,
    name: str,
    headings: Headings,
    needed: tuple[str, ...],
    problems: Problems,
    most: int,
    *,
    decimal_comma: bool = False,
) -> Sheet | None:
    """The table, or None with a problem. Rows without content are left out, their numbers are kept. `most` is how
    many rows can be read. `decimal_comma`: whether the shop writes one; of a text file its separator tells.
    """
    if is_workbook(name):
        read = workbook_records(
            data, name, headings.sheets, problems, decimal_comma=decimal_comma, most=most + HEADINGS_WITHIN
        )
    else:
        read = read_records(data, name, headings.is_heading, problems)
    if read is None:
        return None
    records = [record for record in read.rows if not record.is_empty]
    if not records:
        problems.warn(
            name, "This file is empty.", f"Begin with a row of headings: {', '.join(headings.columns)}."
        )
        return None
    if not _is_within(records, name, most, problems):
        return None
    at = _heading_row(records, headings)
    if at is None:
        problems.error(
            name,
            f"{_told(records[0])} is not a row of headings that are known here.",
            f"Begin with a row of headings: {', '.join(headings.columns)}.",
            row=records[0].row,
        )
        return None
    for record in records[:at]:
        problems.warn(name, f"{_told(record)} stands above the headings and is passed over.", row=record.row)
    columns = _columns(records[at], name, headings, problems)
    found = frozenset(heading.column for heading in columns if heading)
    for column in needed:
        if column not in found:
            problems.error(
                name, f"There is no column “{column}”.", "Add it to the row of headings.", row=records[at].row
            )
    rows = [
        _row(
            record, records[at], columns, Row(0, {}, {}, read.decimal_comma, name, problems, headings.columns)
        )
        for record in records[at + 1 :]
        if not _is_total(record, columns, name, problems) and not _is_title(record, columns, name, problems)
    ]
    if not rows:
        problems.warn(name, "There are headings but no rows.", "Write the rows under them.")
    return Sheet(found, tuple(rows))


def until_too_wrong(rows: Iterable[Row], problems: Problems) -> Iterator[Row]:
    """The rows, until so many errors are told that they must be one mistake; then that is told, and the rest left."""
    before = problems.errors
    for row in rows:
        if problems.errors - before >= limits.ERRORS_TOLD:
            message = (
                f"There are {problems.errors - before} errors above this row; what follows was not looked at."
            )
            row.problems.error(row.file, message, "Put those right first.", row=row.number)
            return
        yield row


def _is_within(records: list[Record], name: str, most: int, problems: Problems) -> bool:
    """Whether rows, cells and words are as many and as long as can be read; told where they are not."""
    if len(records) > most:
        hint = "Keep what belongs to this piece, and put the rest into a table of its own."
        problems.error(name, f"There are {len(records):,} rows; {most:,} can be read.", hint)
        return False
    good = True
    for record in records:
        for message, hint in _beyond(record):
            problems.error(name, message, hint, row=record.row)
            good = False
    return good


def _beyond(record: Record) -> Iterator[tuple[str, str]]:
    """What of a row is more than can be read."""
    if len(record.cells) > limits.CELLS_IN_ROW:
        message = f"There are {len(record.cells):,} cells in this row; {limits.CELLS_IN_ROW} can be read."
        yield message, "See whether the rows are separated."
        return
    for cell in record.cells:
        if len(cell) > limits.CELL_SIGNS:
            message = f"The cell {shown(cell)} has {len(cell):,} signs; {limits.CELL_SIGNS:,} can be read."
            yield message, "Put what is so long into the notes; see whether a quotation mark is never closed."
        elif word := long_word(cell):
            yield (
                f"A word of {len(word):,} signs, {shown(word)}, is too long to print.",
                "Put blanks into it.",
            )


def _heading_row(records: list[Record], headings: Headings) -> int | None:
    counts = [sum(map(headings.is_heading, record.cells)) for record in records[:HEADINGS_WITHIN]]
    best = max(counts)
    return counts.index(best) if best >= _LEAST_HEADINGS else None


def _told(record: Record) -> str:
    return shown(", ".join(cell for cell in record.cells if cell))


def _columns(record: Record, name: str, headings: Headings, problems: Problems) -> list[ColumnHeading | None]:
    """What each cell of the row of headings means; a second one of a column means nothing, and is told."""
    columns: list[ColumnHeading | None] = []
    first: dict[str, int] = {}
    for number, text in enumerate(record.cells):
        heading = headings.find(text) if text else None
        if text and heading is None and bare(text) not in _NUMBERS_ROWS:
            problems.warn(
                name,
                f"{shown(text)} is not a column that is known here; what stands under it is kept as a note.",
                did_you_mean(text, headings.names),
                row=record.row,
            )
        elif heading and heading.column in first:
            before = first[heading.column]
            problems.error(
                name,
                f"{shown(record.cells[before])} (column {column_letter(before)}) and {shown(text)}"
                f" (column {column_letter(number)}) both mean {heading.column}.",
                "Delete one of them, or give it another heading.",
                row=record.row,
            )
            heading = None
        elif heading:
            first[heading.column] = number
        columns.append(heading)
    return columns


def _is_total(record: Record, columns: list[ColumnHeading | None], name: str, problems: Problems) -> bool:
    """A row of totals: says so where names stand, and nothing where materials stand."""
    named = {
        heading.column: cell
        for heading, cell in zip(columns, record.cells, strict=False)
        if heading and cell and heading.column in ("part", "material", "kind", "note")
    }
    first = next(cell for cell in record.cells if cell)
    if len(named) > 1 or bare(first).rstrip(" :") not in _TOTALS:
        return False
    problems.warn(name, f"{_told(record)} is taken for a row of totals and passed over.", row=record.row)
    return True


def _is_title(record: Record, columns: list[ColumnHeading | None], name: str, problems: Problems) -> bool:
    """A row that names the group of parts under it, `DRAWERS` or `Drawers:`, and says nothing else."""
    said = [(heading, cell) for heading, cell in zip(columns, record.cells, strict=False) if cell]
    if len(said) != 1 or len(columns) < _LEAST_OF_A_TABLE or len([cell for cell in record.cells if cell]) > 1:
        return False
    heading, cell = said[0]
    if heading is None or heading.column != "part" or not (cell.isupper() or cell.endswith(":")):
        return False
    message = f"{shown(cell)} stands alone in its row and is taken for the title of the rows under it."
    problems.warn(name, message, row=record.row, cause="title of rows")
    return True


_HAS_WORD = re.compile(r"[^\W\d_]{2}|[^\W\d_]\b.*\d|\d.*[^\W\d_]")
_NUMBERS_ROWS = frozenset(
    map(
        bare,
        (
            "pos",
            "pos.",
            "nr.",
            "lfd. nr.",
            "lfd nr",
            "item no",
            "item no.",
            "position",
            "row",
            "line",
            "zeile",
        ),
    )
)
"""Headings over the numbers of the rows, which say nothing of a part."""
_LEAST_OF_A_TABLE = 4  # columns, so that a row with one cell is no part


def _row(
    record: Record,
    head: Record,
    columns: list[ColumnHeading | None],
    blank: Row,
) -> Row:
    """A record as a row like the `blank` one, which knows the file."""
    cells: dict[str, str] = {}
    strange = []
    for number, cell in enumerate(record.cells):
        heading = columns[number] if number < len(columns) else None
        if heading:
            empty = is_nothing(cell) and blank.known[heading.column].reads != "text"
            cells[heading.column] = "" if empty else cell
        elif cell:
            above = head.cells[number] if number < len(head.cells) else ""
            if bare(above) not in _NUMBERS_ROWS:
                strange.append((above, cell))
    beyond = [cell for cell in record.cells[len(columns) :] if cell]
    last = columns[-1]
    if beyond and last and last.column == "note" and all(map(_HAS_WORD.search, (cells["note"], *beyond))):
        cells["note"] = ", ".join((cells["note"], *beyond))
        strange = [(above, cell) for above, cell in strange if above]
        message = f"The note has a comma in it and is read to its end: {shown(cells['note'])}."
        blank.problems.warn(
            blank.file, message, "Put a cell with a comma in quotes.", row=record.row, cause="commas"
        )
    elif beyond:
        blank.problems.error(
            blank.file,
            f"There are {len(record.cells)} cells but {len(columns)} headings;"
            f" {shown(beyond[0])} stands under none.",
            "See whether a comma inside a cell should be in quotes, or a decimal comma be a point.",
            row=record.row,
        )
    units = {heading.column: heading.unit for heading in columns if heading}
    return replace(blank, number=record.row, cells=cells, units=units, strange=tuple(strange))

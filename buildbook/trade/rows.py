"""Reading of the data files: rows as text, their units turned into SI, and a fault in a file told by file
and line.

In: the name of a file of `data/`. Out: `TableRow`s.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib import resources
from typing import Any

from buildbook.trade.records import BASES, Ends

COMMENT = "# "
_UNIT = re.compile(r"([A-Za-z%]+|1)\^?(\d+(?:\.\d+)?)?")


class TableError(ValueError):
    """A row of a reference table is not as the head of its file says: our fault, never the maker's."""

    def __init__(self, file: str, line: int, what: str) -> None:
        super().__init__(f"{file}, line {line}: {what}")
        self.file, self.line, self.what = file, line, what


@dataclass(frozen=True)
class TableRow:
    """One row of a table, as text, with the means to read its cells."""

    file: str
    line: int
    cells: dict[str, str]

    def error(self, what: str) -> TableError:
        return TableError(self.file, self.line, what)

    def text(self, column: str) -> str:
        """A cell that must not be empty."""
        if not (value := self.cells[column].strip()):
            raise self.error(f"{column} is empty")
        return value

    def words(self, column: str) -> str:
        """A cell that may be empty."""
        return self.cells[column].strip()

    def listed(self, column: str) -> tuple[str, ...]:
        """A cell of several names, split by `;`."""
        return tuple(part.strip() for part in self.cells[column].split(";") if part.strip())

    def one_of(self, column: str, allowed: Sequence[str]) -> str:
        if (value := self.text(column)) not in allowed:
            raise self.error(f"{column} is {value!r}, not one of {', '.join(allowed)}")
        return value

    def yes(self, column: str) -> bool:
        """`yes` is true; `no` or nothing is false."""
        if (value := self.words(column)) not in ("yes", "no", ""):
            raise self.error(f"{column} is {value!r}, not yes or no")
        return value == "yes"

    def number(self, column: str, unit: str = "1") -> float:
        """A number of the given unit, in SI. Exact fractions until the end, so that 18 mm is 0.018 m and
        nothing beside.
        """
        try:
            return float(Fraction(self.text(column)) * factor(unit))
        except ValueError as fault:
            raise self.error(f"{column} is {self.cells[column]!r}, not a number") from fault

    def number_or_none(self, column: str, unit: str = "1") -> float | None:
        return self.number(column, unit) if self.words(column) else None

    def range_or_none(self, stem: str, unit: str = "1") -> Ends | None:
        """Columns `<stem>_low` and `<stem>_high`: both or neither."""
        return self.between(f"{stem}_low", f"{stem}_high", unit)

    def between(self, lowest: str, highest: str, unit: str = "1") -> Ends | None:
        """Two columns that are the ends of a range: both or neither."""
        low, high = (self.number_or_none(column, unit) for column in (lowest, highest))
        if low is None and high is None:
            return None
        if low is None or high is None or low > high:
            raise self.error(f"{lowest} and {highest} do not make a range")
        return Ends(low, high)

    def range(self, stem: str, unit: str = "1") -> Ends:
        if (found := self.range_or_none(stem, unit)) is None:
            raise self.error(f"{stem} is empty")
        return found


@cache
def read(file: str, columns: tuple[str, ...]) -> tuple[TableRow, ...]:
    """The rows of a file of `data/`, whose headings must be exactly `columns`; each row has a source and a
    basis.

    Lines that start with a hash and a space are comments.
    """
    text = resources.files("buildbook.trade").joinpath("data", file).read_text(encoding="utf-8")
    return parse(file, text, columns)


def parse(file: str, text: str, columns: tuple[str, ...]) -> tuple[TableRow, ...]:
    """The rows of the text of a table (see `read`)."""
    numbered = [(n, line) for n, line in enumerate(text.splitlines(), 1) if not line.startswith(COMMENT)]
    reader = csv.reader((line for _, line in numbered), strict=True)
    if tuple(next(reader, ())) != columns:
        raise TableError(file, numbered[0][0] if numbered else 1, f"the headings are not {','.join(columns)}")
    rows = []
    for cells in reader:
        line = numbered[reader.line_num - 1][0]
        if len(cells) != len(columns):
            raise TableError(file, line, f"{len(cells)} cells, not {len(columns)}")
        row = TableRow(file, line, dict(zip(columns, cells, strict=True)))
        row.text("source")
        row.one_of("basis", BASES)
        rows.append(row)
    return tuple(rows)


@cache
def units() -> dict[str, tuple[str, Fraction]]:
    """Each unit of units.csv: its SI unit, and how much of that it is."""
    rows = read("units.csv", ("unit", "si", "factor", "source", "basis"))
    return {row.text("unit"): (row.text("si"), Fraction(row.text("factor"))) for row in rows}


def terms(unit: str) -> list[tuple[str, int | float]]:
    """`lbf/in^1.75` as [("lbf", 1), ("in", -1.75)]."""
    terms: list[tuple[str, int | float]] = []
    for place, part in enumerate(unit.split("/")):
        match = _UNIT.fullmatch(part)
        if match is None or match[1] not in units():
            raise ValueError(f"unit {unit!r} is not made of the units of units.csv")
        power = float(match[2] or 1) * (-1 if place else 1)
        terms.append((match[1], int(power) if power.is_integer() else power))
    return terms


@cache
def factor(unit: str) -> Fraction | float:
    """What one of a unit is in SI: `mm` 1/1000, `lbf/in2` 6894.76. Raises ValueError for a unit that is
    not known.
    """
    product: Fraction | float = Fraction(1)
    for name, power in terms(unit):
        product *= units()[name][1] ** power
    return product


HALLMARK = ("source", "basis", "note")
"""The columns that end every table of facts."""

NAMES = ("key", "name", "aliases", "taken_for")


def named(row: TableRow) -> dict[str, Any]:
    """The fields of `Named`, of a row."""
    return {
        "key": row.text("key"),
        "name": row.text("name"),
        "aliases": row.listed("aliases"),
        "taken_for": row.listed("taken_for"),
        **hallmark(row),
    }


def hallmark(row: TableRow) -> dict[str, Any]:
    """Where a row is from."""
    return {"source": row.text("source"), "basis": row.text("basis"), "note": row.words("note")}

"""Takes from a past job what belongs to such a piece: parts, finishes, fittings, joints, workings. Not what belongs
to that one: its story, client, pictures, days, prices, where its wood came from.

Each key and column is decided in data/begin/like.csv; one that is not there is left out. The maker's comments at what
is taken, and the order of the rows, are kept. A spreadsheet of parts becomes parts.csv. `sizes`: what is made to
another size.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import tomlkit
from tomlkit.container import Container
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AoT, Comment, Null, Whitespace

from buildbook import limits
from buildbook.job.begin.decimals import Remark, marks
from buildbook.job.begin.past import PastJob
from buildbook.job.begin.sizes import NewSizes, in_cell, length_in
from buildbook.job.begin.texts import data, filled, words
from buildbook.job.begin.wishes import BeginError, Settled
from buildbook.job.model import Part
from buildbook.job.table.dialect import HEADINGS_WITHIN, Records, read_records, workbook_records
from buildbook.job.table.guarded import guarded
from buildbook.job.table.headings import PARTS_HEADINGS, ColumnHeading
from buildbook.job.table.sheet import read_sheet
from buildbook.job.table.workbook import is_workbook
from buildbook.job.toml.natural import as_toml
from buildbook.job.toml.shop_toml import decimal_comma
from buildbook.problems import Problems

PARTS = "parts.csv"
_FITTINGS = frozenset(("hardware", "glass", "upholstery", "supply"))
"""Kinds of parts that are bought again where they were bought before: `like.csv` calls them fittings."""
_SAME_M = 1e-6  # lengths this near are the same


@dataclass(frozen=True)
class Taken:
    """The files of the new job, as text."""

    job_toml: str
    parts_csv: str


def taken(past: PastJob, piece: Settled, own: Mapping[str, str], sizes: NewSizes | None = None) -> Taken:
    """What the new job begins with. `own`: number, title, day and client of its own, as TOML. `BeginError` where the
    past job's job.toml cannot be read.
    """
    sizes = sizes or NewSizes()
    return Taken(_job_toml(past, piece, own, sizes), _parts_csv(past, piece, sizes))


@cache
def decided() -> Mapping[tuple[str, str], str]:
    """Whether a key of a table, or a column of parts.csv, is taken: `yes`, `no`, `fittings`, or `anew` for what the new
    job says itself.
    """
    text = data().joinpath("like.csv").read_text("utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {(row["table"], row["key"]): row["taken"] for row in rows}


# -- job.toml ------------------------------------------------------------------------------------


def _job_toml(past: PastJob, piece: Settled, own: Mapping[str, str], sizes: NewSizes) -> str:
    try:
        document = tomlkit.parse(as_toml(past.job_toml.decode("utf-8-sig")))
    except (TOMLKitError, ValueError, RecursionError) as wrong:
        raise BeginError(
            f"job.toml of {past.folder} cannot be read: {wrong}. Put that right first."
        ) from None
    remark = marks(past.language, piece.language)
    _thin(document, "", remark)
    comma = decimal_comma(piece.language)
    for side, m in sizes.overall.items():
        old = document["overall"][side]
        document["overall"][side] = in_cell(str(old), m, past.units, decimal_comma=comma)
    lines = [words(piece.language)["like"].format(past=past.name.replace("\n", " ")).rstrip("\n")]
    lines += [f"{key:9} = {own[key]}" for key in ("number", "title")]
    if piece.client:
        lines.append(f"client    = {own['client']}")
    lines += [f"begun     = {own['begun']}", f'units     = "{past.units}"']
    return "\n".join((*lines, tomlkit.dumps(document).strip("\n"), ""))


def _thin(table: Any, heading: str, remark: Remark | None) -> None:
    """Leave out every key that is not taken, with the comments above it; a comment that stands by itself goes too."""
    held = table if isinstance(table, Container) else table.value
    for key in list(table):
        value = table[key]
        inside = _inside(heading, key)
        if decided().get((heading, key)) != "yes":
            _comments_above(held, key)
            table.remove(key)
        elif isinstance(value, AoT):
            for at in range(len(value) - 1, -1, -1):
                if decided().get((f"{inside} kind", str(value[at].get("kind", ""))), "yes") == "yes":
                    _thin(value[at], inside, remark)
                else:
                    del value[at]
            if not value:
                table.remove(key)
        elif isinstance(value, dict):
            _thin(value, inside, remark)
        elif remark and (said := remark(heading, key, value)) is not value:
            table[key] = said
    _lone_comments(held)


def _inside(heading: str, key: str) -> str:
    """The name of the table that a key holds, as `like.csv` has it."""
    return f"{heading}.{key}" if heading else key


def _comments_above(held: Container, key: str) -> None:
    at = next((i for i, (name, _) in enumerate(held.body) if name is not None and name.key == key), 0)
    while at and isinstance(held.body[at - 1][1], Comment):
        at -= 1
        held.body[at] = (None, Null())


def _lone_comments(held: Container) -> None:
    """Comments with nothing taken right under them."""
    below = None
    for at in range(len(held.body) - 1, -1, -1):
        name, item = held.body[at]
        if isinstance(item, Comment):
            if below is None or isinstance(below, Whitespace):
                held.body[at] = (None, Null())
        elif not isinstance(item, Null):
            below = item if name is not None else (item if isinstance(item, Whitespace) else None)


# -- parts.csv -----------------------------------------------------------------------------------


def _parts_csv(past: PastJob, piece: Settled, sizes: NewSizes) -> str:
    """The rows in their order under their own headings, cells that are not taken empty; the bare headings of the
    language where there are no parts.
    """
    problems, known = Problems(), PARTS_HEADINGS
    comma = decimal_comma(past.language)
    records = _records(past, comma) if past.parts_csv else None
    sheet = (
        read_sheet(
            past.parts_csv, past.parts_file, known, (), problems, limits.PART_ROWS, decimal_comma=comma
        )
        if records
        else None
    )
    if not records or not sheet:
        return filled("parts.csv", piece.language, piece.facts, {})
    rows = {row.number for row in sheet.rows}
    parts = {part.row: part for part in past.parts}
    head = next(
        record
        for record in records.rows
        if {h.column for text in record.cells if (h := known.find(text))} >= sheet.columns
    )
    columns = [known.find(text) for text in head.cells]
    written = io.StringIO()
    writer = csv.writer(written, delimiter=records.separator, lineterminator="\n")
    writer.writerow(guarded(cell) for cell in head.cells)
    for record in records.rows:
        if record.row in rows:
            one = _Row(past, parts.get(record.row), sizes, records.decimal_comma)
            writer.writerow(
                guarded(one.cell(cell, heading)) if heading else ""
                for cell, heading in zip(record.cells, columns, strict=False)
            )
    return written.getvalue()


def _records(past: PastJob, comma: bool) -> Records | None:
    """The records of the past job's parts, those of a spreadsheet as if they had been saved as CSV."""
    known, problems = PARTS_HEADINGS, Problems()
    if not is_workbook(past.parts_file):
        return read_records(past.parts_csv, PARTS, known.is_heading, problems)
    most = limits.PART_ROWS + HEADINGS_WITHIN
    return workbook_records(
        past.parts_csv, past.parts_file, known.sheets, problems, decimal_comma=comma, most=most
    )


@dataclass(frozen=True)
class _Row:
    """A row of the past job, as it stands in the new one."""

    past: PastJob
    part: Part | None
    sizes: NewSizes
    decimal_comma: bool

    def cell(self, cell: str, heading: ColumnHeading) -> str:
        how, column = decided().get((PARTS, heading.column)), heading.column
        is_fitting = self.part is not None and self.part.kind in _FITTINGS
        if not (how == "yes" or (how == "fittings" and is_fitting)):
            return ""
        row = self.part.row if self.part else 0
        if column == "mass" and row in self.sizes.emptied:
            return ""
        new_m = self.sizes.parts.get((row, column))
        return cell if new_m is None else self._sized(cell, column, heading.unit or self.past.units, new_m)

    def _sized(self, cell: str, column: str, unit: str, m: float) -> str:
        """A cell of a size; one that was taken between shoulders is so again."""
        said_m = length_in(cell, unit, decimal_comma=self.decimal_comma)
        between_m = self.part.between_shoulders_m if self.part and column == "length" else None
        if self.part and self.part.tenons and said_m is not None and between_m is not None:
            m -= self.part.tenons.m if abs(said_m - between_m) < _SAME_M else 0.0
        return in_cell(cell, m, unit, decimal_comma=self.decimal_comma)

"""Bytes of a spreadsheet (.xlsx, .ods) -> records of cells, as the same table saved as CSV would give them.

Which of the two it is goes by what is in it. A number comes with a unit that its format shows beside it (`22 mm`), a
date as year-month-day, a formula as the value that was saved with it, a merged cell once. A record's number is the row
as the spreadsheet shows it, hidden ones too. Never raises for what is in a file; how much of it is opened is bounded
before any of it is parsed.
"""

from __future__ import annotations

import io
import re
import zipfile
import zlib
from collections.abc import Callable, Mapping, Sequence

from buildbook import limits
from buildbook.folding import folded
from buildbook.job.table.cells import Cell, Rows
from buildbook.job.text import shown
from buildbook.problems import Problems

SUFFIXES = (".xlsx", ".ods")

_OLE = b"\xd0\xcf\x11\xe0"  # what old spreadsheets begin with, and new ones under a password
_LOCKED = "EncryptedPackage".encode("utf-16-le")
_XML = (".xml", ".rels")
_PACKINGS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
_FEW = re.compile(rb"<(?:[^\s<>/!?]+:)?(?:c|si|table-cell|covered-table-cell)[\s/>]")
_ROWS = re.compile(rb"<(?:[^\s<>/!?]+:)?(?:row|table-row)[\s/>]")
_ERRORS = re.compile(r"#(?:REF|DIV/0|VALUE|N/A|NAME|NUM|NULL|BEZUG|WERT|NV|ZAHL|CALC|SPILL)[!?]?|Err:\d{3}")


class NoSpreadsheet(Exception):
    """Why a file is not read, and one thing to do, as a problem says it."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint


def is_workbook(name: str) -> bool:
    """Whether a file is a spreadsheet by its name."""
    return name.casefold().endswith(SUFFIXES)


def tables_named(csv: str) -> tuple[str, ...]:
    """The names under which a table is found, the one that counts before another first: `parts.csv`, `parts.xlsx` …"""
    return (csv, *(csv.removesuffix(".csv") + suffix for suffix in SUFFIXES))


def read_workbook(
    data: bytes, name: str, sheets: Sequence[str], problems: Problems, *, decimal_comma: bool, most: int
) -> list[tuple[int, tuple[str, ...]]] | None:
    """The rows that hold something of the first sheet with one of these names, else of the first that is not hidden;
    `most` and one more at most. None with a problem where the file cannot be read.
    """
    found: list[tuple[int, tuple[str, ...]]] = []
    try:
        for number, cells in _opened(data, name, sheets, decimal_comma):
            _tell(number, cells, name, problems)
            found.append((number, tuple(cell.text.strip() for cell in cells)))
            if len(found) > most:
                break
    except NoSpreadsheet as why:
        problems.error(name, why.message, why.hint)
        return None
    return found


def _tell(number: int, cells: Sequence[Cell], name: str, problems: Problems) -> None:
    for place, cell in enumerate(cells):
        if cell.unsaved:
            problems.error(
                name,
                f"In column {column_letter(place)} stands a formula whose value was not saved.",
                "Open the file in its program, and save it again.",
                row=number,
            )
        elif _ERRORS.fullmatch(cell.text):
            problems.error(
                name,
                f"{shown(cell.text)} in column {column_letter(place)} says that a formula went wrong.",
                "Put the formula right, or write the value itself.",
                row=number,
            )


def column_letter(number: int) -> str:
    """A column, counted from 0, as a spreadsheet names it: A, B … Z, AA."""
    letters = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


# -- opening -------------------------------------------------------------------------------------


def _opened(data: bytes, name: str, sheets: Sequence[str], decimal_comma: bool) -> Rows:
    """Raises `NoSpreadsheet`, while rows are taken too."""
    if data.startswith(_OLE):
        if _LOCKED in data:
            raise _locked()
        message = "This is an old spreadsheet (.xls), or a file under another name."
        raise NoSpreadsheet(message, f"Save it from its program as {name}.")
    try:
        parts = _parts_of(data)
        if b"manifest:encryption-data" in parts.get("META-INF/manifest.xml", b""):
            raise _locked()
        # what reads them takes longer to load than most tables take to read
        if "content.xml" in parts:
            from buildbook.job.table import opendocument

            yield from opendocument.rows(parts["content.xml"], _chooser(sheets), decimal_comma)
        else:
            from buildbook.job.table import openxml

            yield from openxml.rows(parts, _chooser(sheets), decimal_comma)
    except NoSpreadsheet:
        raise
    except (MemoryError, OSError):
        raise
    except Exception as fault:  # whatever a damaged file makes of its readers
        message = "This file is damaged, or it is no spreadsheet."
        raise NoSpreadsheet(message, f"Save it again from its program as {name}.") from fault


def _locked() -> NoSpreadsheet:
    return NoSpreadsheet("This spreadsheet is locked with a password.", "Save it without one.")


def _parts_of(data: bytes) -> Mapping[str, bytes]:
    """The XML in a spreadsheet by its name, unpacked; nothing that could grow when it is parsed. Raises
    `NoSpreadsheet`, and what `zipfile` raises for a damaged one.
    """
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        entries = [one for one in archive.infolist() if one.filename.casefold().endswith(_XML)]
        if any(one.flag_bits & 1 for one in entries):
            raise _locked()
        if (
            sum(one.file_size for one in entries) > limits.WORKBOOK_XML_BYTES
            or len(archive.infolist()) > limits.WORKBOOK_FILES
        ):
            raise _too_much()
        try:
            found = {one.filename: _unpacked(archive, one) for one in entries}
        except zlib.error as fault:
            raise zipfile.BadZipFile(str(fault)) from fault
    if len(found) < len(entries):
        raise ValueError("two files of one name")
    for content in found.values():
        plain = content.removeprefix(b"\xef\xbb\xbf").lstrip()
        if (
            not plain.startswith(b"<")
            or b"\0" in content
            or b"<!DOCTYPE" in content
            or b"<!ENTITY" in content
        ):
            raise ValueError("no plain XML in UTF-8")
        if _more_than(content, _FEW, limits.WORKBOOK_CELLS) or _more_than(
            content, _ROWS, limits.WORKBOOK_ROWS
        ):
            raise _too_much()
    return found


def _unpacked(archive: zipfile.ZipFile, one: zipfile.ZipInfo) -> bytes:
    """What it states to hold, and never more: whoever made it may have understated it."""
    if one.compress_type not in _PACKINGS:  # others are unpacked without a bound
        raise ValueError("no packing of a spreadsheet")
    with archive.open(one) as file:
        return file.read(one.file_size)


def _more_than(content: bytes, what: re.Pattern[bytes], most: int) -> bool:
    return any(count > most for count, _ in enumerate(what.finditer(content), 1))


def _too_much() -> NoSpreadsheet:
    message = "There is far more in this spreadsheet than a table needs, so it is not opened."
    return NoSpreadsheet(message, "Copy the table alone into a new one, and save that.")


def _chooser(sheets: Sequence[str]) -> Callable[[Sequence[tuple[str, bool]]], int]:
    def choose(there: Sequence[tuple[str, bool]]) -> int:
        """Which of some sheets, each with whether it is hidden, holds the table."""
        if not there:
            raise ValueError("no sheets")
        for number, (title, _) in enumerate(there):
            if folded(title) in sheets:
                return number
        return next((number for number, (_, hidden) in enumerate(there) if not hidden), 0)

    return choose

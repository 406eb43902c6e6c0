"""The cells of an .xlsx (ISO/IEC 29500), read by openpyxl a row at a time."""

from __future__ import annotations

import io
import re
import warnings
import zipfile
from collections.abc import Callable, Mapping, Sequence
from datetime import date, time, timedelta
from typing import Any

from openpyxl import load_workbook
from openpyxl.cell.read_only import EMPTY_CELL

from buildbook import limits
from buildbook.job.table.cells import Cell, Rows, day_text, number_text, plain_text, time_text

Choose = Callable[[Sequence[tuple[str, bool]]], int]

_LAST_ROW = 1_048_576  # the programs have no more
_MONTH_YEAR = re.compile(r"mmm+\W*yy(?:yy)?", re.IGNORECASE)
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")
_CELL = re.compile(rb"<(?:[^\s<>/!?]+:)?c(?P<facts>\s[^<>]*)>(?P<inside>.*?)</(?:[^\s<>/!?]+:)?c>", re.DOTALL)
_FORMULA = re.compile(rb"<(?:[^\s<>/!?]+:)?f[\s/>]")
_VALUE = re.compile(rb"<(?:[^\s<>/!?]+:)?v>[^<]")
_PLACE = re.compile(rb"""\sr=["']([A-Z]{1,3}\d{1,7})["']""")
_FAR = re.compile(
    rb"""\sr\s*=\s*["'](?:[^"'\d]{3}|[^"']*&)"""
)  # a column of three letters, or one in disguise
_OF_TEXT = re.compile(rb"""\st=["']str["']""")


def rows(parts: Mapping[str, bytes], choose: Choose, decimal_comma: bool) -> Rows:
    """The rows of the sheet that is chosen by titles and whether they are hidden. Raises what openpyxl raises.

    parts  the XML of the workbook, looked through: openpyxl is given these bytes and no others
    """
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of what it leaves out, such as rules of colouring
        book = load_workbook(_packed(parts), read_only=True, data_only=True, keep_links=False)
        try:
            sheets = [one for one in book.worksheets if hasattr(one, "iter_rows")]
            sheet = sheets[choose([(one.title, one.sheet_state != "visible") for one in sheets])]
            content = parts.get(getattr(sheet, "_worksheet_path", "").lstrip("/"), b"")
            unsaved = _unsaved(content)
            sheet.reset_dimensions()  # some programs write wrong ones
            # without a bound each row is only as wide as it is written, which is quicker
            across = limits.CELLS_IN_ROW + 1 if _FAR.search(content) else None
            blank: Sequence[Any] | None = None
            for number, row in enumerate(sheet.iter_rows(1, _LAST_ROW, 1, across), 1):
                if row is blank:  # a million of them may lie between two rows
                    continue
                there = [cell for cell in row if cell is not EMPTY_CELL]
                if any(cell.value is not None for cell in there) or number in unsaved:
                    yield number, _cells(row, unsaved.get(number, ()), decimal_comma)
                elif not there:
                    blank = row
        finally:
            book.close()


def _packed(parts: Mapping[str, bytes]) -> io.BytesIO:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return file


def _cells(row: Sequence[Any], unsaved: Sequence[int], decimal_comma: bool) -> list[Cell]:
    cells = [
        Cell(_text(cell, decimal_comma) if cell.value is not None else "", place in unsaved)
        for place, cell in enumerate(row, 1)
    ]
    while cells and not cells[-1].text and not cells[-1].unsaved:
        cells.pop()
    return cells


def _text(cell: Any, decimal_comma: bool) -> str:
    value = cell.value
    if isinstance(value, str):
        return plain_text(_ESCAPED.sub(lambda match: chr(int(match[1], 16)), value))
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, time | timedelta):
        return time_text(value)
    if isinstance(value, date):
        if (
            _MONTH_YEAR.fullmatch(cell.number_format.split(";")[0]) and value.day == 1
        ):  # what 3/32 is turned into
            return f"{_MONTHS[value.month - 1]}-{value:%y}"
        return day_text(value)
    return number_text(value, _shown_like(cell.number_format), decimal_comma=decimal_comma)


def _shown_like(number_format: str) -> str:
    """A number of a format, for the signs around it: `0.0" mm"` shows `0.0 mm`."""
    plain = re.sub(r"\[[^\]]*\]|_.|\*.", "", number_format.split(";")[0])
    return re.sub(r'"([^"]*)"|\\(.)', lambda match: match[1] or match[2] or "", plain)


def _unsaved(sheet: bytes) -> dict[int, list[int]]:
    """Where formulas stand without a value, columns by row: openpyxl gives such a cell as an empty one."""
    found: dict[int, list[int]] = {}
    if not _FORMULA.search(sheet):
        return found
    for match in _CELL.finditer(sheet):
        inside = match["inside"]
        if not _FORMULA.search(inside) or _VALUE.search(inside) or _OF_TEXT.search(match["facts"]):
            continue
        if place := _PLACE.search(match["facts"]):
            letters, digits = re.fullmatch(r"([A-Z]+)(\d+)", place[1].decode()).groups()  # type: ignore[union-attr]
            column = 0
            for letter in letters:
                column = column * 26 + ord(letter) - ord("A") + 1
            found.setdefault(int(digits), []).append(column)
    return found

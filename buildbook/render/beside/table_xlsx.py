"""A table as a spreadsheet (ISO/IEC 29500, .xlsx): text is text, whatever it begins with, figures are figures.

The same table gives the same bytes: made on one fixed day, by nobody. A figure of more digits than a spreadsheet keeps
stands as text, so that none is lost.
"""

from __future__ import annotations

import io
import re
from datetime import datetime
from decimal import Decimal

import xlsxwriter  # type: ignore[import-untyped]

from buildbook.pages.log.table_file import Cell, TableFile

_MADE = datetime(1980, 1, 1)  # the first day that the archive of a spreadsheet can state
_KEPT_DIGITS = 15  # significant ones that the programs keep of a number
_LONGEST = 32_767  # signs that the programs take in a cell
_LONGEST_NAME = 31  # and in the name of a sheet
_NO_NAME = re.compile(r"[\[\]:*?/\\']")
_WIDEST = 40  # signs that a column shows before it is drawn wider


def xlsx_bytes(table: TableFile) -> bytes:
    """The file."""
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True})
    book.set_properties({"title": table.title, "created": _MADE})
    sheet = book.add_worksheet(_NO_NAME.sub(" ", table.sheet)[:_LONGEST_NAME].strip() or table.name)
    bold = book.add_format({"bold": True})
    for place, heading in enumerate(table.headings):
        sheet.write_string(0, place, heading, bold)
        cells = [len(str(row[place])) for row in table.rows]
        sheet.set_column(place, place, min(max(len(heading), *cells) + 1, _WIDEST))
    for number, row in enumerate(table.rows, 1):
        for place, cell in enumerate(row):
            _write(sheet, number, place, cell, table.decimal)
    sheet.freeze_panes(1, 0)
    sheet.ignore_errors({"number_stored_as_text": f"A1:XFD{len(table.rows) + 1}"})
    book.close()
    return out.getvalue()


def _write(sheet: xlsxwriter.worksheet.Worksheet, row: int, column: int, cell: Cell, decimal: str) -> None:
    if isinstance(cell, str):
        if cell:
            sheet.write_string(row, column, cell[:_LONGEST])
        return
    number = Decimal(cell)
    if len(number.as_tuple().digits) > _KEPT_DIGITS:
        sheet.write_string(row, column, format(number, "f").replace(".", decimal))
    else:
        sheet.write_number(row, column, float(number))

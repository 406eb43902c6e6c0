"""A table as CSV (RFC 4180), in UTF-8 with its mark, as spreadsheets open it: with semicolons where the decimal mark is
a comma. Text that they would take for a formula is guarded (`job/table/guarded.py`).
"""

from __future__ import annotations

import csv
import io

from buildbook.job.table.guarded import guarded
from buildbook.pages.log.table_file import Cell, TableFile

_MARK = "\ufeff"  # without it a spreadsheet takes UTF-8 for the code page of the machine


def csv_bytes(table: TableFile) -> bytes:
    """The file."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=";" if table.decimal == "," else ",")
    writer.writerow(map(guarded, table.headings))
    for row in table.rows:
        writer.writerow([_cell(cell, table.decimal) for cell in row])
    return (_MARK + out.getvalue()).encode()


def _cell(cell: Cell, decimal: str) -> str:
    return (
        guarded(cell)
        if isinstance(cell, str)
        else format(cell, "f" if cell != int(cell) else ".0f").replace(".", decimal)
    )

"""The maker's tables beside a log, each as CSV and as a spreadsheet."""

from __future__ import annotations

from collections.abc import Iterable

from buildbook.book.disk.write import Staging, sha256
from buildbook.pages.log.table_file import TableFile
from buildbook.render.beside.table_csv import csv_bytes


def lay_tables(tables: Iterable[TableFile], folder: Staging, *, of_this_program: bool) -> None:
    """Write them into a folder. The spreadsheet of a table whose CSV is that of the last edition is kept, if that
    edition is `of_this_program`: the same table gives the same.
    """
    for table in tables:
        text = csv_bytes(table)
        of_csv, of_sheet = f"{table.name}.csv", f"{table.name}.xlsx"
        folder.write(of_csv, text)
        if of_this_program and folder.old.get(of_csv) == sha256(text) and folder.keep(of_sheet):
            continue
        from buildbook.render.beside.table_xlsx import xlsx_bytes  # takes long to load, and is seldom needed

        folder.write(of_sheet, xlsx_bytes(table))

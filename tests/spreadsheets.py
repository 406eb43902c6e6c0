"""Tables as spreadsheets, written by other libraries than those that read them here."""

import io
import zipfile
from datetime import date

import xlsxwriter
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import Table, TableCell, TableRow
from odf.text import P

MAIN = b'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'


def xlsx(rows, *, sheets=("Sheet1",), at=0, formats=None):
    """A workbook whose sheet number `at` holds the rows; `formats` gives number formats by row and column from 0."""
    data = io.BytesIO()
    book = xlsxwriter.Workbook(data, {"in_memory": True, "strings_to_numbers": False})
    made = [book.add_worksheet(title) for title in sheets]
    for r, row in enumerate(rows):
        for c, value in enumerate(row):
            style = book.add_format(
                {
                    "num_format": (formats or {}).get(
                        (r, c), "yyyy-mm-dd" if isinstance(value, date) else "General"
                    )
                }
            )
            if isinstance(value, date):
                made[at].write_datetime(r, c, value, style)
            elif isinstance(value, bool):
                made[at].write_boolean(r, c, value)
            elif isinstance(value, int | float):
                made[at].write_number(r, c, value, style)
            elif value:
                made[at].write_string(r, c, value)
    book.close()
    return data.getvalue()


def ods(rows, *, sheets=("Sheet1",), at=0, shown=None):
    """The same as OpenDocument; `shown` gives what a cell shows by row and column from 0."""
    document = OpenDocumentSpreadsheet()
    for number, title in enumerate(sheets):
        table = Table(name=title)
        for r, row in enumerate(rows if number == at else ()):
            line = TableRow()
            for c, value in enumerate(row):
                line.addElement(_cell(value, (shown or {}).get((r, c))))
            table.addElement(line)
        document.spreadsheet.addElement(table)
    data = io.BytesIO()
    document.write(data)
    return data.getvalue()


def _cell(value, shown):
    if isinstance(value, date):
        cell = TableCell(valuetype="date", datevalue=value.isoformat())
    elif isinstance(value, bool):
        cell = TableCell(valuetype="boolean", booleanvalue=str(value).lower())
    elif isinstance(value, int | float):
        cell = TableCell(valuetype="float", value=repr(value))
    elif not value:
        return TableCell()
    else:
        cell = TableCell(valuetype="string")
    for line in (shown or str(value)).split("\n"):
        cell.addElement(P(text=line))
    return cell


def sheet_xml(inside, rows=(("part", "material"),)):
    """A workbook whose first sheet holds `inside` as its rows, written by hand."""
    whole = b"<worksheet " + MAIN + b"><sheetData>" + inside + b"</sheetData></worksheet>"
    return changed(xlsx(rows), {"xl/worksheets/sheet1.xml": whole})


def changed(data, contents, *, compression=zipfile.ZIP_DEFLATED):
    """An archive with other contents under some of its names."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as before, zipfile.ZipFile(out, "w", compression) as after:
        for name in dict.fromkeys((*before.namelist(), *contents)):
            after.writestr(name, contents[name] if name in contents else before.read(name))
    return out.getvalue()

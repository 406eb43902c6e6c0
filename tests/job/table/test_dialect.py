"""Whatever program wrote a table, the same rows come out."""

import csv

import pytest

from buildbook.job.table.dialect import read_records
from buildbook.job.table.headings import PARTS_HEADINGS
from buildbook.problems import Problems
from tests.job import told

ROWS = [("part", "qty", "material", "note"), ("Türe ½", "2", "oak", "a, b; c"), ("Top", "1", "ash", "")]


def written(separator, ends="\r\n"):
    def cell(text):
        return f'"{text}"' if any(sign in text for sign in ',;\t"\n') else text

    return ends.join(separator.join(map(cell, row)) for row in ROWS) + ends


def read(data):
    problems = Problems()
    records = read_records(data, "parts.csv", PARTS_HEADINGS.is_heading, problems)
    return records, problems


@pytest.mark.parametrize("separator", [",", ";", "\t"], ids=["comma", "semicolon", "tab"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"], ids=["lf", "crlf", "cr"])
def test_the_same_rows_come_out(separator, encoding, ends):
    records, problems = read(written(separator, ends).encode(encoding))
    assert told(problems) == []
    assert [record.cells for record in records.rows] == ROWS
    assert records.separator == separator
    assert records.decimal_comma is (separator != ",")


def test_utf_16_of_either_end():
    for mark, encoding in ((b"\xff\xfe", "utf-16-le"), (b"\xfe\xff", "utf-16-be")):
        assert [r.cells for r in read(mark + written(";").encode(encoding))[0].rows] == ROWS


def test_a_spreadsheets_own_mark_names_the_separator_and_is_no_row():
    records, _ = read(b"sep=;\r\n" + written(";").encode())
    assert (records.rows[0].row, records.rows[0].cells) == (1, ROWS[0])


def test_an_inch_mark_in_a_cell_is_no_quote():
    records, problems = read(b'part,qty,length\nTop,1,3/4"\nSide,2,7\' 3 1/2"\n')
    assert told(problems) == []
    assert [record.cells[2] for record in records.rows] == ["length", '3/4"', "7' 3 1/2\""]


@pytest.mark.parametrize(
    ("data", "line"),
    [
        (
            written(",").encode("utf-16-le"),
            "error: parts.csv: This is not a text file in UTF-8. Save it again as text in UTF-8.",
        ),
        (
            b"part,qty\nTop\x81,1\n",
            "warning: parts.csv, line 2: A character here cannot be read."
            " Save the file again as text in UTF-8.",
        ),
        (
            b"part,qty\nTop\x00,1\n",
            "warning: parts.csv, line 2: There is a control character here (number 0). Delete it.",
        ),
        (
            b"part,qty\nTop," + b"1" * 140_000 + b"\nSide,2\n",
            "error: parts.csv, row 2: A cell in this row is longer than 131,072 characters."
            " See whether a quotation mark is never closed.",
        ),
        (
            b'part,qty\nTop,"1\nSide,2\n',
            "error: parts.csv, row 2: A quotation mark that opens in this row is never closed, so the rest of"
            ' the file went into one cell. Close it, or delete it; an inch mark inside quotes is written "".',
        ),
        (
            b"\xd0\xcf\x11\xe0 rest",
            "error: parts.csv: This is an old spreadsheet, not a text file."
            " Save it from its program as parts.csv.",
        ),
    ],
    ids=["utf-16 unmarked", "no character", "nul", "a huge cell", "an open quote", "an old spreadsheet"],
)
def test_what_is_wrong_with_a_file_is_told(data, line):
    assert told(read(data)[1]) == [line]


def test_a_huge_cell_costs_its_own_row_only():
    records, _ = read(b"part,qty\nTop," + b"1" * 140_000 + b"\nSide,2\n")
    assert [(record.row, record.cells) for record in records.rows] == [
        (1, ("part", "qty")),
        (3, ("Side", "2")),
    ]
    assert csv.field_size_limit() == 131_072  # of the whole program, so it is left alone

"""A spreadsheet says what the same table says as CSV; what is damaged, locked or made to stop us is told."""

import csv
import io
import re
import time
import tracemalloc
import zipfile
import zlib
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook import limits
from buildbook.job.folder import read_job, read_shop
from buildbook.job.table.parts import read_parts
from buildbook.job.table.prices import read_prices
from buildbook.problems import Problems
from tests.job import told
from tests.spreadsheets import MAIN, changed, ods, sheet_xml, xlsx

HEAD = ("part", "qty", "kind", "material", "length", "width", "thickness", "price", "per", "note")
ROW = ("Top", 1, "wood", "European oak", 1200, 420, 22.5, 11.4, "each", "from the wet end")
WRITERS = {"parts.xlsx": xlsx, "parts.ods": ods}
both = pytest.mark.parametrize("file", WRITERS)


def read(data, file="parts.xlsx", units="mm", comma=False):
    problems = Problems()
    return read_parts(data, units, problems, file=file, decimal_comma=comma), problems


def one(data, file="parts.xlsx", units="mm", comma=False):
    parts, problems = read(data, file, units, comma)
    assert told(problems) == []
    (part,) = parts
    return part


# -- the same as CSV -------------------------------------------------------------------------------

WORDS = st.sampled_from(
    [
        "", "Top", "Leg", "oak", "European oak", "black walnut", "yes", "no", "each", "m3", "wood", "hardware", "3/8",
        "1 1/4", "22 mm", "ø22", "007", "=1+1", "+3", "-4", "@x", "two\nlines", "a, b; c", 'in "quotes"', "8-Mar", "total",
        "50%", "x" * 70, "Prüfung", "5/4", "0", "-1",
    ]
)  # fmt: skip
NUMBERS = st.one_of(
    st.integers(-5, 50_000),
    st.integers(0, 50_000_000).map(lambda ten_thousandths: ten_thousandths / 10_000),
    st.sampled_from([0.75, 0.375, 12.5, 1.25, 0.1 + 0.2]),
)
CELLS = st.one_of(WORDS, NUMBERS, st.dates(date(1990, 1, 1), date(2060, 1, 1)))
TABLES = st.lists(st.lists(CELLS, min_size=1, max_size=len(HEAD) + 1), min_size=1, max_size=5)


def as_csv(rows, separator):
    """As a spreadsheet saves it: numbers as they are, a day as year-month-day."""

    def text(value):
        if isinstance(value, float):
            digits = (
                f"{value:.15g}" if "e" not in f"{value:.15g}" else f"{value:.12f}".rstrip("0").rstrip(".")
            )
            whole, _, decimals = digits.partition(".")
            return digits + "0" if len(decimals) == 3 and len(whole.lstrip("-")) <= 3 else digits
        return str(value)

    out = io.StringIO()
    for row in rows:
        cells = [
            text(value).replace(".", ",") if separator == ";" and isinstance(value, float) else text(value)
            for value in row
        ]
        csv.writer(out, delimiter=separator).writerow(cells)
    return out.getvalue().encode()


@given(TABLES, st.booleans(), st.sampled_from(["mm", "in"]))
def test_any_table_comes_to_the_same_parts_and_problems(rows, comma, units):
    table = [HEAD, *rows]
    parts, problems = read(as_csv(table, ";" if comma else ","), "parts.csv", units)
    for file, write in WRITERS.items():
        others, found = read(write(table), file, units, comma)
        assert others == parts
        assert tuple(replace(one, file="parts.csv") for one in found.ordered()) == problems.ordered()


@both
def test_a_row_keeps_its_number_and_its_figures(file):
    rows = [(), ("My cut list",), (), HEAD, (), ROW, ()]
    parts, problems = read(WRITERS[file](rows), file)
    assert told(problems) == [
        f"warning: {file}, row 2: “My cut list” stands above the headings and is passed over."
    ]
    assert [part.row for part in parts] == [6]
    assert (parts[0].qty, parts[0].thickness.m) == (1, 0.0225)
    assert str(parts[0].price) == "11.4"


@both
@pytest.mark.parametrize("title", ["parts", "PARTS", "Teile", "Teileliste"])
def test_a_sheet_of_the_name_goes_before_the_first(file, title):
    data = WRITERS[file]([HEAD, ROW], sheets=("Notes", title, "Old"), at=1)
    assert one(data, file).name == "Top"


@both
def test_without_such_a_name_the_first_sheet_is_read(file):
    assert one(WRITERS[file]([HEAD, ROW], sheets=("Oak chest", "Old")), file).name == "Top"


def test_a_hidden_first_sheet_is_not_taken_for_the_table():
    data = xlsx([HEAD, ROW], sheets=("Lists", "Chest"), at=1)
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        book = archive.read("xl/workbook.xml").replace(
            b'<sheet name="Lists"', b'<sheet name="Lists" state="hidden"'
        )
    assert one(changed(data, {"xl/workbook.xml": book})).name == "Top"


# -- what a cell shows -----------------------------------------------------------------------------


@both
def test_three_quarters_shown_as_a_fraction_are_three_quarters_of_an_inch(file):
    row = ("Top", 1, "wood", "European oak", 40, 12.5, 0.75)
    data = (
        xlsx([HEAD, row], formats={(1, 6): "# ?/?"})
        if file == "parts.xlsx"
        else ods([HEAD, row], shown={(1, 6): "3/4"})
    )
    assert one(data, file, "in").thickness.m == pytest.approx(0.75 * 0.0254)


@pytest.mark.parametrize("shape", ['0" mm"', r"0\ \m\m", '#,##0.0" mm";-0', '[Red]0" mm"', '0" mm"_)'])
def test_a_unit_that_the_format_shows_counts(shape):
    row = ("Top", 1, "wood", "European oak", 400, 120, 19)
    assert one(xlsx([HEAD, row], formats={(1, c): shape for c in (4, 5, 6)}), units="in").thickness.m == 0.019
    shown = {(1, c): f"{row[c]} mm" for c in (4, 5, 6)}
    assert one(ods([HEAD, row], shown=shown), "parts.ods", "in").thickness.m == 0.019


@both
def test_a_date_where_a_fraction_should_be_is_told_as_in_csv(file):
    row = ("Top", 1, "wood", "European oak", 40, 12, date(2026, 3, 8))
    (line,) = told(read(WRITERS[file]([HEAD, row]), file, "in")[1])
    assert line == (
        f"error: {file}, row 2, thickness: “2026-03-08” is a date. A spreadsheet probably turned 3/8 into it:"
        " write 3/8 in, or format the column as text."
    )


@both
def test_a_month_and_a_year_were_a_fraction_too(file):
    row = ("Top", 1, "wood", "European oak", 40, 12, date(2032, 3, 1))
    data = (
        xlsx([HEAD, row], formats={(1, 6): "mmm-yy"})
        if file == "parts.xlsx"
        else ods([HEAD, row], shown={(1, 6): "Mar-32"})
    )
    (line,) = told(read(data, file, "in")[1])
    assert "“Mar-32” is a date. A spreadsheet probably turned 3/32 into it" in line


def test_text_in_several_faces_with_breaks_and_readings_is_text():
    string = b"<si><r><t>To</t></r><r><rPr><b/></rPr><t>p_x000D_\n left</t></r><rPh sb='0' eb='1'><t>reading</t></rPh></si>"
    strings = b"<sst " + MAIN + b">" + string + b"</sst>"
    rows = b"<row r='1'><c r='A1' t='inlineStr'><is><t>part</t></is></c><c r='B1' t='inlineStr'><is><t>note</t></is></c></row>"
    data = changed(
        sheet_xml(rows + b"<row r='3'><c r='B3' t='s'><v>0</v></c></row>", [("x", "y")]),
        {"xl/sharedStrings.xml": strings},
    )
    parts, _ = read(data)
    assert [(part.row, part.note) for part in parts] == [(3, "Top\n left")]


def test_merged_cells_repeated_rows_comments_and_readings_of_an_ods():
    content = """<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
      xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0">
      <office:body><office:spreadsheet><table:table table:name="A">
      <table:table-row table:number-rows-repeated="4"><table:table-cell table:number-columns-repeated="1024"/></table:table-row>
      <table:table-header-rows><table:table-row><table:table-cell office:value-type="string"><text:p>part</text:p></table:table-cell>
      <table:table-cell office:value-type="string"><text:p>note</text:p></table:table-cell></table:table-row></table:table-header-rows>
      <table:table-row table:number-rows-repeated="2" table:visibility="collapse"><table:covered-table-cell><text:p>under</text:p></table:covered-table-cell>
      <table:table-cell office:value-type="string"><office:annotation><text:p>said</text:p></office:annotation>
      <text:p>a<text:s text:c="2"/>b<text:span>c</text:span><text:ruby><text:ruby-base>d</text:ruby-base><text:ruby-text>e</text:ruby-text></text:ruby></text:p><text:p>f</text:p>
      </table:table-cell></table:table-row>
      <table:table-row table:number-rows-repeated="1048569"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>
      </table:table></office:spreadsheet></office:body></office:document-content>"""
    parts, _ = read(changed(ods([()]), {"content.xml": content.encode()}), "parts.ods")
    assert [(part.row, part.note) for part in parts] == [(6, "a  bcd\nf"), (7, "a  bcd\nf")]


def test_a_formula_counts_with_its_last_value_and_one_without_is_told():
    cells = (
        b"<c r='C3' t='str'><f>A1</f><v></v></c><c r='D3'><f>1+1</f></c><c r='E3'><f>B1</f><v>1200</v></c>"
    )
    head = b"<row r='1'><c r='A1' t='inlineStr'><is><t>part</t></is></c><c r='D1' t='inlineStr'><is><t>qty</t></is></c></row>"
    _, problems = read(sheet_xml(head + b"<row r='3'>" + cells + b"</row>"))
    lines = [line for line in told(problems) if "formula" in line]
    assert lines == [
        "error: parts.xlsx, row 3: In column D stands a formula whose value was not saved."
        " Open the file in its program, and save it again."
    ]


@both
def test_the_fault_of_a_formula_is_told_wherever_it_stands(file):
    _, problems = read(WRITERS[file]([HEAD, (*ROW[:9], "#REF!")]), file)
    assert told(problems) == [
        f"error: {file}, row 2: “#REF!” in column J says that a formula went wrong."
        " Put the formula right, or write the value itself."
    ]


# -- prices ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(("file", "write"), [("prices.xlsx", xlsx), ("prices.ods", ods)])
def test_prices_of_a_spreadsheet_are_those_of_the_table(tmp_path, file, write):
    rows = [
        ("material", "price", "per", "date"),
        ("European oak", 1234.567, "m3", date(2026, 2, 1)),
        ("Hinge", 11.4, "each", ""),
    ]
    (tmp_path / "shop.toml").write_text('name = "Shop"\n')
    (tmp_path / file).write_bytes(write(rows, sheets=("x", "Prices"), at=1))
    shop, problems = read_shop(tmp_path)
    assert told(problems) == []
    assert shop.prices == read_prices(as_csv(rows, ","), Problems())
    assert shop.prices[0].day == date(2026, 2, 1)


# -- in a job --------------------------------------------------------------------------------------


def lay(folder, **files):
    folder.mkdir()
    (folder / "job.toml").write_text('title = "Chest"\n')
    (folder / "notes.md").write_text("## 2026-03-02 Begun\n")
    for name, data in files.items():
        (folder / name.replace("_", ".")).write_bytes(data)
    return read_job(folder)


@pytest.mark.parametrize(("first", "second"), [("parts_csv", "parts_xlsx"), ("parts_xlsx", "parts_ods")])
def test_of_two_tables_it_is_said_which_counts(tmp_path, first, second):
    made = {"parts_csv": lambda rows: as_csv(rows, ","), "parts_xlsx": xlsx, "parts_ods": ods}
    job = lay(tmp_path / "j", **{first: made[first]([HEAD, ROW]), second: made[second]([HEAD])})
    assert [part.name for part in job.parts] == ["Top"]
    name, other = first.replace("_", "."), second.replace("_", ".")
    assert (
        f"warning: {name}: There are “{name}” and “{other}” here: only {name} is read. Keep one, as {name}."
        in told(job.problems)
    )


def test_what_programs_leave_beside_an_open_table_is_not_read(tmp_path):
    job = lay(tmp_path / "j", parts_xlsx=xlsx([HEAD, ROW]), **{"~$parts_xlsx": b"\x05Ann" + b" " * 160})
    (tmp_path / "j" / ".~lock.parts.ods#").write_text(",ann,bench,;")
    assert [part.name for part in job.parts] == ["Top"]
    assert not [
        line
        for line in told(read_job(tmp_path / "j").problems)
        if "lock" in line or "~" in line or "no parts.csv" in line
    ]


def test_problems_found_later_are_those_of_the_spreadsheet(tmp_path):
    row = (*ROW[:9], "x")
    job = lay(tmp_path / "j", parts_ods=ods([(*HEAD, "finish"), (*row, "nowhere")]))
    assert any(
        line.startswith("error: parts.ods, row 2, finish")
        or line.startswith("warning: parts.ods, row 2, finish")
        for line in told(job.problems)
    )
    assert not any("parts.csv," in line for line in told(job.problems))


# -- damaged, locked, made to stop us --------------------------------------------------------------

GOOD = xlsx([HEAD, ROW])
BOMB = (
    b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "aaaaaaaaaa">'
    + b"".join(b'<!ENTITY %c "%s">' % (c, b"&%c;" % (c - 1) * 10) for c in range(ord("b"), ord("k")))
    + b"]>"
)
OUTSIDE = b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/hostname">]>'
SHEET = "xl/worksheets/sheet1.xml"
DAMAGED = "This file is damaged, or it is no spreadsheet."
FAR_MORE = "There is far more in this spreadsheet than a table needs, so it is not opened."
LOCKED = "This spreadsheet is locked with a password."


def whole(head, cell):
    return (
        head
        + b"<worksheet "
        + MAIN
        + b"><sheetData><row><c t='inlineStr'><is><t>"
        + cell
        + b"</t></is></c></row></sheetData></worksheet>"
    )


def ole(inside):
    return b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 500 + inside.encode("utf-16-le") + b"\0" * 500


def with_password():
    data = bytearray(GOOD)
    for mark, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        for found in re.finditer(re.escape(mark), bytes(data)):
            data[found.start() + at] |= 1
    return bytes(data)


def damaged_inside():
    data = bytearray(GOOD)
    at = data.index(b"xl/sharedStrings.xml") + 25
    data[at : at + 20] = b"\xff" * 20
    return bytes(data)


ATTACKS = {
    "nothing": (lambda: b"", DAMAGED),
    "text": (lambda: b"part,material\nTop,oak\n", DAMAGED),
    "cut off": (lambda: GOOD[: len(GOOD) // 2], DAMAGED),
    "damaged inside": (damaged_inside, DAMAGED),
    "another archive": (lambda: changed(b"PK\x05\x06" + b"\0" * 18, {"a.txt": b"x"}), DAMAGED),
    "an old spreadsheet": (lambda: ole("Workbook"), "This is an old spreadsheet (.xls), or a file under another name."),
    "locked": (lambda: ole("EncryptedPackage"), LOCKED),
    "locked as an archive": (with_password, LOCKED),
    "locked ods": (lambda: changed(ods([HEAD]), {"META-INF/manifest.xml": b"<manifest:encryption-data/>"}), LOCKED),
    "billion laughs": (lambda: changed(GOOD, {SHEET: whole(BOMB, b"&j;")}), DAMAGED),
    "laughs in styles": (lambda: changed(GOOD, {"xl/styles.xml": BOMB + b"<x>&j;</x>"}), DAMAGED),
    "laughs in an ods": (lambda: changed(ods([HEAD]), {"content.xml": BOMB + b"<x>&j;</x>"}), DAMAGED),
    "a file outside": (lambda: changed(GOOD, {SHEET: whole(OUTSIDE, b"&a;")}), DAMAGED),
    "laughs in UTF-16": (lambda: changed(GOOD, {SHEET: whole(BOMB, b"&j;").decode().encode("utf-16")}), DAMAGED),
    "laughs in EBCDIC": (lambda: changed(GOOD, {SHEET: whole(BOMB.replace(b'"1.0"', b'"1.0" encoding="cp037"'), b"&j;").decode().encode("cp037")}), DAMAGED),
    "a bomb of a gigabyte": (lambda: changed(GOOD, {SHEET: whole(b"", b" " * (limits.WORKBOOK_XML_BYTES + 1))}), FAR_MORE),
    "half a million cells and one": (lambda: sheet_xml(b"<row>" + b"<c/>" * limits.WORKBOOK_CELLS + b"<c/></row>"), FAR_MORE),
    "rows within rows": (lambda: sheet_xml(b"<row>" * 200_000), DAMAGED),
    "spans within spans": (
        lambda: changed(ods([HEAD]), {"content.xml": b"<a>" * 200_000}),
        DAMAGED,
    ),
    "letters for a number": (lambda: sheet_xml(b"<row r='x'><c><v>1</v></c></row>"), DAMAGED),
    "no such text": (lambda: sheet_xml(b"<row><c t='s'><v>99</v></c></row>"), DAMAGED),
}  # fmt: skip


@pytest.mark.parametrize("name", ATTACKS)
def test_what_cannot_be_read_is_told_once_and_soon(name):
    make, message = ATTACKS[name]
    data = make()
    begun = time.monotonic()
    parts, problems = read(data)
    assert time.monotonic() - begun < 30
    assert parts == ()
    assert [one.message for one in problems] == [message]


def understated(packing: int) -> bytes:
    """A sheet of 300 MB of which the directory says that it holds a thousand bytes, with the sum of those."""
    file = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(GOOD)) as good, zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as out:
        for name in good.namelist():
            content = b"<" + b" " * 300_000_000 if name == SHEET else good.read(name)
            out.writestr(name, content, packing if name == SHEET else None)
    data = bytearray(file.getvalue())
    line = data.rindex(b"PK\1\2", 0, data.rindex(SHEET.encode()))
    data[line + 16 : line + 20] = zlib.crc32(b"<" + b" " * 999).to_bytes(4, "little")
    data[line + 24 : line + 28] = (1000).to_bytes(4, "little")
    return bytes(data)


@pytest.mark.parametrize("packing", [zipfile.ZIP_DEFLATED, zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_no_more_is_unpacked_than_is_stated(packing):
    data = understated(packing)
    tracemalloc.start()
    try:
        parts, problems = read(data)
        _, most = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert most < 100_000_000
    assert parts == ()
    assert [one.message for one in problems] == [DAMAGED]


WIDE = {
    "a row beyond the last": b"<row r='99999999999'><c r='A99999999999'><v>1</v></c></row>",
    "a cell in the last column": b"".join(
        b"<row r='%d'><c r='XFD%d'><v>1</v></c></row>" % (n, n) for n in range(1, 20_000)
    ),
    "columns hidden in entities": b"".join(
        b"<row r='%d'><c r='&#88;FD%d'><v>1</v></c></row>" % (n, n) for n in range(1, 20_000)
    ),
    "empty rows": b"".join(b"<row r='%d'/>" % n for n in range(1, 200_000)),
    "two far corners": b"<row r='1'><c r='A1'><v>1</v></c></row><row r='1048576'><c r='XFD1048576'><v>1</v></c></row>",
}


@pytest.mark.parametrize("name", WIDE)
def test_a_wide_or_long_sheet_takes_no_more_than_what_is_in_it(name):
    _, problems = read(sheet_xml(WIDE[name]))
    assert len(told(problems)) >= 1


def test_an_ods_that_repeats_what_it_holds_ends_at_the_limit():
    data = ods([HEAD, ROW])
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        content = archive.read("content.xml")
    last = content.rindex(b"<table:table-row")
    repeated = content[:last] + content[last:].replace(
        b"<table:table-row", b'<table:table-row table:number-rows-repeated="99999999999"', 1
    )
    _, problems = read(changed(data, {"content.xml": repeated}), "parts.ods")
    assert [one.message.split(";")[1] for one in problems] == [f" {limits.PART_ROWS:,} can be read."]


@given(st.binary(max_size=60), st.integers(0, len(GOOD)))
def test_a_damaged_file_never_raises(some, at):
    read(GOOD[:at] + some + GOOD[at + len(some) :])

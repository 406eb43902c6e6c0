"""The maker's tables beside a log: as spreadsheets too, made only where they changed, never handed over."""

import io
import shutil
import zipfile

import pytest
from openpyxl import load_workbook

from buildbook.book.bind import bind
from buildbook.render.beside import table_xlsx
from tests.conftest import SAMPLE

FILES = ("cut-list.csv", "cut-list.xlsx", "shopping-list.csv", "shopping-list.xlsx")
EVIL = '=HYPERLINK("http://x")'


@pytest.fixture
def job(tmp_path):
    """The sample without its pictures, with a note that is a formula."""
    folder = tmp_path / "job"
    shutil.copytree(SAMPLE, folder, ignore=shutil.ignore_patterns("photos", "book"))
    text = (folder / "parts.csv").read_text("utf-8")
    (folder / "parts.csv").write_text(text.replace("five boards", EVIL.replace('"', '""'), 1), "utf-8")
    return folder


@pytest.fixture
def made(monkeypatch):
    """The tables of which a spreadsheet was made."""
    names = []
    whole = table_xlsx.xlsx_bytes
    monkeypatch.setattr(table_xlsx, "xlsx_bytes", lambda table: names.append(table.name) or whole(table))
    return names


def log_of(book):
    (log,) = (book / "jobs").iterdir()
    return log


def test_each_table_lies_beside_the_log_and_nowhere_else(job, tmp_path):
    assert bind(job, tmp_path / "book").ok
    log = log_of(tmp_path / "book")
    assert {path.name for path in log.iterdir()} >= set(FILES)
    page = (log / "index.html").read_text("utf-8")
    assert [name for name in FILES if f'href="{name}"' not in page] == []
    others = [path for path in (tmp_path / "book").rglob("*") if path.is_file() and path.parent != log]
    assert [path for path in others if path.name in FILES] == []
    handed = b"".join(path.read_bytes() for path in (tmp_path / "book" / "handover").rglob("*.html"))
    assert b"cut-list" not in handed
    assert b"shopping-list" not in handed


def test_no_cell_of_a_spreadsheet_is_a_formula(job, tmp_path):
    bind(job, tmp_path / "book")
    data = (log_of(tmp_path / "book") / "cut-list.xlsx").read_bytes()
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        assert b"<f>" not in archive.read("xl/worksheets/sheet1.xml")
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    cells = [cell for row in load_workbook(io.BytesIO(data)).active.iter_rows() for cell in row]
    assert [cell.data_type for cell in cells if EVIL in str(cell.value)] == ["s"]


def test_a_spreadsheet_is_made_only_where_its_table_changed(job, tmp_path, made):
    book = tmp_path / "book"
    bind(job, book)
    first = {name: (log_of(book) / name).read_bytes() for name in FILES}
    assert sorted(made) == ["cut-list", "shopping-list"]
    made.clear()
    (job / "notes.md").write_text((job / "notes.md").read_text("utf-8") + "\nSwept the floor.\n", "utf-8")
    assert bind(job, book).ok
    assert made == []
    assert {name: (log_of(book) / name).read_bytes() for name in FILES} == first
    text = (job / "parts.csv").read_text("utf-8").replace(EVIL.replace('"', '""'), "four boards")
    (job / "parts.csv").write_text(text, "utf-8")
    assert bind(job, book).ok
    assert made == ["cut-list"]


def test_one_that_was_harmed_is_made_again_with_the_same_bytes(job, tmp_path):
    book = tmp_path / "book"
    bind(job, book)
    sheet = log_of(book) / "cut-list.xlsx"
    before = sheet.read_bytes()
    sheet.write_bytes(before[:-9])
    assert bind(job, book).ok
    assert sheet.read_bytes() == before

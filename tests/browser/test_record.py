"""The full record: a build log printed by a browser, on A4 and Letter. Read back from the PDF."""

import io
import re
import unicodedata

import pypdf
import pypdfium2
import pytest
from pypdfium2 import raw

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from tests.conftest import ROOT, SAMPLE
from tests.render.print.test_wall import job as made_job

pytestmark = pytest.mark.browser
DRESSER = ROOT / "tests/shelf/2024-003-kitchen-dresser"
MM_PT = 72 / 25.4
WIDE_MM = 80  # the least for a picture of a joint to be read


@pytest.fixture(params=["A4", "Letter"])
def sheets(request, open_page, tmp_path):
    """The sheets of a job's record: text of each, and the PDF."""

    def printed(folder):
        book = tmp_path / "book"
        assert bind(folder, book).ok
        page = open_page(book / "jobs" / folder.name / "index.html")
        page.evaluate("document.querySelectorAll('img').forEach(i => { i.loading = 'eager' })")
        page.wait_for_function("[...document.images].every(i => i.complete)")
        pdf = page.pdf(format=request.param, prefer_css_page_size=True)
        return [plain(one.extract_text()) for one in pypdf.PdfReader(io.BytesIO(pdf)).pages], pdf

    return printed


def plain(text):
    return re.sub(r"\s+", " ", text)


def firsts(pictures):
    """Each picture once, as it is shown first."""
    found = {}
    for picture in pictures:
        found.setdefault(picture.digest, picture)
    return found.values()


def bare(text):
    """Letters and figures alone; joined letters and fractions are set in more than one way."""
    return re.sub(r"[\W_]+", "", unicodedata.normalize("NFKC", text))


@pytest.mark.parametrize("folder", [SAMPLE, DRESSER])
def test_each_sheet_says_of_what_it_is_and_which_of_how_many(sheets, folder):
    texts, _ = sheets(folder)
    of = read_job(folder)
    for number, text in enumerate(texts, 1):
        assert bare(f"{of.number}{of.title}") in bare(text)
        assert f"{number} / {len(texts)}" in text


@pytest.mark.parametrize("folder", [SAMPLE, DRESSER])
def test_the_cut_list_is_whole_and_on_the_first_two_sheets(sheets, folder):
    texts, _ = sheets(folder)
    rows = next(table.rows for table in pages_of(read_job(folder))[1].tables if table.key == "cut_list")
    whole = [page for page, text in enumerate(texts) if all(bare("".join(row)) in bare(text) for row in rows)]
    assert whole
    assert whole[0] <= 1


@pytest.mark.parametrize("folder", [SAMPLE, DRESSER])
def test_pictures_are_large_with_what_they_show_and_their_day(sheets, folder):
    texts, pdf = sheets(folder)
    log = pages_of(read_job(folder))[1]
    shown = [
        (picture, day.iso)
        for day in log.days
        for picture in firsts((*(p for _, p in day.pictures), *day.strip))
    ]
    widths = [
        (box[2] - box[0]) / MM_PT
        for page in pypdfium2.PdfDocument(pdf)
        for box in (image.get_bounds() for image in page.get_objects(filter=[raw.FPDF_PAGEOBJ_IMAGE]))
    ]
    assert len(widths) == len(shown) + (log.lead is not None)
    assert all(width >= WIDE_MM for width in widths), widths
    for picture, day in shown:
        assert bare(f"{picture.caption}{day}") in bare("".join(texts))


@pytest.mark.parametrize("folder", [SAMPLE, DRESSER])
def test_every_note_is_in_it(sheets, folder):
    """All words of all notes; a word may be parted at the end of a line or of a sheet."""
    text = bare("".join(sheets(folder)[0]))
    for entry in read_job(folder).entries:
        assert bare(entry.day.isoformat()) in text
        assert bare(entry.title) in text
        for mark in entry.marks:
            assert all(bare(word) in text for word in mark.text.split())


def test_of_a_long_list_no_row_is_parted_and_each_sheet_has_its_headings(sheets, tmp_path):
    made_job(tmp_path, 120, 9)
    texts, _ = sheets(tmp_path / "job")
    found = {}
    for number, text in enumerate(texts):
        for row in range(120):
            if re.search(rf"Piece {row}x \d+ (?:European oak|ash|black walnut) {700 + row} ", text):
                found[row] = number
    assert sorted(found) == list(range(120))
    assert len(set(found.values())) > 1
    for number in set(found.values()):
        assert "Part No. Material Length" in texts[number]

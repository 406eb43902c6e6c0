"""The booklets of whole jobs, in each theme and language: no page half empty, no heading left alone at its foot."""

import io
from dataclasses import replace
from itertools import cycle

import pypdfium2
import pytest
from PIL import Image, ImageOps

from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from buildbook.render.html.theme import load_theme
from buildbook.render.print.booklet import care_booklet
from tests.conftest import ROOT
from tests.owner.questions import pieces
from tests.render.printed import MM_PT, reader

TOP_PT, FOOT_PT = (210 - 20) * MM_PT, 22 * MM_PT  # of the text, from the foot of the page
LEAST_FULL = 0.5
LINES_OF_HEADING_PT = 30  # what a heading itself may take, with letters that reach below the line
COMBINATIONS = [
    (piece, theme, language)
    for language in ("en", "de")
    for piece, theme in zip(pieces(), cycle(("plain", "oilstone", "sawbench")), strict=False)
]


@pytest.fixture(scope="module", params=COMBINATIONS, ids=lambda one: f"{one[0].key}-{one[1]}-{one[2]}")
def pdf(request):
    owned, theme, language = request.param
    job = read_job(ROOT / owned.folder)
    piece, *_ = pages_of(replace(job, shop=replace(job.shop, language=language)))
    named = {photo.digest: photo.name for photo in job.photos}
    pictures = {p.digest: small(ROOT / owned.folder / named[p.digest]) for p in piece.pictures()}
    made = care_booklet(piece, load_theme(theme), pictures=pictures, fingerprint="7F3K-9QWM-2XAB-V")
    assert made.left_out == ()
    return made.pdf


def small(path):
    with Image.open(path) as opened:
        picture = ImageOps.exif_transpose(opened).convert("RGB")
    picture.thumbnail((300, 300))
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=70)
    return out.getvalue()


def lowest(pdf):
    """Of each page, how far down its text or pictures reach, in points from its foot."""
    found = {}
    for number, page in enumerate(pypdfium2.PdfDocument(pdf)):
        bottoms = [shape.get_bounds()[1] for shape in page.get_objects()]
        found[number] = min((bottom for bottom in bottoms if bottom >= FOOT_PT - 4), default=TOP_PT)
    return found


def test_no_page_but_the_last_is_less_than_half_full(pdf):
    filled = {page + 1: (TOP_PT - low) / (TOP_PT - FOOT_PT) for page, low in lowest(pdf).items()}
    last = max(filled)
    assert {
        page: round(part, 2) for page, part in filled.items() if part < LEAST_FULL and page not in (1, last)
    } == {}


def test_text_follows_each_heading_on_its_page(pdf):
    book, document = reader(pdf), pypdfium2.PdfDocument(pdf)

    def each(entries):
        for entry in entries:
            if isinstance(entry, list):
                yield from each(entry)
            else:
                yield entry

    alone = []
    for entry in each(book.outline):
        page, top = book.get_destination_page_number(entry), float(entry.top)
        bottoms = [shape.get_bounds()[1] for shape in document[page].get_objects()]
        if not any(FOOT_PT - 4 <= bottom < top - LINES_OF_HEADING_PT for bottom in bottoms):
            alone.append((entry.title, page + 1))
    assert alone == []

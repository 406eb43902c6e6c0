"""The printed cards of whole jobs, in each theme and language: legible, whole, and finished on both sides."""

import io
import re
from dataclasses import replace
from itertools import cycle

import pypdfium2
import pytest
from PIL import Image, ImageOps

from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from buildbook.pages.client.card import card_of
from buildbook.render.html.theme import load_theme
from buildbook.render.print.card import care_card
from tests.conftest import ROOT
from tests.pages.client.test_cards import ORACLE
from tests.render.printed import MM_PT, characters, reader, words

EMPTY = 0.45  # of a side's height: more white than that in one place looks as if something were missing
COMBINATIONS = list(zip(ORACLE, cycle(("plain", "oilstone", "sawbench")), strict=False))


def printed(name, theme, language):
    job = read_job(ROOT / ORACLE[name]["job"])
    piece, *_ = pages_of(replace(job, shop=replace(job.shop, language=language)))
    piece = replace(piece, page_address="https://shop.example/pieces/one-of-its-kind/")
    lead = next((photo for photo in job.photos if piece.lead and photo.digest == piece.lead.digest), None)
    picture = None
    if lead:
        with Image.open(ROOT / ORACLE[name]["job"] / lead.name) as opened:
            small = ImageOps.exif_transpose(opened).convert("RGB")
        small.thumbnail((600, 600))
        out = io.BytesIO()
        small.save(out, "JPEG", quality=80)
        picture = out.getvalue()
    card = card_of(piece, "7F3K-9QWM-2XAB-V")
    return piece, card, care_card(card, load_theme(theme), picture=picture), picture is not None


def white(pdf, page):
    """The largest height without ink, as a part of the side's."""
    sheet = pypdfium2.PdfDocument(pdf)[page].render(scale=1).to_pil().convert("L")
    rows = [sheet.crop((0, y, sheet.width, y + 1)).getextrema()[0] < 240 for y in range(sheet.height)]
    longest = now = 0
    for inked in rows:
        now = 0 if inked else now + 1
        longest = max(longest, now)
    return longest / len(rows)


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize(("name", "theme"), COMBINATIONS)
def test_a_card_is_legible_whole_and_finished_on_both_sides(name, theme, language):
    piece, card, made, has_picture = printed(name, theme, language)
    assert len(reader(made.pdf).pages) == 2
    assert min(size for _, _, size, _ in characters(made.pdf)) >= 8 - 0.01
    page = reader(made.pdf).pages[0].trimbox
    for _, sign, _, (left, bottom, right, top) in characters(made.pdf):
        assert left >= 4 * MM_PT, sign
        assert right <= float(page.width) - 4 * MM_PT, sign
        assert bottom >= 4 * MM_PT, sign
        assert top <= float(page.height) - 4 * MM_PT, sign
    back = words(made.pdf, 1)
    for caution in card.cautions:  # room is made by whatever else there is
        assert " ".join(caution.text.split())[:40] in back
    assert "shop.example/pieces/one-of-its-kind" in back
    if piece.contact.phone:
        assert re.sub(r"\s+", " ", piece.contact.phone) in back
    assert white(made.pdf, 1) <= EMPTY
    if has_picture:
        assert white(made.pdf, 0) <= EMPTY

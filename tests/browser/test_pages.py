"""The pages in a real browser: accessible, self-contained, readable without script, printed cleanly."""

import io
from pathlib import Path

import pypdf
import pytest

from tests.browser import axe_faults

pytestmark = pytest.mark.browser
PAGES = {
    "client": "handover/sample_job/index.html",
    "log": "jobs/sample_job/index.html",
    "shelf": "index.html",
}
A4_PT = (595.3, 841.9)  # ISO 216: 210 × 297 mm


@pytest.mark.parametrize("page_name", PAGES)
def test_axe_finds_nothing(bound_sample, open_page, page_name):
    assert axe_faults(open_page(bound_sample / PAGES[page_name])) == []


@pytest.mark.parametrize("width", [360, 390, 1280, 2000])
@pytest.mark.parametrize("page_name", PAGES)
def test_no_page_is_wider_than_its_window(bound_sample, open_page, page_name, width):
    page = open_page(bound_sample / PAGES[page_name], width=width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("page_name", PAGES)
def test_no_request_leaves_the_folder(bound_sample, open_page, page_name):
    path = bound_sample / PAGES[page_name]
    page = open_page(path)
    page.evaluate("window.scrollTo(0, document.body.scrollHeight)")
    page.wait_for_load_state("networkidle")
    allowed = path.parent if page_name == "client" else bound_sample
    assert page.asked
    assert all(url.startswith(allowed.as_uri()) for url in page.asked), page.asked


@pytest.mark.parametrize("page_name", PAGES)
def test_every_picture_is_there_and_has_its_size_and_words(bound_sample, open_page, page_name):
    page = open_page(bound_sample / PAGES[page_name])
    page.evaluate("document.querySelectorAll('img').forEach(i => { i.loading = 'eager' })")
    page.wait_for_function("document.images.length && [...document.images].every(i => i.complete)")
    pictures = page.evaluate(
        "[...document.images].map(i => [i.naturalWidth, +i.getAttribute('width'), +i.getAttribute('height'), i.alt, i.srcset])"
    )
    assert pictures
    for natural, width, height, alt, srcset in pictures:
        assert natural > 0
        assert width > 0
        assert height > 0
        assert alt or page_name == "shelf"  # there the title beside it says the same
        assert srcset


def test_every_link_inside_the_book_leads_somewhere(bound_sample, open_page):
    for name in PAGES.values():
        page = open_page(bound_sample / name)
        for href in page.evaluate("[...document.querySelectorAll('a[href]')].map(a => a.href)"):
            if href.startswith("file:"):
                target, _, anchor = href.removeprefix("file://").partition("#")
                assert Path(target).exists(), (name, href)
                if anchor and target == str(bound_sample / name):
                    assert page.evaluate("id => !!document.getElementById(decodeURIComponent(id))", anchor), (
                        name,
                        href,
                    )


def test_the_client_page_reads_without_script(bound_sample, open_page):
    page = open_page(bound_sample / PAGES["client"], script=False)
    text = page.inner_text("body")
    for words in (
        "Sideboard with a slate inset",
        "Quercus robur",
        "Juglans nigra",
        "hello@tenterhook.example",
    ):
        assert words in text


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
@pytest.mark.parametrize(("page_name", "most"), [("client", 22), ("log", 22)])
def test_it_prints_on_sheets(bound_sample, open_page, page_name, most, sheet):
    page = open_page(bound_sample / PAGES[page_name])
    page.evaluate("document.querySelectorAll('img').forEach(i => { i.loading = 'eager' })")
    page.wait_for_function("[...document.images].every(i => i.complete)")
    reader = pypdf.PdfReader(io.BytesIO(page.pdf(format=sheet, prefer_css_page_size=False)))
    assert 2 <= len(reader.pages) <= most
    box = reader.pages[0].mediabox
    if sheet == "A4":
        assert (float(box.width), float(box.height)) == pytest.approx(A4_PT, abs=1)
    text = "\n".join(p.extract_text() for p in reader.pages)
    assert "Sideboard with a slate inset" in text


def test_the_print_has_no_dark_ground(bound_sample, open_page):
    """Somebody who reads in the evening still prints on paper."""
    page = open_page(bound_sample / PAGES["client"], scheme="dark")
    page.emulate_media(media="print", color_scheme="dark")
    ground = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert ground in ("rgb(255, 255, 255)", "rgba(0, 0, 0, 0)")


def test_the_keyboard_reaches_the_text_first(bound_sample, open_page):
    page = open_page(bound_sample / PAGES["client"])
    page.keyboard.press("Tab")
    first = page.evaluate("document.activeElement.getAttribute('href')")
    assert first.startswith("#")
    assert page.evaluate("id => !!document.getElementById(id)", first[1:])

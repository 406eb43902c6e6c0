"""The letter of an estimate in a real browser, in every theme: accessible, self-contained, never too wide, printable."""

import io
import re

import pypdf
import pytest

from buildbook.pages.letter.letter import letter_of
from buildbook.render.html.theme import load_theme, theme_names
from tests.browser import axe_faults
from tests.estimates import enquiry, estimate_of, inch_shop, materials_only

pytestmark = pytest.mark.browser
THEMES = theme_names()
LETTERS = {
    "press": letter_of(estimate_of(enquiry("linen-press"))),
    "bench": letter_of(materials_only(estimate_of(enquiry("low-bench")))),
    "inches": letter_of(estimate_of(enquiry("side-table-in", inch_shop()), 1895, 1540, 2210)),
}


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    """The page of each letter by theme and name."""
    made = {}
    for theme in THEMES:
        for name, letter in LETTERS.items():
            made[theme, name] = tmp_path_factory.mktemp(theme) / f"{name}.html"
            made[theme, name].write_text(load_theme(theme).letter_page(letter), "utf-8")
    return made


@pytest.mark.parametrize("name", LETTERS)
@pytest.mark.parametrize("theme", THEMES)
def test_axe_finds_nothing(theme, name, pages, open_page):
    assert axe_faults(open_page(pages[theme, name])) == []


@pytest.mark.parametrize("name", LETTERS)
@pytest.mark.parametrize("theme", THEMES)
def test_it_is_never_wider_than_its_window(theme, name, pages, open_page):
    page = open_page(pages[theme, name])
    for width in (320, 360, 390, 820, 1280, 2000):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width, width


@pytest.mark.parametrize("theme", THEMES)
def test_nothing_is_asked_for_but_the_page(theme, pages, open_page):
    page = open_page(pages[theme, "press"], script=False)
    page.wait_for_load_state("networkidle")
    assert page.asked == [pages[theme, "press"].as_uri()]
    assert "Linen press in ash" in page.inner_text("body")


@pytest.mark.parametrize("theme", THEMES)
def test_the_likeliest_stands_over_its_mark(theme, pages, open_page):
    """The figure lies between the ends of the line, and its mark under it, at whatever width."""
    for width in (360, 1280):
        page = open_page(pages[theme, "press"], width=width)
        line, figure = (page.locator(name).bounding_box() for name in (".between", ".likely"))
        mark = line["x"] + LETTERS["press"].price.at * line["width"]
        assert line["x"] <= figure["x"] <= mark <= figure["x"] + figure["width"] <= line["x"] + line["width"]
        assert figure["y"] + figure["height"] <= line["y"] + 1


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
@pytest.mark.parametrize("name", LETTERS)
@pytest.mark.parametrize("theme", THEMES)
def test_it_prints_on_one_or_two_sheets(theme, name, sheet, pages, open_page):
    page = open_page(pages[theme, name], scheme="dark")
    sheets = pypdf.PdfReader(io.BytesIO(page.pdf(format=sheet))).pages
    assert len(sheets) <= (1 if name == "bench" else 2)
    printed = re.sub(r"\W", "", "".join(one.extract_text() for one in sheets))
    for words in (LETTERS[name].title, LETTERS[name].price.likely, LETTERS[name].contact.maker):
        assert re.sub(r"\W", "", words) in printed
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"

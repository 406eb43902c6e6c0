"""The pages across jobs in a real browser: accessible, read without script, no wider than the window, printed."""

import io
import re
import shutil
from pathlib import Path

import pypdf
import pytest

from buildbook.book.bind import bind
from buildbook.pages.past.across import KINDS, PAGES
from buildbook.render.html.theme import theme_names
from tests.browser import axe_faults
from tests.make_shelf import made_jobs, write_book

pytestmark = pytest.mark.browser
SHELF = Path(__file__).resolve().parents[1] / "shelf"
LONGEST_BYTES = 2_000_000
MADE = 250
JIG = "\n\nJig: two fences on a board, 18.1 between them; on the third nail, marked DRESSER.\n"


@pytest.fixture(scope="module")
def books(tmp_path_factory):
    """The ten jobs bound by each theme, one of them with a job that then failed."""
    out = {}
    for theme in theme_names():
        place = tmp_path_factory.mktemp(theme)
        shelf = Path(shutil.copytree(SHELF, place / "shelf", ignore=shutil.ignore_patterns("__pycache__")))
        shop = shelf / "shop.toml"
        shop.write_text(f'theme = "{theme}"\n' + shop.read_text("utf-8"), "utf-8")
        with (shelf / "2024-003-kitchen-dresser" / "notes.md").open("a", encoding="utf-8") as notes:
            notes.write(JIG)
        assert bind(shelf, place / "book").ok
        out[theme] = place / "book"
    bad = place / "shelf" / "2024-015-hall-table"
    (bad / "job.toml").write_text("title = \n")
    bind(bad, place / "book")
    return out


@pytest.fixture(scope="module")
def many(tmp_path_factory):
    """A book of many made jobs over fifteen years."""
    place = tmp_path_factory.mktemp("many") / "book"
    write_book(place, made_jobs(MADE, seed=4, words=(60, 150)))
    return place


@pytest.mark.parametrize("theme", theme_names())
@pytest.mark.parametrize("name", PAGES)
def test_axe_finds_nothing(books, open_page, theme, name):
    assert axe_faults(open_page(books[theme] / f"{name}.html")) == []


@pytest.mark.parametrize("name", [*PAGES, "jobs/2024-015-hall-table/index"])
@pytest.mark.parametrize("theme", theme_names())
def test_no_page_is_wider_than_its_window(books, open_page, theme, name):
    page = open_page(books[theme] / f"{name}.html", width=360)
    for width in (320, 360, 832, 1280, 2000):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_every_page_is_one_click_from_the_list_and_from_a_log_without_script(books, open_page):
    book = books["oilstone"]
    for start in ("index.html", "jobs/2022-021-garden-bench/index.html", "woods.html"):
        page = open_page(book / start, script=False)
        for name in PAGES:
            page.goto((book / start).as_uri())
            page.locator("nav.pages a").nth(
                [*PAGES].index(name) + (start != "jobs/2022-021-garden-bench/index.html")
            ).click()
            assert page.url.partition("#")[0] == (book / f"{name}.html").as_uri()
    page.goto((book / "woods.html").as_uri())
    assert page.locator("nav.pages [aria-current=page]").inner_text() == "Woods"


def test_from_the_index_of_a_page_to_a_thing_and_on_to_the_day_it_was_noted(books, open_page):
    page = open_page(books["oilstone"] / "woods.html", script=False)
    page.get_by_role("link", name="Iroko").click()
    heading = page.get_by_role("heading", name="Iroko", exact=True)
    top = heading.evaluate("e => e.getBoundingClientRect().top")
    assert 0 <= top < 200
    table = page.get_by_role("table").filter(has=page.get_by_role("link", name="Garden bench for a school"))
    table.get_by_role("link", name="2022-06-29").first.click()
    assert page.url.endswith("jobs/2022-021-garden-bench/index.html#day-2022-06-29-p1")
    assert page.locator("#day-2022-06-29-p1").is_visible()


@pytest.mark.parametrize("theme", theme_names())
@pytest.mark.parametrize("width", [390, 1280])
def test_a_hit_leads_to_its_paragraph_which_is_marked_by_day_and_by_night(books, open_page, theme, width):
    page = open_page(books[theme] / "index.html", width=width)
    page.locator("#find").fill("twin tenon")
    page.locator(".why-found a").first.click()
    page.wait_for_url("**/jobs/2023-017-reading-chair/index.html#day-2023-09-11-p1")
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        here = page.locator(":target")
        assert "Twin tenons" in here.inner_text()
        top, bottom, height = here.evaluate(
            "e => [e.getBoundingClientRect().top, e.getBoundingClientRect().bottom, innerHeight]"
        )
        assert 0 <= top < bottom <= height
        style = "e => [getComputedStyle(e).outlineStyle, getComputedStyle(e).backgroundColor]"
        outline, ground = here.evaluate(style)
        assert outline == "solid"
        assert ground != page.locator("body").evaluate("e => getComputedStyle(e).backgroundColor")
    page.emulate_media(media="print")
    assert page.locator(":target").evaluate("e => getComputedStyle(e).outlineStyle") == "none"


def test_every_table_has_heads_and_every_row_of_a_job_names_it(books, open_page):
    for name in KINDS:
        page = open_page(books["oilstone"] / f"{name}.html", script=False)
        heads = page.locator("thead").all()
        assert heads
        for row in page.locator("tbody tr:not(.notes):not(.more)").all()[:40]:
            assert row.get_by_role("rowheader").get_by_role("link").count() == 1


def test_a_job_that_failed_is_marked_in_words(books, open_page):
    page = open_page(books[theme_names()[-1]] / "joinery.html")
    marks = page.locator(".mark-stale")
    assert marks.count() == 3  # its three joints
    assert re.match("Not bound again", marks.first.inner_text())


def test_pictures_say_in_words_what_they_show(books, open_page):
    page = open_page(books["oilstone"] / "years.html")
    figures = page.locator("figure.by-year").all()
    assert len(figures) == 5
    for figure in figures:
        told = figure.locator("figcaption")
        assert told.is_visible()
        assert figure.locator("desc").text_content().startswith(told.text_content())
        assert len(figure.locator("title").text_content()) > 3


def test_no_request_leaves_the_book_and_none_is_made_but_for_the_page(books, open_page):
    for name in PAGES:
        path = books["oilstone"] / f"{name}.html"
        page = open_page(path)
        page.wait_for_load_state("networkidle")
        assert page.asked == [path.as_uri()]


@pytest.mark.parametrize("name", PAGES)
def test_a_book_of_many_jobs_is_still_a_page_that_opens(many, open_page, name):
    path = many / f"{name}.html"
    assert path.stat().st_size < LONGEST_BYTES / 2
    page = open_page(path, width=360, script=False)
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    if name == "woods":
        assert page.locator(".older li").count() > 50


def test_lettering_of_a_picture_stays_legible_on_a_telephone(books, many, open_page):
    for book in (books["oilstone"], many):
        page = open_page(book / "years.html", width=360)
        sizes = page.evaluate(
            "[...document.querySelectorAll('svg.bars')].map(s => 12 * s.getBoundingClientRect().width / s.viewBox.baseVal.width)"
        )
        assert min(sizes) > 8.5


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
@pytest.mark.parametrize("name", PAGES)
def test_it_prints_on_sheets_without_its_navigation(books, open_page, name, sheet):
    page = open_page(books["oilstone"] / f"{name}.html", scheme="dark")
    reader = pypdf.PdfReader(io.BytesIO(page.pdf(format=sheet, prefer_css_page_size=False)))
    text = "\n".join(p.extract_text() for p in reader.pages)
    assert 1 <= len(reader.pages) <= 12
    assert "On this page" not in text
    assert {"woods": "Iroko", "suppliers": "Corrigan", "years": "Hours by stage"}.get(name, "") in text
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 640, "height": 900})  # about the sheet without its margins
    wide = page.evaluate(
        "Math.max(...[...document.querySelectorAll('table')].map(t => t.getBoundingClientRect().width))"
    )
    assert wide <= 640

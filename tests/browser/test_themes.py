"""Every theme of the project, with the sample job: whole, accessible, never wider than its window, printable."""

import io
import re
import shutil
from dataclasses import fields, is_dataclass

import pypdf
import pytest

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from buildbook.pages.client.piece import ClientPiece
from buildbook.render.html.theme import theme_names
from tests.browser import axe_faults
from tests.conftest import SAMPLE

pytestmark = pytest.mark.browser
THEMES = theme_names()
MOST_SHEETS = 22

# Fields of the model that are for programs, not for reading. `due` goes to the calendar.
NOT_SHOWN = {
    "key", "source", "basis", "event", "severity", "digest", "alt", "kind", "language", "wood_colours", "due", "stands", "country",
}  # fmt: skip
ONLY_IN_PRINT = {
    "label",
    "day_one",
    "first_weeks",
    "front",
}  # the page has the same in its record and its instructions
NAMES_OF_FILES = "pictures"  # in a passage, beside each picture
MARKUP = re.compile(r"!\[[^\]]*\]\([^)]*\)|\]\([^)]*\)|[*_`#\[\]>]")


@pytest.fixture(scope="module")
def books(tmp_path_factory):
    """The book of the sample by theme, and its piece: a copy of the sample each, with another theme in shop.toml."""
    made = {}
    for theme in THEMES:
        place = tmp_path_factory.mktemp(theme)
        job = place / "sample_job"
        shutil.copytree(SAMPLE, job)
        shop = job / "shop.toml"
        shop.write_text(f'theme = "{theme}"\n' + shop.read_text("utf-8"), "utf-8")
        result = bind(job, place / "book")
        assert result.ok, [str(p) for j in result.jobs for p in j.problems]
        made[theme] = place / "book"
    return made


@pytest.fixture(scope="module")
def piece() -> ClientPiece:
    return pages_of(read_job(SAMPLE))[0]


def client_page(book):
    return book / "handover" / "sample_job" / "index.html"


def plain(text):
    """Letters and figures alone: what is left whatever the spaces, quotes, fractions and capitals are set like."""
    return re.sub(r"\W+", "", MARKUP.sub("", text).casefold())


def texts(value, name=""):
    """Every text of a model that somebody is meant to read, with the field that it is in."""
    if name in NOT_SHOWN:
        return
    if is_dataclass(value):
        for field in fields(value):
            yield from texts(getattr(value, field.name), field.name)
    elif isinstance(value, tuple):
        for item in value:
            yield from texts(item, name)
    elif isinstance(value, str) and plain(value) and name != NAMES_OF_FILES:
        yield name, value


@pytest.mark.parametrize("theme", THEMES)
def test_it_shows_every_text_of_the_piece(theme, books, piece, open_page):
    page = open_page(client_page(books[theme]))
    page.evaluate("document.querySelectorAll('style').forEach(s => s.remove())")
    shown = plain(page.evaluate("document.documentElement.textContent"))
    of_page = [field.name for field in fields(piece) if field.name not in ONLY_IN_PRINT]
    told = [one for name in of_page for one in texts(getattr(piece, name), name)]
    passages = [
        ("story", paragraph) for name, text in told if name == "markdown" for paragraph in text.split("\n\n")
    ]
    wanted = [one for one in told if one[0] != "markdown"] + passages
    assert len(wanted) > 200
    assert [one for one in wanted if plain(one[1]) not in shown] == []
    pictures = page.evaluate("[...document.images].map(i => i.getAttribute('src'))")
    assert len(pictures) == len(piece.pictures())


@pytest.mark.parametrize("theme", THEMES)
def test_its_headings_and_links_make_sense(theme, books, open_page):
    page = open_page(client_page(books[theme]))
    levels = page.evaluate("[...document.querySelectorAll('h1, h2, h3, h4, h5, h6')].map(h => +h.tagName[1])")
    assert levels.count(1) == 1
    assert levels.count(2) > 10
    ids = page.evaluate("[...document.querySelectorAll('[id]')].map(e => e.id)")
    assert len(ids) == len(set(ids))
    within = page.evaluate(
        "[...document.querySelectorAll('a[href^=\"#\"]')].map(a => a.getAttribute('href').slice(1))"
    )
    assert len(within) > 15
    assert set(within) <= set(ids)
    assert page.evaluate("document.scripts.length") == 0


@pytest.mark.parametrize("theme", THEMES)
def test_axe_finds_nothing(theme, books, open_page):
    assert axe_faults(open_page(client_page(books[theme])), widths=(320, 360, 1280)) == []


@pytest.mark.parametrize("name", ["client", "log", "shelf"])
@pytest.mark.parametrize("theme", THEMES)
def test_no_page_is_wider_than_its_window(theme, name, books, open_page):
    book = books[theme]
    path = {
        "client": client_page(book),
        "log": book / "jobs" / "sample_job" / "index.html",
        "shelf": book / "index.html",
    }[name]
    page = open_page(path)
    for width in (320, 390, 820, 1280, 2000):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width, width


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
@pytest.mark.parametrize("theme", THEMES)
def test_it_prints(theme, sheet, books, open_page):
    page = open_page(client_page(books[theme]), scheme="dark")
    page.evaluate("document.querySelectorAll('img').forEach(i => { i.loading = 'eager' })")
    page.wait_for_function("[...document.images].every(i => i.complete)")
    reader = pypdf.PdfReader(io.BytesIO(page.pdf(format=sheet)))
    assert 2 <= len(reader.pages) <= MOST_SHEETS
    printed = plain("".join(p.extract_text() for p in reader.pages))
    for words in ("Sideboard with a slate inset", "Quercus robur", "hello@tenterhook.example", "2026-007"):
        assert plain(words) in printed
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") in (
        "rgb(255, 255, 255)",
        "rgba(0, 0, 0, 0)",
    )

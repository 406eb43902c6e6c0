"""The worksheet, and the log of a job that was estimated, in a real browser: whole, accessible, printed cleanly."""

import io
import json
import re
from dataclasses import fields, is_dataclass, replace
from datetime import date, timedelta
from itertools import pairwise

import pypdf
import pytest
from axe_playwright_python.sync_playwright import Axe

from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from buildbook.job.quoted import read_quoted
from buildbook.pages.drawn.ranges import RangeChart
from buildbook.pages.worksheet.sheet import worksheet_of
from buildbook.problems import Problems
from buildbook.render.html.theme import load_theme, theme_names
from tests import worksheets as made
from tests.browser import RULES
from tests.conftest import SAMPLE
from tests.job.test_quoted import WHOLE

pytestmark = pytest.mark.browser
THEMES = theme_names()
LINES = 60  # materials: more than a sheet of paper holds
NOT_SHOWN = {"key", "language", "wood_colours", "severity"}  # for programs


def long_estimate(language="en"):
    """Materials and past jobs for several sheets of paper, each row of several lines with a mark at both ends."""
    lines = tuple(
        replace(made.WALNUT, name=f"Begin{n:02} {'of a name that goes on ' * 4} end{n:02}")
        for n in range(LINES)
    )
    tried = tuple(
        replace(made.TRIED[n % 10], job=f"job-{n}", day=date(2019, 1, 1) + timedelta(30 * n))
        for n in range(60)
    )
    return made.estimate(
        language,
        materials=replace(made.MATERIALS, lines=lines),
        backtest=replace(made.BACKTEST, tried=tried),
    )


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    """Where a worksheet is, by theme and kind."""
    place, found = tmp_path_factory.mktemp("worksheets"), {}
    kinds = {"whole": made.estimate("de"), "bare": made.bare(), "long": long_estimate()}
    for theme in THEMES:
        for kind, estimate in kinds.items():
            path = place / f"{theme}-{kind}.html"
            path.write_text(load_theme(theme).worksheet_page(worksheet_of(estimate)), "utf-8")
            found[theme, kind] = path
    return found


@pytest.fixture(scope="module")
def logs(tmp_path_factory):
    """The build log of the sample, had it been estimated, by theme; its pictures are not there."""
    place, found = tmp_path_factory.mktemp("logs"), {}
    quoted = read_quoted(json.dumps(WHOLE).encode(), Problems())
    _, log, _, _ = pages_of(replace(read_job(SAMPLE), quoted=quoted))
    for theme in THEMES:
        found[theme] = place / f"{theme}.html"
        found[theme].write_text(load_theme(theme).log_page(log, ""), "utf-8")
    return found


LOOKS = [
    ("whole", 360, "light"),
    ("whole", 360, "dark"),
    ("whole", 1280, "light"),
    ("whole", 1280, "dark"),
    ("bare", 360, "light"),
]


@pytest.mark.parametrize(("kind", "width", "scheme"), LOOKS)
@pytest.mark.parametrize("theme", THEMES)
def test_axe_finds_nothing(theme, kind, width, scheme, pages, open_page):
    page = open_page(pages[theme, kind], width=width, scheme=scheme)
    found = Axe().run(page, options={"runOnly": RULES})
    assert found.response["violations"] == [], found.generate_report()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("theme", THEMES)
def test_axe_finds_nothing_in_the_log_of_an_estimated_job(theme, scheme, logs, open_page):
    page = open_page(logs[theme], width=360, scheme=scheme)
    part = None if scheme == "light" else ".sheet"  # by night the colours of this section only
    found = Axe().run(page, context=part, options={"runOnly": RULES})
    assert found.response["violations"] == [], found.generate_report()
    assert page.locator("#against").count() == 1
    assert page.locator(".plot svg.ranges").count() == 1


@pytest.mark.parametrize("theme", THEMES)
def test_no_page_is_wider_than_its_window(theme, pages, logs, open_page):
    for path in (pages[theme, "whole"], pages[theme, "bare"], pages[theme, "long"], logs[theme]):
        page = open_page(path)
        for width in (320, 360, 390, 820, 1280, 2000):
            page.set_viewport_size({"width": width, "height": 900})
            assert page.evaluate("document.documentElement.scrollWidth") <= width, (path.name, width)


def letters(text):
    return re.sub(r"\W+", "", text.casefold())


def texts(value, name=""):
    """Every text of the model; of a picture its lettering and its sentence are drawn by another test."""
    if name in NOT_SHOWN or isinstance(value, RangeChart):
        return
    if is_dataclass(value):
        for field in fields(value):
            yield from texts(getattr(value, field.name), field.name)
    elif isinstance(value, tuple):
        for item in value:
            yield from texts(item, name)
    elif isinstance(value, str) and letters(value):
        yield value


@pytest.mark.parametrize("theme", THEMES)
def test_it_shows_every_text_of_the_worksheet(theme, pages, open_page):
    page = open_page(pages[theme, "whole"], script=False)
    shown = letters(page.evaluate("document.body.textContent"))
    told = list(texts(worksheet_of(made.estimate("de"))))
    assert len(told) > 200
    assert [text for text in told if letters(german_day(text)) not in shown] == []


def german_day(text):
    """A day of the model as the German page says it."""
    return re.sub(r"^(\d{4})-(\d{2})-(\d{2})$", r"\3.\2.\1", text)


@pytest.mark.parametrize("theme", THEMES)
def test_its_headings_ids_and_links_make_sense(theme, pages, open_page):
    for kind in ("whole", "bare"):
        page = open_page(pages[theme, kind])
        levels = page.evaluate("[...document.querySelectorAll('h1, h2, h3, h4')].map(h => +h.tagName[1])")
        assert levels.count(1) == 1
        assert all(below - above <= 1 for above, below in pairwise(levels))
        ids = page.evaluate("[...document.querySelectorAll('[id]')].map(e => e.id)")
        assert len(ids) == len(set(ids))
        links = page.evaluate("[...document.querySelectorAll('a')].map(a => a.getAttribute('href'))")
        assert all(
            link.startswith("#") and link[1:] in ids for link in links
        )  # no file that may not be there
        assert page.evaluate("document.scripts.length") == 0


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
@pytest.mark.parametrize("theme", THEMES)
def test_no_row_is_cut_by_the_end_of_a_sheet(theme, sheet, pages, open_page):
    page = open_page(pages[theme, "long"], scheme="dark")
    reader = pypdf.PdfReader(io.BytesIO(page.pdf(format=sheet)))
    printed = ["".join(p.extract_text().split()) for p in reader.pages]
    for n in range(LINES):
        (first,) = [place for place, words in enumerate(printed) if f"Begin{n:02}" in words]
        assert f"end{n:02}" in printed[first]
    assert 5 <= len(printed) <= 15
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") in ("rgb(255, 255, 255)", "rgba(0, 0, 0, 0)")  # fmt: skip

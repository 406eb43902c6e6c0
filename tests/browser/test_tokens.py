"""A theme that only sets tokens is a theme: every page of it passes what those of the project pass."""

import io
import shutil

import pypdf
import pytest

from buildbook.book.bind import bind
from buildbook.pages.letter.letter import letter_of
from buildbook.pages.worksheet.sheet import worksheet_of
from buildbook.render.html.theme import load_theme
from buildbook.render.print.letter import letter_pdf
from tests import worksheets
from tests.browser import axe_faults
from tests.browser.test_themes import MOST_SHEETS
from tests.conftest import SAMPLE
from tests.estimates import enquiry, estimate_of
from tests.render.printed import fonts, reader, tags

pytestmark = pytest.mark.browser
TOML = """\
name = "slate"
after = "plain"

[paper]
day = "#f2f4f5"
night = "#14181b"

[print]
reading = "New Computer Modern"
figures = "lining"
ink = "#101418"
pencil = "#47525b"
head_weight = "bold"
label_weight = "bold"
line_pt = 0.7
part_pt = 0.7

[print.booklet]
text_pt = 10.5
"""
STYLE = """\
@layer theme {
  :root {
    --ink: #101418;
    --pencil: #47525b;
    --hair: #b9c2c9;
    --mount: #e2e6e9;
    --reading: Georgia, "Liberation Serif", serif;
    --labels: Verdana, "DejaVu Sans", sans-serif;
    --head-weight: 700;
    --instruction: 1.25rem;
    --title: 3rem;
    --measure: 30rem;
    --gap: 3rem;
    --line-head: 3px;
  }
  @media screen and (prefers-color-scheme: dark) { :root { --ink: #dfe4e8; --pencil: #a5afb7; --hair: #3a434a; --mount: #0c0f11; } }
}
"""
PAGES = ("client", "log", "shelf", "woods", "years", "letter", "worksheet")


@pytest.fixture(scope="module")
def slate(tmp_path_factory):
    """Every page of the theme by name, and the prints that lie beside the client's."""
    place = tmp_path_factory.mktemp("slate")
    job = place / "sample_job"
    shutil.copytree(SAMPLE, job)
    shop = (job / "shop.toml").rename(place / "shop.toml")  # a shop's theme lies beside it, not in a job
    shop.write_text('theme = "slate"\n' + shop.read_text("utf-8"), "utf-8")
    (place / "slate").mkdir()
    (place / "slate" / "theme.toml").write_text(TOML, "utf-8")
    (place / "slate" / "style.css").write_text(STYLE, "utf-8")
    assert len((TOML + STYLE).split("\n")) < 45
    result = bind(job, place / "book")
    assert result.ok, [str(p) for j in result.jobs for p in j.problems]
    theme = load_theme("slate", [place])
    letter = letter_of(estimate_of(enquiry("linen-press")))
    (place / "letter.html").write_text(theme.letter_page(letter), "utf-8")
    (place / "letter.pdf").write_bytes(letter_pdf(letter, theme).pdf)
    (place / "worksheet.html").write_text(
        theme.worksheet_page(worksheet_of(worksheets.estimate("en"))), "utf-8"
    )
    book = place / "book"
    return {
        "client": book / "handover" / "sample_job" / "index.html",
        "log": book / "jobs" / "sample_job" / "index.html",
        "shelf": book / "index.html",
        "woods": book / "woods.html",
        "years": book / "years.html",
        "letter": place / "letter.html",
        "worksheet": place / "worksheet.html",
    }


@pytest.mark.parametrize("name", PAGES)
def test_axe_finds_nothing(slate, open_page, name):
    assert axe_faults(open_page(slate[name])) == []


@pytest.mark.parametrize("name", PAGES)
def test_no_page_is_wider_than_its_window_and_the_tokens_are_what_is_seen(slate, open_page, name):
    page = open_page(slate[name])
    for width in (320, 360, 820, 1280, 2000):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width, width
    seen = page.evaluate(
        "[getComputedStyle(document.body).color, getComputedStyle(document.body).fontFamily]"
    )
    assert seen[0] == "rgb(16, 20, 24)"
    assert seen[1].startswith("Georgia")


@pytest.mark.parametrize("name", PAGES)
def test_it_prints_on_white_in_black_whatever_the_tokens_say(slate, open_page, name):
    page = open_page(slate[name], scheme="dark")
    sheets = pypdf.PdfReader(io.BytesIO(page.pdf(format="A4"))).pages
    assert 1 <= len(sheets) <= MOST_SHEETS
    page.emulate_media(media="print", color_scheme="dark")
    style = "(s => [s.backgroundColor, s.color])(getComputedStyle(document.body))"
    assert page.evaluate(style) == ["rgb(255, 255, 255)", "rgb(0, 0, 0)"]


def test_its_card_booklet_and_letter_are_whole_and_in_its_face(slate):
    prints = [*slate["client"].parent.glob("*.pdf"), slate["letter"].with_suffix(".pdf")]
    assert len(prints) >= 3
    for pdf in (path.read_bytes() for path in prints):
        names = {name for name, _ in fonts(pdf)}
        assert any("NewCM" in name for name in names), names
        assert "H1" in {name for name, _ in tags(pdf)}
        assert reader(pdf).trailer["/Root"]["/MarkInfo"]["/Marked"]

"""A third language costs one file: one made by rule, with a words file and nothing else, carries a shop whole.

Its texts stand in brackets and are longer by half, its plurals have three forms (`tests/words/made_up.py`). What is told
outside of brackets is the maker's own, which is German here; an English word among it would be one of the code.
"""

import html
import json
import re
import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from buildbook.book.bind import bind
from buildbook.pages.letter.letter import letter_of
from buildbook.pages.worksheet.sheet import worksheet_of
from buildbook.render.html.theme import load_theme, theme_names
from buildbook.render.print.letter import letter_pdf
from buildbook.words import Words
from tests.conftest import ROOT, noise
from tests.estimates import enquiry, estimate_of, german_shop
from tests.render.print.test_letter import bare, texts
from tests.render.printed import words as printed_words
from tests.test_german import ENGLISH
from tests.words import made_up

WIDTHS = (320, 390, 820)
OF_THE_CODE = ENGLISH - {"am", "in", "on", "to", "it", "is", "for", "at", "of", "or"}


@pytest.fixture(scope="module")
def language(tmp_path_factory):
    patch = pytest.MonkeyPatch()
    yield made_up.put_in(tmp_path_factory.mktemp("words"), patch)
    patch.undo()
    made_up.forget()


@pytest.fixture(scope="module")
def books(language, tmp_path_factory):
    """A book of two German jobs in the made-up language, a theme each."""
    made = {}
    for theme in theme_names():
        shelf = tmp_path_factory.mktemp(theme)
        for name, source in (("esstisch", "esstisch"), ("gartentisch", "holzapfel/gartentisch")):
            shutil.copytree(ROOT / "tests" / "jobs" / source, shelf / name)
        (shelf / "esstisch" / "photos").mkdir()
        (shelf / "esstisch" / "photos" / "tisch.jpg").write_bytes(noise(7))
        shop = (shelf / "esstisch" / "shop.toml").read_text("utf-8")
        (shelf / "esstisch" / "shop.toml").unlink()
        shop = re.sub(r'language *= *"de"', f'language = "{language.language}"\ntheme = "{theme}"', shop)
        (shelf / "shop.toml").write_text(shop, "utf-8")
        bound = bind(shelf, shelf.parent / f"book-{theme}")
        assert bound.ok, [str(problem) for job in bound.jobs for problem in job.problems] + [
            job.fault for job in bound.jobs
        ]
        told = [str(problem) for job in bound.jobs for problem in job.problems]
        assert [text for text in told if "print" in text or "too long" in text or "left out" in text] == []
        made[theme] = shelf.parent / f"book-{theme}"
    return made


@pytest.fixture(scope="module")
def letter(language):
    shop = replace(german_shop(), language=language.language)
    return letter_of(estimate_of(enquiry("linen-press", shop)))


def outside(text):
    """What stands in no brackets; on a card a text may be cut after a sentence, before the next one opens."""
    before = None
    while text != before:
        before, text = (
            text,
            re.sub(rf"{made_up.OPEN}[^{made_up.OPEN}{made_up.CLOSE}]*{made_up.CLOSE}", " ", text),
        )
    return re.sub(rf"{made_up.OPEN}[^{made_up.OPEN}–]*(?=[{made_up.OPEN}–]|$)", " ", text)


def read_off(page):
    text = re.sub(r"<(style|script)\b.*?</\1>", " ", page, flags=re.DOTALL)
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())


def english(text):
    return sorted(set(re.findall(r"[^\W\d_]+", outside(text))) & OF_THE_CODE)


def test_its_file_has_every_text_in_every_form(language):
    english_words = Words("en")
    forms = {key.rpartition(".")[0] for key in language.every_key() if key.endswith(".few")}
    assert forms
    assert [
        name for name in forms if {f"{name}.{form}" for form in language.forms} - {*language.every_key()}
    ] == []
    assert {*english_words.every_key()} <= {*language.every_key()}
    for count, form in ((1, "one"), (3, "few"), (12, "more"), (21, "one")):
        expected = language.text(f"across.jobs.{form}", count=count)
        assert language.text("across.jobs", count=count) == expected


def test_what_leaves_is_in_it_and_no_word_of_english(books):
    for book in books.values():
        for page in book.glob("handover/*/index.html"):
            text = page.read_text("utf-8")
            assert f'<html lang="{made_up.LANGUAGE}"' in text
            assert english(read_off(text)) == [], page
        for record in book.glob("handover/*/piece.jsonld"):
            json.loads(record.read_text("utf-8"))
        for calendar in book.glob("handover/*/care.ics"):
            lines = calendar.read_bytes().decode().replace("\r\n ", "")
            assert all(made_up.OPEN in line for line in lines.split("\r\n") if line.startswith("SUMMARY"))


def test_every_print_is_whole_and_in_it(books, letter):
    for theme, book in books.items():
        for pdf in book.glob("handover/*/*.pdf"):
            text = printed_words(pdf.read_bytes())
            assert text.count(made_up.OPEN) > 20, pdf
            assert english(text) == [], pdf
        made = letter_pdf(letter, load_theme(theme))
        assert made.problems == ()
        shown = bare(printed_words(made.pdf))
        foot = bare(letter.title)  # the foot of a sheet may stand inside a sentence
        assert [text for text in texts(letter) if bare(text) not in re.sub(rf"{foot}\d", "", shown)] == []


@pytest.mark.browser
@pytest.mark.parametrize("theme", theme_names())
def test_no_page_is_wider_than_its_window(theme, books, letter, language, open_page, tmp_path):
    shop = replace(german_shop(), language=language.language)
    sheet = tmp_path / "sheet.html"
    sheet.write_text(
        load_theme(theme).worksheet_page(worksheet_of(estimate_of(enquiry("linen-press", shop)))), "utf-8"
    )
    told = tmp_path / "letter.html"
    told.write_text(load_theme(theme).letter_page(letter), "utf-8")
    wide = {}
    for path in (*sorted(Path(books[theme]).rglob("*.html")), sheet, told):
        page = open_page(path)
        for width in WIDTHS:
            page.set_viewport_size({"width": width, "height": 900})
            if (found := page.evaluate("document.documentElement.scrollWidth")) > width:
                wide[path.name, path.parent.name, width] = found
    assert wide == {}

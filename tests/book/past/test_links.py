"""Every link of the private pages of a book leads somewhere, and every hit to the words that it shows."""

import html
import json
import re
import shutil
from functools import cache
from urllib.parse import unquote, urldefrag

import pytest

from buildbook.book.bind import bind
from tests.conftest import ROOT, SAMPLE

SHELF = ROOT / "tests" / "shelf"
GERMAN = ROOT / "tests" / "find" / "lookups"
WITH_JIG = """
## 2024-01-31 Another pair of hands

The divisions of the drawers went on the strip marked PINS, which saved an hour.
"""
_LINK = re.compile(r'(?:href|src)="([^"]+)"')
_ID = re.compile(r'\sid="([^"]+)"')


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    """The sample with the shelf written by hand, in English, and a job with German notes; without most pictures."""
    place = tmp_path_factory.mktemp("links")
    shutil.copytree(SHELF, place / "shelf", ignore=shutil.ignore_patterns("photos", "*.py"))
    shutil.copytree(
        SAMPLE, place / "shelf" / "sideboard", ignore=shutil.ignore_patterns("shop.toml", "prices.csv")
    )
    shutil.copytree(GERMAN, place / "shelf", dirs_exist_ok=True)
    with (place / "shelf" / "2024-003-kitchen-dresser" / "notes.md").open("a", encoding="utf-8") as file:
        file.write(WITH_JIG)
    bind(place / "shelf", place / "book")
    assert len(list((place / "book" / "jobs").glob("*/index.html"))) == 12
    return place / "book"


@cache
def ids_of(page):
    return set(map(html.unescape, _ID.findall(page.read_text("utf-8"))))


def private_pages(book):
    return [*book.glob("*.html"), *book.glob("jobs/*/index.html")]


def links_of(page):
    text = re.sub(r"<(script|style)\b.*?</\1>", " ", page.read_text("utf-8"), flags=re.S)
    return {html.unescape(link) for link in _LINK.findall(text)}


def is_dead(page, link):
    if re.match(r"[a-z]+:", link) or link.startswith("/-/"):
        return False
    path, place = urldefrag(link)
    target = page.parent / unquote(path) if path else page
    return not target.is_file() or bool(place and unquote(place) not in ids_of(target))


def test_no_link_of_the_private_pages_is_dead(book):
    pages = private_pages(book)
    dead = {
        (page.relative_to(book).as_posix(), link)
        for page in pages
        for link in links_of(page)
        if is_dead(page, link)
    }
    assert dead == set()


def test_a_dead_link_would_be_seen(book):
    page = book / "jigs.html"
    assert is_dead(page, "woods.html#no-such-wood")
    assert is_dead(page, "nowhere.html")
    assert not is_dead(page, "woods.html#european-oak")


def test_the_log_leads_to_what_it_names(book):
    links = links_of(book / "jobs" / "sideboard" / "index.html")
    for place in (
        "woods.html#european-oak",
        "finishes.html#shellac-blonde-dewaxed-shellac",
        "suppliers.html#quillby-timber",
        "joinery.html#sliding-dovetail",
        "jigs.html#pins",
        "jigs.html",
    ):
        assert f"../../{place}" in links
    assert any(link.startswith("../../hardware.html#brass-butt-hinge") for link in links)


def passages(page):
    script = (page.parent / "words.js").read_text("utf-8")
    return json.loads(f"[{script.removeprefix('buildbookWords(').rstrip().removesuffix(');')}]")[1]


def plain(text):
    return "".join(re.findall(r"\w+", html.unescape(re.sub(r"<[^>]+>", "", text)))).casefold()


def test_every_hit_leads_to_the_words_that_it_shows(book):
    led = 0
    for page in book.glob("jobs/*/index.html"):
        text = page.read_text("utf-8")
        for field, where, said, *more in passages(page):
            if not more or not more[0]:
                continue
            at = more[0]
            assert at in ids_of(page), (page, at)
            if at.startswith("day-") and field in ("note", "mark", "cut") and " · " not in said:
                tag, here = re.search(rf'<(\w+)[^>]* id="{re.escape(at)}"[^>]*>(.*)', text, re.S).groups()
                inside = here.split(f"</{tag}>")[0]
                assert plain(inside).startswith(plain(said)[:40]), (page, at, said)
                assert where in at
                led += 1
    assert led > 300


def test_a_job_that_names_what_is_written_on_a_jig_stands_with_it(book):
    page = (book / "jigs.html").read_text("utf-8")
    thing = page.split('id="pins"')[1].split('<div class="thing">')[0]
    assert "Painted kitchen dresser" in thing
    assert "jobs/2024-003-kitchen-dresser/index.html#day-2024-01-31-p1" in thing

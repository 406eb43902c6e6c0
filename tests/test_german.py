"""A German shop, whole: its files as a German spreadsheet saves them, its client's page in German.

The job is invented: decimal commas, semicolons, Windows-1252, German headings, woods, finishes and hours.
"""

import html
import re
import shutil
from pathlib import Path

import pytest

from buildbook.book.bind import bind
from buildbook.care import facts_of
from buildbook.job import read_job
from buildbook.render.html.prose import prose
from buildbook.render.print.passage import blocks
from buildbook.summary import summarise
from buildbook.words import Words
from tests.conftest import ROOT, noise

SHOP = ROOT / "tests" / "jobs" / "esstisch"

ENGLISH = frozenset(
    re.findall(
        r"\w+",
        """
    the and with each wood your from when before after keep about year month week room piece maker finish oil wax
    drawer door clean wipe dry number weight size made cloth surface water heat glass of to it is on for or
    January February March May June July October December Germany Austria Finland oak ash beech brass steel
""",
    )
)
"""Common words of English; none of them is a word of German."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    job = Path(shutil.copytree(SHOP, tmp_path_factory.mktemp("german") / "esstisch"))
    (job / "photos").mkdir()
    (job / "photos" / "tisch.jpg").write_bytes(noise(7))
    return job


@pytest.fixture(scope="module")
def job(folder):
    return read_job(folder)


@pytest.fixture(scope="module")
def handover(folder):
    book = folder.parent / "book"
    assert bind(folder, book).ok
    return book / "handover" / "esstisch"


@pytest.fixture(scope="module")
def page(handover):
    """What a reader reads of the page, without styles, scripts and marks."""
    text = (handover / "index.html").read_text("utf-8")
    text = re.sub(r"<(style|script)\b.*?</\1>", " ", text, flags=re.DOTALL)
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())


def test_its_files_are_read_without_a_problem(job):
    assert (
        (SHOP / "parts.csv").read_bytes().decode("cp1252").startswith("Bauteil;Stück;Art;Holzart;Länge (mm)")
    )
    assert job.problems == ()
    parts = {part.name: part for part in job.parts}
    assert [(part.kind, part.key) for part in job.parts] == [
        ("wood", "european-oak"),
        *[("wood", "european-ash")] * 3,
        ("wood", "european-oak"),
        ("wood", "sycamore-maple"),
        ("panel", "birch-plywood"),
        ("hardware", "brass"),
        ("hardware", "zinc-plated-steel"),
        ("wood", "european-beech"),
        ("supply", ""),
    ]
    assert [parts[name].cut for name in ("Tischplatte", "Bein", "Längszarge")] == ["flat", "quarter", "rift"]
    assert parts["Tischplatte"].thickness.m == pytest.approx(0.0285)
    assert (str(parts["Tischplatte"].price), parts["Tischplatte"].per) == ("1850.00", "m3")
    assert parts["Knopf"].mass_kg == pytest.approx(0.085)
    assert (parts["Schubladenboden"].faces, parts["Kippleiste"].faces) == ("faces", "none")
    assert (parts["Bein"].country_code, parts["Holzleim"].for_client) == ("AT", False)
    assert {stage.stage: stage.hours for entry in job.entries for stage in entry.hours} == {
        "Zuschnitt": 3.5, "Entwurf": 2, "Oberfläche": 2.5,
    }  # fmt: skip


def test_german_words_call_for_the_care_that_the_piece_needs(job):
    facts = facts_of(job, summarise(job), Words("de"))
    assert {
        "part.drawer", "part.wooden-runner", "piece.jointed-frame", "use.indoors", "near.heat", "finish.inside",
        "metal.brass-bare", "metal.iron", "glue.isocyanate", "sold.eu",
    } <= set(facts)  # fmt: skip
    assert "piece.can-tip" not in facts
    assert facts.named("wood.tannin", public=True) == ("Europäische Eiche",)
    assert facts.named("near.heat", public=True) == ("Heizkörper",)


def test_no_english_is_on_the_clients_page(page):
    found = set(re.findall(r"[A-Za-zÄÖÜäöüß]+", page)) & {
        form for word in ENGLISH for form in (word, word.capitalize())
    }
    assert len(ENGLISH) >= 40
    assert found == set()


def test_figures_dates_and_names_are_german(page):
    page = page.replace("\u202f", " ").replace("\u00a0", " ")
    for said in (
        "1., 2. und 4. April 2026",
        "Hartwachsöl (bis zum 2. Mai 2026)",
        "11. April 2026",
        "Februar 2026 bis April 2026",
        "35,5 × 20 × 2 mm",
        "Stehende Jahresringe",
        "Gewachsen in Österreich",
        "dunkelt leicht zu Goldbraun",
        "Europäische Esche",
        "Die Platte kommt aus einem einzigen Eichenstamm.",
    ):
        assert said in page
    assert re.search(r"\d,\d mm", page)
    assert not re.search(r"\d\.\d+ (mm|kg|m³)", page)


def test_the_calendar_is_german_and_what_is_private_stays_in(handover, page):
    calendar = (handover / "care.ics").read_text("utf-8").replace("\r\n ", "")
    assert "Die jährliche Durchsicht" in calendar
    assert "SUMMARY:Esstisch mit Schublade: Durchgehärtet: Hartwachsöl" in calendar
    for private in ("Geheimer Vermerk", "Stunden:", "Lindgruber", "Sägewerk Tannhof", "Holzleim"):
        assert private not in page + calendar


def test_quotation_marks_of_a_passage_are_those_of_the_language():
    for language, marks in (("en", "“a ‘b’ c”"), ("de", "„a ‚b‘ c“"), ("de-CH", "«a ‹b› c»")):
        quotes = Words(language).text("figures.quotes")
        assert marks in str(prose("\"a 'b' c\"", {}, str, quotes=quotes))
        assert marks in str(blocks("\"a 'b' c\"", lambda name: None, quotes))

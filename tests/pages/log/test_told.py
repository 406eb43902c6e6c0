"""What stands below the tables of a log, in the language of the shop: what was assumed, and what rules there are."""

import csv
from dataclasses import replace
from importlib import resources

import pytest

from buildbook.job import find_jobs, read_job
from buildbook.job.row_names import row_name
from buildbook.pages.log.tables import tables_of
from buildbook.pages.phrases import Phrases
from buildbook.summary import summarise
from buildbook.words.told import sentence
from tests.conftest import ROOT, SAMPLE
from tests.words.test_told import english_in

JOBS = [*(job for shop in sorted((ROOT / "tests" / "jobs").iterdir()) for job in find_jobs(shop)), SAMPLE]
COUNTRIES = {"": "", "Germany": "DE", "United States": "US"}
SAID = (
    ("regional.csv", "said", "{}"),
    ("cites_notes.csv", "covers", "{}"),
    ("sheets.csv", "glue", "Birke: {}; x"),
)


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.name)
@pytest.mark.parametrize("country", COUNTRIES)
def test_a_german_shop_reads_german_below_its_tables(path, country):
    read = read_job(path, pictures=False)
    shop = replace(read.shop, language="de", country=country, country_code=COUNTRIES[country])
    parts = tuple(replace(part, name="Teil", material="Holz") for part in read.parts)
    finishes = tuple(replace(finish, product="Öl") for finish in read.finishes)
    job = replace(read, shop=shop, parts=parts, finishes=finishes, title="Titel", workings=())
    tables = tables_of(job, summarise(job), Phrases.of(job))
    assert sum(len(table.notes) for table in tables) > 3
    for table in tables:
        assert [note for note in table.notes if english_in(note)] == []


@pytest.mark.parametrize(("file", "column", "around"), SAID)
def test_sentences_of_the_tables_of_the_trade_have_their_german(file, column, around):
    text = resources.files("buildbook.trade").joinpath("data", file).read_text("utf-8")
    rows = csv.DictReader(line for line in text.split("\n") if line and not line.startswith("# "))
    for said in {row[column] for row in rows}:
        german = sentence(around.format(said), "de")
        assert german != around.format(said)
        assert english_in(german) == [], german


@pytest.mark.parametrize(
    ("english", "german"),
    [
        ("Cherry (American), say: no usual stock", "Cherry (American), say: no usual stock"),
        ("tables give 0.16 to 0.18 % for each 1 % of moisture: 0.18 % was taken",
         "Tabellen nennen 0,16 bis 0,18 % je 1 % Holzfeuchte: Genommen sind 0,18 %"),
        ("days to use and cure of Hardwax oil (memory); the data sheet says better",
         "Tage bis zur Nutzung und Durchhärtung, Hartwachsöl: aus dem Gedächtnis; genauer sagt es das Merkblatt"),
        ("“Ahorn” was taken for Sycamore (European maple) (Acer pseudoplatanus); name it in full if it is another",
         "„Ahorn“ gilt hier als Bergahorn (Acer pseudoplatanus); nennen Sie es mit vollem Namen, wenn ein anderes"
         " gemeint ist"),
    ],
)  # fmt: skip
def test_figures_and_names_of_the_tables_are_those_of_the_language(english, german):
    assert sentence(english, "de", row_name) == german
    assert sentence(english, "en", row_name) == english


def test_workings_have_their_words():
    read = read_job(SAMPLE, pictures=False)
    job = replace(read, shop=replace(read.shop, language="de"))
    worked = next(table for table in tables_of(job, summarise(job), Phrases.of(job)) if table.key == "worked")
    assert worked.columns[:2] == ("Rechnung", "Art")
    said = " ".join(cell for row in worked.rows for cell in row[1:4])
    assert "auftrennen" in said
    assert "Sägeschnitt" in said
    assert "resaw" not in said

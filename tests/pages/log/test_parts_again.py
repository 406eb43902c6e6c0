"""The cut list that is written out reads back: the same parts, and the same figures of the whole job."""

import csv
import io
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job import find_jobs, read_job
from buildbook.job.model import Job
from buildbook.job.parts.sets import for_all
from buildbook.job.shop_model import Shop
from buildbook.job.table.headings import PARTS, PARTS_HEADINGS
from buildbook.job.table.parts import read_parts
from buildbook.pages.log.parts_again import parts_again
from buildbook.pages.phrases import Phrases
from buildbook.problems import Problems
from buildbook.render.beside.table_csv import csv_bytes
from buildbook.render.beside.table_xlsx import xlsx_bytes
from buildbook.summary import summarise
from buildbook.summary.as_json import as_text, summary_facts
from buildbook.words import languages
from tests.conftest import SAMPLE
from tests.pages.made import part, table

TESTS = Path(__file__).parents[2]
JOBS = [SAMPLE, *find_jobs(TESTS / "shelf"), *(job for shop in sorted((TESTS / "jobs").iterdir()) if shop.is_dir() for job in find_jobs(shop))]  # fmt: skip
WRITERS = {"parts.csv": csv_bytes, "parts.xlsx": xlsx_bytes}
each_file = pytest.mark.parametrize("file", WRITERS)


def written(job, file):
    return WRITERS[file](parts_again(job, Phrases.of(job)))


def read(data, job, file="parts.csv"):
    problems = Problems()
    comma = Phrases.of(job).style.decimal == ","
    parts = read_parts(
        data, job.units, problems, job.shop.place, job.shop.currency, file=file, decimal_comma=comma
    )
    return for_all(parts, job), problems


def same(parts):
    """All of a part but where it stood and how its sizes were spelt; those to a picometre, since a length between
    shoulders and its tenons are added as floats.
    """

    def bare(length):
        return length and replace(length, m=round(length.m, 12), written="")

    sides = ("length", "width", "thickness", "tenons", "opening")
    return [replace(one, row=0, **{side: bare(getattr(one, side)) for side in sides}) for one in parts]


# -- whole jobs ------------------------------------------------------------------------------------


def laid(place, folder, content, file):
    """A job without its pictures, with other parts."""
    new = place / folder.name
    new.mkdir()
    for one in folder.rglob("*"):
        if one.suffix in (".toml", ".md", ".csv") and one.name != "parts.csv":
            (new / one.relative_to(folder)).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(one, new / one.relative_to(folder))
    for name in ("shop.toml", "prices.csv"):
        if not (new / name).exists() and (folder.parent / name).exists():
            shutil.copy(folder.parent / name, place / name)
    (new / file).write_bytes(content)
    return read_job(new)


def figures(job):
    return as_text(summary_facts(job.key, summarise(job), (), ()))


@each_file
@pytest.mark.parametrize("folder", JOBS, ids=lambda folder: folder.name)
def test_a_job_with_its_own_cut_list_is_the_same_job(folder, file, tmp_path):
    job = read_job(folder)
    again = laid(tmp_path, folder, written(job, file), file)
    assert len(job.parts) > 0
    assert same(again.parts) == same(job.parts)
    renumbered = replace(job, parts=tuple(replace(one, row=at) for at, one in enumerate(job.parts, 2)))
    assert figures(again) == figures(renumbered)


# -- any parts -------------------------------------------------------------------------------------

TEXTS = ["", "", "=1+1", "+3", "-4", "-", "@x", "'=x", "''=y", "'quoted'", "a, b; c", "two\nlines", 'in "quotes"', "Prüfung", "5/4", "007", "1.250", "8-Mar", "total", "'", "=HYPERLINK(\"x\")", "600 between shoulders", "length between shoulders", "zwischen den Brüstungen"]  # fmt: skip
MADE = [("", "oak"), ("wood", "European oak"), ("wood", "Eiche"), ("", "maple"), ("panel", "birch ply"), ("", "MDF"), ("glass", "float glass"), ("glass", "6 mm toughened glass"), ("stone", "welsh slate"), ("hardware", "brass butt hinge"), ("", "hinge"), ("hardware", ""), ("hardware", "=bolt"), ("upholstery", "wool felt"), ("supply", "glue"), ("supply", "-")]  # fmt: skip
LENGTHS = st.one_of(
    st.sampled_from(
        ["1200", '33 1/3"', "7' 3 1/2\"", "1.2 m", "0.9 m", "33 1/3 in", "900 between shoulders", "90 in"]
    ),
    st.integers(600_000, 9_000_000).map(lambda thousandths: f"{thousandths / 10_000}"),
)
SIZES = st.one_of(
    st.tuples(
        LENGTHS,
        LENGTHS.filter(lambda text: "between" not in text),
        st.sampled_from(["22", "18.3 mm", "3/4 in", "9.5"]),
    ),
    st.tuples(LENGTHS, st.sampled_from(["ø22", "dia 1 1/8 in"]), st.just("")),
    st.tuples(st.just(""), st.sampled_from(["ø500", "dia 20 1/3 in"]), st.sampled_from(["22", "1 1/8 in"])),
    st.sampled_from([("", "", ""), ("#10 x 1 1/2 in", "", ""), ("5 mm x 60 mm", "", "")]),
)
TEXT = st.sampled_from(TEXTS)
ROW = st.tuples(
    st.sampled_from(["Top", "Leg", "Brass knob", "=Top", "+1 shelf", "sum", "Total"]),
    st.sampled_from(["1", "4", "2 pairs", ""]),
    st.sampled_from(MADE),
    SIZES,
    st.sampled_from(["", "", "20", "1 1/4 in"]),
    st.sampled_from(["", "8/4", "50.3 mm", "12/4 rough", "eight quarter", "63.5 mm"]),
    st.lists(TEXT, min_size=8, max_size=8),
    st.sampled_from(["", "flat", "rift", "quarter", "stehend"]),
    st.sampled_from(["", "", "9 m", "900 in"]),
    st.sampled_from(["", "all", "faces", "one face", "edges", "none"]),
    st.sampled_from(["", "body", "none", "-", "=oil"]),
    st.sampled_from(["", "85 g", "1/3 lb", "2.5 kg", "3 oz"]),
    st.sampled_from(["", "GB", "Deutschland", "Austria", "=land"]),
    st.sampled_from([("", ""), ("12.50", "each"), ("1.234", "m3"), ("0.0781", "board_foot"), ("1,250.00", "sheet"), ("7.80/bf", ""), ("29.00 pair", ""), ("10.01", "100")]),
    st.sampled_from(["", "yes", "no"]),
)  # fmt: skip
HEAD = ("part", "qty", "kind", "material", "length", "width", "thickness", "tenons", "stock", "working", "fit", "edge", "held", "origin", "supplier", "note", "grain match", "cut", "opening", "faces", "finish", "mass", "country", "price", "per", "client")  # fmt: skip


def line(row):
    name, qty, made, sizes, tenons, stock, texts, *rest, price, client = row
    return (name, qty, *made, *sizes, tenons, stock, *texts, *rest, *price, client)


@each_file
@given(
    st.lists(ROW, min_size=1, max_size=6),
    st.sampled_from(["mm", "in"]),
    st.sampled_from(["en", "de", "de-CH"]),
    st.sampled_from([(1, ""), (6, "all"), (6, "each")]),
)
def test_whatever_is_read_is_written_so_that_it_is_read_again(file, rows, units, language, pieces):
    job = Job("job", units=units, shop=Shop(language=language), quantity=pieces[0], parts_for=pieces[1])
    good = []
    for row in rows:  # those that can be bound
        out = io.StringIO()
        csv.writer(out).writerows([HEAD, line(row)])
        parts, problems = read(out.getvalue().encode(), job)
        if not problems.errors:
            good += parts
    if not good:
        return
    job = replace(job, parts=tuple(good))
    again, problems = read(written(job, file), job, file)
    assert [str(one) for one in problems.ordered() if one.severity == "error"] == []
    assert same(again) == same(good)


# -- what stands in the file -----------------------------------------------------------------------


def cells(job):
    text = csv_bytes(parts_again(job, Phrases.of(job))).decode("utf-8-sig")
    return list(
        csv.reader(io.StringIO(text, newline=""), delimiter=";" if ";" in text.splitlines()[0] else ",")
    )


def test_sizes_are_in_the_unit_of_the_job_which_its_heading_says():
    made = table(parts=(part(2, "Rail", sides=(19.05, 800, 12.7)),), units="in")
    head, row = cells(made)
    assert dict(zip(head, row, strict=True))["Length (in)"] == "0.75"
    assert "Thickness (in)" in head
    assert "Opening (in)" not in head


def test_a_german_shop_gets_semicolons_a_comma_and_its_own_words():
    made = table(parts=(part(2, "Zarge", sides=(640, 95, 24.5), cut="rift"),), shop=Shop(language="de"))
    head, row = cells(made)
    said = dict(zip(head, row, strict=True))
    assert (said["Dicke (mm)"], said["Schnitt"], said["Art"]) == ("24,5", "halbstehend", "Holz")


def test_no_cell_of_the_file_is_run_by_a_spreadsheet():
    evil = [part(row, text, fit=text, note=text) for row, text in enumerate(TEXTS, 2) if text]
    rows = cells(table(parts=tuple(evil)))
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]


def test_the_same_job_gives_the_same_bytes():
    assert csv_bytes(parts_again(table(), Phrases.of(table()))) == csv_bytes(
        parts_again(table(), Phrases.of(table()))
    )


@pytest.mark.parametrize("language", languages())
def test_every_heading_of_every_language_is_read_as_its_column(language):
    phrases = Phrases.of(table(shop=Shop(language=language)))
    for column in PARTS:
        found = PARTS_HEADINGS.find(phrases(f"lists.parts.{column}"))
        assert found is not None, column
        assert found.column == column


def test_a_job_without_parts_has_no_list():
    assert parts_again(table(parts=()), Phrases.of(table())) is None

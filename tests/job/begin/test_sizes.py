"""Sizes in the files of a new job: what is written reads as the size, in the spelling of the cell that it was in."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job import read_job
from buildbook.job.begin import begin
from buildbook.job.begin.sizes import NewSizes, in_cell, length_in
from tests.spreadsheets import ods, xlsx

IN = 0.0254


@pytest.mark.parametrize(
    ("cell", "m", "unit", "comma", "new"),
    [
        ("1600", 1.8, "mm", False, "1800"),
        ("1600 mm", 1.8, "mm", False, "1800 mm"),
        ("1600,5", 1.8005, "mm", True, "1800,5"),
        ("160 cm", 1.8, "mm", False, "180 cm"),
        ("1.6 m", 1.8, "mm", False, "1.8 m"),
        ("1.6 m", 1.80055, "mm", False, "1.80055 m"),
        ("42", 50 * IN, "in", False, "50"),
        ('42 1/2"', 50.25 * IN, "mm", False, '50 1/4"'),
        ("15 ½", 16.375 * IN, "in", False, "16 3/8"),
        ("3/4 in", 1.5 * IN, "mm", False, "1 1/2 in"),
        ("1-1/4", 2.015625 * IN, "in", False, "2 1/64"),
        ("20", 20.333 * IN, "in", False, "20.333"),
        ("1200 between shoulders", 1.4, "mm", False, "1400 between shoulders"),
        ("7' 3 1/2\"", 90 * IN, "in", False, "90"),
        ("zwischen den Brüstungen 1200", 1.4, "mm", True, "zwischen den Brüstungen 1400"),
    ],
)
def test_a_cell_keeps_its_spelling(cell, m, unit, comma, new):
    assert in_cell(cell, m, unit, decimal_comma=comma) == new


CELLS = st.sampled_from(
    ["1600", "1600 mm", "160 cm", "1.6 m", "42", '42 1/2"', "15 ½", "3/4 in", "7' 3\"", "odd", "ø 30 mm"]
)


@given(CELLS, st.integers(1, 50_000), st.sampled_from(["mm", "in"]), st.booleans())
def test_what_is_written_reads_as_the_size(cell, tenths, unit, comma):
    m = float(Fraction(tenths, 10_000))
    text = in_cell(cell.replace(".", "," if comma else "."), m, unit, decimal_comma=comma)
    if "odd" not in text and "ø" not in text:
        assert length_in(text, unit, decimal_comma=comma) == pytest.approx(m, abs=2e-6)


ROWS = [
    ["Teil", "Art", "Material", "Länge", "Breite", "Dicke", "Herkunft", "Preis"],
    ["Platte", "Holz", "Eiche", 1600.5, 450, 27, "vom Nachbarn", 12.5],
    ["Bein", "Holz", "Eiche", 700, 45, 45, "", ""],
]


@pytest.mark.parametrize(("name", "written"), [("parts.xlsx", xlsx), ("parts.ods", ods)])
@pytest.mark.parametrize("language", ["en", "de"])
def test_a_spreadsheet_of_the_past_job_is_taken_too(name, written, language, make_job):
    past = make_job("past", **{"job.toml": 'title = "Tisch"\nunits = "mm"\n', name: written(ROWS)})
    (past.parent / "shop.toml").write_text(f'language = "{language}"\n', "utf-8")
    new = past.parent / "new"
    begin(new, like="past")
    old, job = read_job(past), read_job(new)
    assert [(p.name, p.length.m, p.width.m, p.thickness.m) for p in job.parts] == [
        (p.name, p.length.m, p.width.m, p.thickness.m) for p in old.parts
    ]
    assert "Nachbarn" not in (new / "parts.csv").read_text("utf-8")
    assert all(part.price is None for part in job.parts)


@pytest.mark.parametrize(
    ("past_language", "mark", "new_language"),
    [("de", ",", "en"), ("en", ".", "de"), ("de", ",", "de"), ("en", ".", "en")],
)
def test_a_job_goes_to_a_shop_of_the_other_decimal_mark(
    past_language, mark, new_language, make_job, tmp_path
):
    separator = ";" if mark == "," else ","
    said = f"""title = "Tisch"
units = "mm"
overall = {{ width = "1600{mark}5", depth = "450", height = "72{mark}5 cm" }}
contents = "60{mark}5 kg"
loads = ["12{mark}5 kg auf der Ablage"]
adds = ["width: Platte length - 2 x gap 1{mark}5"]
[[finish]]
key = "oel"
family = "Hartwachsöl"
note = "dünn, 1,5 Stunden, 2.5 g"
[[worked]]
kind = "resaw"
title = "Blätter"
thickness = "38{mark}5 mm"
width = "205"
leaf = "9 mm"
"""
    row = (
        ["Teil", "Material", "Länge", "Breite", "Dicke"],
        ["Platte", "Eiche", f"1603{mark}5", "450", f"27{mark}5"],
    )
    past = make_job(
        "past", **{"job.toml": said, "parts.csv": "\n".join(separator.join(cells) for cells in row) + "\n"}
    )
    (past.parent / "shop.toml").write_text(f'language = "{past_language}"\n', "utf-8")
    shelf = tmp_path / "elsewhere"
    shelf.mkdir()
    (shelf / "shop.toml").write_text(f'language = "{new_language}"\n', "utf-8")
    begin(shelf / "new", like=str(past))
    old, job = read_job(past), read_job(shelf / "new")
    assert [str(one) for one in job.problems if one.severity == "error"] == []
    assert job.overall.metres == old.overall.metres == (1.6005, 0.45, 0.725)
    assert (job.contents_kg, job.loads[0].kg) == (old.contents_kg, old.loads[0].kg) == (60.5, 12.5)
    assert job.adds[0].terms[1].m == old.adds[0].terms[1].m == 0.0015
    assert [working.inputs for working in job.workings] == [working.inputs for working in old.workings]
    assert (job.parts[0].length.m, job.parts[0].thickness.m) == (1.6035, 0.0275)
    assert job.finishes[0].note == "dünn, 1,5 Stunden, 2.5 g"


def test_a_length_between_shoulders_stays_one(make_job):
    text = "part,material,length,tenons,width,thickness,note\nRail,oak,1200 between shoulders,60,55,22,\nLong rail,oak,1200,60,55,22,between shoulders\n"
    past = make_job("past", **{"job.toml": 'title = "x"\nunits = "mm"\n', "parts.csv": text})
    rows = {part.row: part for part in read_job(past).parts}
    assert [part.length.m for part in rows.values()] == [1.26, 1.26]
    begin(past.parent / "new", like=str(past), sizes=NewSizes(parts={(row, "length"): 1.46 for row in rows}))
    assert [part.length.m for part in read_job(past.parent / "new").parts] == [1.46, 1.46]
    assert "1400 between shoulders" in (past.parent / "new" / "parts.csv").read_text("utf-8")


def test_a_cell_that_a_spreadsheet_would_run_is_guarded_again(make_job):
    text = "part,material,note\n'=Top,oak,'=SUM(A1)\n"
    past = make_job("past", **{"job.toml": 'title = "x"\n', "parts.csv": text})
    begin(past.parent / "new", like=str(past))
    assert (past.parent / "new" / "parts.csv").read_text("utf-8") == text

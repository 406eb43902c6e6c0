"""One slip of a maker is one problem, with every row that has it; what cannot be known for a slip elsewhere is not told."""

import pytest

from buildbook.job import read_job

HEAD = "part,qty,kind,material,length,width,thickness,stock,finish,price,per\n"
JOB = 'title = "Table"\npiece = "table"\nbegun = 2026-02-16\nunits = "mm"\n[[finish]]\nkey = "body"\nfamily = "soap"\n'


@pytest.fixture
def told(tmp_path):
    """The problems of one file of a job that is all right but for what it is given."""

    def told_(file, parts="", job=JOB, notes="## 2026-02-17 Begun\n\nText.\n"):
        (tmp_path / "shop.toml").write_text('name = "Shop"\ncurrency = "GBP"\n', "utf-8")
        folder = tmp_path / "table"
        folder.mkdir()
        (folder / "job.toml").write_text(job, "utf-8")
        (folder / "notes.md").write_text(notes, "utf-8")
        (folder / "parts.csv").write_text(parts if "\n" in parts[:80] else HEAD + parts, "utf-8")
        return [str(problem) for problem in read_job(folder).problems if problem.file.startswith(file)]

    return told_


def rows(row, count=13):
    return HEAD + row * count


def test_a_finish_that_job_toml_lacks_is_one_problem(told):
    (line,) = told("parts.csv", rows("Side,2,wood,oak,600,300,20,,boddy,,\n"))
    assert line == "parts.csv, rows 2-14, finish: “boddy” is not a finish of job.toml. Did you mean “body”?"


def test_a_decimal_comma_is_one_problem_whatever_the_figures_and_columns(told):
    row = 'Side,2,wood,oak,"600,5","300,{}",20,,body,,\n'
    (line,) = told("parts.csv", HEAD + "".join(row.format(digit) for digit in range(1, 10)))
    assert line.startswith("parts.csv, rows 2-10, length, width: “600,5” has a comma.")


@pytest.mark.parametrize(
    ("row", "place"),
    [
        ("Side,2,wood,okk,600,300,20,,body,,\n", "parts.csv, rows 2-14, material: "),
        ("Side,2,wod,oak,600,300,20,,body,,\n", "parts.csv, rows 2-14, kind: "),
        ("Side,2,wood,oak,600,300,20,,body,12,furlong\n", "parts.csv, rows 2-14, per: "),
        ("Side,2,wood,oak,600,300,20,,body,12,\n", "parts.csv, rows 2-14, per: "),
        ("Hinge,2,hardware,brass hinge,,,,,,$12,\n", "parts.csv, rows 2-14, price: "),
    ],
)
def test_a_word_that_is_not_known_is_one_problem(told, row, place):
    (line,) = told("parts.csv", rows(row))
    assert line.startswith(place)


@pytest.mark.parametrize("unit", ["furlong", "mil"])
def test_a_unit_that_is_none_is_one_problem(told, unit):
    row = "Side,2,wood,oak,{} " + unit + ",300,20,,body,,\n"
    (line,) = told("parts.csv", HEAD + "".join(row.format(600 + number) for number in range(10)))
    assert line.startswith(f"parts.csv, rows 2-11, length: “600 {unit}”: “{unit}” is not a unit of length.")


def test_fractions_in_a_metric_job_are_one_problem(told):
    row = "Side,2,wood,oak,600,300,{}/4,,body,,\n"
    (line,) = told("parts.csv", HEAD + "".join(row.format(number) for number in (1, 2, 3)))
    assert line.startswith("parts.csv, rows 2-4, thickness: “1/4” is a fraction without a unit")


def test_a_heading_that_is_wrong_says_nothing_of_its_rows(told):
    parts = HEAD.replace("material", "matterial") + "Side,2,wood,oak,600,300,20,,body,,\n" * 5
    lines = told("parts.csv", parts)
    assert len(lines) == 2
    assert any("There is no column “material”" in line for line in lines)
    assert any("“matterial” is not a column" in line for line in lines)


def test_a_quotation_mark_that_is_not_closed_in_job_toml_says_nothing_of_other_files(told):
    parts = "Side,2,wood,oak,3/4,300,20,,boddy,,\nTop,1,wood,oak,600,300,20,,body,,\n"
    lines = told("", parts, job=JOB.replace('"Table"', '"Table'), notes="Text before a day.\n")
    assert len(lines) == 1 or [line for line in lines if not line.startswith("photos")] == lines[:1]
    assert lines[0].startswith("job.toml, line 1: A quotation mark is not closed")


def test_days_with_strokes_are_asked_about_once(told):
    notes = "".join(f"## {day}/9/2026 Day\n\nText.\n\n" for day in range(1, 9))
    lines = [
        line for line in told("notes.md", notes=f"## 2026-08-31 Begun\n\nText.\n\n{notes}") if "month" in line
    ]
    assert len(lines) == 1
    assert lines[0].startswith("notes.md, lines 5, 9, 13, 17, 21, 25, 29, 33: “1/9/2026 Day” does not say")


def test_different_slips_stay_apart(told):
    lines = told("parts.csv", HEAD + "A,2,wod,oak,6,3,2,,body,,\nB,2,wood,okk,6,3,2,,body,,\n")
    assert len(lines) == 2

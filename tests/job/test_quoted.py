"""estimate.json in a job's folder: read where it is whole, told where it is broken, and never in the way."""

import json
from decimal import Decimal

import pytest

from buildbook.job import read_job
from buildbook.job.quoted import Quoted, QuotedRange, QuotedStage, QuotedSum, read_quoted
from buildbook.problems import Problems, any_error
from tests.job import told

WHOLE = {
    "schema": 1,
    "enquiry": "enquiry-wine-cabinet",
    "hours": {
        "low_h": 48.4,
        "median_h": 63,
        "high_h": 82.0,
        "lean": "few",
        "by_stage": [
            {"stage": "joinery", "driver": "joints", "low_h": 16.3, "median_h": 22.8, "high_h": 31.9, "from_jobs": 14, "exponent": 0.9},
            {"stage": "fitting", "driver": "doors_drawers", "low_h": None, "median_h": None, "high_h": None, "from_jobs": 0},
        ],
    },
    "materials": {"amount": 537.48, "currency": "EUR", "lines": []},
    "price": {"low": 3996.0, "median": 5004.0, "high": 6360.0, "currency": "EUR", "lines": []},
}  # fmt: skip


def rng(*figures):
    return QuotedRange(*map(Decimal, figures))


def read(facts):
    """The estimate, and what is wrong with it, of facts or of a text."""
    problems = Problems()
    text = facts if isinstance(facts, str | bytes) else json.dumps(facts)
    found = read_quoted(text if isinstance(text, bytes) else text.encode(), problems)
    return found, problems


def changed(**sections):
    return {**WHOLE, **sections}


def test_an_estimate_is_read_to_the_coin_and_other_keys_are_passed_over():
    found, problems = read(WHOLE)
    assert told(problems) == []
    assert found == Quoted(
        hours=rng("48.4", "63", "82.0"),
        by_stage=(
            QuotedStage("joinery", "joints", rng("16.3", "22.8", "31.9"), 14),
            QuotedStage("fitting", "doors_drawers"),
        ),
        materials=QuotedSum(rng("537.48", "537.48", "537.48"), "EUR"),
        price=QuotedSum(rng("3996.0", "5004.0", "6360.0"), "EUR"),
    )


def test_materials_take_their_range_where_it_is_told():
    found, _ = read(changed(materials={"low": 500, "amount": 537.48, "high": 600, "currency": "EUR"}))
    assert found.materials == QuotedSum(rng("500", "537.48", "600"), "EUR")


@pytest.mark.parametrize(
    "nothing", [{}, {"hours": None, "materials": None, "price": None}, {"hours": {"low_h": None}}]
)
def test_what_an_estimate_does_not_tell_is_not_known(nothing):
    found, problems = read({"schema": 1, **nothing})
    assert (found, told(problems)) == (Quoted(), [])


ROW = {"stage": "joinery", "low_h": 1, "median_h": 2, "high_h": 3}


@pytest.mark.parametrize(
    ("facts", "place"),
    [
        ("", ""),
        ("{", ""),
        ("[]", ""),
        ("[" * 100_000, ""),
        (b"\xff\xfe\x00\xd8", ""),
        (b"PK\x03\x04", ""),
        ('{"schema": 1, "price": {"low": 1e999999999999999999999}}', ""),
        ('{"schema": 1, "hours": {"low_h": NaN}}', ""),
        ({}, "schema"),
        ({"schema": 2}, "schema"),
        (changed(hours=[]), "hours"),
        (changed(hours={"by_stage": {}}), "hours.by_stage"),
        (changed(hours={"by_stage": "joinery"}), "hours.by_stage"),
        (changed(hours={"by_stage": [ROW, "joinery"]}), "hours.by_stage[2]"),
        (changed(hours={"by_stage": [{**ROW, "stage": " "}]}), "hours.by_stage[1]"),
        (changed(hours={"by_stage": [{**ROW, "low_h": -1}]}), "hours.by_stage[1].low_h"),
        (changed(hours={"by_stage": [{**ROW, "low_h": True}]}), "hours.by_stage[1].low_h"),
        (changed(hours={"by_stage": [{**ROW, "high_h": "3"}]}), "hours.by_stage[1].high_h"),
        (changed(hours={"by_stage": [{**ROW, "median_h": None}]}), "hours.by_stage[1].median_h"),
        (changed(hours={"low_h": 3, "median_h": 2, "high_h": 1}), "hours"),
        (changed(price={"low": 1, "median": 2, "high": 10**12, "currency": "EUR"}), "price.high"),
        (changed(price={"low": 1, "median": 2, "high": 3}), "price.currency"),
        (changed(materials={"amount": "12"}), "materials.low"),
    ],
)  # fmt: skip
def test_a_broken_estimate_is_a_warning_with_its_place_and_what_to_do(facts, place):
    found, problems = read(facts)
    (problem,) = problems
    assert found is None
    assert (problem.severity, problem.file, problem.field) == ("warning", "estimate.json", place)
    assert "Copy it again" in problem.hint


def job_of(make_job, **files):
    return read_job(
        make_job("2026-001-cabinet", **{"notes.md": "## 2026-03-02 x\n\nHours: joinery 2\n", **files})
    )


def test_a_job_holds_the_estimate_of_its_folder(make_job):
    assert job_of(make_job, **{"estimate.json": json.dumps(WHOLE)}).quoted == read(WHOLE)[0]


def test_a_job_without_one_says_nothing_of_it(make_job):
    job = job_of(make_job)
    assert job.quoted is None
    assert not any("estimate" in str(problem) for problem in job.problems)


def test_a_broken_one_keeps_no_job_from_being_bound(make_job):
    job = job_of(make_job, **{"estimate.json": "{"})
    assert job.quoted is None
    assert any(problem.file == "estimate.json" for problem in job.problems)
    assert not any_error(job.problems)


def test_a_folder_of_that_name_is_told_too(make_job):
    job = job_of(make_job, **{"estimate.json__x": "y"})
    assert [p.severity for p in job.problems if p.file == "estimate.json"] == ["warning"]

"""From the files that three makers wrote first to a handover: how often they have to come back, and what it comes to.

The figures are worked by hand from the rows, as a trade person checks them; the workings stand beside.
"""

import json

import pytest

from buildbook.cli import main
from buildbook.job.proof import proof
from tests.makers.shops import lay, mend

FIRST = {
    # the errors of the first proof, by file and what they are at: all of them, and nothing else
    "desk": [("parts.xlsx", "thickness")],
    "bank": [("job.toml", "contents"), ("parts.csv", "")],
    "gate": [("job.toml", "near"), ("job.toml", "stands"), ("parts.csv", "kind"), ("parts.csv", "width")],
}


def errors(job):
    (_, problems), *_ = proof(job).jobs
    return sorted((p.file, p.field) for p in problems if p.severity == "error")


@pytest.mark.parametrize("which", FIRST)
def test_the_second_proof_has_nothing_to_put_right(which, tmp_path):
    job = lay(which, tmp_path)
    assert errors(job) == sorted(FIRST[which])
    mend(which, job)
    assert errors(job) == []


@pytest.fixture(scope="module")
def bound(tmp_path_factory):
    """What each job comes to: its summary, its notes by day, the client's page."""
    found = {}
    for which in FIRST:
        shelf = tmp_path_factory.mktemp(which)
        job = lay(which, shelf)
        mend(which, job)
        assert main(["bind", str(job), "--to", str(shelf / "book"), "--quiet"]) == 0
        summary = json.loads((shelf / "book/jobs" / job.name / "summary.json").read_text("utf-8"))
        log = (shelf / "book/jobs" / job.name / "index.html").read_text("utf-8")
        page = (shelf / "book/handover" / job.name / "index.html").read_text("utf-8")
        found[which] = (summary, log, page)
    return found


@pytest.mark.parametrize(
    ("which", "hours"),
    [
        ("desk", 4.5 + 3 + 5 + 3.5 + 1 + 1.5 + 2),  # the rest stands in sentences and is pointed at
        ("bank", 2.5 + 5 + 3 + 2 + 3 + 1 + 1 + 4),
        ("gate", 6 + 7 + 4 + 0.5),
    ],
)
def test_hours_are_those_of_the_notes(bound, which, hours):
    assert bound[which][0]["hours"]["total_h"] == hours


@pytest.mark.parametrize(
    ("which", "days"),
    [
        ("desk", "08-31 09-02 09-03 09-08 09-12 09-14 09-19 09-21 09-24 09-26 09-28 10-01 10-03"),
        ("bank", "09-07 09-08 09-09 09-10 09-11 09-14 09-15 09-16 09-17 09-18"),
        ("gate", "10-06 10-07 10-08 10-09 10-12 10-13"),
    ],
)
def test_each_day_of_the_notes_is_a_day_of_the_log(bound, which, days):
    assert all(
        f'id="d2026-{day}' in bound[which][1] or f"2026-{day}" in bound[which][1] for day in days.split()
    )


def cost(summary):
    return {line["kind"]: line["cost"]["amount"] for line in summary["cost"]["by_kind"]}


def test_what_the_desk_cost(bound):
    paid = cost(bound["desk"][0])
    assert paid["panel"] == 38.00
    assert paid["hardware"] == 2 * 14.50 + 8 * 0.85
    assert paid["supply"] == pytest.approx(9.49 + 8.99 + 26)  # the box of screws, the glue, the quart of oil


def test_what_the_bench_cost(bound):
    paid = cost(bound["bank"][0])
    assert paid["upholstery"] == pytest.approx(38.50 + 1.5 * 4.20 + 1.8 * 49.00)
    assert paid["hardware"] == pytest.approx(8 * 0.06 + 12 * 0.04 + 4 * 0.85)
    assert paid["supply"] == pytest.approx(6.95 + 19.80)
    assert bound["bank"][0]["cost"]["price"]["amount"] == 1890


def test_what_the_gate_cost(bound):
    paid = cost(bound["gate"][0])
    assert paid["hardware"] == pytest.approx(92 + 54 + 11.40 + 8 * 2.15 + 12 * 0.80)
    assert paid["supply"] == pytest.approx(9.50 + 4 * 7.25)


def test_the_desk_weighs_what_its_rows_do(bound):
    walnut = 66 * 30 + 2 * 30 * 3  # in³; top and breadboard ends, an inch thick
    walnut += 2 * 1.75 * (24.25 * 4.5 + 26 * 3.5 + 24 * 2.5) + 52 * 5 * 1.25
    walnut += 0.75 * (2 * 22 * 3.5 + 2 * 48 * 4.5 + 3 * 18.5 * 4.5)
    maple = 0.5 * (4 * 18 * 3.5 + 2 * 22 * 3) + 4 * 18 * 0.75**2
    ply = 2 * 21.5 * 17.5 * 0.25
    cubic_inch = 16.387064e-6
    kg = cubic_inch * (
        walnut * 608 + maple * 640 + ply * 680
    )  # kg/m³ at 8 %: trade tables, within a few of a hundred
    assert bound["desk"][0]["mass"]["total_kg"] == pytest.approx(kg, rel=0.03)


def test_the_top_of_the_desk_moves_as_walnut_does(bound):
    top = next(row for row in bound["desk"][0]["movement"] if row["part"] == "Top")
    # 30 in of flat-sawn walnut, 0.27 % for each 1 % of moisture; made at 7.5 %, up to 10.1 %
    assert top["grows_m"] == pytest.approx(30 * 0.0254 * 0.0027 * (10.1 - 7.5), rel=0.05)


def test_the_pages_say_nothing_that_is_not_so(bound):
    desk, bank, gate = (bound[which][2] for which in FIRST)
    assert "color" in desk or "gray" in desk  # an American reads American
    assert " und ." not in bank
    assert "Hardwax" not in bound["bank"][1]
    assert "each" not in bound["bank"][1]
    assert "winter cover" not in gate
    assert "t&amp;G" not in gate
    assert "October 2026 to October 2026" not in gate

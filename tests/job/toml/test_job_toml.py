"""job.toml: what it says becomes the job's fields; every slip is told in one line, at its key and line."""

from datetime import date
from decimal import Decimal

import pytest

from buildbook.job.holding_model import Fastener, Hanging, Wall
from buildbook.job.model import Finish
from buildbook.job.shop_model import Climate, MadeAt
from buildbook.job.toml.job_toml import read_job_toml
from buildbook.problems import Problems
from tests.job import slips, told

WHOLE = """
number    = "2026-014"
title     = "Record cabinet"
piece     = "cabinet"
units     = "mm"
client    = "Someone"
begun     = 2026-02-16
delivered = 2026-04-11
overall   = { width = "1200", depth = 420, height = "27 1/2 in" }
tags      = ["sliding doors", "brass"]
joinery   = ["half-blind dovetail"]
stands    = "Wall"
contents  = "60 kg"
climate   = { rh_low = 30, rh_high = 60, temperature = "68 °F" }
made_at   = { moisture = 8.5 }
price     = 4850.50
near      = ["Window", "radiator"]
food      = true
doors     = 2
page      = "https://example.org/014/"

[[finish]]
key = "body"
family = "Hard wax oil"
product = "clear satin hardwax oil"
coats = [2026-03-20, 2026-03-21]
spread = "24 m2/l"
voc = "350 g/l"
full_cure_days = "3 weeks"
refresh_months = 24
two_part = true

[hanging]
method = "cleat"
fastener = { kind = "wood screw", diameter = "5 mm", length = "70 mm", in_wall = "45 mm", count = 6 }
wall = { kind = "softwood studs", sg = 0.42 }
pull_height = "600 mm"

[[worked]]
kind = "resaw"
title = "Door panels"
thickness = "8/4"
width = 180
leaf = "6 mm"
kerf = "1.5 mm"
note = "slow feed"

[[worked]]
kind = "holes"
rows = 2
columns = 12
spacing = "32 mm"

[[worked]]
kind = "lengths"
stock = "2.4 m"
piece = 455
count = 12

[[worked]]
kind = "tally"
boards = ["5/4 x 7 1/2 in x 9 ft 8 in", "27 mm × 180 mm × 3 m"]

[photos]
lead = "photos/front.jpg"
client = ["photos/open.jpg"]
"""


def read(text: str, units: str = "mm"):
    problems = Problems()
    return read_job_toml(text.encode(), units, problems), problems


@pytest.fixture(scope="module")
def whole():
    stated, problems = read(WHOLE)
    assert told(problems) == []
    return stated.fields


def test_a_whole_job(whole):
    assert whole["begun"] == date(2026, 2, 16)
    assert whole["overall"].metres == (1.2, 0.42, pytest.approx(0.6985))
    assert whole["overall"].height.written == "27 1/2 in"
    assert whole["contents_kg"] == 60
    assert whole["climate"] == Climate(30, 60, pytest.approx(20))
    assert whole["made_at"] == MadeAt(moisture_pct=8.5)
    assert whole["price"] == Decimal("4850.50")
    assert (whole["stands"], whole["near"], whole["food"], whole["doors"]) == (
        "wall",
        ("window", "radiator"),
        True,
        2,
    )
    assert (whole["lead"], whole["client_photos"]) == ("photos/front.jpg", ("photos/open.jpg",))


def test_a_finish_names_its_family_by_the_trades_key(whole):
    assert whole["finishes"] == (
        Finish(
            key="body",
            family="hardwax-oil",
            product="clear satin hardwax oil",
            coats=(date(2026, 3, 20), date(2026, 3, 21)),
            spread_m2_per_l=24,
            voc_g_per_l=350,
            full_cure_days=21,
            refresh_months=24,
            two_part=True,
        ),
    )


def test_hanging_is_held_in_metres(whole):
    assert whole["hanging"] == Hanging(
        "cleat", Fastener("wood screw", 0.005, 0.07, 0.045, 6), Wall("softwood studs", 0.42), 0.6
    )


def test_workings_have_the_inputs_of_their_sums_and_what_was_written(whole):
    resaw, holes, lengths, tally = whole["workings"]
    assert resaw.inputs == {"thickness_m": 0.0508, "width_m": 0.18, "leaf_m": 0.006, "kerf_m": 0.0015}
    assert resaw.written == {"thickness": "8/4", "width": "180", "leaf": "6 mm", "kerf": "1.5 mm"}
    assert (resaw.title, resaw.note) == ("Door panels", "slow feed")
    assert holes.inputs == {"rows": 2, "columns": 12, "row_spacing_m": 0.032, "column_spacing_m": 0.032}
    assert lengths.inputs == {"stock_m": 2.4, "piece_m": 0.455, "wanted": 12}
    assert [(b.thickness_m, b.width_m, b.length_m) for b in tally.inputs["boards"]] == [
        (0.03175, 0.1905, pytest.approx(2.9464)),
        (0.027, 0.18, 3),
    ]


def test_a_bare_length_is_in_the_jobs_unit_else_in_the_shops():
    assert read('overall = { width = "40" }', "in")[0].fields["overall"].width.m == pytest.approx(1.016)
    assert read('units = "mm"\noverall = { width = "40" }', "in")[0].fields["overall"].width.m == 0.04


@pytest.mark.parametrize(("text", "lines"), slips("job_toml"))
def test_a_slip_is_told_in_one_line(text, lines):
    assert told(read(text)[1]) == lines


def test_all_slips_are_told_at_once():
    text = "".join(f"{n}\n" for n in ("price = true", "doors = -1", "zzz = 1", "food = 3"))
    assert [problem.field for problem in read(text)[1]] == ["price", "doors", "zzz", "food"]


def test_what_is_right_is_kept_beside_what_is_wrong():
    fields = read('title = "Table"\nprice = "a lot"\nstands = "floor"')[0].fields
    assert (fields["title"], fields["stands"]) == ("Table", "floor")
    assert "price" not in fields

"""A year of the seasons against the sums of the trade."""

from dataclasses import replace

import pytest

from buildbook.job.model import Job, Part
from buildbook.job.shop_model import Climate, MadeAt, Shop
from buildbook.pages.drawn.year import dial, year_of_seasons
from buildbook.pages.phrases import Phrases
from buildbook.quantity import Length
from buildbook.summary import summarise
from buildbook.summary.year import year_of
from buildbook.trade import moisture, movement, tables

ROOMS = Climate(35.0, 65.0, 20.0)
TOP = Part(
    2,
    "Top",
    1,
    "wood",
    "oak",
    "white-oak",
    length=Length(1.6, "1600"),
    width=Length(0.45, "450"),
    cut="quarter",
)
JOB = Job(folder="a-job", parts=(TOP,), climate=ROOMS, made_at=MadeAt(moisture_pct=9.5))


def year(job=JOB):
    summary = summarise(job)
    return year_of_seasons(job, summary, summary.movement[0], Phrases.of(job))


def widths(job=JOB):
    return [month.width_m for month in year(job).months]


def test_the_rooms_are_driest_in_late_winter_and_dampest_in_late_summer():
    rh = [month.rh_pct for month in year_of(summarise(JOB).air, southern=False)]
    assert rh[1] == min(rh) == pytest.approx(35)
    assert rh[7] == max(rh) == pytest.approx(65)
    assert rh[4] == rh[10] == pytest.approx(50)


def test_a_southern_year_is_the_northern_one_turned_by_half():
    southern = widths(replace(JOB, shop=Shop(country_code="AU")))
    assert southern == pytest.approx(widths()[6:] + widths()[:6])
    assert {"AU", "NZ", "ZA", "AR", "CL", "UY"} <= tables.southern_countries()
    assert "GB" not in tables.southern_countries()


def test_the_extremes_are_those_that_the_page_tells_beside_it():
    row = summarise(JOB).movement[0]
    assert max(widths()) == pytest.approx(row.width_m + row.grows_m)
    assert min(widths()) == pytest.approx(row.width_m - row.shrinks_m)


def test_each_month_is_the_sum_of_the_trade():
    rates = movement.rates(tables.species()["white-oak"], "quarter")
    for month in year().months:
        assert month.width_m == pytest.approx(0.45 + movement.change_m(0.45, rates, 9.5, month.mc_pct))
    assert year().months[7].mc_pct == pytest.approx(moisture.equilibrium_mc_pct(20, 65))


def test_the_part_is_as_wide_as_made_when_the_air_is_that_of_the_making():
    spring = moisture.equilibrium_mc_pct(20, 50)  # the air of May and November
    made_in_it = year(replace(JOB, made_at=MadeAt(moisture_pct=spring)))
    assert made_in_it.months[4].width_m == pytest.approx(made_in_it.made_m)
    assert made_in_it.months[10].width_m == pytest.approx(made_in_it.made_m)


def test_what_hardly_moves_has_no_year():
    assert year(replace(JOB, climate=Climate(50.0, 50.5, 20.0))) is None


def test_the_year_is_told_in_the_units_of_the_shop():
    metric, inch = year(), year(replace(JOB, units="in"))
    assert metric.made == "450\u202fmm when made"
    assert metric.months[7].width in metric.sentence
    assert "sketch of a usual year" in metric.sentence
    assert inch.made == "17\u202f23⁄32\u202fin when made"
    assert inch.by_month.count("in;") == 11


def test_a_room_beyond_the_equation_is_drawn_at_its_edge():
    """Eq. 4-5 of the Wood Handbook begins at -1 °C: a colder room is taken for one at its edge."""
    assert max(widths(replace(JOB, climate=Climate(0.0, 100.0, -20.0)))) > 0.45


def test_the_dial_has_the_air_that_is_told_else_the_household_band():
    face = dial(JOB, summarise(JOB), Phrases.of(JOB))
    assert (face.good_low_pct, face.good_high_pct, face.low_pct, face.high_pct) == (35, 65, 35, 65)
    assert face.low == "35\u202f%"
    assert "between 35\u202f% and 65\u202f%" in face.sentence
    untold = replace(JOB, climate=None)
    face = dial(untold, summarise(untold), Phrases.of(untold))
    assert (face.good_low_pct, face.good_high_pct) == (35, 55)


def test_outdoors_there_is_neither_a_meter_nor_a_year_by_months():
    """Which months are wet outdoors hangs on the place; what is drawn indoors would be the wrong way round."""
    outside = replace(JOB, use="In the garden, all year")
    assert dial(outside, summarise(outside), Phrases.of(outside)) is None
    assert year(outside) is None


def test_a_piece_that_goes_south_has_the_southern_year():
    sent = replace(JOB, shop=Shop(country_code="GB"), goes_to_code="NZ")
    assert widths(sent) == pytest.approx(widths()[6:] + widths()[:6])


def test_a_piece_without_wood_has_no_dial():
    glass = replace(TOP, kind="glass", key="float")
    job = replace(JOB, parts=(glass,))
    assert dial(job, summarise(job), Phrases.of(job)) is None

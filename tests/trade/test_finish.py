"""Finish: areas by faces, volumes, solvent, and dates that hold at the end of a month."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.trade import finish, tables
from buildbook.trade.records import Ends

from .reference import FOOT, US_GALLON_L, rows

days = st.dates(date(1990, 1, 1), date(2090, 1, 1))


@pytest.mark.parametrize(
    ("faces", "area_m2"),
    [("all", 2.2), ("faces", 2.0), ("one face", 1.0), ("edges", 0.2), ("none", 0.0)],
)
def test_the_area_of_a_board_by_its_faces(faces, area_m2: float) -> None:
    """A board 2 m x 0.5 m x 40 mm: 1 m2 a face, 5 m of edge."""
    assert finish.part_area_m2(1, 2, 0.5, 0.04, faces) == pytest.approx(area_m2)
    assert finish.part_area_m2(3, 2, 0.5, 0.04, faces) == pytest.approx(3 * area_m2)


@given(st.floats(0.01, 3), st.floats(0.01, 3), st.floats(0.001, 0.2))
def test_faces_and_edges_make_all(length_m, width_m, thickness_m) -> None:
    def area(faces):
        return finish.part_area_m2(1, length_m, width_m, thickness_m, faces)

    assert area("faces") + area("edges") == pytest.approx(area("all"))
    assert 2 * area("one face") == pytest.approx(area("faces"))


def test_one_coat_of_three() -> None:
    assert finish.per_coat_l(4.2, 11) * 3 == pytest.approx(finish.volume_l(4.2, 3, 11))


def test_square_feet_a_gallon_are_square_metres_a_litre() -> None:
    """NIST SP 811 (2008): 1 ft2 = 0.092 903 04 m2, 1 US gal = 3.785 412 l; so 1 ft2/gal = 0.024542 m2/l
    (F13).
    """
    square_foot_m2 = FOOT**2
    assert square_foot_m2 == pytest.approx(0.09290304)
    assert pytest.approx(3.785412, rel=1e-6) == US_GALLON_L
    assert finish.per_coat_l(100 * FOOT**2, 400 * FOOT**2 / US_GALLON_L) == pytest.approx(US_GALLON_L / 4)


def test_solvent_of_a_family_is_a_range() -> None:
    family = tables.finishes()["hardwax-oil"]
    assert finish.voc_range_kg(0.5, family.voc_kg_per_l) == Ends(0.0, 0.25)


@given(days, st.integers(1, 60), st.integers(1, 10))
def test_refresh_dates_are_that_many_months_apart_and_keep_the_day(start, months, count) -> None:
    dates = finish.refresh_dates(start, months, count)
    assert len(dates) == count
    for turn, due in enumerate(dates, 1):
        assert (due.year - start.year) * 12 + due.month - start.month == turn * months
        assert due.day <= start.day
    assert dates == tuple(sorted(set(dates)))


def test_the_dates_of_a_hardwax_oil() -> None:
    """Family figures: light use after 2 days, full cure after 7 to 28 days (common practice)."""
    dates = finish.schedule(tables.finishes()["hardwax-oil"], date(2026, 3, 21))
    assert dates.light_use_from == date(2026, 3, 23)
    assert (dates.full_cure_from, dates.full_cure_to) == (date(2026, 3, 28), date(2026, 4, 18))


@given(days, st.integers(1, 60), st.integers(1, 10), st.integers(-400, 9000))
def test_no_refresh_date_lies_before_a_day_and_none_that_could_is_left_out(
    start, months, count, later
) -> None:
    not_before = start + timedelta(days=later)
    dates = finish.refresh_dates(start, months, count, not_before)
    every = finish.refresh_dates(start, months, 400)
    assert dates == tuple(day for day in every if day >= not_before)[:count]


# -- the first coat and those after it, days of coats --------------------------------------------

areas, spreads = st.floats(0.01, 50), st.floats(1, 60)


@given(areas, st.floats(1, 9), st.integers(1, 12), spreads, spreads)
def test_litres_scale_with_the_area(area_m2, times, coats, first, later) -> None:
    once = finish.volume_of_coats_l(area_m2, coats, first, later)
    assert finish.volume_of_coats_l(times * area_m2, coats, first, later) == pytest.approx(times * once)


@given(areas, st.integers(2, 12), spreads, st.floats(1.01, 3))
def test_a_later_coat_that_goes_farther_takes_less(area_m2, coats, first, farther) -> None:
    even = finish.volume_l(area_m2, coats, first)
    assert finish.volume_of_coats_l(area_m2, coats, first, first) == pytest.approx(even)
    assert finish.volume_of_coats_l(area_m2, coats, first, farther * first) < even
    assert finish.volume_of_coats_l(area_m2, 1, first, farther * first) == finish.per_coat_l(area_m2, first)
    assert finish.volume_of_coats_l(area_m2, 0, first, farther * first) == 0


def test_three_coats_of_a_spar_varnish_by_its_makers_own_figures() -> None:
    """A maker prints 600 ft2/gal for the first coat and 800 for the second: 100 ft2 take 1/6 and 1/8 of a gallon."""
    hundred_m2, per_gal = 100 * FOOT**2, FOOT**2 / US_GALLON_L
    litres = finish.volume_of_coats_l(hundred_m2, 2, 600 * per_gal, 800 * per_gal)
    assert litres == pytest.approx((1 / 6 + 1 / 8) * US_GALLON_L)


@pytest.mark.parametrize("family", tables.finishes(), ids=lambda family: family.key)
def test_no_later_coat_of_a_family_takes_more_than_its_first(family) -> None:
    first, later = family.spread_m2_per_l, family.later_m2_per_l
    assert (first is None) == (later is None)
    if first and later:
        assert later.low >= first.low
        assert later.high >= first.high


SHEETS = rows("finish_sheets.csv")


@pytest.mark.parametrize("row", SHEETS, ids=[f"{r['family']} {r['property']} {r['printed']}" for r in SHEETS])
def test_the_range_of_a_family_meets_what_sheets_print(row) -> None:
    family = tables.finishes()[row["family"]]
    light = family.light_use_days
    known = {
        "spread": family.spread_m2_per_l,
        "later": family.later_m2_per_l,
        "recoat": family.recoat_h,
        "full_cure": family.full_cure_days,
        "refresh": family.refresh_months,
        "voc": Ends(family.voc_kg_per_l.low * 1000, family.voc_kg_per_l.high * 1000)
        if family.voc_kg_per_l
        else None,
        "light_use": Ends(light, light) if light is not None else None,
    }[row["property"]]
    assert known is not None
    assert known.low <= float(row["high"]) + 0.01
    assert float(row["low"]) <= known.high + 0.01


DAY_ONE = date(2026, 3, 2)


@pytest.mark.parametrize(
    ("after_days", "wait_h", "too_near"),
    [
        (0, 3, False),
        (0, 24, False),
        (0, 25, True),
        (1, 24, False),
        (1, 48, False),
        (1, 72, True),
        (3, 72, False),
    ],
)
def test_coats_are_too_near_only_where_no_hours_of_their_days_would_do(after_days, wait_h, too_near) -> None:
    coats = (DAY_ONE, date.fromordinal(DAY_ONE.toordinal() + after_days))
    assert finish.coats_too_near(coats, wait_h) == (coats if too_near else None)
    assert finish.coats_too_near(coats[:1], wait_h) is None

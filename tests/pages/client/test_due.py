"""The days that a client should know of, counted on the calendar."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job.model import Delivery, Finish
from buildbook.job.shop_model import Shop
from buildbook.pages.client.due import due_dates
from buildbook.pages.phrases import Phrases
from buildbook.summary import summarise
from buildbook.trade import tables
from tests.pages.made import care, entry, table

HOW = care("renew-hardwax-oil", "mend", text="Rub in a thin coat.", renews=True, finishes=("hardwax oil",))
CHECKS = [
    care("hang-check", "year", "caution", times=("year",)), care("wax", "year", times=("year",)),
    care("hinges", "year", times=("year",)), care("dust", "week"),
]  # fmt: skip


def due(job, items=()):
    return due_dates(job, summarise(job), items, Phrases.of(job))


def days(found):
    return {one.key: (one.day, one.every_months) for one in found}


def test_a_finish_is_cured_once_and_renewed_at_its_interval_from_the_last_coat():
    # last coat 3 April 2026, delivered 10 April; 21 days and every six months are stated
    job = table(delivered=date(2026, 4, 10))
    assert days(due(job, [HOW])) == {"cured-1": (date(2026, 4, 24), 0), "renew-1": (date(2026, 10, 3), 6)}


def test_what_is_hard_before_it_is_handed_over_is_no_date():
    assert "cured-1" not in days(due(table(delivered=date(2026, 4, 24))))
    assert "cured-1" in days(due(table(delivered=None, entries=())))


def test_careful_use_is_a_date_where_the_piece_goes_out_before_it():
    finish = replace(table().finishes[0], light_use_days=4)
    assert days(due(table(finishes=(finish,), delivered=date(2026, 4, 6))))["light-1"] == (
        date(2026, 4, 7),
        0,
    )
    assert "light-1" not in days(due(table(finishes=(finish,), delivered=date(2026, 4, 7))))


@pytest.mark.parametrize(("wear", "end"), [("daily", "low"), ("now and then", "high")])
def test_what_is_handled_daily_is_renewed_sooner(wear, end):
    family = tables.finishes()["hardwax-oil"]
    job = table(finishes=(Finish("oil", "hardwax-oil", coats=(date(2026, 4, 3),), wear=wear),))
    months = int(getattr(family.refresh_months, end))
    assert days(due(job, [HOW]))["renew-1"] == (date(2026 + months // 12, 4, 3), months)
    assert family.refresh_months.low < family.refresh_months.high


def test_what_nobody_touches_is_never_due():
    job = table(finishes=(replace(table().finishes[0], wear="never"),))
    assert "renew-1" not in days(due(job, [HOW]))
    inside = table(parts=tuple(replace(part, name="Drawer side") for part in table().parts))
    assert "renew-1" not in days(due(inside, [HOW]))


def test_nothing_is_due_that_no_instruction_tells_how_to_do():
    assert "renew-1" not in days(due(table()))
    other = replace(HOW, finishes=("shellac",))
    assert "renew-1" not in days(due(table(), [other]))


def test_a_finish_whose_coats_are_not_dated_is_renewed_from_the_handing_over():
    job = table(finishes=(replace(table().finishes[0], coats=()),))
    assert days(due(job, [HOW]))["renew-1"] == (date(2026, 11, 4), 6)


def test_a_finish_says_how_it_is_renewed_and_each_of_several_has_its_own_days():
    second = replace(table().finishes[0], key="second", product="Second oil", refresh_months=9)
    both = replace(HOW, finishes=("hardwax oil", "Second oil"))
    found = {one.key: one for one in due(table(finishes=(*table().finishes, second)), [both])}
    assert found["renew-1"].text == found["renew-2"].text == "Rub in a thin coat."
    assert "Second oil" in found["renew-2"].title
    assert (found["renew-1"].every_months, found["renew-2"].every_months) == (6, 9)


def test_what_keeps_from_harm_is_looked_at_alone_and_the_rest_at_once():
    yearly = [one for one in due(table(), CHECKS) if one.every_months == 12]
    assert [(one.key, one.day) for one in yearly] == [
        ("year", date(2027, 5, 4)),
        ("year-hang-check", date(2027, 5, 4)),
    ]
    assert yearly[0].text == "Title of wax. Do wax.\n\nTitle of hinges. Do hinges."


TIMES = {
    "delivery": (date(2026, 5, 4), 0), "settled": (date(2026, 6, 8), 0), "month": (date(2026, 6, 4), 1),
    "half-year": (date(2026, 11, 4), 6), "spring": (date(2027, 4, 1), 12), "autumn": (date(2026, 10, 1), 12),
    "year": (date(2027, 5, 4), 12),
}  # fmt: skip


@pytest.mark.parametrize("when", TIMES)
def test_each_time_begins_after_the_handing_over_and_comes_back(when):
    """Handed over on 4 May 2026: five weeks on is 8 June, the next spring work 1 April 2027."""
    (one,) = (one for one in due(table(), [care("x", "caution", times=(when,))]) if one.key == when)
    assert (one.day, one.every_months) == TIMES[when]


def test_spring_is_in_october_where_the_shop_or_the_piece_is_in_the_south():
    item = [care("x", "half-year", times=("spring", "autumn"))]
    south = {"spring": (date(2026, 10, 1), 12), "autumn": (date(2027, 4, 1), 12)}
    for job in (table(shop=Shop(country_code="NZ")), table(goes_to_code="NZ")):
        assert {key: day for key, day in days(due(job, item)).items() if key in south} == south


def test_nothing_is_due_on_the_first_day_of_a_piece_that_is_not_handed_over():
    item = [care("x", "caution", times=("delivery", "year"))]
    assert "delivery" not in days(due(table(delivered=None), item))
    assert "year" in days(due(table(delivered=None), item))


def test_pieces_of_a_set_that_go_on_another_day_have_their_own_dates():
    item = [care("x", "caution", times=("delivery", "year"))]
    went = (Delivery(date(2026, 5, 4), (1, 2)), Delivery(date(2026, 7, 1), (3,)))
    found = days(due(table(quantity=3, delivered=date(2026, 7, 1), deliveries=went), item))
    assert found["delivery/1, 2"] == (date(2026, 5, 4), 0)
    assert found["year/3"] == (date(2027, 7, 1), 12)


def test_what_falls_on_one_day_for_pieces_that_went_apart_is_told_once():
    spring = [care("x", "half-year", times=("spring",))]
    went = (Delivery(date(2026, 5, 4), (1, 2)), Delivery(date(2026, 7, 1), (3,)))
    found = due(table(quantity=3, delivered=date(2026, 7, 1), deliveries=went), spring)
    assert [(one.key, one.day, one.pieces) for one in found if one.every_months == 12] == [
        ("spring", date(2027, 4, 1), ())
    ]


@pytest.mark.parametrize(
    ("delivered", "noted", "first"),
    [
        (date(2028, 2, 29), None, date(2029, 2, 28)),
        (date(2028, 8, 31), None, date(2029, 8, 28)),  # a day that every month has
        (None, date(2026, 6, 1), date(2027, 6, 1)),
        (None, None, None),
        (date(9999, 6, 1), None, None),  # the calendar ends
    ],
)
def test_the_year_begins_with_the_handing_over_else_with_the_last_that_was_done(delivered, noted, first):
    entries = (entry(noted, "Done"),) if noted else ()
    job = table(delivered=delivered, entries=entries, finishes=(), parts=())
    assert [one.day for one in due(job, CHECKS)][:1] == ([first] if first else [])


@given(
    st.dates(date(2000, 1, 1), date(2100, 1, 1)),
    st.integers(0, 900),
    st.sampled_from(["", "daily", "now and then", "never"]),
    st.sampled_from([None, 1, 5, 6, 18]),
    st.booleans(),
)
def test_whenever_it_is_handed_over_nothing_is_due_before_and_all_in_order(coat, wait, wear, months, south):
    job = table(
        finishes=(replace(table().finishes[0], coats=(coat,), wear=wear, refresh_months=months),),
        delivered=coat + timedelta(days=wait),
        goes_to_code="NZ" if south else "",
        begun=None,
        entries=(),
    )
    every = [care(when, "caution", times=(when,)) for when in TIMES]
    found = due(job, [HOW, *every])
    assert [one.day for one in found] == sorted(one.day for one in found)
    assert len({one.key for one in found}) == len(found)
    for one in found:
        assert one.day >= job.delivered
        assert not one.every_months or one.day.day <= 28
    assert ("renew-1" in days(found)) == (wear != "never")

"""The days that a client should know of, counted on the calendar."""

from dataclasses import replace
from datetime import date

import pytest

from buildbook.job.model import Finish
from buildbook.pages.client.due import due_dates
from buildbook.pages.phrases import Phrases
from buildbook.summary import summarise
from buildbook.trade import tables
from tests.pages.made import care, entry, table

CHECKS = [care("hang-check", "year"), care("tip-check", "year"), care("wax", "year"), care("hinges", "year"), care("dust", "week")]  # fmt: skip


def due(job, items=()):
    return due_dates(job, summarise(job), items, Phrases.of(job))


def test_a_finish_is_cured_once_and_renewed_at_its_interval_from_the_last_coat():
    # last coat 3 April 2026; 21 days and every six months are stated
    assert [(one.key, one.day, one.every_months) for one in due(table())] == [
        ("cure-1", date(2026, 4, 24), 0),
        ("renew-1-1", date(2026, 10, 3), 0),
        ("renew-1-2", date(2027, 4, 3), 0),
        ("renew-1-3", date(2027, 10, 3), 0),
    ]


def test_where_a_range_is_usual_the_shorter_interval_and_the_longer_cure_count():
    family = tables.finishes()["hardwax-oil"]
    job = table(finishes=(Finish("oil", "hardwax-oil", coats=(date(2026, 4, 3),)),))
    days = {one.key: one.day for one in due(job)}
    assert (days["cure-1"] - date(2026, 4, 3)).days == family.full_cure_days.high > family.full_cure_days.low
    first = days["renew-1-1"]
    assert (
        (first.year - 2026) * 12 + first.month - 4 == family.refresh_months.low < family.refresh_months.high
    )


def test_a_finish_says_how_it_is_renewed_and_each_of_several_has_its_own_days():
    how = care("renew-hardwax-oil", "mend", text="Rub in a thin coat.")
    job = table()
    twice = replace(
        job, finishes=(*job.finishes, replace(job.finishes[0], key="second", product="Second oil"))
    )
    found = {one.key: one for one in due(twice, [how])}
    assert found["renew-1-1"].text == found["renew-2-1"].text == "Rub in a thin coat."
    assert "Second oil" in found["renew-2-1"].title
    assert found["renew-1-1"].title != found["renew-2-1"].title
    assert due(twice)[2].text != "Rub in a thin coat."


def test_what_keeps_it_from_falling_is_looked_at_alone_and_the_rest_at_once_each_year():
    yearly = [one for one in due(table(), CHECKS) if one.every_months]
    assert [(one.key, one.day, one.every_months) for one in yearly] == [
        ("check-hang-check", date(2027, 5, 4), 12),
        ("check-tip-check", date(2027, 5, 4), 12),
        ("look-over", date(2027, 5, 4), 12),
    ]
    assert yearly[2].text == "Title of wax. Do wax.\n\nTitle of hinges. Do hinges."


@pytest.mark.parametrize(
    ("delivered", "noted", "first"),
    [
        (date(2028, 2, 29), None, date(2029, 2, 28)),
        (None, date(2026, 6, 1), date(2027, 6, 1)),
        (None, None, None),
        (date(9999, 6, 1), None, None),  # the calendar ends
    ],
)
def test_the_year_begins_with_the_handing_over_else_with_the_last_that_was_done(delivered, noted, first):
    entries = (entry(noted, "Done"),) if noted else ()
    job = table(delivered=delivered, entries=entries, finishes=(), parts=())
    assert [one.day for one in due(job, CHECKS)][:1] == ([first] if first else [])


def test_days_are_in_the_order_of_the_calendar():
    days = [one.day for one in due(table(), CHECKS)]
    assert days == sorted(days)
    assert len(days) == 7

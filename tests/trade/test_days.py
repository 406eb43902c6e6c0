"""Days from days: against the calendar by hand, and never beyond its ends."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.trade.days import add_months, days_after, half_a_year_on, next_first_of, repeatable


@pytest.mark.parametrize(
    ("start", "months", "end"),
    [
        (date(2026, 1, 31), 1, date(2026, 2, 28)),
        (date(2028, 1, 31), 1, date(2028, 2, 29)),
        (date(2026, 3, 31), 24, date(2028, 3, 31)),
        (date(2026, 8, 31), 6, date(2027, 2, 28)),
        (date(2026, 12, 15), 1, date(2027, 1, 15)),
        (date(2028, 2, 29), 12, date(2029, 2, 28)),
    ],
)
def test_months_are_added_safely(start: date, months: int, end: date) -> None:
    assert add_months(start, months) == end


def test_part_of_a_day_counts_as_a_day() -> None:
    assert days_after(date(2026, 3, 21), 1.5) == date(2026, 3, 23)


@pytest.mark.parametrize("days", [float("nan"), float("inf"), float("-inf"), 1e300, -1e300, 3e9])
def test_there_is_no_day_beyond_all_days(days) -> None:
    assert days_after(date(2026, 3, 21), days) is None


@given(st.dates(), st.integers(-(10**7), 10**7))
def test_a_day_beyond_the_calendar_is_none_and_every_other_is_that_far(start, days) -> None:
    inside = date.min.toordinal() <= start.toordinal() + days <= date.max.toordinal()
    assert days_after(start, days) == (start + timedelta(days=days) if inside else None)


@given(st.dates(), st.integers(-(10**6), 10**6))
def test_months_beyond_the_calendar_are_none(start, months) -> None:
    found = add_months(start, months)
    assert (found is not None) == (1 <= start.year + (start.month - 1 + months) // 12 <= 9999)
    if found:
        assert (found.year - start.year) * 12 + found.month - start.month == months


@given(st.dates(max_value=date(9000, 1, 1)), st.integers(1, 40), st.integers(1, 40))
def test_what_repeats_from_a_repeatable_day_keeps_its_day(start, months, turn) -> None:
    first = repeatable(start)
    assert add_months(first, months * turn).day == first.day
    assert 0 <= (start - first).days <= 3


@given(st.integers(1, 12))
def test_half_a_year_on_and_again_is_the_same_month(month) -> None:
    assert half_a_year_on(half_a_year_on(month)) == month
    assert abs(half_a_year_on(month) - month) == 6


@given(st.dates(), st.integers(1, 12))
def test_the_next_first_of_a_month_is_within_a_year(start, month) -> None:
    found = next_first_of(month, start)
    if found is None:
        assert start > date(9999, month, 1)
    else:
        assert (found.month, found.day) == (month, 1)
        assert 0 <= (found - start).days <= 366

"""Days out of names: every example of the table, names of other makers' devices, and what must not be taken for a day."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job.photos.named_day import day_in, examples


def said(name):
    found = day_in(name)
    if found is None:
        return ""
    return found.taken.isoformat() if found.time else found.day.isoformat()


@pytest.mark.parametrize(("name", "comes_to"), examples())
def test_a_name_says_what_the_table_says(name, comes_to):
    assert said(name) == comes_to


@pytest.mark.parametrize(
    ("name", "comes_to"),
    [
        ("IMG_20280229_235959", "2028-02-29T23:59:59"),
        ("IMG_20270229_120000", ""),
        ("Foto vom 3.4.2026 Fuge", "2026-04-03"),
        ("received_10158923445678901", ""),
        ("4711-2026-31-12", ""),
        ("parts 2026-03-16 and 2026-03-17", "2026-03-16"),
        ("99991231_000000", ""),
        ("Screenshot 2026-03-16 at 13.05.00 PM", "2026-03-16"),
        ("IMG_20260316_240000", "2026-03-16"),
        ("2026-03-16 drawer 12", "2026-03-16"),
    ],
)
def test_names_that_the_table_does_not_show(name, comes_to):
    assert said(name) == comes_to


@given(st.dates(date(1996, 1, 1), date(2099, 1, 1)), st.times(), st.sampled_from("_-T "))
def test_any_moment_is_read_back(day, at, between):
    name = f"IMG_{day:%Y%m%d}{between}{at:%H%M%S}"
    assert said(name) == f"{day.isoformat()}T{at:%H:%M:%S}"


@given(st.text(max_size=60))
def test_no_name_is_a_fault(name):
    day_in(name)

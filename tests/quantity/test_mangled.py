"""A date where a length should be names the fraction that it was, in every form that spreadsheets write."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.quantity import QuantityError, read_length
from buildbook.quantity.mangled import explain, fractions_behind


@pytest.mark.parametrize(
    ("cell", "fraction"),
    [
        ("8-Mar", "3/8"),
        ("08-Mar", "3/8"),
        ("Mar-08", "3/8"),
        ("03/08/26", "3/8"),
        ("08/03/26", "3/8"),
        ("03/08/2026", "3/8"),
        ("08.03.2026", "3/8"),
        ("8.3.26", "3/8"),
        ("2026-03-08", "3/8"),
        ("2026-03-08 00:00:00", "3/8"),
        ("8. Mär", "3/8"),
        ("8 mars", "3/8"),
        ("8-août", "8/8"),
        ("3-Aug", "3/8"),
        ("Jan-32", "1/32"),
        ("16-Jan", "1/16"),
        ("1-Feb", "1/2"),
        ("7-Aug-2026", "7/8"),
        ("4-May", "5/4"),
        ("12/16/26", "12/16"),
        ("46089", "3/8"),
    ],
)
def test_a_date_names_the_fraction_it_was(cell, fraction):
    message, hint = explain(cell)
    assert fraction in message
    assert f"rite {fraction} in" in hint


def test_the_whole_sentence():
    with pytest.raises(QuantityError) as told:
        read_length("8-Mar", "in")
    assert str(told.value) == (
        "“8-Mar” is a date. A spreadsheet probably turned 3/8 into it:"
        " write 3/8 in, or format the column as text."
    )


def test_a_day_number_shows_both_readings():
    with pytest.raises(QuantityError) as told:
        read_length("46089", "mm")
    assert str(told.value) == (
        "“46089” is either a very long length or the day number of 2026-03-08 in a spreadsheet"
        " and was probably typed as 3/8. Write 3/8 in again as text, or add the unit: 46089 mm."
    )


def test_day_and_month_that_could_be_either_way_name_both():
    message, hint = explain("04/08/26")
    assert "8/4 or 4/8" in message
    assert hint == "write 8/4 in, or format the column as text."


def test_a_date_that_was_no_fraction_is_still_a_date():
    assert explain("5-Jul") == ("“5-Jul” is a date.", "Write the length again and format the column as text.")


@pytest.mark.parametrize(
    "cell", ["3/8", "19", "1-1/4", "7 3/4", "46089 mm", "42999", "60001", "10 mm", "3 m", "5 ft"]
)
def test_lengths_are_no_dates(cell):
    assert explain(cell) is None


@given(st.integers(1, 6).map(lambda power: 2**power), st.data())
def test_every_fraction_of_a_rule_is_found_behind_its_date(under, data):
    over = data.draw(st.integers(1, under - 1).filter(lambda n: n % 2))
    assert f"{over}/{under}" in fractions_behind(over, under)
    assert f"{over}/{under}" in fractions_behind(under, over)

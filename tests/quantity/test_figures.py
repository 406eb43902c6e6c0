"""Floats are written down without noise: to what they mean, and the same however they were added up."""

import math
import random
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.quantity.figures import figure, placed, settled
from buildbook.quantity.show import round_to

measured = st.floats(1e-6, 1e6, allow_nan=False)


def digits_of(value):
    """Significant digits and decimal places of a float as it is written."""
    exact = Decimal(repr(value)).normalize()
    return len(exact.as_tuple().digits), max(0, -exact.as_tuple().exponent)


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_a_figure_is_near_what_it_stands_for_and_short(value):
    shown = figure(value)
    assert abs(shown - value) <= max(abs(value) * 5.01e-7, 5.01e-10)
    digits, places = digits_of(shown)
    assert places <= 9
    assert digits <= 7 or places == 0


@given(st.lists(measured, min_size=2, max_size=60), st.randoms(use_true_random=False))
def test_the_order_of_a_sum_does_not_show(values, shuffle):
    other = list(values)
    shuffle.shuffle(other)
    assert settled(math.fsum(values)) == settled(math.fsum(other))
    assert figure(sum(values)) == pytest.approx(figure(math.fsum(other)), rel=2e-7)


@given(st.integers(1, 10**7), st.integers(1, 5))
def test_a_half_is_rounded_the_same_way_with_noise_and_without(number, places):
    """A figure of decimal makings lies on a half more often than not: there noise would turn the last digit."""
    half = (2 * number + 1) / (2 * 10**places)
    for noisy in (half, math.nextafter(half, math.inf), math.nextafter(half, 0), half * (1 + 3e-15)):
        assert placed(noisy, places) == placed(half, places)
        assert round_to(noisy, places) == round_to(half, places)


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (0.002763267961528277, 0.002763268),
        (1234567.89, 1234568.0),
        (0.0, 0.0),
        (-0.088685887499, -0.08868589),
        (3e-11, 0.0),
    ],
)
def test_what_is_written(value, written):
    assert figure(value) == written


def test_what_is_no_number_stays_what_it_is():
    assert math.isinf(figure(math.inf))
    assert math.isnan(figure(math.nan))


def test_the_seeded_generator_finds_sums_that_python_adds_in_two_ways():
    """The fault that this module is for: without it the same values are written differently."""
    noise = random.Random(1)
    values = [noise.uniform(0.001, 2.0) for _ in range(200)]
    ways = {repr(sum_one_by_one(values)), repr(math.fsum(values))}
    assert len(ways) == 2
    assert len({figure(float(way)) for way in ways}) == 1


def sum_one_by_one(values):
    """As Python up to 3.11 adds."""
    total = 0.0
    for value in values:
        total += value
    return total

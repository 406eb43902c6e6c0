"""The robust line: against least squares by hand, a published median slope, and jobs far off the line."""

import math
from statistics import linear_regression

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.estimate.hours import fit
from buildbook.estimate.hours.fit import fit_line, median_slope
from buildbook.estimate.settings import method
from tests.estimate.hours.plain import slope_of_all_pairs

RULES = method().fit


def points(pairs, weight=1.0):
    return [(z, v, weight) for z, v in pairs]


def test_without_odd_points_it_is_ridge_regression_by_the_closed_form():
    """A. E. Hoerl and R. W. Kennard, Technometrics 12 (1970): (X'X + kI)^-1 X'y, about the believed exponent."""
    pairs = [(0.0, 1.1), (0.5, 1.3), (1.0, 1.9), (1.5, 2.0), (2.0, 2.6)]
    line = fit_line(points(pairs))
    mean_z = sum(z for z, _ in pairs) / len(pairs)
    mean_v = sum(v for _, v in pairs) / len(pairs)
    sxx = sum((z - mean_z) ** 2 for z, _ in pairs)
    sxv = sum((z - mean_z) * (v - mean_v) for z, v in pairs)
    pull = (line.spread / RULES.exponent_sd) ** 2
    assert line.exponent == pytest.approx((sxv + pull * RULES.exponent) / (sxx + pull), abs=1e-3)
    assert line.at(mean_z) == pytest.approx(mean_v, abs=1e-3)


def test_with_many_points_it_is_least_squares():
    """statistics.linear_regression had no part in it. The weights of Huber cost little where errors are normal."""
    z = [i / 40 for i in range(200)]
    v = [0.3 + 0.7 * x + 0.1 * math.sin(7.3 * i) for i, x in enumerate(z)]
    plain = linear_regression(z, v)
    line = fit_line(points(zip(z, v, strict=True)))
    assert line.exponent == pytest.approx(plain.slope, abs=0.01)
    assert line.at(2.0) == pytest.approx(plain.intercept + 2 * plain.slope, abs=0.01)


def test_a_job_gone_wrong_hardly_moves_it():
    pairs = [(i / 10, 0.5 + 0.8 * i / 10 + 0.05 * (-1) ** i) for i in range(30)]
    sane, line = fit_line(points(pairs)), fit_line(points([*pairs[:-1], (2.9, pairs[-1][1] + math.log(6))]))
    least_squares = linear_regression(*zip(*[*pairs[:-1], (2.9, pairs[-1][1] + math.log(6))], strict=True))
    moved = abs(line.at(2.9) - sane.at(2.9))
    assert moved < 0.06
    assert moved < abs(least_squares.intercept + 2.9 * least_squares.slope - sane.at(2.9)) / 2


def test_one_job_gives_its_own_hours_and_the_believed_exponent():
    line = fit_line(points([(1.2, 3.4)]))
    assert line.at(1.2) == pytest.approx(3.4)
    assert line.exponent == RULES.exponent


@given(st.lists(st.tuples(st.floats(-5, 5), st.floats(-3, 6)), min_size=1, max_size=25))
def test_hours_never_fall_as_the_driver_grows(pairs):
    line = fit_line(points(pairs))
    assert 0 <= line.exponent <= RULES.most_exponent
    assert math.isfinite(line.level)
    assert line.spread >= RULES.floor


def test_the_median_slope_of_theil_and_sen():
    """A line with two wild points keeps its slope: fewer than 29 % of points cannot carry it away (Sen 1968)."""
    line = [(float(x), 2.0 + 0.25 * x) for x in range(12)]
    assert median_slope(line) == pytest.approx(0.25)
    assert median_slope([*line[:10], (10.0, 90.0), (11.0, -40.0)]) == pytest.approx(0.25)
    assert median_slope([(1.0, 2.0), (1.0, 5.0)]) is None


@given(
    st.lists(st.tuples(st.integers(-60, 0), st.floats(-3, 3)), min_size=2, max_size=60),
    st.sampled_from([1, 3, 15]),
    st.sampled_from([0, 1, 8]),
)
def test_the_median_slope_that_is_counted_is_that_of_all_pairs(pairs, digits, between):
    """Also where many points are of one time or as high as one another."""
    points = [(month / 12, round(v, digits)) for month, v in pairs]
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(fit, "_FEW", 5)
        patched.setattr(fit, "_BETWEEN", between)
        counted = median_slope(points)
    plain = slope_of_all_pairs(points)
    assert counted == (plain if plain is None else pytest.approx(plain, rel=1e-9, abs=1e-9))

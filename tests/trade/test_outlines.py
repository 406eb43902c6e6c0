"""Outlines in full size against figures from paper: a taper's corners, a bow by its radius, a spline from a textbook sum."""

import math
from itertools import pairwise

import pytest

from buildbook.trade.outlines import bow, fair, tapered


def test_a_taper_on_one_edge_and_on_two():
    assert tapered(0.250, 0.045, 0.028, 0.060, 0.250, both=False) == (
        (0.045, 0), (0.045, 0.060), (0.028, 0.250), (0, 0.250), (0, 0),
    )  # fmt: skip
    both = tapered(0.400, 0.040, 0.020, 0.1, 0.3, both=True)
    assert [pytest.approx(point) for point in both] == (
        [(0.040, 0), (0.040, 0.1), (0.030, 0.3), (0.030, 0.4), (0.010, 0.4), (0.010, 0.3), (0, 0.1), (0, 0)]
    )


@pytest.mark.parametrize(
    "figures",
    [
        (0.25, 0.028, 0.045, 0, 0.25),
        (0.25, 0.045, 0.028, 0.25, 0.25),
        (0.25, 0.045, 0.028, 0, 0.3),
        (0.25, 0.045, 0, 0, 0.25),
    ],
)
def test_what_is_no_taper_is_refused(figures):
    with pytest.raises(ValueError, match="no taper"):
        tapered(*figures, both=False)


def test_a_bow_of_600_that_rises_40_is_of_radius_1145():
    """(300² + 40²) / (2 × 40) = 1145: every point is that far from the centre, and no chord stands off by 0.02 mm."""
    points = bow(0.600, 0.040)
    assert points[0] == pytest.approx((0, 0.040))
    assert points[-1] == pytest.approx((0.600, 0.040))
    assert min(y for _, y in points) == pytest.approx(0, abs=2e-5)
    for x, y in points:
        assert math.dist((x, y), (0.300, 1.145)) == pytest.approx(1.145)
    for (x0, y0), (x1, y1) in pairwise(points):
        assert 1.145 - math.dist(((x0 + x1) / 2, (y0 + y1) / 2), (0.300, 1.145)) < 2.1e-5


def test_half_a_circle_is_the_highest_bow():
    assert min(y for _, y in bow(0.2, 0.1)) == pytest.approx(0, abs=2e-5)
    with pytest.raises(ValueError, match="no bow"):
        bow(0.2, 0.11)


def test_a_curve_runs_through_its_points_as_a_batten_does():
    """Natural spline through 0, 1, 0 at 0, 1, 2: on the first stretch 3/2 t − t³/2, by the sum on paper."""
    curve = fair([(0.0, 0.0), (1.0, 1.0), (0.0, 2.0)])
    for x, y in curve[:-2]:
        t = y if y <= 1 else 2 - y
        assert x == pytest.approx(1.5 * t - t**3 / 2)
    assert curve[-2:] == ((0.0, 2.0), (0.0, 0.0))
    for point in ((1.0, 1.0), (0.0, 2.0)):
        assert any(math.dist(point, one) < 1e-12 for one in curve)


def test_points_in_line_give_a_line():
    curve = fair([(0.04, 0.0), (0.05, 0.1), (0.07, 0.3), (0.08, 0.4)])
    assert all(x == pytest.approx(0.04 + y / 10) for x, y in curve[:-2])


@pytest.mark.parametrize("points", [[(0, 0), (1, 1)], [(0, 0), (1, 1), (0, 1)], [(0, 1), (1, 0), (0, 2)]])
def test_what_is_no_curve_is_refused(points):
    with pytest.raises(ValueError, match="no curve"):
        fair(points)

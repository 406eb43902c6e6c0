"""Workings of the bench, as they come up in a shop (common practice where no source stands)."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.trade import workings
from buildbook.trade.records import Ends
from buildbook.trade.workings import Dowels, Holes

from .reference import INCH, MM

rooms = st.floats(0.01, 5)
pieces = st.floats(0.002, 1)
kerfs = st.floats(0, 0.005)


@given(rooms, pieces, kerfs)
def test_pieces_and_kerfs_fit_and_one_more_would_not(room_m, piece_m, kerf_m) -> None:
    count = workings.slices(room_m, piece_m, kerf_m)
    assert workings.left_over_m(room_m, piece_m, kerf_m, count) >= -1e-8
    assert workings.left_over_m(room_m, piece_m, kerf_m, count + 1) < 1e-8


@given(st.integers(1, 200), pieces, kerfs)
def test_an_exact_fit_counts(count, piece_m, kerf_m) -> None:
    room_m = count * piece_m + (count - 1) * kerf_m
    assert workings.slices(room_m, piece_m, kerf_m) == count


def test_48_pegs_take_two_dowels() -> None:
    """Common practice: 48 pegs of 1 1/4 in from 36 in dowels with a 1/8 in kerf: 26 a dowel, so two."""
    found = workings.lengths(36 * INCH, 1.25 * INCH, 48, INCH / 8)
    assert (found.per_length, found.lengths) == (26, 2)


def test_the_offcut_of_a_stock_length() -> None:
    """F16: 2400 mm, 430 mm pieces, 3.2 mm kerf, 20 mm trim: five pieces, 217.2 mm left."""
    found = workings.lengths(2.4, 0.43, 17, 3.2 * MM, 20 * MM)
    assert (found.per_length, found.lengths) == (5, 4)
    assert found.offcut_m == pytest.approx(0.2172)


def test_trimmed_ends_can_cost_a_piece() -> None:
    assert workings.lengths(1.0, 0.1, 10, 0.0).per_length == 10
    assert workings.lengths(1.0, 0.1, 10, 0.0, trim_m=0.02).per_length == 9


def test_a_piece_longer_than_the_stock_is_a_count_of_none() -> None:
    found = workings.lengths(2.4, 2.5, 3, 3.2 * MM)
    assert (found.per_length, found.lengths, found.offcut_m) == (0, 0, 2.4)


def test_a_board_of_7_inches_opened_makes_14() -> None:
    """Common practice: two leaves of a 7 in board, book-matched, are 14 in wide. 1 in gives two of 7/16
    in with 1/8 in lost.
    """
    found = workings.resaw(INCH, 7 * INCH, 7 / 16 * INCH, INCH / 16, INCH / 16)
    assert found.leaves == 2
    assert found.matched_width_m == pytest.approx(14 * INCH)
    assert found.left_m == pytest.approx(0, abs=1e-12)


def test_strips_out_of_a_board() -> None:
    """200 mm, 10 mm trimmed, strips of 45 mm with a 3.2 mm kerf: four leave 0.4 mm... three kerfs: 190 -
    180 - 9.6.
    """
    found = workings.strips(0.200, 0.045, 3.2 * MM, 0.010)
    assert found.strips == 4
    assert found.left_m == pytest.approx(0.0004)


def test_four_columns_by_twelve_rows_are_48_holes() -> None:
    """Common practice: at 2 in they span 22 in from the first row to the last."""
    found = workings.holes(12, 4, 2 * INCH, 2 * INCH)
    assert found.count == 48
    assert found.span_rows_m == pytest.approx(22 * INCH)
    assert found.span_columns_m == pytest.approx(6 * INCH)
    assert workings.holes(0, 4, 0.1, 0.1) == Holes(0, 0.0, pytest.approx(0.3))


def test_a_hole_bored_at_5_degrees_rises_with_its_depth() -> None:
    """Common practice: depth x tan 5 degrees = 0.0875 of the depth."""
    assert workings.fall_m(0.1, 5) == pytest.approx(0.0087489, abs=1e-7)
    assert workings.angle_deg(0.1, workings.fall_m(0.1, 5)) == pytest.approx(5)
    assert math.isclose(workings.fall_m(1, 45), 1)


def test_coats_are_counted() -> None:
    assert workings.coat_count(48, 3) == 144
    assert workings.coat_count(2, 3, sides=2) == 12


def test_dowels_are_evened_out() -> None:
    """F17: 300 mm with 30 mm margins at 60 mm: five. 310 mm: still five, 62.5 mm apart."""
    assert workings.dowels(0.3, 0.03, 0.06) == Dowels(5, pytest.approx(0.06))
    assert workings.dowels(0.31, 0.03, 0.06) == Dowels(5, pytest.approx(0.0625))
    assert workings.dowels(0.07, 0.03, 0.06) == Dowels(1, 0.0)
    assert workings.dowels(0.05, 0.03, 0.06) == Dowels(0, 0.0)


def test_a_dowel_suits_the_thickness() -> None:
    """Common practice (recalled): a third to a half of the thickness, 1.5 to 2.5 diameters deep, 2 mm for
    glue.
    """
    assert workings.dowel_diameter_m(0.018) == Ends(pytest.approx(0.006), pytest.approx(0.009))
    assert workings.dowel_depth_m(0.008) == Ends(pytest.approx(0.014), pytest.approx(0.022))


def test_a_leg_tapers_on_one_side_or_on_both() -> None:
    assert workings.taper_each_m(0.05, 0.03, 1) == pytest.approx(0.02)
    assert workings.taper_each_m(0.05, 0.03, 2) == pytest.approx(0.01)

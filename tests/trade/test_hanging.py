"""Hanging: the static model in numbers that can be checked on paper, and the allowable values of the NDS."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.trade import hanging

from .reference import INCH, POUND_FORCE, PSI


def test_a_shelf_of_30_kg_on_six_screws() -> None:
    """30 kg, 300 mm deep, 600 mm from cleat to bearing edge: 294.2 N; 49.03 N shear and 294.2 x 150/600/6
    = 12.26 N pull.
    """
    load = hanging.load(30, 0.3, 0.6, 6)
    assert load.weight_n == pytest.approx(294.1995)
    assert load.shear_each_n == pytest.approx(49.03325)
    assert load.pull_each_n == pytest.approx(12.2583, abs=1e-4)


def test_only_the_upper_fasteners_hold_the_pull() -> None:
    all_six, upper_three = hanging.load(30, 0.3, 0.6, 6), hanging.load(30, 0.3, 0.6, 6, count_upper=3)
    assert upper_three.pull_each_n == pytest.approx(2 * all_six.pull_each_n)
    assert upper_three.shear_each_n == all_six.shear_each_n


@given(st.floats(1, 200), st.floats(0.05, 1), st.floats(0.1, 2), st.integers(1, 20))
def test_the_fasteners_together_hold_weight_and_moment(mass_kg, depth_m, pull_height_m, count) -> None:
    load = hanging.load(mass_kg, depth_m, pull_height_m, count)
    assert load.shear_each_n * count == pytest.approx(load.weight_n)
    assert load.pull_each_n * count * pull_height_m == pytest.approx(load.weight_n * depth_m / 2)


def test_end_grain_holds_lag_screws_at_three_quarters_and_wood_screws_not() -> None:
    """NDS (AWC)."""
    side = hanging.allowed_pull_n("lag screw", 0.5, 0.25 * INCH, INCH)
    assert hanging.allowed_pull_n("lag screw", 0.5, 0.25 * INCH, INCH, end_grain=True) == pytest.approx(
        0.75 * side
    )
    assert hanging.allowed_pull_n("wood screw", 0.5, 0.005, 0.045, end_grain=True) == 0


def test_the_use_of_an_allowable_load() -> None:
    allowed = hanging.allowed_pull_n("wood screw", 0.42, 0.005, 0.045)
    assert allowed == pytest.approx(2850 * PSI * 0.42**2 * 0.005 * 0.045)
    assert hanging.use_pct(allowed / 4, allowed) == pytest.approx(25)
    assert hanging.use_pct(1, 0) == math.inf


def test_a_screw_must_go_six_diameters_in() -> None:
    assert hanging.is_short(0.005, 0.029)
    assert not hanging.is_short(0.005, 0.030)


def test_a_lag_screw_must_go_four_diameters_in() -> None:
    assert hanging.is_short(0.008, 0.031, "lag screw")
    assert not hanging.is_short(0.008, 0.033, "lag screw")


def test_only_thread_holds() -> None:
    """Wood screw 60 mm: 40 of thread. Lag screw 1/4 x 3 in: 1 1/2 + 1/2 in, less a tip of 5/32 in (NDS Appendix L, recalled)."""
    assert hanging.thread_in_wall_m("wood screw", 0.060, 0.005, 0.055) == pytest.approx(0.040)
    assert hanging.thread_in_wall_m("wood screw", 0.060, 0.005, 0.030) == pytest.approx(0.030)
    lag = hanging.thread_in_wall_m("lag screw", 3 * INCH, 0.25 * INCH, 2.5 * INCH)
    assert lag == pytest.approx((2 - 5 / 32) * INCH)
    assert hanging.thread_in_wall_m("lag screw", 3 * INCH, 0.25 * INCH, 1 * INCH) == pytest.approx(
        (1 - 5 / 32) * INCH
    )


@given(st.floats(6.0, 9.99), st.sampled_from([0.42, 0.5, 0.67]))
def test_a_screw_less_than_ten_diameters_in_counts_by_its_share(diameters, sg) -> None:
    """NDS (AWC), footnote of the tables of wood screws: below ten diameters the value is reduced (recalled)."""
    diameter, root, bending, side = 0.190 * INCH, 0.152 * INCH, 80_000 * PSI, 0.75 * INCH
    full = hanging.allowed_shear_at_depth_n(diameter, root, bending, side, 10 * diameter, sg, sg)
    got = hanging.allowed_shear_at_depth_n(diameter, root, bending, side, diameters * diameter, sg, sg)
    assert got <= full * diameters / 10 * (1 + 1e-9)
    assert full == hanging.allowed_shear_n(root, bending, side, 10 * diameter, sg, sg)


@given(st.floats(0, 500), st.floats(0, 500), st.floats(50, 500), st.floats(50, 500))
def test_both_loads_at_once_lie_between_the_one_alone_and_root_two_of_the_worse(s, w, z, v) -> None:
    """The formula of the NDS, by the angle of the load."""
    got = hanging.use_together_pct(s, w, z, v)
    if s or w:
        angle = math.atan2(w, s)
        allowed = v * z / (v * math.cos(angle) ** 2 + z * math.sin(angle) ** 2)
        assert got == pytest.approx(100 * math.hypot(s, w) / allowed)
    assert got <= math.sqrt(2) * max(100 * s / z, 100 * w / v) + 1e-9
    assert hanging.use_together_pct(s, 0, z, v) == pytest.approx(100 * s / z)


def test_a_screw_too_strong_to_bend_turns_in_both_pieces() -> None:
    """Yield limit II for like woods of like thickness: root 2 less 1 of the bearing of one piece, over Rd."""
    bearing = 0.003 * 0.02 * hanging.dowel_bearing_pa(0.5)
    allowed = hanging.allowed_shear_n(0.003, 1e15, 0.02, 0.02, 0.5, 0.5)
    assert allowed == pytest.approx((math.sqrt(2) - 1) * bearing / 2.2)


@given(st.floats(0.005, 0.06), st.floats(0.005, 0.06), st.floats(0.3, 0.9), st.floats(0.3, 0.9))
def test_it_makes_no_difference_which_piece_is_called_the_wall(one_m, other_m, sg_one, sg_other) -> None:
    there = hanging.allowed_shear_n(0.0033, 6e8, one_m, other_m, sg_one, sg_other)
    back = hanging.allowed_shear_n(0.0033, 6e8, other_m, one_m, sg_other, sg_one)
    assert there == pytest.approx(back)


def test_bearing_strength_is_rounded_to_50_psi() -> None:
    """NDS (AWC), 16 600 G^1.84: 4650 psi for G 0.50, 3350 for 0.42, 5550 for 0.55 as printed in NDS Table
    12.3.3 (recalled).
    """
    assert [round(hanging.dowel_bearing_pa(sg) / PSI) for sg in (0.42, 0.50, 0.55)] == [3350, 4650, 5550]


def test_a_root_over_a_quarter_inch_is_not_computed() -> None:
    with pytest.raises(ValueError, match="1/4 in"):
        hanging.reduction_term(0.3 * INCH)


def test_a_number_14_screw_has_a_larger_divisor() -> None:
    assert hanging.reduction_term(0.17 * INCH) == pytest.approx(2.2)
    assert hanging.reduction_term(0.20 * INCH) == pytest.approx(2.5)
    assert hanging.weight_n(1) / POUND_FORCE == pytest.approx(2.2046, abs=1e-4)

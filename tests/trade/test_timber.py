"""Timber: net, rough and bought; stock; tally."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.trade import tables, timber
from buildbook.trade.rounding import GUARD

from .reference import BOARD_FOOT_M3, FOOT, INCH, MM

lengths = st.floats(0.01, 5)
widths = st.floats(0.01, 1)
thicknesses = st.floats(0.003, 0.09)


@given(st.integers(1, 50), lengths, widths, thicknesses, st.sampled_from(tables.SYSTEMS), st.floats(0, 60))
def test_net_is_less_than_rough_is_less_than_bought(
    count, length_m, width_m, thickness_m, system, waste_pct
) -> None:
    shop = tables.allowances(system)
    stock = timber.smallest_stock(thickness_m, system, shop.clean_up_m)
    net = timber.net_volume_m3(count, length_m, width_m, thickness_m)
    rough = timber.rough_volume_m3(
        count, length_m, width_m, stock.thickness_m, shop.over_length_m, shop.over_width_m
    )
    assert net <= rough <= timber.with_waste(rough, waste_pct)


@given(lengths, widths, thicknesses)
def test_board_feet_by_nominal_are_never_less_than_by_volume(length_m, width_m, stock_m) -> None:
    bf = timber.rough_board_feet_bf(1, length_m, width_m, stock_m, 0, 0)
    assert bf >= timber.board_feet_bf(length_m * width_m * stock_m) * (1 - GUARD)


def test_thin_stock_counts_as_one_inch() -> None:
    """NHLA rules: stock under 1 in counts as 1 in. 1/2 in by 12 in by 12 in is one board foot."""
    assert timber.rough_board_feet_bf(1, FOOT, FOOT, INCH / 2, 0, 0) == pytest.approx(1)


def test_a_table_top_in_an_inch_shop() -> None:
    """Five boards 6 in x 72 in out of 5/4: 5 x 73 x 6.25 x 1.25 / 144 = 19.80 bf, 23.76 to buy (common
    practice).
    """
    shop = tables.allowances("in")
    bf = timber.rough_board_feet_bf(
        5, 72 * INCH, 6 * INCH, 1.25 * INCH, shop.over_length_m, shop.over_width_m
    )
    assert bf == pytest.approx(19.80, abs=0.005)
    assert timber.with_waste(bf, shop.waste_pct) == pytest.approx(23.76, abs=0.005)


@pytest.mark.parametrize(
    ("finished_m", "system", "name"),
    [
        (0.75 * INCH, "in", "4/4"),
        (0.875 * INCH, "in", "4/4"),
        (1.0 * INCH, "in", "5/4"),
        (1.75 * INCH, "in", "8/4"),
        (19 * MM, "mm", "27 mm"),
        (24 * MM, "mm", "27 mm"),
        (24.1 * MM, "mm", "32 mm"),
        (15 * MM, "mm", "18 mm"),
    ],
)
def test_the_smallest_stock_leaves_three_millimetres(finished_m: float, system: str, name: str) -> None:
    assert timber.smallest_stock(finished_m, system, 0.003).name == name


def test_a_part_thicker_than_any_stock_has_none() -> None:
    assert timber.smallest_stock(0.150, "mm", 0.003) is None


@pytest.mark.parametrize(
    ("length_m", "width_m", "measure"),
    [
        (9 * FOOT + 8 * INCH, 7.5 * INCH, 6),  # 9 x 7.5 / 12 = 5.625
        (10 * FOOT, 6.25 * INCH, 5),  # 5.21
        (12 * FOOT, 8 * INCH, 8),  # exact feet are not lost to rounding
        (10 * FOOT, 6.6 * INCH, 6),  # 5.5: a half goes up
        (11 * INCH, 8 * INCH, 0),
    ],
)
def test_surface_measure(length_m: float, width_m: float, measure: int) -> None:
    """NHLA rules: whole feet x inches / 12, rounded; the choice for a half is ours."""
    assert timber.surface_measure_ft2(length_m, width_m) == measure


def test_four_quarter_bundles_tally_by_surface_measure() -> None:
    assert timber.tally_bf([(12 * FOOT, 8 * INCH)] * 3, INCH) == 24
    assert timber.board_feet_bf(24 * BOARD_FOOT_M3) == pytest.approx(24)

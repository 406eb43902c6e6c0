"""Sheets: never fewer than the area or the largest parts ask for; what cannot be cut is told."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.trade import sheets, tables
from buildbook.trade.sheets import SheetPart

SIZES = tables.sheet_sizes()
KERF = 0.0032

parts = st.builds(
    SheetPart,
    name=st.just("part"),
    count=st.integers(1, 20),
    length_m=st.floats(0.05, 2.4),
    width_m=st.floats(0.05, 1.2),
)


@given(st.lists(parts, min_size=1, max_size=6), st.floats(0, 50), st.booleans())
def test_sheets_are_never_fewer_than_the_area_asks_for(wanted, waste_pct: float, may_turn: bool) -> None:
    size = SIZES["2440"]
    found = sheets.sheets_needed(wanted, size, waste_pct, KERF, may_turn)
    assert found.cannot_cut == ()
    assert found.sheets * size.length_m * size.width_m >= found.area_m2 * (1 - 1e-9)
    for part in wanted:
        each = sheets.per_sheet(part.length_m, part.width_m, size.length_m, size.width_m, KERF, may_turn)
        assert found.sheets * each >= part.count


def test_a_part_is_counted_both_ways() -> None:
    """600 x 400 mm in 2440 x 1220 mm: 4 x 3 along the grain, 6 x 2 across, so twelve either way; 700 x
    390 only 9 or 6.
    """
    assert sheets.per_sheet(0.6, 0.4, 2.44, 1.22, KERF) == 12
    assert sheets.per_sheet(1.2, 0.6, 2.44, 1.22, KERF, may_turn=False) == 4
    assert sheets.per_sheet(0.6, 1.22, 2.44, 1.22, 0, may_turn=False) == 4
    assert sheets.per_sheet(1.22, 0.6, 2.44, 1.22, 0) == 4


def test_an_exact_fit_counts() -> None:
    """Three parts and two kerfs fill the width to the last micrometre."""
    assert sheets.per_sheet(2.44, (1.22 - 2 * KERF) / 3, 2.44, 1.22, KERF) == 3


def test_large_parts_take_a_sheet_each_though_their_area_is_less() -> None:
    wanted = [
        SheetPart("top", 1, 1.5, 0.7),
        SheetPart("bottom", 1, 1.4, 0.65),
        SheetPart("back", 1, 1.3, 0.62),
    ]
    found = sheets.sheets_needed(wanted, SIZES["2440"], 0, KERF)
    assert (found.by_area, found.by_largest, found.sheets) == (1, 3, 3)


def test_a_part_larger_than_the_sheet_is_told_and_left_out() -> None:
    wanted = [SheetPart("side", 2, 0.7, 0.4), SheetPart("worktop", 1, 3.0, 0.6)]
    found = sheets.sheets_needed(wanted, SIZES["2440"], 15, KERF)
    assert found.sheets == 1
    assert found.area_m2 == pytest.approx(0.56)
    assert found.cannot_cut == ("worktop is larger than a sheet of 2440 × 1220 mm",)


def test_the_grain_can_keep_a_part_from_fitting() -> None:
    wanted = [SheetPart("door", 1, 0.6, 1.9)]
    found = sheets.sheets_needed(wanted, SIZES["2440"], 15, KERF, may_turn=False)
    assert found.sheets == 0
    assert found.cannot_cut == (
        "door fits a sheet of 2440 × 1220 mm only with the grain of the face across it",
    )


def test_the_first_size_that_gives_every_part_is_chosen() -> None:
    sizes = tables.sheets()["birch-plywood"].sizes_for("mm")
    assert sheets.choose_size([SheetPart("side", 2, 0.7, 0.4)], sizes, KERF).key == "2440"
    assert sheets.choose_size([SheetPart("back", 1, 2.48, 1.2)], sizes, KERF).key == "2500"
    assert sheets.choose_size([SheetPart("square", 1, 1.5, 1.5)], sizes, KERF).key == "1525"
    assert sheets.choose_size([SheetPart("huge", 1, 4.0, 2.0)], sizes, KERF).key == "2500"


def test_waste_can_ask_for_one_more_sheet() -> None:
    """Six parts of 1.2 x 0.4 m are 2.88 m2 of a sheet of 2.98 m2; with 15 % of waste they are 3.31 m2."""
    wanted = [SheetPart("shelf", 6, 1.2, 0.4)]
    assert sheets.sheets_needed(wanted, SIZES["2440"], 0, KERF).sheets == 1
    assert sheets.sheets_needed(wanted, SIZES["2440"], 15, KERF).sheets == 2


def test_no_parts_take_no_sheets() -> None:
    assert sheets.sheets_needed([], SIZES["2440"], 15, KERF).sheets == 0

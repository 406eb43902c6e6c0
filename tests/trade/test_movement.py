"""Movement: by the handbook's two forms, never less for a wider part or a wetter room, and against an
opening.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.trade import movement, tables
from buildbook.trade.records import NotKnown

MOVING = [wood for wood in tables.species() if not isinstance(movement.rates(wood, ""), NotKnown)]
woods = st.sampled_from(MOVING)
cuts = st.sampled_from(["flat", "rift", "quarter", ""])
moistures = st.floats(3, 24)
widths = st.floats(0.01, 2)


@given(woods, cuts, widths, moistures, moistures, st.floats(0.001, 0.5))
def test_a_wider_part_moves_more(wood, cut, width_m, start, end, more_m) -> None:
    rates = movement.rates(wood, cut)
    narrow, wide = (abs(movement.change_m(width, rates, start, end)) for width in (width_m, width_m + more_m))
    assert wide > narrow or start == end or min(start, end) >= rates.saturation_pct


@given(woods, cuts, moistures, moistures, st.floats(0.01, 10))
def test_a_longer_way_moves_no_less(wood, cut, start, end, more) -> None:
    """Also across the edges of 6 and 14 %, where the form changes."""
    rates = movement.rates(wood, cut)
    further = end + more if end >= start else end - more
    assert (
        abs(movement.change_m(1, rates, start, further))
        >= abs(movement.change_m(1, rates, start, end)) - 1e-12
    )


@given(woods, cuts, moistures, moistures)
def test_it_grows_when_wetter_and_shrinks_when_drier(wood, cut, start, end) -> None:
    change_m = movement.change_m(1, movement.rates(wood, cut), start, end)
    assert change_m * (end - start) >= 0


@given(woods, cuts, widths, moistures, moistures, moistures)
def test_growth_and_shrinkage_are_never_negative(wood, cut, width_m, made, low, high) -> None:
    found = movement.movement(wood, cut, width_m, made, low, high)
    assert found.grows_m >= 0
    assert found.shrinks_m >= 0


def test_the_handbook_example_of_a_white_fir_board() -> None:
    """Wood Handbook FPL-GTR-190 ch. 13: a board of 232 mm measures 233.7 mm at 11 % (C recalled, see F4a)."""
    assert 0.232 + movement.change_by_coefficient_m(0.232, 0.00245, 8, 11) == pytest.approx(0.2337, abs=5e-5)


def test_the_shrinkage_form_serves_when_either_end_lies_outside() -> None:
    """Wood Handbook ch. 13: eq. 13-3 outside 6 to 14 %. Cherry, S_T 7.1 %, 8 to 4.5 %: 600 x 3.5 / 400.5
    = 5.24 mm.
    """
    found = movement.movement(tables.species()["black-cherry"], "flat", 0.6, 8, 4.5, 12)
    assert found.form == "shrinkage"
    assert found.shrinks_m == pytest.approx(0.00524, abs=5e-6)
    assert found.grows_m == pytest.approx(0.6 * 0.00248 * 4)


def test_red_oak_does_not_move_less_in_a_wetter_room() -> None:
    """Its coefficient is a commercial group's, its shrinkage one species': the form alone would jump down
    at 14 %.
    """
    oak = movement.rates(tables.species()["northern-red-oak"], "flat")
    edge = movement.change_m(1, oak, 8, 14)
    assert movement.change_by_shrinkage_m(1, oak.shrinkage_pct, 8, 14.1, 30) < edge
    assert movement.change_m(1, oak, 8, 14.1) == pytest.approx(edge)


def test_nothing_moves_above_fibre_saturation() -> None:
    redwood = movement.rates(tables.species()["redwood-old-growth"], "flat")
    assert redwood.saturation_pct == 22
    assert movement.change_m(1, redwood, 12, 28) == movement.change_m(1, redwood, 12, 22)
    assert movement.change_m(1, redwood, 23, 28) == 0


@pytest.mark.parametrize(
    ("cut", "coefficient", "assumed"),
    [
        ("flat", 0.00365, ()),
        ("quarter", 0.00180, ()),
        ("rift", 0.002725, ()),
        ("", 0.00365, ("cut not told: flat-sawn was assumed, which moves most",)),
    ],
)
def test_the_cut_chooses_the_coefficient(cut, coefficient: float, assumed) -> None:
    """White oak, Wood Handbook Table 13-5: 0.00365 tangential, 0.00180 radial."""
    rates = movement.rates(tables.species()["white-oak"], cut)
    assert rates.coefficient_per_pct == pytest.approx(coefficient)
    assert rates.assumed == assumed


def test_a_missing_radial_figure_is_taken_as_the_tangential_one() -> None:
    blackbutt = tables.species()["blackbutt"]
    quarter = movement.rates(blackbutt, "quarter")
    assert quarter.coefficient_per_pct == movement.rates(blackbutt, "flat").coefficient_per_pct
    assert quarter.assumed == (
        "no radial figure of this wood is known: the tangential one was taken, which moves more",
    )


@pytest.mark.parametrize("key", ["balsa", "light-red-meranti"])
def test_a_wood_without_figures_says_so(key: str) -> None:
    found = movement.movement(tables.species()[key], "flat", 0.3, 8, 6, 11)
    assert isinstance(found, NotKnown)
    assert "neither coefficient nor shrinkage" in found.reason


def test_only_the_woods_without_figures_do_not_move() -> None:
    assert {wood.key for wood in tables.species()} - {wood.key for wood in MOVING} == {
        "light-red-meranti", "balsa", "brazilian-tulipwood", "horse-chestnut", "kingwood", "macassar-ebony", "wild-service",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("opening_m", "spare_m", "ok"),
    [(0.356, 0.0034, True), (0.352, -0.0006, False), (0.350 + 0.0026 - 1e-15, 0.0, True)],
)
def test_a_panel_is_checked_against_its_opening(opening_m: float, spare_m: float, ok: bool) -> None:
    """Cherry panel of 350 mm that grows 2.6 mm (F18)."""
    check = movement.opening_check(opening_m, 0.350, 0.0026)
    assert check.spare_m == pytest.approx(spare_m, abs=1e-9)
    assert check.ok is ok


def test_the_widths_of_a_year_follow_the_moisture_of_its_months() -> None:
    cherry = movement.rates(tables.species()["black-cherry"], "flat")
    widths_m = movement.widths_m(0.350, cherry, 8, [6, 7, 8, 9, 10, 11])
    assert widths_m[2] == 0.350
    assert list(widths_m) == sorted(widths_m)
    assert widths_m[-1] - widths_m[0] == pytest.approx(0.350 * 0.00248 * 5)


def test_where_tables_differ_the_log_says_between_what() -> None:
    said = movement.rates(tables.species()["european-ash"], "flat").assumed
    assert said == ("tables give 0.28 to 0.38 % for each 1 % of moisture: 0.38 % was taken",)
    assert movement.rates(tables.species()["white-oak"], "flat").assumed == ()

"""What is turned or carved hollow: counted by its wall. Figures worked by hand from plain geometry."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.summary.finish import area_m2
from tests.summary.test_round import parts_of, summed


def test_a_bowl_by_hand():
    """300 across, 80 high, 10 of wall: pi/4 x (0.3^2 x 0.08 - 0.28^2 x 0.07) = 1344.60 cm3, of 5654.87 as a disc. Inside
    the rim adds pi x 0.28 x 0.07 m2. Bought it is the block.
    """
    (bowl,), told = parts_of(length="", width="ø300", thickness="80", wall="10")
    (disc,), _ = parts_of(length="", width="ø300", thickness="80")
    assert told == []
    hollow, full = summed(bowl), summed(disc)
    assert hollow.timber.net_m3 == pytest.approx(1344.602e-6, rel=1e-5)
    assert hollow.mass.total_kg == pytest.approx(full.mass.total_kg * 1344.602 / 5654.867, rel=1e-5)
    assert hollow.carbon.stored_kg_co2 < full.carbon.stored_kg_co2
    assert area_m2([bowl]) == pytest.approx(area_m2([disc]) + math.pi * 0.28 * 0.07)
    assert hollow.timber.buy_m3 == full.timber.buy_m3
    assert any("straight walls" in said for said in hollow.mass.assumed)
    assert not any("full rods" in said for said in hollow.mass.assumed)


def test_a_full_disc_says_how_a_hollow_is_told():
    (disc,), _ = parts_of(length="", width="ø300", thickness="80")
    assert any("wall" in said for said in summed(disc).mass.assumed)


def test_a_tube_and_a_tray_by_hand():
    """A tube of 60 over a metre with 10 of wall: pi/4 x (0.06^2 - 0.04^2); a tray of 400 x 250 x 40 with 8."""
    (tube,), _ = parts_of(length="1000", width="ø60", thickness="", wall="10")
    (tray,), _ = parts_of(length="400", width="250", thickness="40", Wandstärke="8")
    assert summed(tube).timber.net_m3 == pytest.approx(math.pi / 4 * (0.06**2 - 0.04**2))
    assert summed(tray).timber.net_m3 == pytest.approx(0.4 * 0.25 * 0.04 - 0.384 * 0.234 * 0.032)
    ends = 2 * math.pi / 4 * (0.06**2 - 0.04**2)
    assert area_m2([tube]) == pytest.approx(math.pi * (0.06 + 0.04) + ends)


@pytest.mark.parametrize(
    "cells",
    [
        {"length": "", "width": "ø300", "thickness": "80", "wall": "150"},
        {"length": "", "width": "ø300", "thickness": "80", "wall": "80"},
        {"length": "900", "width": "ø40", "thickness": "", "wall": "20"},
        {
            "length": "900",
            "width": "400",
            "thickness": "6",
            "wall": "2",
            "kind": "glass",
            "material": "float glass",
        },
    ],
    ids=str,
)
def test_a_wall_that_cannot_be_is_asked_about(cells):
    _, told = parts_of(**cells)
    assert any(line.startswith("wall:") for line in told), told


@given(across=st.integers(20, 600), high=st.integers(10, 400), wall=st.integers(1, 100))
def test_what_is_hollow_never_weighs_more_than_the_block(across, high, wall):
    hollow, told = parts_of(length="", width=f"ø{across}", thickness=str(high), wall=str(wall))
    (full,), _ = parts_of(length="", width=f"ø{across}", thickness=str(high))
    if not told:
        assert 0 < summed(*hollow).mass.total_kg < summed(full).mass.total_kg
        assert area_m2(hollow) > area_m2([full])

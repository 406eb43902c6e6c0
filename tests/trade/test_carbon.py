"""Carbon: what EN 16449 says of a piece of wood."""

from __future__ import annotations

import pytest

from buildbook.trade import carbon


def test_a_kilogram_of_air_dry_wood_holds_1_64_kg_of_carbon_dioxide() -> None:
    """EN 16449:2014 with cf 0.5 and 12 %: 44/12 x 0.5 / 1.12 = 1.637."""
    assert carbon.stored_kg_co2(1, 12) == pytest.approx(1.637, abs=5e-4)


def test_the_carbon_alone_is_half_the_dry_wood() -> None:
    """32 kg of oak at 12 %: 14.29 kg (F9b)."""
    assert carbon.carbon_kg(32, 12) == pytest.approx(14.29, abs=0.005)
    assert carbon.stored_kg_co2(32, 12) / carbon.carbon_kg(32, 12) == pytest.approx(44 / 12)


def test_the_same_wood_wetter_holds_no_more() -> None:
    assert carbon.stored_kg_co2(1.12, 12) == pytest.approx(carbon.stored_kg_co2(1.08, 8))

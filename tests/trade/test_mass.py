"""Mass of wood at the moisture content it was made at, and unit conversions that owe nothing to the
package.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.trade import mass

from .reference import FOOT, POUND


def test_water_is_62_43_pounds_a_cubic_foot() -> None:
    """NIST SP 811 (2008) B.8: 1 lb/ft3 = 16.018 46 kg/m3; the handbook prints 27.968 lb/ft3 for G 0.40 at
    12 % (F8a).
    """
    pound_per_cubic_foot = POUND / FOOT**3
    assert pound_per_cubic_foot == pytest.approx(16.01846, rel=1e-6)
    assert mass.density_kg_m3(0.40, 12) / pound_per_cubic_foot == pytest.approx(27.968, abs=0.002)


def test_wood_made_dry_is_heavier_than_its_gravity_at_12_percent_times_less_water() -> None:
    """Cherry, G12 0.50: by Wood Handbook ch. 4, Gb 0.4632, G8 0.5090, so 549.7 kg/m3 at 8 %."""
    assert mass.density_at_kg_m3(0.50, 8) == pytest.approx(549.7, abs=0.1)
    assert mass.density_at_kg_m3(0.50, 12) == pytest.approx(560.0)


@given(st.floats(0.1, 1.2), st.floats(0, 30))
def test_the_basic_gravity_comes_back(basic: float, mc_pct: float) -> None:
    assert mass.sg_basic_from(mass.specific_gravity(basic, mc_pct), mc_pct) == pytest.approx(basic)


@given(st.floats(0.1, 1.2), st.floats(4, 20), st.floats(0.1, 5))
def test_wetter_wood_of_one_piece_weighs_more(gravity: float, mc_pct: float, more: float) -> None:
    assert mass.mass_at_kg(gravity, mc_pct, mc_pct + more) > gravity


def test_wood_above_fibre_saturation_keeps_its_green_volume() -> None:
    """Wood Handbook ch. 4: a = (30 - MC)/30 only up to 30 %."""
    assert mass.specific_gravity(0.5, 60) == mass.specific_gravity(0.5, 30) == 0.5


def test_a_plywood_sheet() -> None:
    assert mass.mass_kg(2.44 * 1.22 * 0.018, 680) == pytest.approx(36.4, abs=0.05)

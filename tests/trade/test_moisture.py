"""The moisture equation agrees with the printed table of its source, cell by cell."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.trade import moisture

from .reference import celsius, rows

TOLERANCE = (
    0.07  # the table is printed to 0.1; the largest residual was 0.067 with the Fahrenheit coefficients
)
temperatures = st.floats(0, 40)


def test_all_342_cells_of_table_4_2_agree() -> None:
    """USDA Wood Handbook FPL-GTR-190 (2010) Table 4-2, 30 to 200 °F, 5 to 95 % relative humidity."""
    cells = rows("emc_table_4_2.csv")
    off = []
    for cell in cells:
        worked = moisture.equilibrium_mc_pct(celsius(float(cell["temperature_f"])), float(cell["rh_pct"]))
        if abs(worked - float(cell["mc_pct"])) > TOLERANCE:
            off.append((cell, worked))
    assert (len(cells), off) == (342, [])


@pytest.mark.parametrize(
    ("temperature_c", "rh_pct", "said"),
    [
        (-5, 50, "the equation holds from -1 to 93 °C"),
        (120, 50, "the equation holds from -1 to 93 °C"),
        (20, -1, "relative humidity runs from 0 to 100 %"),
        (20, 101, "relative humidity runs from 0 to 100 %"),
        (float("nan"), 50, "the equation holds from -1 to 93 °C"),
        (20, float("nan"), "relative humidity runs from 0 to 100 %"),
    ],
)
def test_an_air_that_the_equation_is_not_for_is_refused(
    temperature_c: float, rh_pct: float, said: str
) -> None:
    assert moisture.out_of_range(temperature_c, rh_pct) == said
    with pytest.raises(ValueError, match=said):
        moisture.equilibrium_mc_pct(temperature_c, rh_pct)


@given(temperatures, st.floats(0, 99), st.floats(0.01, 1))
def test_wetter_air_makes_wetter_wood(temperature_c: float, rh_pct: float, more: float) -> None:
    drier = moisture.equilibrium_mc_pct(temperature_c, rh_pct)
    assert drier < moisture.equilibrium_mc_pct(temperature_c, rh_pct + more)

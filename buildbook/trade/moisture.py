"""Moisture content that wood comes to in air of a given temperature and humidity.

In: degrees Celsius and relative humidity in %. Out: moisture content in %.
"""

from __future__ import annotations

import math

from buildbook.trade import tables

HUMIDITY = (0.0, 100.0)


def _term(name: str, temperature_c: float) -> float:
    """A quadratic of the temperature whose three coefficients are in the table of constants."""
    return math.fsum(tables.constant(f"emc_{name}_t{power}") * temperature_c**power for power in range(3))


def out_of_range(temperature_c: float, rh_pct: float) -> str:
    """Why the equation does not hold for an air, as a sentence; empty when it does."""
    low, high = tables.constant("emc_temperature_low"), tables.constant("emc_temperature_high")
    if not low <= temperature_c <= high:
        return f"the equation holds from {low:.0f} to {high:.0f} °C"
    if not HUMIDITY[0] <= rh_pct <= HUMIDITY[1]:
        return "relative humidity runs from 0 to 100 %"
    return ""


def equilibrium_mc_pct(temperature_c: float, rh_pct: float) -> float:
    """Equilibrium moisture content of wood, in %.

    Source: USDA Wood Handbook FPL-GTR-190 (2010) eq. 4-5, which Table 4-2 prints to one decimal; the
    coefficients are the metric ones. Woods scatter about it by 1 to 2 %. Raises ValueError outside -1 to 93
    degrees Celsius or 0 to 100 %; `out_of_range` tells beforehand.
    """
    if reason := out_of_range(temperature_c, rh_pct):
        raise ValueError(reason)
    k1, k2 = _term("k1", temperature_c), _term("k2", temperature_c)
    kh = _term("k", temperature_c) * rh_pct / 100
    bound = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return tables.constant("emc_scale") / _term("w", temperature_c) * (kh / (1 - kh) + bound)

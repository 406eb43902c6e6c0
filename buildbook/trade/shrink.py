"""Coefficient of movement and total shrinkage of a wood, one from the other.

In: shrinkage from green to oven-dry and fibre saturation point, in %. Out: change per 1 % of moisture content.
"""

from __future__ import annotations

from buildbook.trade.constants import constant


def coefficient_from_shrinkage(shrinkage_pct: float, saturation_pct: float) -> float:
    """Change of width per 1 % of moisture content, as a fraction of the width at 10 %, from the total
    shrinkage.

    C = (S/100) / (F - (S/100) (F - 10)): the slope at 10 % of a width that shrinks evenly from the fibre
    saturation point F. Derived from Wood Handbook eq. 13-3; it gives Table 13-5 to the last digit for most
    single woods.
    """
    share = shrinkage_pct / 100
    return share / (saturation_pct - share * (saturation_pct - constant("coefficient_mc")))


def shrinkage_from_coefficient(coefficient_per_pct: float, saturation_pct: float) -> float:
    """Total shrinkage in % from the coefficient: `coefficient_from_shrinkage` the other way round."""
    above = saturation_pct - constant("coefficient_mc")
    return 100 * coefficient_per_pct * saturation_pct / (1 + coefficient_per_pct * above)

"""Carbon held in the wood of a piece: a stock in the object, not a saving.

In: volume and density at a moisture content. Out: kg of carbon dioxide (`_kg_co2`) and of carbon. Source of
all of it: EN 16449:2014. No wording of an avoided or negative footprint follows from these figures.
"""

from __future__ import annotations

from buildbook.trade import mass, tables


def carbon_kg(mass_kg: float, mc_pct: float) -> float:
    """Carbon in wood of a mass at a moisture content: half of its oven-dry mass."""
    return tables.constant("carbon_fraction") * mass.ovendry_kg(mass_kg, mc_pct)


def stored_kg_co2(mass_kg: float, mc_pct: float) -> float:
    """Carbon dioxide that the carbon in wood of a mass came from: 44/12 of the carbon."""
    return tables.constant("co2_per_carbon") * carbon_kg(mass_kg, mc_pct)


def stored_in_volume_kg_co2(
    volume_m3: float, density_kg_m3: float, mc_pct: float, wood_share: float = 1.0
) -> float:
    """P = 44/12 cf rho V / (1 + MC/100), density and volume at that moisture content; for a panel only
    its share of wood.
    """
    return stored_kg_co2(mass.mass_kg(volume_m3 * wood_share, density_kg_m3), mc_pct)

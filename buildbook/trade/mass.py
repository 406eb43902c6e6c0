"""Mass of wood, panels, glass and stone from volume and density.

In: volumes in m3, specific gravity, moisture content in %. Out: kg and kg/m3.
"""

from __future__ import annotations

from buildbook.trade import tables


def _dryness(mc_pct: float) -> float:
    """How far below the fibre saturation point: a = (30 - MC)/30, 0 from there upwards (Wood Handbook ch.
    4).
    """
    saturation = tables.constant("fibre_saturation")
    return max(0.0, (saturation - mc_pct) / saturation)


def specific_gravity(sg_basic: float, mc_pct: float) -> float:
    """Specific gravity over the volume at a moisture content, from the basic one (over green volume).

    G = Gb / (1 - 0.265 a Gb), a = (30 - MC)/30. Source: USDA Wood Handbook FPL-GTR-190 (2010) ch. 4.
    """
    return sg_basic / (1 - tables.constant("gravity_shrink_factor") * _dryness(mc_pct) * sg_basic)


def sg_basic_from(sg: float, mc_pct: float) -> float:
    """Basic specific gravity from the one over the volume at a moisture content: `specific_gravity`
    turned round.
    """
    return sg / (1 + tables.constant("gravity_shrink_factor") * _dryness(mc_pct) * sg)


def density_kg_m3(sg: float, mc_pct: float) -> float:
    """Density, water included, from the specific gravity over the volume at that same moisture content.

    rho = 1000 G (1 + MC/100). Source: USDA Wood Handbook FPL-GTR-190 (2010) ch. 4.
    """
    return tables.constant("water_density") * sg * (1 + mc_pct / 100)


def specific_gravity_from_density(density: float, mc_pct: float) -> float:
    """Specific gravity from a density in kg/m3 at a moisture content: `density_kg_m3` turned round."""
    return density / (tables.constant("water_density") * (1 + mc_pct / 100))


def density_at_kg_m3(sg_12: float, mc_pct: float) -> float:
    """Density of a wood at the moisture content it was made at, from its specific gravity at 12 %.

    Below 12 % the wood holds less water and takes less room, so this is more than `1000 G12 (1 + MC/100)`:
    the gravity is brought to the volume at that moisture content first. Source: Wood Handbook ch. 4, as
    above.
    """
    sg_basic = sg_basic_from(sg_12, tables.constant("standard_mc"))
    return density_kg_m3(specific_gravity(sg_basic, mc_pct), mc_pct)


def wood_kg(volume_m3: float, sg_12: float, mc_pct: float) -> float:
    """Mass of solid wood of a volume measured at the moisture content `mc_pct`, from its specific gravity
    at 12 %.
    """
    return mass_kg(volume_m3, density_at_kg_m3(sg_12, mc_pct))


def mass_kg(volume_m3: float, density: float) -> float:
    """Mass of a volume of a given density in kg/m3: panels, glass, stone, metal."""
    return volume_m3 * density


def mass_at_kg(mass_now_kg: float, mc_now_pct: float, mc_pct: float) -> float:
    """What the same wood weighs at another moisture content: m2 = m1 (1 + M2/100) / (1 + M1/100)."""
    return mass_now_kg * (1 + mc_pct / 100) / (1 + mc_now_pct / 100)


def ovendry_kg(mass_now_kg: float, mc_pct: float) -> float:
    """What the wood of a mass weighs without its water."""
    return mass_at_kg(mass_now_kg, mc_pct, 0.0)

"""Figures of a wood, printed or worked out from those that are.

In: a `Species`. Out: `Sourced` figures; one that was worked out has the basis "derived" and says from what.
Equations: USDA Wood Handbook FPL-GTR-190 (2010) ch. 4 and 13.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from buildbook.trade import tables
from buildbook.trade.mass import density_kg_m3, sg_basic_from, specific_gravity, specific_gravity_from_density
from buildbook.trade.records import NotKnown, Sourced, Species

Direction = Literal["radial", "tangential"]


def _derived(value: float, unit: str, how: str) -> Sourced:
    return Sourced(value, unit, how, "derived")


def sg_12(species: Species) -> Sourced | NotKnown:
    """Specific gravity at 12 % moisture content: printed, else from the density at 12 %, else from the
    basic one.
    """
    if species.sg_12:
        return species.sg_12
    standard = tables.constant("standard_mc")
    if known := species.density_12:
        value = specific_gravity_from_density(known.value, standard)
        return _derived(value, "1", f"worked out from the density at 12 %: {known.source}")
    if known := species.sg_basic:
        value = specific_gravity(known.value, standard)
        return _derived(value, "1", f"worked out from the basic specific gravity: {known.source}")
    return NotKnown(f"no density of {species.full_name} is known")


def sg_basic(species: Species) -> Sourced | NotKnown:
    """Basic specific gravity (over green volume): printed, else from the one at 12 %."""
    return species.sg_basic or _from_sg_12(species, sg_basic_from, "1")


def density_12(species: Species) -> Sourced | NotKnown:
    """Density at 12 % moisture content in kg/m3: printed, else from the specific gravity at 12 %."""
    return species.density_12 or _from_sg_12(species, density_kg_m3, "kg/m3")


def _from_sg_12(
    species: Species, worked_out: Callable[[float, float], float], unit: str
) -> Sourced | NotKnown:
    """What a sum gives of the specific gravity at 12 % and that moisture content."""
    at_12 = sg_12(species)
    if isinstance(at_12, NotKnown):
        return at_12
    value = worked_out(at_12.value, tables.constant("standard_mc"))
    return _derived(value, unit, f"worked out from the specific gravity at 12 %: {at_12.source}")


def fibre_saturation(species: Species) -> Sourced:
    """Moisture content above which the wood no longer moves, in %."""
    return species.fibre_saturation or tables.constants()["fibre_saturation"]


def coefficient_from_shrinkage(shrinkage_pct: float, saturation_pct: float) -> float:
    """Change of width per 1 % of moisture content, as a fraction of the width at 10 %, from the total
    shrinkage.

    C = (S/100) / (F - (S/100) (F - 10)): the slope at 10 % of a width that shrinks evenly from the fibre
    saturation point F. Derived from Wood Handbook eq. 13-3; it gives Table 13-5 to the last digit for most
    single woods.
    """
    share = shrinkage_pct / 100
    return share / (saturation_pct - share * (saturation_pct - tables.constant("coefficient_mc")))


def shrinkage_from_coefficient(coefficient_per_pct: float, saturation_pct: float) -> float:
    """Total shrinkage in % from the coefficient: `coefficient_from_shrinkage` the other way round."""
    above = saturation_pct - tables.constant("coefficient_mc")
    return 100 * coefficient_per_pct * saturation_pct / (1 + coefficient_per_pct * above)


def coefficient(species: Species, direction: Direction) -> Sourced | NotKnown:
    """Coefficient of change per 1 % of moisture content in a direction: printed, else from the total
    shrinkage.
    """
    if known := getattr(species, f"c_{direction}"):
        return known
    if known := getattr(species, f"shrink_{direction}"):
        value = coefficient_from_shrinkage(known.value, fibre_saturation(species).value)
        return _derived(value, "1/pct", f"worked out from the {direction} shrinkage: {known.source}")
    return NotKnown(f"neither coefficient nor shrinkage of {species.full_name} is known ({direction})")


def shrinkage(species: Species, direction: Direction) -> Sourced | NotKnown:
    """Shrinkage from green to oven-dry in a direction, in %: printed, else from the coefficient."""
    if known := getattr(species, f"shrink_{direction}"):
        return known
    if known := getattr(species, f"c_{direction}"):
        value = shrinkage_from_coefficient(known.value, fibre_saturation(species).value)
        return _derived(value, "pct", f"worked out from the {direction} coefficient: {known.source}")
    return NotKnown(f"neither coefficient nor shrinkage of {species.full_name} is known ({direction})")

"""Figures of a wood, printed or worked out from those that are.

In: a `Species`. Out: `Sourced` figures; one that was worked out has the basis "derived" and says from what.
Equations: USDA Wood Handbook FPL-GTR-190 (2010) ch. 4 and 13.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Literal

from buildbook.trade import tables
from buildbook.trade.mass import density_kg_m3, sg_basic_from, specific_gravity, specific_gravity_from_density
from buildbook.trade.records import Ends, NotKnown, Sourced, Species
from buildbook.trade.shrink import coefficient_from_shrinkage, shrinkage_from_coefficient

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


def coefficient(species: Species, direction: Direction) -> Sourced | NotKnown:
    """Coefficient of change per 1 % of moisture content in a direction: printed, else from the total shrinkage.

    Of a wood whose own fibre saturation point is known, the larger of both: printed coefficients of many tropical woods
    rest on the usual point, which is too high for them, and so are too small.
    """
    printed, made = getattr(species, f"c_{direction}"), _from_shrinkage(species, direction)
    if printed and not (made and species.fibre_saturation):
        return printed
    if made is None:
        return NotKnown(f"neither coefficient nor shrinkage of {species.full_name} is known ({direction})")
    if printed is None:
        return made
    if made.value <= printed.value * (1 + tables.constant("same_figure")):
        return printed
    low = printed.span.low if printed.span else printed.value
    return replace(made, span=Ends(low, made.value))


def _from_shrinkage(species: Species, direction: Direction) -> Sourced | None:
    known: Sourced | None = getattr(species, f"shrink_{direction}")
    if known is None:
        return None
    value = coefficient_from_shrinkage(known.value, fibre_saturation(species).value)
    return _derived(value, "1/pct", f"worked out from the {direction} shrinkage: {known.source}")


def shrinkage(species: Species, direction: Direction) -> Sourced | NotKnown:
    """Shrinkage from green to oven-dry in a direction, in %: printed, else from the coefficient."""
    if known := getattr(species, f"shrink_{direction}"):
        return known
    if known := getattr(species, f"c_{direction}"):
        value = shrinkage_from_coefficient(known.value, fibre_saturation(species).value)
        return _derived(value, "pct", f"worked out from the {direction} coefficient: {known.source}")
    return NotKnown(f"neither coefficient nor shrinkage of {species.full_name} is known ({direction})")

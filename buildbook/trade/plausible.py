"""Whether the figures of one wood can stand together: each may be believable alone, and two of them not.

In: the figures of a wood by property. Out: the property that is at fault, and what is wrong with it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from buildbook.trade.constants import constant
from buildbook.trade.records import Sourced
from buildbook.trade.shrink import coefficient_from_shrinkage, shrinkage_from_coefficient

AS_PRINTED = "as printed:"
"""How the note of a figure begins that is far from the others of its wood, and yet printed so."""

_PAIRS = (("shrink_radial", "shrink_tangential"), ("c_radial", "c_tangential"))

Figures = Mapping[str, Sourced]


@dataclass(frozen=True)
class Fault:
    """What is wrong with a figure. One that cannot be is refused whatever its note says."""

    property: str
    what: str
    impossible: bool = False


def faults(figures: Figures) -> Iterator[Fault]:
    """Every fault in the figures of one wood, but those that a note says were printed so."""
    for fault in (
        *_ranges(figures),
        *_directions(figures),
        *_volume(figures),
        *_coefficients(figures),
        *_density(figures),
    ):
        if fault.impossible or not figures[fault.property].note.startswith(AS_PRINTED):
            yield fault


def _ranges(figures: Figures) -> Iterator[Fault]:
    """A value lies within what is printed of it; a coefficient is the largest."""
    for name, figure in figures.items():
        if (span := figure.span) is None:
            continue
        if not span.low <= figure.value <= span.high:
            yield Fault(
                name, f"{figure.value:g} is not within {span.low:g} to {span.high:g}", impossible=True
            )
        elif name.startswith("c_") and figure.value < span.high:
            yield Fault(name, f"{figure.value:g} is not the largest that is printed ({span.high:g})")


def _directions(figures: Figures) -> Iterator[Fault]:
    """Every wood moves more along its growth rings than across them."""
    for radial, tangential in _PAIRS:
        if radial in figures and tangential in figures and figures[radial].value >= figures[tangential].value:
            yield Fault(radial, f"{figures[radial].value:g} is not below the tangential one", impossible=True)


def _both(figures: Figures) -> float | None:
    """What both directions together make of the volume, in %: what is left of 100 % is the product of both."""
    if "shrink_radial" not in figures or "shrink_tangential" not in figures:
        return None
    radial, tangential = figures["shrink_radial"].value, figures["shrink_tangential"].value
    return radial + tangential - radial * tangential / 100


def _volume(figures: Figures) -> Iterator[Fault]:
    """The volume shrinks as both directions together do, and a little along the grain."""
    known, both = figures.get("shrink_volumetric"), _both(figures)
    if known is None or both is None:
        return
    if known.value <= figures["shrink_tangential"].value:
        yield Fault(
            "shrink_volumetric", f"{known.value:g} % is less than one direction alone", impossible=True
        )
    elif abs(known.value / both - 1) > constant("check_volume"):
        yield Fault("shrink_volumetric", f"{known.value:g} %, but both directions make {both:.1f} %")


def _saturation(figures: Figures) -> float:
    known = figures.get("fibre_saturation")
    return known.value if known else constant("fibre_saturation")


def _coefficients(figures: Figures) -> Iterator[Fault]:
    """A coefficient is of the order of what the total shrinkage makes."""
    for direction in ("radial", "tangential"):
        known, total = figures.get(f"c_{direction}"), figures.get(f"shrink_{direction}")
        if known is None or total is None:
            continue
        made = coefficient_from_shrinkage(total.value, _saturation(figures))
        share = known.value / made - 1
        if not -constant("check_coefficient_below") <= share <= constant("check_coefficient_above"):
            yield Fault(
                f"c_{direction}", f"{known.value:g}, but a shrinkage of {total.value:g} % makes {made:.5f}"
            )


def _volumetric(figures: Figures) -> float | None:
    """Shrinkage of the volume in %: printed, else of both directions, else from both coefficients."""
    if known := figures.get("shrink_volumetric"):
        return known.value
    if (both := _both(figures)) is not None:
        return both
    if "c_radial" in figures and "c_tangential" in figures:
        saturation = _saturation(figures)
        return sum(shrinkage_from_coefficient(figures[name].value, saturation) for name in _PAIRS[1])
    return None


def _density(figures: Figures) -> Iterator[Fault]:
    """At 12 % a wood holds 12 % of water in a volume that has shrunk by its share: it is heavier than green volume and
    dry mass alone make, and not by more than the shrinkage of the volume allows.
    """
    basic, volumetric = figures.get("sg_basic"), _volumetric(figures)
    standard = constant("standard_mc")
    water = {"sg_12": 1.0, "density_12": constant("water_density") * (1 + standard / 100)}
    for name, unshrunk in water.items():
        if basic is None or (known := figures.get(name)) is None:
            continue
        least = unshrunk * basic.value
        if known.value < least:
            what = f"{known.value:g} is less than a basic gravity of {basic.value:g} allows ({least:.4g})"
            yield Fault(name, what, impossible=True)
        elif volumetric is not None:
            made = least / (1 - volumetric / 100 * (1 - standard / _saturation(figures)))
            if abs(known.value / made - 1) > constant("check_density"):
                yield Fault(name, f"{known.value:g}, but a basic gravity of {basic.value:g} makes {made:.4g}")

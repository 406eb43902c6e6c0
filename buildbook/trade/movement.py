"""What the seasons do to a solid part across the grain: growth, shrinkage, and whether it has room.

In: widths in m, moisture contents in %, the `Rates` of a wood for the way it was cut. Out: m.

Which form. The handbook has two: a coefficient per 1 % between 6 and 14 % (eq. 13-2), and one from the total
shrinkage for when either moisture content lies outside (eq. 13-3). So it is here, with one care: for some
woods the printed shrinkage is less than the printed coefficient tells (another source, or a commercial
group), and a wetter room would then seem to move a part less. Outside 6 to 14 %, the movement is therefore
never less than what the coefficient gives up to the edge of its range. Above the fibre saturation point
nothing moves.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from buildbook.trade import tables
from buildbook.trade.records import NotKnown, Sourced, Species
from buildbook.trade.rounding import GUARD
from buildbook.trade.woods import coefficient, fibre_saturation, shrinkage

Cut = Literal["flat", "rift", "quarter", ""]
Form = Literal["coefficient", "shrinkage"]


@dataclass(frozen=True)
class Rates:
    """How much a wood moves across the face of a board that was cut a given way."""

    coefficient_per_pct: float  # of the width, per 1 % of moisture content
    shrinkage_pct: float  # green to oven-dry
    saturation_pct: float  # no movement above
    figures: tuple[Sourced, ...]  # what both rest on
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True)
class WidthChange:
    """What a part does between the day it was made and the driest and wettest of its rooms. All lengths
    are >= 0.
    """

    width_m: float
    made_mc_pct: float
    low_mc_pct: float
    high_mc_pct: float
    grows_m: float
    shrinks_m: float
    form: Form
    assumed: tuple[str, ...]


@dataclass(frozen=True)
class OpeningCheck:
    """The room left beside a part at its widest. `spare_m` below 0 is what is missing."""

    opening_m: float
    spare_m: float
    ok: bool


def rates(species: Species, cut: Cut) -> Rates | NotKnown:
    """The rates of a wood: tangential for flat-sawn, radial for quarter-sawn, the mean of both for rift.

    An unknown cut counts as flat-sawn, and an unknown radial figure as the (larger) tangential one; both are
    said in `assumed`. A figure that was not printed is derived from its twin (see `woods`).
    """
    assumed = [] if cut else ["cut not told: flat-sawn was assumed, which moves most"]
    flat = _pair(species, "tangential")
    if isinstance(flat, NotKnown):
        return flat
    used = [flat]
    if cut in ("rift", "quarter"):
        upright = _pair(species, "radial")
        if isinstance(upright, NotKnown):
            assumed.append(
                "no radial figure of this wood is known: the tangential one was taken, which moves more"
            )
        else:
            used = [upright] if cut == "quarter" else [flat, upright]
    if species.of and species.movement_share != 1:
        of = tables.species()[species.of].name
        assumed.append(f"{species.name} is taken to move {species.movement_share:g} times as much as {of}")
    assumed += [said for pair in used if (said := _range_said(pair[0]))]
    return Rates(
        coefficient_per_pct=math.fsum(pair[0].value for pair in used) / len(used),
        shrinkage_pct=math.fsum(pair[1].value for pair in used) / len(used),
        saturation_pct=fibre_saturation(species).value,
        figures=tuple(figure for pair in used for figure in pair),
        assumed=tuple(assumed),
    )


def _range_said(coefficient: Sourced) -> str:
    """That tables differ on a coefficient, and which was taken; empty where they agree but for rounding."""
    span = coefficient.span
    if span is None or span.high <= span.low * (1 + tables.constant("same_figure")):
        return ""
    return (
        f"tables give {span.low * 100:.3g} to {span.high * 100:.3g} % for each 1 % of moisture:"
        f" {coefficient.value * 100:.3g} % was taken"
    )


def _pair(species: Species, direction: Literal["radial", "tangential"]) -> tuple[Sourced, Sourced] | NotKnown:
    """Coefficient and shrinkage of a direction."""
    first, second = coefficient(species, direction), shrinkage(species, direction)
    if isinstance(first, NotKnown):
        return first
    return second if isinstance(second, NotKnown) else (first, second)


def change_by_coefficient_m(
    width_m: float, coefficient_per_pct: float, from_mc_pct: float, to_mc_pct: float
) -> float:
    """Change of width between two moisture contents of 6 to 14 %, negative when it shrinks.

    dD = D C (MF - MI). Source: USDA Wood Handbook FPL-GTR-190 (2010) eq. 13-2.
    """
    return width_m * coefficient_per_pct * (to_mc_pct - from_mc_pct)


def change_by_shrinkage_m(
    width_m: float, shrinkage_pct: float, from_mc_pct: float, to_mc_pct: float, saturation_pct: float
) -> float:
    """Change of width between any two moisture contents up to the fibre saturation point F (30 % for most
    woods).

    dD = D (MF - MI) / (100 F / S - F + MI). Source: USDA Wood Handbook FPL-GTR-190 (2010) eq. 13-3.
    """
    below = saturation_pct * 100 / shrinkage_pct - saturation_pct + from_mc_pct
    return width_m * (to_mc_pct - from_mc_pct) / below


def form(from_mc_pct: float, to_mc_pct: float) -> Form:
    """Which form holds between two moisture contents: the coefficient only when both lie within 6 to 14 %."""
    low, high = tables.constant("coefficient_mc_low"), tables.constant("coefficient_mc_high")
    inside = all(low <= mc_pct <= high for mc_pct in (from_mc_pct, to_mc_pct))
    return "coefficient" if inside else "shrinkage"


def change_m(width_m: float, rates: Rates, from_mc_pct: float, to_mc_pct: float) -> float:
    """Change of width between two moisture contents, negative when it shrinks: the form that holds (see
    above).
    """
    from_mc_pct, to_mc_pct = (min(mc_pct, rates.saturation_pct) for mc_pct in (from_mc_pct, to_mc_pct))
    low, high = tables.constant("coefficient_mc_low"), tables.constant("coefficient_mc_high")
    start, end = (min(max(mc_pct, low), high) for mc_pct in (from_mc_pct, to_mc_pct))
    by_coefficient_m = change_by_coefficient_m(width_m, rates.coefficient_per_pct, start, end)
    if form(from_mc_pct, to_mc_pct) == "coefficient":
        return by_coefficient_m
    by_shrinkage_m = change_by_shrinkage_m(
        width_m, rates.shrinkage_pct, from_mc_pct, to_mc_pct, rates.saturation_pct
    )
    return max(by_shrinkage_m, by_coefficient_m, key=abs)


def movement(
    species: Species, cut: Cut, width_m: float, made_mc_pct: float, low_mc_pct: float, high_mc_pct: float
) -> WidthChange | NotKnown:
    """What a solid part of a width across the grain does from the day it was made to its driest and wettest.

    The width is the one on that day. A room that is never drier (or wetter) than the shop gives no shrinkage
    (or growth).
    """
    found = rates(species, cut)
    if isinstance(found, NotKnown):
        return found
    forms = {form(made_mc_pct, low_mc_pct), form(made_mc_pct, high_mc_pct)}
    return WidthChange(
        width_m=width_m,
        made_mc_pct=made_mc_pct,
        low_mc_pct=low_mc_pct,
        high_mc_pct=high_mc_pct,
        grows_m=max(0.0, change_m(width_m, found, made_mc_pct, high_mc_pct)),
        shrinks_m=max(0.0, -change_m(width_m, found, made_mc_pct, low_mc_pct)),
        form="shrinkage" if "shrinkage" in forms else "coefficient",
        assumed=found.assumed,
    )


def widths_m(width_m: float, rates: Rates, made_mc_pct: float, mcs_pct: Iterable[float]) -> tuple[float, ...]:
    """The width of a part at each of several moisture contents, such as those of the months of a year."""
    return tuple(width_m + change_m(width_m, rates, made_mc_pct, mc_pct) for mc_pct in mcs_pct)


def spare_m(opening_m: float, width_m: float, grows_m: float) -> float:
    """Room left beside a part at its widest: opening (both grooves included) - (width + growth)."""
    return opening_m - (width_m + grows_m)


def opening_check(opening_m: float, width_m: float, grows_m: float) -> OpeningCheck:
    """Whether a part fits its opening at its widest; an exact fit does."""
    spare = spare_m(opening_m, width_m, grows_m)
    return OpeningCheck(opening_m, spare, spare >= -GUARD)

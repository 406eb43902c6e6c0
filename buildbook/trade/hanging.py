"""Hanging: what each fastener of a wall-hung piece carries, against what the wood of the wall allows.

The static model is plain: the piece is rigid and hangs on one row (or more) of fasteners, its lower edge
bearing on the wall. The fasteners share the whole weight equally as shear. The weight also pulls the top off
the wall: it acts half the depth out, and is held by the upper fasteners at `pull_height` above the lower
bearing edge, which share the pull equally. A slipping cleat, a bowed wall, plaster between piece and wall, a
screw near an edge, a child that climbs are not in it. Allowable values are the NDS reference values before
adjustment factors; the wall and the fixings are for a qualified person and local code.

In: kg, m, specific gravity. Out: N, % of the allowable.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from buildbook.trade import tables
from buildbook.trade.rounding import half_up

Kind = Literal["wood screw", "lag screw"]


@dataclass(frozen=True)
class FastenerLoad:
    """What each fastener carries."""

    mass_kg: float
    weight_n: float
    shear_each_n: float
    pull_each_n: float


def weight_n(mass_kg: float) -> float:
    """Weight of a mass under standard gravity."""
    return mass_kg * tables.constant("gravity")


def shear_each_n(mass_kg: float, count: int) -> float:
    """Downward load of each fastener: the weight shared equally by all."""
    return weight_n(mass_kg) / count


def pull_each_n(mass_kg: float, arm_m: float, pull_height_m: float, count_upper: int) -> float:
    """Outward load of each upper fastener: moment of the weight over the lever, shared equally.

    `arm_m` is how far out the weight acts (half the depth when it is evenly loaded); `pull_height_m` is from
    the upper fasteners down to the lower edge that bears on the wall.
    """
    return weight_n(mass_kg) * arm_m / (pull_height_m * count_upper)


def load(
    mass_kg: float, depth_m: float, pull_height_m: float, count: int, count_upper: int | None = None
) -> FastenerLoad:
    """Shear and pull of each fastener of a piece of a depth, evenly loaded. Without `count_upper` all are
    upper ones.
    """
    upper = count if count_upper is None else count_upper
    return FastenerLoad(
        mass_kg=mass_kg,
        weight_n=weight_n(mass_kg),
        shear_each_n=shear_each_n(mass_kg, count),
        pull_each_n=pull_each_n(mass_kg, depth_m / 2, pull_height_m, upper),
    )


def allowed_pull_n(
    kind: Kind, sg: float, diameter_m: float, length_in_wall_m: float, end_grain: bool = False
) -> float:
    """Allowable withdrawal of one fastener from the wood of the wall, thread in side grain unless told.

    Wood screw 2850 G^2 D, lag screw 1800 G^1.5 D^0.75, per inch of thread (lbf, in). In end grain a lag
    screw counts three quarters and a wood screw nothing. Source: NDS (AWC), reference values before
    adjustment factors.
    """
    if kind == "wood screw":
        allowed_n = tables.constant("wood_screw_withdrawal") * sg**2 * diameter_m * length_in_wall_m
        return 0 * allowed_n if end_grain else allowed_n
    allowed_n = tables.constant("lag_screw_withdrawal") * sg**1.5 * diameter_m**0.75 * length_in_wall_m
    return allowed_n * tables.constant("lag_screw_end_grain") if end_grain else allowed_n


def use_pct(load_n: float, allowed_n: float) -> float:
    """How much of an allowable load is used, in %; infinite when nothing is allowed."""
    return 100 * load_n / allowed_n if allowed_n else math.inf


def use_together_pct(shear_n: float, pull_n: float, allowed_shear_n: float, allowed_pull_n: float) -> float:
    """How much is used of what a screw in side grain may carry at once down and out, in %.

    The load stands at an angle a to the face of the wood; allowable is W Z / (W cos^2 a + Z sin^2 a), W of withdrawal
    and Z lateral. Where one load is small this is less than the use of that one alone: look at all three. Source: NDS
    (AWC), combined lateral and withdrawal loads, recalled.
    """
    both_n = (shear_n**2 + pull_n**2) ** 0.5
    if not both_n:
        return 0.0
    in_shear, in_pull = use_pct(shear_n, allowed_shear_n), use_pct(pull_n, allowed_pull_n)
    return (shear_n * in_shear + pull_n * in_pull) / both_n


def is_short(diameter_m: float, length_in_wall_m: float, kind: Kind = "wood screw") -> bool:
    """Whether a wood screw goes less than six diameters into the wall, a lag screw less than four: then it does not
    count (NDS, as recalled).
    """
    key = "least_penetration_diameters" if kind == "wood screw" else "least_penetration_lag"
    return length_in_wall_m < tables.constant(key) * diameter_m


def thread_in_wall_m(kind: Kind, length_m: float, diameter_m: float, in_wall_m: float) -> float:
    """The thread that holds in the wall: what is in it, but no more than the screw has.

    Wood screw: two thirds of its length. Lag screw: half its length and half an inch, 6 in at most, without its tip.
    Source: ASME B18.6.1 and NDS (AWC) Appendix L, as recalled.
    """
    if kind == "wood screw":
        return min(in_wall_m, length_m * tables.constant("wood_screw_thread"))
    half = length_m * tables.constant("lag_screw_thread") + tables.constant("lag_screw_thread_more")
    threaded = min(in_wall_m, half, tables.constant("lag_screw_thread_most"))
    return max(threaded - diameter_m * tables.constant("lag_screw_tip"), 0 * threaded)


def dowel_bearing_pa(sg: float) -> float:
    """Bearing strength of wood under a small fastener: 16600 G^1.84 psi, to the next 50 psi. Source: NDS
    (AWC), recalled.
    """
    step = tables.constant("dowel_bearing_step")
    strength = tables.constant("dowel_bearing") * sg ** tables.constant("dowel_bearing_power")
    return half_up(strength / step) * step


def reduction_term(root_m: float) -> float:
    """The divisor Rd of the yield limits for small fasteners. Source: NDS (AWC), recalled."""
    if root_m <= tables.constant("reduction_small_diameter"):
        return tables.constant("reduction_term")
    if root_m <= tables.constant("reduction_large_diameter"):
        return tables.constant("reduction_per_diameter") * root_m + tables.constant("reduction_offset")
    raise ValueError("the divisor holds for root diameters up to 1/4 in")


def allowed_shear_n(
    root_m: float, bending_pa: float, side_m: float, main_m: float, sg_side: float, sg_main: float
) -> float:
    """Allowable lateral load of one wood screw in single shear, side grain: the least of the six yield
    limits.

    `side_m` is the thickness of the piece that is held (the cleat), `main_m` the length in the wall;
    `root_m` and `bending_pa` are of the screw. Source: NDS (AWC) yield limit equations, recalled and
    computed only; compare with the printed table of wood screws before relying on it. Raises ValueError for
    a root over 1/4 in.
    """
    side_pa, main_pa = dowel_bearing_pa(sg_side), dowel_bearing_pa(sg_main)
    ratio, depth = main_pa / side_pa, main_m / side_m
    side_n, main_n = root_m * side_m * side_pa, root_m * main_m * main_pa
    k1 = (
        math.sqrt(ratio + 2 * ratio**2 * (1 + depth + depth**2) + depth**2 * ratio**3) - ratio * (1 + depth)
    ) / (1 + ratio)
    bend = 2 * bending_pa * root_m**2 / (3 * main_pa)
    k2 = math.sqrt(2 * (1 + ratio) + bend * (1 + 2 * ratio) / main_m**2) - 1
    k3 = math.sqrt(2 * (1 + ratio) / ratio + bend * (2 + ratio) / side_m**2) - 1
    limits_n = (
        main_n,
        side_n,
        k1 * side_n,
        k2 * main_n / (1 + 2 * ratio),
        k3 * root_m * side_m * main_pa / (2 + ratio),
        root_m**2 * main_pa * math.sqrt(2 * bending_pa / (3 * main_pa * (1 + ratio))),
    )
    return min(limits_n) / reduction_term(root_m)


def allowed_shear_at_depth_n(
    diameter_m: float,
    root_m: float,
    bending_pa: float,
    side_m: float,
    in_wall_m: float,
    sg_side: float,
    sg_main: float,
) -> float:
    """`allowed_shear_n` of a wood screw as deep as it is in the wall, the worse of two readings.

    The yield limits with that depth; and those with ten diameters, by the share of them that the screw reaches, as the
    printed tables have it. Source: NDS (AWC), footnote of the tables of wood screws, recalled.
    """
    full_m = tables.constant("full_penetration_diameters") * diameter_m
    at_depth_n = allowed_shear_n(root_m, bending_pa, side_m, in_wall_m, sg_side, sg_main)
    if in_wall_m >= full_m:
        return at_depth_n
    at_full_n = allowed_shear_n(root_m, bending_pa, side_m, full_m, sg_side, sg_main)
    return min(at_depth_n, at_full_n * (in_wall_m / full_m))

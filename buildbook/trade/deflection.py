"""How far a board sags: deflection of beams of one section. In and out: SI. Pure.

Source of the equations: USDA Wood Handbook FPL-GTR-190 (2010) eq. 9-2 and Table 9-1 (kb of beams with simply supported
and with fixed ends, under a uniform load and a load at midspan); the same stand in every table of beams. What shear
adds is left out: of wood it is below a twelfth where a span is fifteen thicknesses or more.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

Ends = Literal["free", "fixed"]
"""free: the ends rest and may turn. fixed: they are held so that they cannot; no shelf of a cabinet quite does."""

Load = Literal["even", "middle"]
"""even: the same on each length of the span. middle: all of it in the middle."""

_SHARE: dict[tuple[Load, Ends], Fraction] = {
    ("even", "free"): Fraction(5, 384),
    ("even", "fixed"): Fraction(1, 384),
    ("middle", "free"): Fraction(1, 48),
    ("middle", "fixed"): Fraction(1, 192),
}
"""kb of Table 9-1: the share of W L³ / (E I)."""


def second_moment_m4(width_m: float, thickness_m: float) -> float:
    """Second moment of area of a rectangle about the axis that a board bends over: b h³ / 12."""
    return width_m * thickness_m**3 / 12


def deflection_m(
    load_n: float,
    span_m: float,
    modulus_pa: float,
    moment_m4: float,
    *,
    load: Load = "even",
    ends: Ends = "free",
) -> float:
    """How far the middle sinks as soon as it is loaded: kb W L³ / (E I), with all of the load as W."""
    return float(_SHARE[load, ends]) * load_n * span_m**3 / (modulus_pa * moment_m4)


def lasting_m(first_m: float, creep: float) -> float:
    """How far it has sunk after years under the same load: the first sag and what creep adds. Source: EN 1995-1-1:2004
    eq. 2.3, u_fin = u_inst (1 + kdef).
    """
    return first_m * (1 + creep)

"""Whole numbers from measured ones, safe where something fits exactly.

Lengths are floats, so a board that holds two leaves exactly may work out as 1.9999999999999998 leaves.
"""

from __future__ import annotations

import math

GUARD = 1e-9
"""Far below anything that can be measured, far above what floats lose."""


def whole_down(ratio: float) -> int:
    """The whole number not above a ratio; an exact fit counts as whole."""
    return math.floor(ratio + GUARD)


def whole_up(ratio: float) -> int:
    """The whole number not below a ratio; an exact fit counts as whole."""
    return math.ceil(ratio - GUARD)


def half_up(ratio: float) -> int:
    """The nearest whole number; a half goes up."""
    return math.floor(ratio + 0.5 + GUARD)

"""Lengths that a piece of furniture can have, and thicknesses as timber is bought."""

from __future__ import annotations

import re

from buildbook.quantity import Length, QuantityError, read_length

LONGEST_M = 20.0
"""Longer than any board, sheet or wall: a length above it is a slip."""

_QUARTERS = re.compile(r"\d{1,2}\s*[/⁄]\s*\d{1,2}")


def check_length(length: Length, least: float | None = None) -> Length:
    """A length that a thing can have: above nothing (or at least `least`), below 20 m. QuantityError for
    another.
    """
    if length.m < 0 or (length.m == 0 and least is None):
        raise QuantityError(f"“{length.written}” is no size.", "Write a length above zero.")
    if length.m > LONGEST_M:
        raise QuantityError(
            f"“{length.written}” is longer than {LONGEST_M:g} m.", "See that the unit is right."
        )
    return length


def read_stock(text: str, units: str, *, decimal_comma: bool = False) -> Length:
    """A thickness as timber is bought: quarters of an inch (`5/4`) in any shop, or a length. QuantityError if
    neither.
    """
    default = "in" if _QUARTERS.fullmatch(text.strip()) else units
    return check_length(read_length(text, default, decimal_comma=decimal_comma))

"""Thicknesses as timber is bought."""

from __future__ import annotations

import re

from buildbook.quantity import Length, read_length

_QUARTERS = re.compile(r"\d{1,2}\s*[/⁄]\s*\d{1,2}")


def read_stock(text: str, units: str, *, decimal_comma: bool = False) -> Length:
    """A thickness as timber is bought: quarters of an inch (`5/4`) in any shop, or a length. QuantityError if
    neither.
    """
    default = "in" if _QUARTERS.fullmatch(text.strip()) else units
    return read_length(text, default, decimal_comma=decimal_comma)

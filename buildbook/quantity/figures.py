"""Floats as they are written down: rounded to what they mean.

The last digits of a float are noise. They hang on the order of a sum and on the version of Python (3.12 adds floats
otherwise than 3.11), and noise that is written down makes two books of one job. Whatever leaves the program as a
number, in a page, a drawing, a print or a record, goes through here.
"""

from __future__ import annotations

import math

_CERTAIN = 12  # significant digits that no order of adding changes
_DIGITS = 7  # of a figure: a micrometre of a metre, a millilitre of a cubic metre, a gram of a tonne
_PLACES = 9  # and none beyond these: less is nothing that a shop could measure


def settled(value: float) -> float:
    """The float without the noise of its last digits, so that a half is rounded the same way everywhere."""
    return float(f"{value:.{_CERTAIN}g}") if math.isfinite(value) else value


def placed(value: float, places: int) -> float:
    """The float at so many decimal places."""
    return round(settled(value), places)


def figure(value: float) -> float:
    """The float to seven significant digits; whole units stay whole, however many."""
    if not value or not math.isfinite(value):
        return value
    before = math.floor(math.log10(abs(value))) + 1
    return placed(value, min(max(0, _DIGITS - before), _PLACES))

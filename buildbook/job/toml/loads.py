"""What one place carries, read and told: `15 kg in each drawer`, `no more than 22 lb on the shelf`.

In: one text of the list `loads`. Out: a `PlaceLoad`. The mass stands first, so that nobody has to guess which figure is
meant; the place stays in the maker's own words.
"""

from __future__ import annotations

import re

from buildbook.job.holding_model import PlaceLoad
from buildbook.job.text import shown
from buildbook.quantity import QuantityError, read_quantity
from buildbook.quantity.units import KINDS

_LEAD = (
    r"(?:(?:up to|at most|no more than|not more than|max\.?|maximum|bis zu|höchstens|hoechstens|maximal)\s+)?"
)
_UNIT = "|".join(re.escape(unit) for unit in sorted(KINDS["mass"].spellings, key=len, reverse=True))
_LOAD = re.compile(
    rf"{_LEAD}(?P<mass>[\d.,\s]*\d\s*(?:{_UNIT}))(?!\w)[\s,:]*(?P<place>.*)", re.IGNORECASE | re.DOTALL
)
_MASS = re.compile(rf"\d\s*(?:{_UNIT})(?!\w)", re.IGNORECASE)
_HINT = 'Write the mass first, then where: loads = ["15 kg in each drawer"].'


def read_load(text: str) -> PlaceLoad:
    """A mass and its place. QuantityError for what has no mass, no place, or more than one mass."""
    found = _LOAD.fullmatch(text.strip())
    if found is None:
        what = "does not begin with a mass" if _MASS.search(text) else "says no mass"
        raise QuantityError(f"{shown(text)} {what}.", _HINT)
    place = found["place"].strip(" .")
    if not place:
        raise QuantityError(f"{shown(text)} does not say what carries it.", _HINT)
    if _MASS.search(place):
        hint = 'Write each in quotes of its own: loads = ["15 kg in each drawer", "10 kg on the shelf"].'
        raise QuantityError(f"{shown(text)} holds more than one mass.", hint)
    kg = read_quantity(found["mass"], "mass")
    if kg <= 0:
        raise QuantityError(f"{shown(text)} is not above zero.", _HINT)
    return PlaceLoad(kg, place)

"""Units: the one pint registry of the program and the spellings that makers write.

A kind of quantity has one SI unit in which the program holds it, and the units it may be written in. pint
holds the conversion factors (they are those of NIST SP 811, Appendix B); the spellings are ours, so that `10
C` is a temperature and never a charge.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any


@cache
def registry() -> Any:
    """The one registry (making it takes a tenth of a second, so on first use only)."""
    import pint

    return pint.UnitRegistry(cache_folder=None)


@dataclass(frozen=True)
class Kind:
    """A kind of quantity: what it is called, the unit it is held in, and what may be written."""

    name: str
    si: str
    example: str
    spellings: dict[str, str]  # as `plain_unit` gives it -> pint's name

    @property
    def usual(self) -> tuple[str, ...]:
        """The first spelling of each unit."""
        first: dict[str, str] = {}
        for word, unit in self.spellings.items():
            first.setdefault(unit, word)
        return tuple(first.values())


PER = re.compile(r"\s(?:per|je|pro)\s", re.IGNORECASE)


def plain_unit(text: str) -> str:
    """A unit as the tables spell it: lower case, no blanks, powers as figures; a gallon is the US one."""
    plain = PER.sub("/", text)
    plain = "".join(plain.split()).lower().replace("²", "2").replace("³", "3")
    plain = plain.replace("/usgal", "/gal").replace("/usqt", "/qt")
    return plain.replace("sq.", "sq").replace("ft.", "ft")


def _spell(**groups: str) -> dict[str, str]:
    return {word: unit for unit, words in groups.items() for word in words.split()}


LENGTH_UNITS: dict[str, Fraction] = {
    # exact by definition: 1 in = 25.4 mm (NIST SP 811, B.6)
    word: factor
    for words, factor in (
        ("in inch inches ins in. zoll \" ″ ” “ '' ’’", Fraction(254, 10000)),
        ("ft foot feet ft. ' ′ ’ ‘", Fraction(3048, 10000)),
        ("yd yard yards", Fraction(9144, 10000)),
        ("mm mm. millimetre millimetres millimeter millimeters", Fraction(1, 1000)),
        ("cm centimetre centimetres centimeter centimeters", Fraction(1, 100)),
        ("m metre metres meter meters", Fraction(1)),
    )
    for word in words.split()
}

KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind(
            "mass",
            "kilogram",
            "60 kg",
            _spell(
                kilogram="kg kilo kilos kilogram kilograms kilogramm kg.",
                gram="g gram grams gramme grammes gramm",
                pound="lb lbs pound pounds lb. lbs.",
                ounce="oz ounce ounces",
                tonne="t tonne tonnes",
                stone="st stone stones",
            ),
        ),
        Kind(
            "temperature",
            "degC",
            "20 degC",
            _spell(
                degC="degc °c c celsius ℃ degreesc degc. gradc gradcelsius",
                degF="degf °f f fahrenheit ℉ degreesf",
                kelvin="k kelvin",
            ),
        ),
        Kind(
            "spread",
            "meter ** 2 / liter",
            "24 m2/l",
            {
                "m2/l": "meter ** 2 / liter",
                "sqm/l": "meter ** 2 / liter",
                "sqm/litre": "meter ** 2 / liter",
                "sqm/liter": "meter ** 2 / liter",
                "m2/litre": "meter ** 2 / liter",
                "m2/liter": "meter ** 2 / liter",
                "ft2/gal": "foot ** 2 / gallon",
                "sqft/gal": "foot ** 2 / gallon",
                "ft2/gallon": "foot ** 2 / gallon",
                "sqft/gallon": "foot ** 2 / gallon",
                "ft2/qt": "foot ** 2 / quart",
                "sqft/qt": "foot ** 2 / quart",
                "ft2/quart": "foot ** 2 / quart",
                "sqft/quart": "foot ** 2 / quart",
                "qm/l": "meter ** 2 / liter",
                "qm/liter": "meter ** 2 / liter",
            },
        ),
        Kind(
            "solvent content",
            "gram / liter",
            "350 g/l",
            {
                "g/l": "gram / liter",
                "g/litre": "gram / liter",
                "g/liter": "gram / liter",
                "kg/m3": "gram / liter",
                "lb/gal": "pound / gallon",
            },
        ),
        Kind(
            "angle",
            "degree",
            "5 deg",
            _spell(degree="deg ° degree degrees", radian="rad"),
        ),
        Kind(
            "area",
            "meter ** 2",
            "0.5 m2",
            {
                "m2": "meter ** 2",
                "sqm": "meter ** 2",
                "ft2": "foot ** 2",
                "sqft": "foot ** 2",
            },
        ),
        Kind(
            "period",
            "day",
            "21 days",
            _spell(
                day="day days d tag tage tagen",
                week="week weeks wk wks woche wochen",
                hour="hour hours h hr hrs hr. hrs. std std. stunde stunden",
            ),
        ),
    )
}

_OFFSETS = frozenset({"degC", "degF"})


def to_si(number: Fraction, unit: str, kind: Kind) -> float:
    """A number in one of pint's units, in the unit that this kind is held in."""
    if unit == kind.si:
        return float(number)
    quantity = registry().Quantity(float(number), unit)
    return float(quantity.to(kind.si).magnitude)


_POUND, _GRAVITY, _FOOT, _INCH = map(Fraction, ("0.45359237", "9.80665", "0.3048", "0.0254"))
_GALLON = 231 * _INCH**3

_FACTORS = {
    # exact by definition (NIST SP 811, B.6 and B.8); most pages show one, and pint takes a fifth of a second to load
    (source, target): float(factor)
    for source, target, factor in (
        ("kilogram", "pound", 1 / _POUND),
        ("newton", "pound_force", 1 / (_POUND * _GRAVITY)),
        ("meter ** 2", "foot ** 2", 1 / _FOOT**2),
        ("meter ** 3", "board_foot", 1 / (144 * _INCH**3)),
        ("liter", "fluid_ounce", 128 / (1000 * _GALLON)),
        ("meter ** 2 / liter", "foot ** 2 / gallon", 1000 * _GALLON / _FOOT**2),
    )
}


def convert(value: float, source: str, target: str) -> float:
    """A value from one of pint's units to another (for showing)."""
    if factor := _FACTORS.get((source, target)):
        return value * factor
    return float(registry().Quantity(value, source).to(target).magnitude)

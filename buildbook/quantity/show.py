"""Shows values: rounded, in the shop's units, with the other system beside them where a reader may want it.

All rounding for the eye is here. Spaces before units are narrow and do not break; fractions are real ones.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from buildbook.quantity.figures import settled
from buildbook.quantity.units import convert

NARROW = "\u202f"  # narrow space that does not break
TIMES = "×"
MINUS = "−"
_INCH_M = 0.0254
_GROUPED_FROM = 10_000
_LIGHT = 10  # less is shown to a tenth
_CAN_STEPS = ((100, 5), (1000, 10), (math.inf, 100))
"""Below how many millilitres they are rounded up to how many."""
_LITRE_M3 = 0.001
_INCH_STEPS = 32  # inches are shown to the nearest 1/32
_BESIDE_STEPS = (8, 16, _INCH_STEPS)
_BESIDE_WITHIN = 0.02
"""In brackets a size is told in eighths or whole millimetres, finer only where that would be off by more than this
share of it (chosen: a tape reads no finer, and a thin part must not become another one).
"""
_GLYPHS = {
    Fraction(1, 4): "¼",
    Fraction(1, 2): "½",
    Fraction(3, 4): "¾",
    Fraction(1, 8): "⅛",
    Fraction(3, 8): "⅜",
    Fraction(5, 8): "⅝",
    Fraction(7, 8): "⅞",
}
_CURRENCY_SIGNS = {"GBP": "£", "EUR": "€", "USD": "$"}


def round_to(value: float, places: int) -> Decimal:
    """Rounded half up on the shortest decimal of the float, as a person rounds."""
    return Decimal(repr(settled(float(value)))).quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)


def inches(m: float, of: int = _INCH_STEPS) -> str:
    """Inches to 1/32, or to another part of them, as whole and fraction, without a unit: `17¾`, `1 5⁄16`, `0`."""
    steps = int(round_to(abs(m) / _INCH_M * of, 0))
    whole, rest = divmod(steps, of)
    fraction = Fraction(rest, of)
    sign = MINUS if m < 0 and steps else ""
    if not rest:
        return f"{sign}{whole}"
    if fraction in _GLYPHS:
        return f"{sign}{whole or ''}{_GLYPHS[fraction]}"
    written = f"{fraction.numerator}⁄{fraction.denominator}"
    return f"{sign}{whole}{NARROW}{written}" if whole else f"{sign}{written}"


def _near_enough(shown_m: float, m: float) -> bool:
    return abs(shown_m - m) <= _BESIDE_WITHIN * abs(m)


def inches_beside(m: float) -> str:
    """Inches as they stand in brackets: to an eighth, finer where the size is too small for that."""
    for of in _BESIDE_STEPS:
        if _near_enough(float(round_to(abs(m) / _INCH_M * of, 0)) / of * _INCH_M, abs(m)):
            return inches(m, of)
    return inches(m)


@dataclass(frozen=True)
class Style:
    """How one shop shows figures: its units (`mm` or `in`), the decimal mark of its language, its
    currency; `both`: with the other system beside them.
    """

    units: str = "mm"
    decimal: str = "."
    currency: str = "EUR"
    group: str = NARROW  # between thousands of money
    sign_after: bool = False  # the sign of a currency stands after the amount
    sign_apart: bool = False  # before it, with a space between: € 1.480,00
    code_only: bool = False  # no sign at all, as in Switzerland: EUR 1’480.00
    both: bool = True
    code_before: bool = False  # so does the code of one without a sign stand before it: CHF 4’950.00
    in_board_feet: bool = False  # timber is told in board feet first, in a shop of inches

    @property
    def metric(self) -> bool:
        return self.units != "in"

    # -- plain numbers -------------------------------------------------------------------------

    def number(self, value: float, places: int = 0) -> str:
        """A number with a set count of places, a real minus sign; five digits and more in groups of three by a
        narrow space, four together as makers write sizes.
        """
        rounded = round_to(value, places)
        grouping = "," if abs(rounded) >= _GROUPED_FROM else ""
        text = f"{abs(rounded):{grouping}.{places}f}".replace(",", NARROW).replace(".", self.decimal)
        return f"{MINUS}{text}" if rounded < 0 else text

    def trimmed(self, value: float, places: int) -> str:
        """The same without zeros at the end: `19`, `0.5`."""
        text = self.number(value, places)
        return text.rstrip("0").rstrip(self.decimal) if self.decimal in text else text

    def with_unit(self, value: float, unit: str, places: int = 0) -> str:
        return f"{self.number(value, places)}{NARROW}{unit}"

    def percent(self, value: float, places: int = 0) -> str:
        return self.with_unit(value, "%", places)

    # -- lengths -------------------------------------------------------------------------------

    def _mm(self, m: float) -> str:
        return self.trimmed(m * 1000, 1)

    def length(self, m: float) -> str:
        """In the shop's own units only: `19 mm`, `¾ in`."""
        return f"{self._mm(m)}{NARROW}mm" if self.metric else f"{inches(m)}{NARROW}in"

    def _beside(self, m: float) -> str:
        """A length in the other system, without its unit, as coarse as it may be."""
        if self.metric:
            return inches_beside(m)
        return self.number(m * 1000) if _near_enough(float(round_to(m * 1000, 0)) / 1000, m) else self._mm(m)

    def _with(self, own: str, other: str) -> str:
        """A figure, and in brackets the same in the other system where both are shown."""
        return f"{own} ({other})" if self.both else own

    def length_both(self, m: float) -> str:
        """`19 mm (¾ in)`."""
        return self._with(self.length(m), f"{self._beside(m)}{NARROW}{self._other_unit}")

    @property
    def _other_unit(self) -> str:
        return "in" if self.metric else "mm"

    def figure(self, m: float) -> str:
        """A length without its unit, for a column or a drawing whose unit is said once."""
        return self._mm(m) if self.metric else inches(m)

    def size(self, *metres: float | None) -> str:
        """`1600 × 450 × 780 mm`; what is unknown is left out."""
        known = [m for m in metres if m is not None]
        return f" {TIMES} ".join(self.figure(m) for m in known) + f"{NARROW}{self.units}" if known else ""

    def size_both(self, *metres: float | None) -> str:
        known = [m for m in metres if m is not None]
        if not known:
            return ""
        other = f" {TIMES} ".join(map(self._beside, known)) + f"{NARROW}{self._other_unit}"
        return self._with(self.size(*known), other)

    def small(self, m: float) -> str:
        """A movement: to a tenth of a millimetre, or to 1/32 in, at least one of them, with the tenths beside it."""
        metric = self.with_unit(m * 1000, "mm", 1)
        if self.metric:
            return metric
        shown = inches(m)
        least = f"1⁄{_INCH_STEPS}"  # what is less is still not nothing
        return self._with(f"{least if shown == '0' and m else shown}{NARROW}in", metric)

    # -- round figures of both systems ---------------------------------------------------------

    def _round(self, figure: tuple[float, str]) -> str:
        value, unit = figure
        shown = inches(value * _INCH_M) if unit == "in" else self.trimmed(value, 1)
        return f"{shown}{NARROW}{unit}"

    def told_alone(self, metric: tuple[float, str], inch: tuple[float, str]) -> str:
        """Of round figures for both systems, each a number and its unit, the one of the shop's: `1 m`, `40 in`."""
        return self._round(metric if self.metric else inch)

    def told_in(self, metric: tuple[float, str], inch: tuple[float, str]) -> str:
        """The same with the other beside it: `1 m (40 in)`."""
        return self._with(self.told_alone(metric, inch), self._round(inch if self.metric else metric))

    # -- other quantities ----------------------------------------------------------------------

    def mass(self, kg: float, places: int | None = None) -> str:
        """Kilograms with pounds beside them, or the other way round; light things to a tenth."""
        pounds = convert(kg, "kilogram", "pound")
        metric = self.with_unit(kg, "kg", places if places is not None else (1 if kg < 10 else 0))
        imperial = self.with_unit(pounds, "lb", places if places is not None else (1 if pounds < 20 else 0))
        return self._with(metric, imperial) if self.metric else self._with(imperial, metric)

    def mass_alone(self, kg: float) -> str:
        """In the shop's own units only: `15 kg`, `33 lb`."""
        value, unit = (kg, "kg") if self.metric else (convert(kg, "kilogram", "pound"), "lb")
        return f"{self.trimmed(value, 1 if value < _LIGHT else 0)}{NARROW}{unit}"

    def force(self, newtons: float) -> str:
        """Newtons; in an inch shop pounds-force, with the newtons beside them."""
        metric = self.with_unit(newtons, "N")
        if self.metric:
            return metric
        return self._with(self.with_unit(convert(newtons, "newton", "pound_force"), "lbf"), metric)

    def area(self, m2: float) -> str:
        feet = self.with_unit(convert(m2, "meter ** 2", "foot ** 2"), "ft²", 1)
        metric = self.with_unit(m2, "m²", 2)
        return metric if self.metric else self._with(feet, metric)

    def volume(self, m3: float) -> str:
        """Cubic metres; what is less than a litre in cubic centimetres, so that it does not vanish."""
        if 0 < m3 < _LITRE_M3:
            return self.with_unit(m3 * 1e6, "cm³")
        return self.with_unit(m3, "m³", 4)

    def timber(self, m3: float) -> str:
        """A volume of wood in a statement: cubic metres; where board feet are usual those, cubic metres beside them."""
        if not self.in_board_feet or self.metric:
            return self.volume(m3)
        return f"{self.board_feet(convert(m3, 'meter ** 3', 'board_foot'))} ({self.volume(m3)})"

    def board_feet(self, bf: float) -> str:
        return self.with_unit(bf, "bd ft", 1)

    def litres(self, litres: float) -> str:
        metric = self.with_unit(litres, "l", 2)
        if self.metric:
            return metric
        return self._with(self.with_unit(convert(litres, "liter", "fluid_ounce"), "US fl oz", 0), metric)

    def can(self, litres: float) -> str:
        """What is needed of something liquid, rounded up: `60 ml`, `1.2 l`, `2 US fl oz (60 ml)`."""
        ml = litres * 1000
        step = next(step for below, step in _CAN_STEPS if ml < below)
        up = math.ceil(settled(ml / step)) * step
        metric = self.with_unit(up, "ml") if up < 1000 else f"{self.trimmed(up / 1000, 1)}{NARROW}l"
        if self.metric:
            return metric
        ounces = math.ceil(settled(convert(litres, "liter", "fluid_ounce")))
        return self._with(self.with_unit(ounces, "US fl oz"), metric)

    def spread(self, m2_per_l: float) -> str:
        metric = f"{self.trimmed(m2_per_l, 1)}{NARROW}m²/l"
        if self.metric:
            return metric
        feet = convert(m2_per_l, "meter ** 2 / liter", "foot ** 2 / gallon")
        return self._with(f"{self.number(feet)}{NARROW}ft²/US gal", metric)

    def temperature(self, degrees_c: float) -> str:
        metric = f"{self.trimmed(degrees_c, 1)}{NARROW}°C"
        if self.metric:
            return metric
        return self._with(f"{self.number(convert(degrees_c, 'degC', 'degF'))}{NARROW}°F", metric)

    def hours(self, hours: float) -> str:
        return f"{self.trimmed(hours, 2)}{NARROW}h"

    def money(self, amount: Decimal, places: int = 2) -> str:
        """Rounded once, here; the sign where everyone knows it, else the code of ISO 4217."""
        rounded = amount.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)
        text = (
            f"{abs(rounded):,.{places}f}".replace(",", "\0")
            .replace(".", self.decimal)
            .replace("\0", self.group)
        )
        sign = None if self.code_only else _CURRENCY_SIGNS.get(self.currency)
        before = sign and not self.sign_after
        apart = NARROW if self.sign_apart else ""
        shown = f"{sign}{apart}{text}" if before else f"{text}{NARROW}{sign or self.currency}"
        if not sign and self.code_before:
            shown = f"{self.currency}{NARROW}{text}"
        return f"{MINUS}{shown}" if rounded < 0 else shown

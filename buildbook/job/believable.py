"""What is believable of a maker's figures and days, from data/believable.csv; each key and column names its own.

A figure outside is no figure to reckon with: it is told with the bounds, never taken.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import cache
from importlib import resources
from typing import Any

from buildbook.job.text import shown
from buildbook.quantity import Length, QuantityError

DAY = "day"
_PLAIN = ("1", "each", "pct", "coin", "h", "months")  # units that the text of a figure does not carry
_WORDS = {
    "1": "",
    "each": "",
    "coin": "",
    "pct": "",
    "degC": " °C",
    "d": " days",
    "deg": " degrees",
    "h": " hours",
}
_INCH_M = 0.0254
PLACES = 6
"""Decimals that a number of a maker may need: a figure that is nothing before the seventh is none."""


@dataclass(frozen=True)
class Believable:
    """From `least` to `most`, both of them believable: days where the unit is `day`, else figures in that unit."""

    name: str
    unit: str
    least: Any
    most: Any
    what: str
    source: str

    def holds(self, value: Any) -> bool:
        """Whether a figure or a day lies inside; false for what is no number."""
        if isinstance(value, Decimal) and (not value.is_finite() or (value and value.adjusted() < -PLACES)):
            return False
        if isinstance(value, Decimal):  # exactly: a float of 0.001 is a hair more than 0.001
            return Decimal(repr(self.least)) <= value <= Decimal(repr(self.most))
        return bool(self.least <= value <= self.most)

    def between(self, units: str = "mm") -> str:
        """The bounds in words, lengths in the unit of the job: `between 1 mm and 20 m`."""
        (low, unit), (high, same) = self._told(self.least, units), self._told(self.most, units)
        return f"between {low}{'' if unit == same else unit} and {high}{same}"

    def _told(self, bound: Any, units: str) -> tuple[str, str]:
        """A bound, and its unit with a blank before it."""
        if self.unit == DAY:
            return bound.isoformat(), ""
        if self.unit != "m":
            return f"{Decimal(repr(bound)).normalize():,f}", _WORDS.get(self.unit, f" {self.unit}")
        if units == "in":
            return f"{round(bound / _INCH_M, 3):,g}", " in"
        return (f"{bound:g}", " m") if bound >= 1 else (f"{1000 * bound:g}", " mm")

    @property
    def hint(self) -> str:
        """What is probably wrong with a figure outside."""
        if self.unit == DAY:
            return "See that the year is right."
        return "See that no digit is too many." if self.unit in _PLAIN else "See that the unit is right."


@cache
def _all() -> Mapping[str, Believable]:
    text = resources.files(__package__).joinpath("data", "believable.csv").read_text("utf-8")
    rows = csv.DictReader(line for line in text.split("\n") if line and not line.startswith("# "))
    return {row["name"]: _believable(row) for row in rows}


def _believable(row: dict[str, str]) -> Believable:
    read = date.fromisoformat if row["unit"] == DAY else float
    return Believable(
        row["name"], row["unit"], read(row["least"]), read(row["most"]), row["what"], row["source"]
    )


def names() -> tuple[str, ...]:
    return tuple(_all())


def believable(name: str) -> Believable:
    """What is believable, by its name. KeyError for none."""
    return _all()[name]


def check(value: Any, name: str, text: str, units: str = "mm") -> None:
    """QuantityError where a value, or one of several, is not believable. `text` is the value as it is told. Several
    names, parted by `; `, are those of the sides of a board. Without a name everything is believed.
    """
    if not name:
        return
    first, *more = name.split("; ")
    for one in value if isinstance(value, tuple) else (value,):
        if more:
            for side, of_side in zip(one, (first, *more), strict=True):
                _check_one(side, believable(of_side), text, units)
        else:
            _check_one(one, believable(first), text, units)


def _check_one(value: Any, known: Believable, text: str, units: str) -> None:
    figure, said = value, text
    if isinstance(value, Length):
        figure, said = value.m, shown(value.written)
    elif isinstance(value, date):
        said = value.isoformat()
    if figure == 0 and known.least > 0 and known.unit == "m":
        raise QuantityError(f"{said} is no size.", "Write a length above zero.")
    if not known.holds(figure):
        raise QuantityError(f"{said} is not {known.between(units)}.", known.hint)


def plain_amount(amount: Decimal) -> Decimal:
    """An amount of money without the decimals that no currency has: a spreadsheet's 3.3333333333."""
    exponent = amount.as_tuple().exponent
    if isinstance(exponent, int) and exponent < -PLACES <= amount.adjusted():
        return amount.quantize(Decimal(1).scaleb(-PLACES))
    return amount

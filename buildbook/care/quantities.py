"""Quantities that instructions name (how far from a fire, how heavy water is), in the units of a shop.

In: a style. Out: phrases by name, for the places that texts in words/ have for them. What there is to say is
data/quantities.toml.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources
from types import MappingProxyType
from typing import Any

from buildbook.care.rules import BASES, RuleError
from buildbook.quantity import Style
from buildbook.quantity.units import convert

UNITS = {
    "metric": {
        "mm": "millimeter",
        "cm": "centimeter",
        "m": "meter",
        "kg": "kilogram",
        "kg/l": "kilogram / liter",
    },
    "inch": {"in": "inch", "ft": "foot", "lb": "pound", "lb/US gal": "pound / gallon"},
}
"""The units of each system as they are written, and what pint calls them."""
_APART = 0.1
"""The two systems may say as much apart as this share: both are rounded (chosen)."""
_OWN = "_own"


@dataclass(frozen=True)
class Quantity:
    """One quantity in round figures of both systems, each a number and its unit."""

    key: str
    metric: tuple[float, str]
    inch: tuple[float, str]
    source: str
    basis: str


@cache
def quantities() -> tuple[Quantity, ...]:
    """Every quantity, in the order of the file."""
    text = resources.files("buildbook.care").joinpath("data", "quantities.toml").read_text(encoding="utf-8")
    return read_quantities(tomllib.loads(text))


def read_quantities(table: Mapping[str, Any]) -> tuple[Quantity, ...]:
    """The quantities of a parsed file. Raises RuleError for the first that is not as it should be."""
    return tuple(_read(key, row) for key, row in table.items())


def _read(key: str, row: Mapping[str, Any]) -> Quantity:
    if not row.get("source") or row.get("basis") not in BASES:
        raise RuleError(f"{key}: a quantity needs a source, and a basis of {', '.join(BASES)}")
    (metric, metric_unit), (inch, inch_unit) = row["metric"], row["inch"]
    for system, unit in (("metric", metric_unit), ("inch", inch_unit)):
        if unit not in UNITS[system]:
            raise RuleError(f"{key}: {unit!r} is not one of {', '.join(UNITS[system])}")
    return Quantity(key, (metric, metric_unit), (inch, inch_unit), row["source"], row["basis"])


def check(quantity: Quantity) -> None:
    """Raises RuleError where the two systems do not say the same."""
    (metric, metric_unit), (inch, inch_unit) = quantity.metric, quantity.inch
    as_metric = convert(inch, UNITS["inch"][inch_unit], UNITS["metric"][metric_unit])
    if abs(as_metric - metric) > _APART * metric:
        raise RuleError(f"{quantity.key}: {inch} {inch_unit} are {as_metric:.4g} {metric_unit}, not {metric}")


@lru_cache(maxsize=32)
def said_quantities(style: Style) -> Mapping[str, str]:
    """Each quantity as the style shows it, by its name; with `_own`, in the shop's own system alone."""
    said: dict[str, str] = {}
    for one in quantities():
        said[one.key] = style.told_in(one.metric, one.inch)
        said[one.key + _OWN] = style.told_alone(one.metric, one.inch)
    return MappingProxyType(said)

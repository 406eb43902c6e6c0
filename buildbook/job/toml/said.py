"""What a TOML value is called in a message, and how it is kept for the record."""

from __future__ import annotations

from datetime import date, time
from decimal import Decimal
from typing import Any

from buildbook.job.text import shown
from buildbook.job.toml.key import READS, Key
from buildbook.quantity import QuantityError

LARGEST_NUMBER = 10**12
_LONGEST_NUMBER = 20  # characters


def told_short(value: Any) -> str:
    """What a value is called in a message: words in quotes, a number as it is."""
    return figures(value) if isinstance(value, int | Decimal) else shown(written(value))


def told(value: Any) -> str:
    """What a TOML value is, in words that a message can begin with."""
    match value:
        case str():
            return f"{shown(value)} is words"
        case bool():
            return f"{str(value).lower()} is yes or no"
        case int() | Decimal():
            return f"{figures(value)} is a number"
        case date() | time():
            return f"{value.isoformat()} is a day or a time"
        case list():
            return "This is a list"
        case _:
            return "This is a table"


def figures(value: int | Decimal) -> str:
    """A number in the figures that a message shows."""
    if isinstance(value, Decimal) and not value.is_finite():
        return str(value)
    if not -LARGEST_NUMBER <= value <= LARGEST_NUMBER:
        return "A huge number"
    if isinstance(value, Decimal) and value and value.adjusted() < -12:
        return "A tiny number"
    figures = format(value, "f") if isinstance(value, Decimal) else str(value)
    return figures if len(figures) <= _LONGEST_NUMBER else f"{figures[:_LONGEST_NUMBER]}…"


def written(value: Any) -> str:
    """A value as the maker wrote it, for the record."""
    match value:
        case str():
            return value.strip()
        case bool():
            return str(value).lower()
        case int() | Decimal():
            return figures(value)
        case list():
            return "; ".join(written(item) for item in value if not isinstance(item, (list, dict)))
        case date() | time():
            return value.isoformat()
        case _:
            return ""


def wrong(value: Any, key: Key) -> QuantityError:
    """Another type than the key wants."""
    wanted = READS[key.reads].split(",")[0]
    return QuantityError(f"{told(value)}, not {wanted}.", f"Write {key.name} = {key.example}.")

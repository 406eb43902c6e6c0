"""One value of a TOML file, read as its key says. Raises `QuantityError` only; the table that holds it makes
a problem of it.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime
from decimal import Decimal
from typing import Any
from urllib.parse import urlsplit

from buildbook import limits
from buildbook.folding import folded
from buildbook.job.adds_model import Add
from buildbook.job.believable import believable, check, plain_amount
from buildbook.job.days import read_day
from buildbook.job.holding_model import PlaceLoad
from buildbook.job.model import Board
from buildbook.job.signs import NO_SIGN, line, lines
from buildbook.job.table.screws import read_screw
from buildbook.job.table.sizes import read_stock
from buildbook.job.text import long_word, shown
from buildbook.job.toml.adds import read_add
from buildbook.job.toml.as_typed import YES_NO, chosen, with_points
from buildbook.job.toml.key import Key
from buildbook.job.toml.loads import read_load
from buildbook.job.toml.pieces import read_pieces
from buildbook.job.toml.said import LARGEST_NUMBER, figures, told, told_short, wrong
from buildbook.problems import did_you_mean
from buildbook.quantity import Length, QuantityError, read_length, read_number, read_quantity
from buildbook.quantity.price import read_price
from buildbook.quantity.units import plain_unit


def read_value(value: Any, key: Key, units: str, *, decimal_comma: bool = False) -> Any:
    """The value as its key wants it. `units` is the unit of a bare length; `decimal_comma`: in texts a comma is the
    decimal mark. QuantityError when it is something else.
    """
    if key.reads == "amount" and isinstance(value, str):
        read = _amount_in_words(value, key, decimal_comma)
    else:
        read = _READERS[key.reads](with_points(value, key, units) if decimal_comma else value, key, units)
    if isinstance(read, Length) and isinstance(value, str):
        read = replace(read, written=value.strip())
    if key.reads == "loads":
        return read  # each was held against its range with its own words
    try:
        check(read, key.within, told_short(value), units)
    except QuantityError as beyond:
        raise QuantityError(beyond.message, _hint(read, key, beyond.hint)) from None
    return read


def _hint(read: Any, key: Key, hint: str) -> str:
    """What is probably wrong; where that is no digit too many, an example of a plain number."""
    plain = key.reads in ("number", "percent", "angle")
    few = key.reads in ("count", "amount") and read < believable(key.within).most
    return f"Write {key.name} = {key.example}." if plain or few else hint


# -- words ---------------------------------------------------------------------------------------


def _text(value: Any, key: Key, units: str) -> str:
    if isinstance(value, (int, Decimal, date)) and not isinstance(value, (bool, datetime)):
        bare = value.isoformat() if isinstance(value, date) else figures(value)
        raise QuantityError(f"{told(value)}, not words.", f'Write {key.name} = "{bare}", in quotes.')
    if not isinstance(value, str):
        raise wrong(value, key)
    if NO_SIGN.search(value):
        raise QuantityError(f"{shown(value)} holds a control character.", "Write it again without it.")
    if len(value.strip()) > limits.TEXT_SIGNS:
        raise QuantityError(
            f"{shown(value.strip())} has {len(value.strip()):,} signs; {limits.TEXT_SIGNS:,} can be read.",
            "Put what is so long into a passage for the client in the notes.",
        )
    if word := long_word(value):
        raise QuantityError(
            f"A word of {len(word):,} signs, {shown(word)}, is too long to print.", "Put blanks into it."
        )
    return line(value)


def _lines(value: Any, key: Key, units: str) -> str:
    _text(value, key, units)
    return lines(value).strip()


def _check_count(value: list[Any], most: int) -> None:
    if len(value) > most:
        raise QuantityError(
            f"There are {len(value):,} in this list; {most:,} can be read.", "Leave some out."
        )


def _texts(value: Any, key: Key, units: str) -> tuple[str, ...]:
    if isinstance(value, str):
        value = _one_by_one(value)
    if not isinstance(value, list):
        raise wrong(value, key)
    _check_count(value, limits.LIST_ITEMS)
    read = (_text(item, key, units) for item in value)
    return tuple(dict.fromkeys(text for text in read if text))


def _one_by_one(value: str) -> list[str]:
    """Words that were not put into a list: names between commas are several, a sentence is one."""
    items = re.split(r"\s*,\s+", value.strip())
    return items if all(len(item.split()) <= _WORDS_OF_A_NAME for item in items) else [value]


_WORDS_OF_A_NAME = 3


def _address(value: Any, key: Key, units: str) -> str:
    text = _text(value, key, units)
    try:
        parts = urlsplit(text)
        whole = parts.scheme in ("http", "https") and bool(parts.hostname)
    except ValueError:
        whole = False
    if text and (not whole or re.search(r"[\s\"<>]", text)):
        raise QuantityError(f"{shown(text)} is not a web address.", f"Write {key.name} = {key.example}.")
    return text


def _choice(value: Any, key: Key, units: str) -> str:
    text = _text(value, key, units)
    if found := chosen(text, key):
        return found
    if key.name == "units" and plain_unit(text) in _CENTIMETRES:
        hint = 'Write "mm" or "in" here, and write cm beside each size that is in it.'
        raise QuantityError(f"{shown(text)} cannot be the unit of all bare numbers.", hint)
    raise QuantityError(
        f"{shown(text)} is not a word that “{key.name}” takes.",
        did_you_mean(text, key.choices) or f"Known here: {', '.join(key.choices)}.",
    )


_CENTIMETRES = ("cm", "centimetre", "centimetres", "zentimeter")


def _choices(value: Any, key: Key, units: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(_choice(item, key, units) for item in _texts(value, key, units)))


# -- days ----------------------------------------------------------------------------------------


def _date(value: Any, key: Key, units: str) -> date:
    if isinstance(value, datetime):
        raise QuantityError(
            f"{value.isoformat(' ')} has a time of day.", f"Write only {value.date().isoformat()}."
        )
    if isinstance(value, str):
        return read_day(value)
    if not isinstance(value, date):
        raise wrong(value, key)
    return value


def _dates(value: Any, key: Key, units: str) -> tuple[date, ...]:
    if isinstance(value, (date, str)):
        value = [value]
    if isinstance(value, (int, Decimal)) and not isinstance(value, bool):
        raise QuantityError(f"{told(value)}, not the day of each coat.", f"Write {key.name} = {key.example}.")
    if not isinstance(value, list):
        raise wrong(value, key)
    _check_count(value, limits.COATS)
    return tuple(_date(item, key, units) for item in value)


# -- numbers -------------------------------------------------------------------------------------


def _number(value: Any, key: Key, units: str) -> float:
    if isinstance(value, str):
        return _number_in_words(value, key)
    if isinstance(value, bool) or not isinstance(value, (int, Decimal)):
        raise wrong(value, key)
    finite = not isinstance(value, Decimal) or value.is_finite()
    if not finite or not -LARGEST_NUMBER <= value <= LARGEST_NUMBER:
        raise QuantityError(
            f"{figures(value)} is not a number to reckon with.", f"Write {key.name} = {key.example}."
        )
    return float(value)


_PER_CENT = re.compile(
    r"\s*(?:%|per ?cent|percent|prozent)?\s*(?:mc|rh|r\.h\.|emc|rf|rel\. feuchte)?\s*", re.IGNORECASE
)


_BETWEEN = re.compile(r"(\d+(?:\.\d+)?)\s*(?:-|–|to|bis)\s*(\d+(?:\.\d+)?)\s*")


def _number_in_words(text: str, key: Key) -> float:
    """A number in quotes; one of per cent with its sign."""
    said = text.strip()
    if key.reads == "percent" and (sign := re.search(r"[^\d\s.,/½¼¾-].*$", said)):
        said = said[: sign.start()] if _PER_CENT.fullmatch(sign[0]) else said
    if key.between and (between := _BETWEEN.fullmatch(said)):
        return (read_number(between[1]) + read_number(between[2])) / 2
    try:
        return read_number(said)
    except QuantityError:
        raise QuantityError(
            f"{shown(text)} is words, not a number.", f"Write {key.name} = {key.example}."
        ) from None


def _count(value: Any, key: Key, units: str) -> int:
    number = _number(value, key, units)
    if number != int(number):
        raise QuantityError(f"{number:g} is not a whole number.", f"Write {key.name} = {key.example}.")
    return int(number)


def _pieces(value: Any, key: Key, units: str) -> tuple[int, ...]:
    """Pieces by their numbers: words such as `1-4`; a bare number, or a list of them, is understood too."""
    _check_count(value if isinstance(value, list) else [], limits.LIST_ITEMS)
    numbers = value if isinstance(value, list) else [value]
    if numbers and all(isinstance(one, int) and not isinstance(one, bool) for one in numbers):
        value = ", ".join(map(figures, numbers))
    return read_pieces(_text(value, key, units))


def _amount(value: Any, key: Key, units: str) -> Decimal:
    _number(value, key, units)
    return plain_amount(Decimal(value))


_AN_HOUR = re.compile(r"\s*(?:/|per|an|pro|je|die)?\s*(?:h|hr|hour|std|stunde)\.?\s*$", re.IGNORECASE)


def _amount_in_words(text: str, key: Key, decimal_comma: bool) -> Decimal:
    """An amount in quotes, with the sign of its currency; a rate with what it is for."""
    said = _AN_HOUR.sub("", text) if key.name == "hour_rate" else text
    if not re.search(r"\d", said):
        raise wrong(text, key)
    price = read_price(said, decimal_comma=decimal_comma)
    if price.unit is not None:
        raise QuantityError(f"{shown(text)} is the price of something.", f"Write {key.name} = {key.example}.")
    return plain_amount(price.amount)


def _flag(value: Any, key: Key, units: str) -> bool:
    if isinstance(value, str) and (said := folded(value).strip(" .")) in YES_NO:
        return YES_NO[said]
    if not isinstance(value, bool):
        raise QuantityError(
            f"{told(value)}, not true or false.", f"Write {key.name} = true or false, without quotes."
        )
    return value


def _days(value: Any, key: Key, units: str) -> float:
    if isinstance(value, str):
        return read_quantity(value, "period", default="days")
    return _number(value, key, units)


# -- quantities ----------------------------------------------------------------------------------


def _as_text(value: Any, key: Key) -> str:
    """A quantity as the text that the readers of `quantity` take."""
    if isinstance(value, str):
        return value
    if isinstance(value, bool) or not isinstance(value, (int, Decimal)):
        raise wrong(value, key)
    return figures(value)


def _length(value: Any, key: Key, units: str) -> Length:
    return read_length(_as_text(value, key), units)


def _diameter(value: Any, key: Key, units: str) -> Length:
    text = _as_text(value, key)
    across, long = read_screw(text, units)
    if long is not None:
        raise QuantityError(
            f"{shown(text)} says diameter and length.", "Write diameter and length each by its key."
        )
    return across


def _temperature(value: Any, key: Key, units: str) -> float:
    """A bare number is in °C in a metric job and in °F in one of inches, where that is a room; else it is asked for."""
    text = _as_text(value, key)
    if not (bare := _BARE_DEGREES.fullmatch(text)):
        return read_quantity(text, "temperature")
    read = read_quantity(bare["number"], "temperature", default="degF" if units == "in" else "degC")
    if not believable("bare temperature").holds(read):
        raise QuantityError(f"{shown(text)} has no unit.", f"Write {key.name} = {key.example}.")
    return read


_BARE_DEGREES = re.compile(r"\s*(?P<number>-?[\d.,]+)\s*(?:°|º|deg\.?|degrees?|grad)?\s*", re.IGNORECASE)


def _spread(value: Any, key: Key, units: str) -> float:
    """What a litre covers; data sheets also say how much a square metre takes."""
    text = _as_text(value, key)
    takes = _TAKES.fullmatch(text)
    return _MILLILITRES / read_number(takes["ml"]) if takes else _quantity("spread")(value, key, units)


_TAKES = re.compile(r"\s*(?P<ml>[1-9][\d.]*)\s*ml\s*(?:/|per|pro|je)\s*(?:m²|m2|qm|sqm)\s*", re.IGNORECASE)
_MILLILITRES = 1000  # in a litre


def _stock(value: Any, key: Key, units: str) -> Length:
    return read_stock(_as_text(value, key), units)


def _boards(value: Any, key: Key, units: str) -> tuple[Board, ...]:
    return tuple(_board(text, key, units) for text in _texts(value, key, units))


def _loads(value: Any, key: Key, units: str) -> tuple[PlaceLoad, ...]:
    texts = _texts(value, key, units)
    loads = tuple(read_load(text) for text in texts)
    for load, text in zip(loads, texts, strict=True):
        check(load.kg, key.within, shown(text), units)
    return loads


def _sums(value: Any, key: Key, units: str) -> tuple[Add, ...]:
    return tuple(read_add(text, units) for text in _texts(value, key, units))


def _board(text: str, key: Key, units: str) -> Board:
    sides = _TIMES.split(text)
    if len(sides) != len(_SIDES):
        raise QuantityError(
            f"{shown(text)} is not thickness x width x length.", f"Write {key.name} = {key.example}."
        )
    thickness, width, length = sides
    return Board(
        read_stock(thickness, units).m,
        read_length(width, units).m,
        read_length(length, units).m,
    )


_SIDES = ("thickness", "width", "length")
_TIMES = re.compile(r"\s*[x×*]\s*", re.IGNORECASE)


def _quantity(kind: str, default: str = "") -> Callable[[Any, Key, str], float]:
    def read(value: Any, key: Key, units: str) -> float:
        number = read_quantity(_as_text(value, key), kind, default=default)
        if number <= 0 and kind not in ("temperature", "angle", "solvent content"):
            raise QuantityError(
                f"{shown(_as_text(value, key))} is not above zero.", f"Write {key.name} = {key.example}."
            )
        return number

    return read


_READERS: dict[str, Callable[[Any, Key, str], Any]] = {
    "text": _text,
    "lines": _lines,
    "texts": _texts,
    "address": _address,
    "choice": _choice,
    "choices": _choices,
    "date": _date,
    "dates": _dates,
    "number": _number,
    "percent": _number,
    "count": _count,
    "pieces": _pieces,
    "amount": _amount,
    "flag": _flag,
    "days": _days,
    "length": _length,
    "stock": _stock,
    "boards": _boards,
    "loads": _loads,
    "sums": _sums,
    "mass": _quantity("mass"),
    "temperature": _temperature,
    "spread": _spread,
    "diameter": _diameter,
    "solvent": _quantity("solvent content", "g/l"),
    "angle": _quantity("angle", "deg"),
}

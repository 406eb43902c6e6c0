"""One value of a TOML file, read as its key says. Raises `QuantityError` only; the table that holds it makes
a problem of it.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, time
from decimal import Decimal
from typing import Any
from urllib.parse import urlsplit

from buildbook import limits
from buildbook.folding import folded
from buildbook.job.adds_model import Add
from buildbook.job.believable import believable, check, plain_amount
from buildbook.job.holding_model import PlaceLoad
from buildbook.job.model import Board
from buildbook.job.signs import NO_SIGN, line, lines
from buildbook.job.table.sizes import read_stock
from buildbook.job.text import long_word, shown
from buildbook.job.toml.adds import read_add
from buildbook.job.toml.as_typed import also, with_points
from buildbook.job.toml.key import READS, Key
from buildbook.job.toml.loads import read_load
from buildbook.job.toml.pieces import read_pieces
from buildbook.problems import did_you_mean
from buildbook.quantity import Length, QuantityError, read_length, read_number, read_quantity

_LARGEST_NUMBER = 10**12
_LONGEST_NUMBER = 20  # characters
_ISO_DAY = re.compile(r"\s*\d{4}-\d{2}-\d{2}\s*")


def read_value(value: Any, key: Key, units: str, *, decimal_comma: bool = False) -> Any:
    """The value as its key wants it. `units` is the unit of a bare length; `decimal_comma`: in texts a comma is the
    decimal mark. QuantityError when it is something else.
    """
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


def told_short(value: Any) -> str:
    """What a value is called in a message: words in quotes, a number as it is."""
    return _figures(value) if isinstance(value, int | Decimal) else shown(written(value))


def told(value: Any) -> str:
    """What a TOML value is, in words that a message can begin with."""
    match value:
        case str():
            return f"{shown(value)} is words"
        case bool():
            return f"{str(value).lower()} is yes or no"
        case int() | Decimal():
            return f"{_figures(value)} is a number"
        case date() | time():
            return f"{value.isoformat()} is a day or a time"
        case list():
            return "This is a list"
        case _:
            return "This is a table"


def _figures(value: int | Decimal) -> str:
    if isinstance(value, Decimal) and not value.is_finite():
        return str(value)
    if not -_LARGEST_NUMBER <= value <= _LARGEST_NUMBER:
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
            return _figures(value)
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


# -- words ---------------------------------------------------------------------------------------


def _text(value: Any, key: Key, units: str) -> str:
    if isinstance(value, (int, Decimal, date)) and not isinstance(value, (bool, datetime)):
        bare = value.isoformat() if isinstance(value, date) else _figures(value)
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
        raise QuantityError(f"{shown(value)} is not in a list.", f"Write {key.name} = [{_quoted(value)}].")
    if not isinstance(value, list):
        raise wrong(value, key)
    _check_count(value, limits.LIST_ITEMS)
    read = (_text(item, key, units) for item in value)
    return tuple(dict.fromkeys(text for text in read if text))


def _quoted(value: str) -> str:
    return f'"{shown(value)[1:-1]}"'


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
    known = also(key.name) | {folded(choice): choice for choice in key.choices}
    if folded(text) not in known:
        raise QuantityError(
            f"{shown(text)} is not a word that “{key.name}” takes.", did_you_mean(text, key.choices)
        )
    return known[folded(text)]


def _choices(value: Any, key: Key, units: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(_choice(item, key, units) for item in _texts(value, key, units)))


# -- days ----------------------------------------------------------------------------------------


def _date(value: Any, key: Key, units: str) -> date:
    if isinstance(value, datetime):
        raise QuantityError(
            f"{value.isoformat(' ')} has a time of day.", f"Write only {value.date().isoformat()}."
        )
    if isinstance(value, str) and _ISO_DAY.fullmatch(value):
        raise QuantityError(f"{shown(value)} is in quotes.", f"Write {value.strip()} without them.")
    if not isinstance(value, date):
        raise wrong(value, key)
    return value


def _dates(value: Any, key: Key, units: str) -> tuple[date, ...]:
    if isinstance(value, date):
        day = value.date() if isinstance(value, datetime) else value
        raise QuantityError(
            f"{day.isoformat()} is not in a list.", f"Write {key.name} = [{day.isoformat()}]."
        )
    if not isinstance(value, list):
        raise wrong(value, key)
    _check_count(value, limits.COATS)
    return tuple(_date(item, key, units) for item in value)


# -- numbers -------------------------------------------------------------------------------------


def _number(value: Any, key: Key, units: str) -> float:
    if isinstance(value, str):
        _refuse_quoted(value, key)
    if isinstance(value, bool) or not isinstance(value, (int, Decimal)):
        raise wrong(value, key)
    finite = not isinstance(value, Decimal) or value.is_finite()
    if not finite or not -_LARGEST_NUMBER <= value <= _LARGEST_NUMBER:
        raise QuantityError(
            f"{_figures(value)} is not a number to reckon with.", f"Write {key.name} = {key.example}."
        )
    return float(value)


def _refuse_quoted(text: str, key: Key) -> None:
    """A number in quotes gets the message that helps; other words fall through."""
    try:
        read_number(text.strip().removesuffix("%"))
    except QuantityError:
        return
    plain = text.strip().removesuffix("%").strip()
    raise QuantityError(f"{shown(text)} is in quotes.", f"Write {key.name} = {plain} without them.")


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
        value = ", ".join(map(_figures, numbers))
    return read_pieces(_text(value, key, units))


def _amount(value: Any, key: Key, units: str) -> Decimal:
    _number(value, key, units)
    return plain_amount(Decimal(value))


def _flag(value: Any, key: Key, units: str) -> bool:
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
    return _figures(value)


def _length(value: Any, key: Key, units: str) -> Length:
    return read_length(_as_text(value, key), units)


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
    "temperature": _quantity("temperature"),
    "spread": _quantity("spread"),
    "solvent": _quantity("solvent content", "g/l"),
    "angle": _quantity("angle", "deg"),
}

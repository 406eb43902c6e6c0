"""Reads what makers write: lengths with feet, inches and fractions, other quantities, counts, amounts of
money.

Numbers are read exactly, as `fractions.Fraction`; the SI value is the nearest float of the exact one.
Raises `QuantityError` with a message and a hint that a reader turns into a problem; nothing else.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from buildbook.problems import listed
from buildbook.quantity import mangled
from buildbook.quantity.beside import is_about, without_words
from buildbook.quantity.counts import count_in_words
from buildbook.quantity.faults import QuantityError
from buildbook.quantity.units import KINDS, LENGTH_UNITS, PER, plain_unit, to_si


@dataclass(frozen=True)
class Length:
    """A length in metres, with the words in which the maker wrote it."""

    m: float
    written: str


DECIMAL_COMMA = "decimal comma"
"""The cause of a fault that a whole table has where its decimal sign is another one."""

_LONGEST_NUMBER = 24  # characters; no length of furniture needs more, and huge powers cost time
_LONGEST_TEXT = 60
_METRIC = {"mm": "millimetres", "cm": "centimetres", "m": "metres"}
_SMALL = ("mm", "cm")  # units in which a thousand and a thousandth are both sizes of furniture
_NUMBER = r"(?:\d+(?:\s+|\s*-\s*)\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+[.,]\d+|[.,]\d+|\d+)"
_GROUPED = re.compile(r"[1-9]\d{0,2}[.,]\d{3}")
_NUMBER_ONLY = re.compile(_NUMBER)
_NUMBER_UNIT = re.compile(
    rf"(?P<number>{_NUMBER})\s*(?P<unit>[^\d\s.,/-][^\d]*?(?:[23²³](?:/[^\d]+?)?)?)?\s*"
)
_FEET_INCHES = re.compile(
    rf"(?P<feet>{_NUMBER})\s*(?:'|ft\.?|foot|feet)\s*-?\s*(?P<inches>{_NUMBER})\s*(?:\"|''|in\.?|inch|inches)?"
)
_SIGNS = str.maketrans(
    {"−": "-", "–": "-", "⁄": "/", "∕": "/", "″": '"', "”": '"', "“": '"', "′": "'", "’": "'", "‘": "'"}
)


_GROUPS = re.compile(r"(?<=\d)[\u2009\u202f'’](?=\d{3}(?!\d|\s*[/⁄\"”″]))")
"""`1 200` as it is shown, `1’200` as it is written in Switzerland: no feet: inches beside those are below twelve."""


def _plain(text: str) -> str:
    """Typographic signs and fractions as typed ones: `1⅜″` becomes `1 3/8"`."""
    out = []
    for sign in _GROUPS.sub("", text.strip()):
        spread_out = unicodedata.normalize("NFKC", sign)
        if "⁄" in spread_out and len(sign) == 1 and sign != "⁄":
            out.append(" " + spread_out)
        elif sign.isspace():
            out.append(" ")
        else:
            out.append(sign)
    return re.sub(r"\s+", " ", "".join(out).translate(_SIGNS)).strip()


@lru_cache(maxsize=4096)
def _exact(text: str, decimal_comma: bool) -> Fraction:
    """The number in the text, exactly; the text has already matched the pattern of a number."""
    if len(text) > _LONGEST_NUMBER:
        raise QuantityError(f"“{text}” is too long for a number.", "Write it with fewer digits.")
    if "," in text and not decimal_comma:
        thousands = (
            f"{text.replace(',', '')} if it groups thousands, else " if _GROUPED.fullmatch(text) else ""
        )
        raise QuantityError(
            f"“{text}” has a comma.",
            f"Write {thousands}{text.replace(',', '.')} with a point; a decimal comma is read in a table"
            " separated by semicolons.",
            cause=DECIMAL_COMMA,
        )
    text = text.replace(",", ".")
    whole, slash, below = text.partition("/")
    if not slash:
        return Fraction(whole.strip())
    parts = re.split(r"\s*-\s*|\s+", whole.strip())
    if int(below) == 0:
        raise QuantityError(f"“{text}” has nothing below the line.", "Write the fraction again.")
    fraction = Fraction(int(parts[-1]), int(below))
    if len(parts) == 1:
        return fraction
    if fraction >= 1:
        raise QuantityError(
            f"“{text}” has a fraction of one or more after a whole number.", "Write it as one number."
        )
    return int(parts[0]) + fraction


def _check_size(text: str, what: str) -> str:
    if len(text.strip()) > _LONGEST_TEXT:
        start = " ".join(text.split())[:30]
        raise QuantityError(f"“{start}…” is too long for a {what}.", f"Write only the {what} here.")
    if not (plain := _plain(text)):
        raise QuantityError(f"There is no {what}.", f"Write the {what}.")
    return plain


def read_number(text: str, *, decimal_comma: bool = False) -> float:
    """A plain number: `0.42`, `1 1/4`, `⅜`."""
    plain = _check_size(text, "number")
    if not _NUMBER_ONLY.fullmatch(plain):
        raise QuantityError(f"“{text.strip()}” is not a number.", "Write a number such as 2.5 or 1 1/4.")
    return float(_exact(plain, decimal_comma))


def read_count(text: str, *, decimal_comma: bool = False) -> int:
    """A whole number of at least one: `4`, `4.0`, `4 pcs`, `2 pairs`, `1 dozen`."""
    plain = _check_size(text, "count")
    if not _NUMBER_ONLY.fullmatch(plain):
        return count_in_words(plain)
    number = _exact(plain, decimal_comma)
    if number.denominator != 1 or number < 1:
        raise QuantityError(
            f"“{text.strip()}” is not a whole number of at least 1.", "Write how many there are."
        )
    return int(number)


_MONEY = re.compile(r"^[^\d,.-]{0,5}\s*(?P<number>\d[\d\s'’.,]*)\s*[^\d,.]{0,5}$")


def read_amount(text: str, *, decimal_comma: bool = False) -> Decimal:
    """An amount of money, with or without a sign of its currency: `4850`, `£ 12.50`, `1,250.00`,
    `1.250,00`.
    """
    match = _MONEY.match(_check_size(text, "price"))
    if not match:
        raise QuantityError(f"“{text.strip()}” is not a price.", "Write an amount such as 12.50.")
    number = re.sub(r"[\s'’]", "", match["number"])
    mark = "," if decimal_comma else "."
    last = max(number.rfind(","), number.rfind("."))
    if last >= 0 and number[last] != mark:
        grouped = re.fullmatch(r"\d{1,3}(?:[.,]\d{3})+", number)
        two_places = len(number) - last - 1 != 3 and number.count(number[last]) == 1
        if not grouped and not two_places:
            raise QuantityError(f"“{text.strip()}” is not a price.", "Write an amount such as 12.50.")
        mark = "" if grouped else number[last]
    grouping = {",", "."} - {mark}
    for sign in grouping:
        number = number.replace(sign, "")
    number = number.replace(mark, ".") if mark else number
    if number.count(".") > 1:
        raise QuantityError(f"“{text.strip()}” is not a price.", "Write an amount such as 12.50.")
    return Decimal(number)


def read_length(
    text: str, default: str, *, decimal_comma: bool = False, beside: tuple[str, ...] = ("size",)
) -> Length:
    """A length as makers write it, in metres.

    `3/4`, `1 1/4"`, `1-1/4 in`, `7' 3 1/2"`, `¾"`, `19`, `19 mm`, `1.2 m`. A bare number is in the default
    unit (`in` or `mm`); a bare fraction in a millimetre job is refused, since it could only be inches. A date
    (a spreadsheet turned 3/8 into 8 March) is refused with the fraction that it probably was. Words beside it that
    change nothing are passed over, those of the lists `beside` of data/written.toml, and so is a tolerance; the other
    unit system in brackets has to agree.
    """
    plain = _check_size(text, "length")
    try:
        return _strict(plain, text, default, decimal_comma)
    except QuantityError:
        if (relaxed := _without_beside(plain, text, default, decimal_comma, beside)) == plain:
            raise
    return _strict(relaxed, text, default, decimal_comma)


_TOLERANCE = re.compile(r"\s*(?:±|\+\s*/\s*-|\+-)\s*[\d.,/ ]+(?:mm|in|\")?\s*$")
_BRACKET = re.compile(r"(?P<size>[^()]+?)\s*[(\[](?P<other>[^()]*)[)\]]\s*")
_METRES_MORE = re.compile(r"(?P<m>\d{1,2})\s*m\s*(?P<cm>\d{2})(?:\s*cm)?", re.IGNORECASE)
_TWO_SIZES = re.compile(r"\d\s*\D{0,6}\s*[x×]\s*\d", re.IGNORECASE)
_AGREE = 0.01  # two ways of writing one size differ by less of it, or by
_AGREE_M = 0.0015  # so much: 18 mm is sold as 3/4 in


def _without_beside(plain: str, text: str, default: str, decimal_comma: bool, beside: tuple[str, ...]) -> str:
    """A size without what makers write beside it. QuantityError for one that is only about, and for two."""
    if is_about(plain):
        raise QuantityError(f"“{text.strip()}” is only about a size.", "Write the size as it was made.")
    if _TWO_SIZES.search(plain):
        raise QuantityError(f"“{text.strip()}” is more than one size.", "Write each in its own column.")
    if metres := _METRES_MORE.fullmatch(plain):
        return f"{metres['m']}.{metres['cm']} m" if not decimal_comma else f"{metres['m']},{metres['cm']} m"
    plain = _TOLERANCE.sub("", plain)
    if bracket := _BRACKET.fullmatch(plain):
        size, other = without_words(bracket["size"], *beside), bracket["other"]
        if not re.search(r"\d", other):
            return without_words(f"{size} {other}", *beside)
        one, two = (_strict(each, each, default, decimal_comma) for each in (size, other))
        if abs(one.m - two.m) > max(_AGREE_M, _AGREE * one.m):
            raise QuantityError(f"“{size}” and “{other}” do not agree.", "Write the one that is right.")
        return size
    return without_words(plain, *beside)


def _strict(plain: str, text: str, default: str, decimal_comma: bool) -> Length:
    """A length with nothing beside it."""
    if dated := mangled.explain(plain):
        raise QuantityError(*dated)
    if re.match(r"-\s*[\d.,]", plain):
        raise QuantityError(f"“{text.strip()}” is below zero.", "Write it without the minus sign.")
    if both := _FEET_INCHES.fullmatch(plain.lower()):
        feet, inches = _exact(both["feet"], decimal_comma), _exact(both["inches"], decimal_comma)
        return Length(float(feet * LENGTH_UNITS["ft"] + inches * LENGTH_UNITS["in"]), text.strip())
    match = _NUMBER_UNIT.fullmatch(plain)
    if not match:
        raise QuantityError(
            f"“{text.strip()}” is not a length.", "Write one such as 19 mm, 3/4 in or 7' 3 1/2\"."
        )
    number = _exact(match["number"], decimal_comma)
    unit = (match["unit"] or "").strip().lower()
    if not unit and "/" in match["number"] and default in _METRIC:
        raise QuantityError(
            f"“{text.strip()}” is a fraction without a unit, among {_METRIC[default]}.",
            f"Write {plain} in if it is inches.",
            cause="fraction",
        )
    if (
        decimal_comma
        and (unit or default) in _SMALL
        and _GROUPED.fullmatch(match["number"])
        and "." in match["number"]
    ):
        whole, point = match["number"].replace(".", ""), match["number"].replace(".", ",")
        if (unit or default) == "mm":  # nobody cuts to a thousandth of a millimetre
            return Length(float(Fraction(whole) * LENGTH_UNITS["mm"]), text.strip())
        raise QuantityError(
            f"“{text.strip()}” may be {whole} or {point}.", f"Write {whole}, or {point} with a comma."
        )
    factor = LENGTH_UNITS.get(unit or default)
    if factor is None:
        raise QuantityError(
            f"“{text.strip()}”: “{unit}” is not a unit of length.",
            "Use mm, cm, m, in or ft.",
            cause=f"unit {unit}",
        )
    return Length(float(number * factor), text.strip())


_POUNDS_OUNCES = re.compile(
    r"(?P<lb>\d+)\s*(?:lbs?|pounds?)\.?\s+(?P<oz>[\d.]+)\s*(?:oz|ounces?)\.?", re.IGNORECASE
)


def read_mass(text: str, unit: str, *, decimal_comma: bool = False) -> float:
    """A mass in kg, `1 lb 4 oz` too; a bare number in `unit`. QuantityError for what is none."""
    if match := _POUNDS_OUNCES.fullmatch(text.strip()):
        return read_quantity(match["lb"], "mass", default="lb") + read_quantity(
            match["oz"], "mass", default="oz"
        )
    return read_quantity(text, "mass", default=unit, decimal_comma=decimal_comma)


def read_quantity(text: str, kind: str, *, default: str = "", decimal_comma: bool = False) -> float:
    """A quantity of a kind of `units.KINDS`, in that kind's SI unit: `60 kg`, `68 °F`, `400 ft2/gal`.

    `default` is the unit, as a maker would spell it, of a bare number; without it a bare number is refused.
    """
    wanted = KINDS[kind]
    plain = _check_size(text, kind)
    plain = PER.sub("/", plain)
    if is_about(plain):
        raise QuantityError(
            f"“{text.strip()}” is only about a {kind}.", f"Write one such as {wanted.example}."
        )
    match = _NUMBER_UNIT.fullmatch(plain.replace("--", "-").lstrip("-"))
    if not match:
        raise QuantityError(f"“{text.strip()}” is not a {kind}.", f"Write one such as {wanted.example}.")
    number = _exact(match["number"], decimal_comma)
    if plain.startswith("-"):
        number = -number
        if kind != "temperature":
            raise QuantityError(f"“{text.strip()}” is below nothing.", f"Write one such as {wanted.example}.")
    unit = plain_unit(match["unit"] or default)
    if not unit:
        raise QuantityError(f"“{text.strip()}” has no unit.", f"Write one such as {wanted.example}.")
    if unit not in wanted.spellings:
        raise QuantityError(
            f"“{text.strip()}”: “{unit}” is not a unit of {kind}.", f"Use {listed(wanted.usual, 'or')}."
        )
    return to_si(number, wanted.spellings[unit], wanted)

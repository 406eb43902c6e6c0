"""Prices as makers and price lists write them: `14.50 ea`, `$7.80/bf`, `42 €/m²`, `£12 per 100`, `CHF 12.–`.

In: a text. Out: `WrittenPrice`: the amount for one of the unit that is reckoned with, the currency that the text names.
QuantityError where amount, currency or unit are none.
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from importlib import resources

from buildbook.quantity.beside import bare_word, words_of
from buildbook.quantity.faults import QuantityError
from buildbook.quantity.read import read_amount


@dataclass(frozen=True)
class Unit:
    """What a price is for: a unit that is reckoned with, and how many of it."""

    per: str
    of: Decimal


@dataclass(frozen=True)
class WrittenPrice:
    """amount: of what the text says, before it is divided. per: empty where the text does not say.

    currencies: the codes that its sign may mean; none where it has no sign. with_tax: it says that tax is in it.
    """

    amount: Decimal
    unit: Unit | None = None
    currencies: frozenset[str] = frozenset()
    with_tax: bool = False


def _table(name: str) -> list[dict[str, str]]:
    text = resources.files("buildbook.quantity").joinpath(f"data/{name}").read_text("utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))


@cache
def _units() -> dict[str, Unit]:
    return {
        _bare_unit(word): Unit(row["per"], Decimal(row["of"] or 1))
        for row in _table("per.csv")
        for word in row["words"].split(";")
    }


@cache
def _why_unclear() -> dict[str, str]:
    return {
        _bare_unit(word): row["source"]
        for row in _table("per.csv")
        if not row["per"]
        for word in row["words"].split(";")
    }


@cache
def _currencies() -> dict[str, dict[str, tuple[str, ...]]]:
    """By its word: the codes that it may mean, each with the countries whose it is."""
    found: dict[str, dict[str, tuple[str, ...]]] = {}
    for row in _table("currencies.csv"):
        countries = tuple(filter(None, row["countries"].split(";")))
        for word in row["words"].split(";"):
            found.setdefault(word.casefold(), {})[row["code"]] = countries
    return found


def currencies(word: str, country: str = "") -> frozenset[str]:
    """The codes that a sign or a word for a currency may mean, in a country; none where it is no such word."""
    known = _currencies().get(word.strip().casefold().rstrip(".")) or _currencies().get(
        word.strip().casefold(), {}
    )
    own = frozenset(code for code, countries in known.items() if country and country in countries)
    return own or frozenset(known)


def _bare_unit(text: str) -> str:
    return " ".join(re.sub(r"[._]", " ", text.casefold()).replace("²", "2").replace("³", "3").split())


def read_unit(text: str) -> Unit:
    """What a price is for, `bd. ft.`, `per 100`, `€/m²`. QuantityError for what is none."""
    said = re.sub(
        r"^\s*(?:/|per\b|je\b|pro\b|for\b|für\b|a\b|the\b|@)\s*", "", text.strip(), flags=re.IGNORECASE
    )
    sign, slash, rest = said.partition("/")
    if slash and currencies(sign):
        said = rest
    unit = _units().get(_bare_unit(said))
    if unit is None:
        raise QuantityError(f"“{said}” is not what a price can be for.", _HINT)
    if not unit.per:
        raise QuantityError(
            f"“{said}” does not say how much it is: {_why_unclear()[_bare_unit(said)]}.", _HINT
        )
    return unit


def unit_names() -> tuple[str, ...]:
    """All that a price can be for, as a table may say it."""
    return tuple(word for word, unit in _units().items() if unit.per)


_HINT = "Write such as each, m2, m3, board_foot, sheet, l, kg or m."
_AMOUNT = re.compile(r"\d(?:[\d\s'’.,]*\d)?(?:[.,]\s?[-–—]+|[.,](?!\d))?")
_HUNDREDTHS = re.compile(r"(p|pence|¢|ct|cts|cents?)\.?(?=\s|/|$)", re.IGNORECASE)
_EACH = re.compile(r"^(?:@|à|je)\s*(?=\W{0,3}\d)", re.IGNORECASE)
_ROUND = re.compile(r"[.,]\s?[-–—]+\s*$")
_MARKS = re.compile(r"^(?:/|per\b|je\b|pro\b)\s*", re.IGNORECASE)


def read_price(text: str, *, decimal_comma: bool = False) -> WrittenPrice:
    """A price with what stands beside it."""
    said = " ".join(text.split())
    if bare_word(said) in words_of("free.words"):
        return WrittenPrice(Decimal(0))
    said, with_tax = _without_tax(said)
    said, each = _EACH.subn("", said)
    found = _AMOUNT.search(said)
    before = said[: found.start()].strip() if found else said
    if found is None or (before and not _is_currency(before)):
        raise QuantityError(f"“{text.strip()}” is not a price.", "Write an amount such as 12.50.")
    figures = _ROUND.sub("", found[0]).strip()
    after = said[found.end() :].strip()
    if figures.endswith((".", ",")):  # the full stop of a sign: 12.– is told above
        figures = figures[:-1]
    if re.match(r"e\d", after):  # 1e400
        raise QuantityError(f"“{text.strip()}” is not a price.", "Write an amount such as 12.50.")
    amount = read_amount(figures, decimal_comma=decimal_comma)
    codes = currencies(before) if before else frozenset()
    if hundredths := _HUNDREDTHS.match(after):
        amount, after = amount / 100, after[hundredths.end() :].strip()
        codes = codes or (frozenset(("GBP",)) if hundredths[1].casefold() in ("p", "pence") else codes)
    first, rest = _currency_first(after)
    if first:
        codes, after = currencies(first) or frozenset((first.upper(),)), rest
    unit = read_unit(after) if after else Unit("each", Decimal(1)) if each else None
    return WrittenPrice(amount, unit, codes, with_tax)


def _without_tax(said: str) -> tuple[str, bool]:
    """A price without words on tax at its end, and whether they say that it is in it."""
    words = said.split(" ")
    for count in (3, 2, 1):
        tail = " ".join(words[-count:])
        for kind in ("with", "without"):
            if len(words) > count and (
                tail.casefold() in words_of(f"tax.{kind}") or bare_word(tail) in words_of(f"tax.{kind}")
            ):
                return " ".join(words[:-count]), kind == "with"
    return said, False


def _is_currency(word: str) -> bool:
    return bool(currencies(word)) or bool(re.fullmatch(r"[A-Z]{3}", word))


def _currency_first(after: str) -> tuple[str, str]:
    """A currency that what follows the amount begins with, and the rest; `ft` is a foot here."""
    found = re.match(r"(?P<word>[^\s/\d]+?\.?)(?=\s|/|$)", after)
    if not found or (after[: found.end()].casefold().rstrip(".") in _units()):
        return "", after
    if not _is_currency(found["word"]):
        return "", after
    return found["word"], after[found.end() :].strip()

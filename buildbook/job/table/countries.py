"""Countries by their ISO 3166-1 code, their English name, or their name in a language of the pages.

The table is data/countries.csv; other languages' names are those of words/<language>.toml.
"""

from __future__ import annotations

import csv
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib import resources

from buildbook.problems import did_you_mean
from buildbook.words import Words, languages

_NAMES = "country_name"


@dataclass(frozen=True)
class Country:
    """A country: its two letters and its English short name."""

    code: str
    name: str


@dataclass(frozen=True)
class FoundCountry:
    """What was found for a name: the country, or a hint with the nearest ones."""

    country: Country | None
    hint: str = ""


@cache
def countries() -> tuple[Country, ...]:
    return tuple(dict.fromkeys(_by_name().values()))


@cache
def _by_name() -> dict[str, Country]:
    text = resources.files("buildbook.job").joinpath("data/countries.csv").read_text("utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    known: dict[str, Country] = {}
    for row in rows:
        country = Country(row["code"], row["name"])
        for name in (row["code"], row["name"], *filter(None, row["also"].split(";"))):
            known[_folded(name)] = country
    return known


@cache
def _by_translation() -> dict[str, Country]:
    """By the names that the languages of the pages have; apart, since their words take long to load."""
    known: dict[str, Country] = {}
    for code, name in _translated():
        known.setdefault(_folded(name), _by_name()[_folded(code)])
    return known


def _translated() -> Iterator[tuple[str, str]]:
    for words in map(Words, languages()):
        if words.has(_NAMES):
            yield from words.section(_NAMES).items()


def _folded(name: str) -> str:
    plain = unicodedata.normalize("NFKD", name).casefold()
    plain = "".join(sign for sign in plain if sign.isalnum() or sign.isspace())
    return " ".join(plain.removeprefix("the ").split())


def find_country(name: str) -> FoundCountry:
    """The country of a code (`US`) or a name (`United States`), whatever the capitals and accents."""
    folded = _folded(name)
    if found := _by_name().get(folded) or _by_translation().get(folded):
        return FoundCountry(found)
    hint = did_you_mean(name, (country.name for country in countries()))
    return FoundCountry(None, hint or "Write its two letters, such as DE, or its English name.")

"""Names of woods that mean another wood in another place, or several: a sycamore is a maple in one country and a plane
in another.

In: data/wood_names.csv; a name, and where it was written. Out: the woods that it may mean there.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from buildbook.trade import rows
from buildbook.trade.lookup import spellings
from buildbook.trade.rows import HALLMARK

FILE = "wood_names.csv"
LANGUAGES = ("en", "de", "")


@dataclass(frozen=True)
class Place:
    """Where a name was written: ISO 3166-1 code of the country and language of the shop; empty where not known."""

    country: str = ""
    language: str = ""


ANYWHERE = Place()


@dataclass(frozen=True)
class Meaning:
    """What a name means in a place: keys of woods, first the one that is reckoned with.

    asked   it may mean any of them: only the maker can tell. `other`: what else it may mean, which no table here has.
    """

    names: tuple[str, ...]
    countries: frozenset[str]
    language: str
    species: tuple[str, ...]
    asked: bool
    other: str

    def fits(self, place: Place) -> tuple[bool, bool, bool]:
        """Whether it holds in a place at all; then how well: by the country, by the language."""
        by_country, by_language = (
            place.country in self.countries,
            self.language == place.language.split("-")[0],
        )
        holds = (by_country or not self.countries) and (by_language or not self.language or by_country)
        return holds, by_country, bool(self.language) and by_language


@cache
def meanings() -> tuple[Meaning, ...]:
    """Every row of the file, in its order. Raises TableError."""
    columns = ("name", "countries", "language", "species", "asked", "other", *HALLMARK)
    found = []
    for row in rows.read(FILE, columns):
        asked, species = row.yes("asked"), row.listed("species")
        if not species or (not asked and len(species) > 1):
            raise row.error("a name that is not asked about means one wood")
        if not asked and not row.words("countries") and not row.words("language"):
            raise row.error("a name that means one wood anywhere is written among its aliases")
        if row.words("language") not in LANGUAGES:
            raise row.error(f"language is {row.words('language')!r}")
        found.append(
            Meaning(
                names=row.listed("name"),
                countries=frozenset(row.words("countries").split()),
                language=row.words("language"),
                species=species,
                asked=asked,
                other=row.words("other"),
            )
        )
    return tuple(found)


@cache
def _by_spelling() -> dict[str, tuple[Meaning, ...]]:
    found: dict[str, tuple[Meaning, ...]] = {}
    for meaning in meanings():
        for spelling in {spelt for name in meaning.names for spelt in spellings(name)}:
            found[spelling] = (*found.get(spelling, ()), meaning)
    return found


def meaning_of(name: str, place: Place = ANYWHERE) -> Meaning | None:
    """What a name means in a place; None for a name that means the same wood everywhere, or none.

    A country's row goes before a language's, that before the one for anywhere.
    """
    every = next((_by_spelling()[spelt] for spelt in spellings(name) if spelt in _by_spelling()), ())
    holding = [meaning for meaning in every if meaning.fits(place)[0]]
    return max(holding, key=lambda meaning: meaning.fits(place), default=None)

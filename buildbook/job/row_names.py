"""What a language calls the rows of the tables and the words that a key takes: for sentences of this program that name
one by its English name.

In: a name as the tables have it, a language. Out: that of the language, as its words file has it under the key of the
row; None where it is no name of a row, or the language has none for it. What it calls a choice may be written as that.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache

from buildbook.job.model import CARDS, CUTS, FACES, PART_KINDS, PARTS_FOR, PER, STANDS, WEARS
from buildbook.job.shop_model import VOICES
from buildbook.job.toml.keys import NEAR
from buildbook.trade import tables
from buildbook.trade.records import Named
from buildbook.words import Words

CHOICES = (*PART_KINDS, *CUTS, *FACES, *PER, *STANDS, *WEARS, *PARTS_FOR, *CARDS, *VOICES)


def row_name(english: str, language: str) -> str | None:
    """The name of a row in a language."""
    return _names(language).get(english.casefold())


@cache
def _names(language: str) -> Mapping[str, str]:
    words = Words(language)
    found: dict[str, str] = {}
    for section, choices in (("near_name", NEAR), ("choice_name", CHOICES)):
        found |= {choice.casefold(): name for choice in choices if (name := words.name(section, choice, ""))}
    of: tuple[tuple[str, Iterable[Named]], ...] = (
        ("glass_name", tables.glass()),
        ("stone_name", tables.stones()),
        ("metal_name", tables.metals()),
        ("sheet_name", tables.sheets()),
        ("finish_name", tables.finishes()),
        ("species_name", tables.species()),
    )
    for section, rows in of:
        for row in rows:
            if name := words.name(section, row.key, ""):
                found[row.name.casefold()] = name
                aside = row.full_name.removeprefix(row.name)  # a wood's botanical name
                found[row.full_name.casefold()] = f"{name}{aside}"
    return found

"""Writes `names.txt`, the names of woods and sheets in every language, as terms.

Run as `python -m buildbook.find.names` after a wood is added.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from buildbook.find.tokens import tokens
from buildbook.trade import tables
from buildbook.words import Words, languages

FILE = Path(__file__).with_name("names.txt")
_SHORTEST = 3


def names_now() -> str:
    """The text of the file: every word of every name, one a line."""
    words = {token.term for name in _names() for token in tokens(name)}
    kept = sorted(word for word in words if word.isalpha() and word.isascii() and len(word) >= _SHORTEST)
    return "\n".join((*kept, ""))


def _names() -> Iterator[str]:
    for language in languages():
        words = Words(language)
        for species in tables.species():
            yield from (species.name, *species.aliases, words.name("species_name", species.key, species.name))
        for sheet in tables.sheets():
            yield from (sheet.name, words.name("sheet_name", sheet.key, sheet.name))


if __name__ == "__main__":
    FILE.write_text(names_now(), encoding="utf-8")

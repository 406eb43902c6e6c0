"""Writes `names.txt`, the names of woods and sheets in every language, as terms; and `called.txt`, the words by which
joints and marked lines of notes are asked for.

Run as `python -m buildbook.find.names` after a wood, a joint or a mark is added.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from pkgutil import get_data

from buildbook.find.joints import joints
from buildbook.find.tokens import tokens
from buildbook.job.notes.marks import words_of_marks
from buildbook.trade import tables
from buildbook.words import Words, languages

FILE = Path(__file__).with_name("names.txt")
CALLED = Path(__file__).with_name("called.txt")
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


def called_now() -> str:
    """The text of `called.txt`: a line a joint and a mark, its key and the words, as terms."""
    asked = tomllib.loads((get_data(__name__, "asked.toml") or b"").decode("utf-8"))
    rows = {key: " ".join((*words, asked.get(key, ""))) for key, words in words_of_marks().items()}
    rows |= {joint.key: joint.names for joint in joints().values()}
    lines = (
        " ".join((key, *dict.fromkeys(token.term for token in tokens(text)))) for key, text in rows.items()
    )
    return "\n".join((*lines, ""))


if __name__ == "__main__":
    FILE.write_text(names_now(), encoding="utf-8")
    CALLED.write_text(called_now(), encoding="utf-8")

"""By what the facts of a piece are known: words that makers write, rows of tables, limits. All of it is
data/signs.toml.

In: text of a job. Out: whether it gives a sign away. Imports only the standard library.
"""

from __future__ import annotations

import re
import tomllib
from functools import cache
from importlib import resources
from typing import Any

_NOT = "not-"


@cache
def _table() -> dict[str, Any]:
    text = resources.files("buildbook.care").joinpath("data", "signs.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def _plain(text: str) -> str:
    """Text as signs are looked for in: `Fall-front  Lid` and `fall front lid` are the same."""
    return " ".join(re.sub(r"[-_/]", " ", text.casefold().replace("’", "'")).split())


@cache
def _pattern(sign: str) -> re.Pattern[str]:
    words: list[str] = _table()["words"][sign]
    longest_first = sorted((_plain(word) for word in words), key=lambda word: (-len(word), word))
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, longest_first))})(?:e?s)?\b")


def says(sign: str, *texts: str) -> bool:
    """Whether any of the texts holds a word of the sign, other than inside a word of its `not-` sign.

    Raises KeyError for a sign that is not in the file.
    """
    wanted = _pattern(sign)
    other = _pattern(_NOT + sign) if _NOT + sign in _table()["words"] else None
    plain = (_plain(text) for text in texts)
    return any(wanted.search(other.sub(" ", text) if other else text) for text in plain)


@cache
def keys(sign: str) -> frozenset[str]:
    """The keys of table rows that a sign is true of. Raises KeyError for a sign that is not in the file."""
    return frozenset(_table()["keys"][sign])


def all_keys() -> dict[str, frozenset[str]]:
    """Every list of keys, by its sign."""
    return {sign: keys(sign) for sign in _table()["keys"]}


def limit(name: str) -> float:
    """A limit, in SI as its name says. Raises KeyError for one that is not in the file."""
    return float(_table()["limits"][name]["value"])


def in_prose(name: str) -> str:
    """A printed name as it stands inside a sentence: `Genuine (bigleaf) mahogany` is `genuine mahogany`."""
    plain = " ".join(re.sub(r"\(.*?\)", "", name).split())
    first, _, others = plain.partition(" ")
    if others and first.casefold() in _table()["articles"]["words"]:
        return in_prose(others)
    keeps = first in _table()["proper"]["words"] or first.isupper()
    return plain if keeps else plain[:1].lower() + plain[1:]

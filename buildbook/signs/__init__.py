"""By what the facts of a piece are known: words that makers write, rows of tables, limits. All of it is
data/signs.toml.

In: text of a job. Out: whether it gives a sign away.
"""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Iterable
from functools import cache, lru_cache
from importlib import resources
from typing import Any

from buildbook.trade.records import Named
from buildbook.words import Words

_NOT = "not-"
_JOINED = "…"  # marks the side on which a word may be part of a longer one
_KEPT = 1 << 12  # texts: each is asked of for dozens of signs, one after the other
_UMLAUTS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue"})


@cache
def _table() -> dict[str, Any]:
    text = resources.files(__name__).joinpath("data", "signs.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


@lru_cache(maxsize=_KEPT)
def _plain(text: str) -> str:
    """Text as signs are looked for in: `Fall-front  Lid` and `fall front lid` are the same, `Tür` and `Tuer` too."""
    plain = unicodedata.normalize("NFC", text).casefold().replace("’", "'").translate(_UMLAUTS)
    return " ".join(re.sub(r"[-_/]", " ", plain).split())


@cache
def _pattern(sign: str) -> re.Pattern[str]:
    return _any_of(tuple(_table()["words"][sign]))


@cache
def _any_of(words: tuple[str, ...]) -> re.Pattern[str]:
    longest_first = sorted(words, key=lambda word: (-len(_plain(word.strip(_JOINED))), word))
    return re.compile("|".join(map(_one_word, longest_first)))


def _one_word(word: str) -> str:
    """The pattern of one word of a sign: whole, singular or plural; where it is marked, part of a longer one."""
    before = r"\b\w*" if word.startswith(_JOINED) else r"\b"
    after = r"\w*\b" if word.endswith(_JOINED) else r"(?:e?s)?\b"
    return f"{before}{re.escape(_plain(word.strip(_JOINED)))}{after}"


def says(sign: str, *texts: str) -> bool:
    """Whether any of the texts holds a word of the sign, other than inside a word of its `not-` sign.

    Raises KeyError for a sign that is not in the file.
    """
    wanted = _pattern(sign)
    other = _pattern(_NOT + sign) if _NOT + sign in _table()["words"] else None
    plain = (_plain(text) for text in texts)
    return any(wanted.search(other.sub(" ", text) if other else text) for text in plain)


def holds(words: Iterable[str], *texts: str) -> bool:
    """Whether any of the texts holds one of the words, written as those of a sign are."""
    wanted = _any_of(tuple(words))
    return any(wanted.search(_plain(text)) for text in texts)


@cache
def keys(sign: str) -> frozenset[str]:
    """The keys of table rows that a sign is true of. Raises KeyError for a sign that is not in the file."""
    return frozenset(_table()["keys"][sign])


def limit(name: str) -> float:
    """A limit, in SI as its name says. Raises KeyError for one that is not in the file."""
    return float(_table()["limits"][name]["value"])


def in_prose(name: str, words: Words) -> str:
    """A printed name as it stands inside a sentence: `Genuine (bigleaf) mahogany` is `genuine mahogany`.

    Without what is in brackets and without an article; small letters first, in a language that writes names so.
    """
    plain = " ".join(re.sub(r"\(.*?\)", "", name).split())
    first, _, others = plain.partition(" ")
    if others and first.casefold() in _table()["articles"]["words"]:
        return in_prose(others, words)
    keeps = first in _table()["proper"]["words"] or first.isupper()
    return plain if keeps else small_first(plain, words)


def small_first(name: str, words: Words) -> str:
    """A name with a small letter first, in a language that writes names so inside a sentence."""
    small = words.text("figures.names_lower") == "yes"
    return name[:1].lower() + name[1:] if small else name


def name_in_prose(record: Named | None, section: str, words: Words, otherwise: str) -> str:
    """What the language calls a row of a table, inside a sentence: by its section of names, else by the table.

    `otherwise` is the maker's own name, for what no table has.
    """
    name = words.name(section, record.key, record.name) if record else otherwise
    return in_prose(name, words)

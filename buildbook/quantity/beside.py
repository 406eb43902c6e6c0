"""What makers write beside a figure: words that change nothing, words that count, signs for about and for nothing.

In: words as typed. Out: what `data/written.toml` has them for.
"""

from __future__ import annotations

import re
import tomllib
from functools import cache
from importlib import resources
from typing import Any


@cache
def _written() -> dict[str, Any]:
    text = resources.files("buildbook.quantity").joinpath("data/written.toml").read_text("utf-8")
    return tomllib.loads(text)


def bare_word(text: str) -> str:
    """A word as the table is asked for it."""
    return " ".join(text.casefold().split()).strip(" .,:;")


@cache
def words_of(kind: str) -> frozenset[str]:
    """The words of a list of the table: `size`, `stock`, `about`, `tax.with` …"""
    found: Any = _written()
    for name in kind.split("."):
        found = found[name]
    return frozenset(map(bare_word, found)) | frozenset(word.casefold() for word in found)


@cache
def numbered(kind: str) -> dict[str, int]:
    """The words of a table whose keys are numbers: `numbers`, `counted`."""
    return {bare_word(word): int(number) for number, words in _written()[kind].items() for word in words}


def is_nothing(text: str) -> bool:
    """Whether a cell only says that there is nothing: `-`, `n/a`."""
    return text.casefold() in words_of("nothing")


_ABOUT = re.compile(r"\s*(?P<sign>[~≈]|[^\W\d_]+\.?)\s*(?=[\d.,½¼¾⅛⅜⅝⅞])")


def is_about(text: str) -> bool:
    """Whether a figure is only about so much: `ca. 900`, `~10`."""
    found = _ABOUT.match(text)
    return bool(found) and (found["sign"] if found else "").casefold().rstrip(".") in words_of("about")


def without_words(text: str, *kinds: str) -> str:
    """A text without the words of these lists at its end, two at a time first: `8/4 air dried`."""
    known = frozenset().union(*map(words_of, kinds))
    words = text.split(" ")
    while len(words) > 1:
        two, one = bare_word(" ".join(words[-2:])), bare_word(words[-1])
        if two in known and len(words) > 2:
            words = words[:-2]
        elif one in known:
            words = words[:-1]
        else:
            break
    return " ".join(words).rstrip(" ,;")

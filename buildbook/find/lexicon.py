"""What a question is understood by beyond the words of a job: words that say the same, German compounds by their parts,
names that are no slip of another. `render/data/find.js` does the very same with the same tables.

Reads its own data files; `names.txt` and `called.txt` are made of other tables by `python -m buildbook.find.names`.
"""

from __future__ import annotations

import tomllib
from collections import defaultdict
from functools import cache
from pkgutil import get_data
from typing import Any

from buildbook.find.tokens import Token, fold, singular

SHORTEST = 4
"""Letters of a word that is looked for inside a compound, unless it is one of the parts that are known."""
_DEEPEST = 4  # parts of a compound before the word that is looked for


def term(word: str) -> str:
    """A word as the index keeps it."""
    return singular(fold(word))


def _read(name: str) -> str:
    return (get_data(__name__, name) or b"").decode("utf-8")


@cache
def _tables() -> dict[str, Any]:
    return tomllib.loads(_read("lexicon.toml"))


@cache
def same() -> dict[str, tuple[str, ...]]:
    """Each word with those that say the same, as terms, in the order in which they are written."""
    out: dict[str, dict[str, None]] = defaultdict(dict)
    for line in _tables()["same"]:
        words = [term(word) for word in line.split()]
        for word in words:
            out[word] |= dict.fromkeys(other for other in words if other != word)
    return {word: tuple(others) for word, others in out.items()}


@cache
def parts() -> frozenset[str]:
    """What a compound may be made of: words of the trade and names of woods."""
    return frozenset(map(fold, _tables()["parts"].split())) | names()


@cache
def names() -> frozenset[str]:
    """Names that are spelt as they are meant: none of them is a slip of another."""
    return frozenset(_read("names.txt").split()) | same().keys()


@cache
def called() -> dict[str, str]:
    """The words by which joints and marked lines are asked for, as terms between blanks."""
    rows = (line.partition(" ") for line in _read("called.txt").splitlines())
    return {key: words for key, _, words in rows}


@cache
def terms_called(keys: str) -> frozenset[str]:
    """The terms of some keys, which stand between blanks."""
    return frozenset(term for key in keys.split() for term in called().get(key, "").split())


@cache
def links() -> tuple[str, ...]:
    """What may stand between two parts, nothing first."""
    return ("", *_tables()["links"].split())


def for_asking() -> dict[str, object]:
    """The tables for the page, as it reads them."""
    return {
        "same": {word: list(others) for word, others in sorted(same().items())},
        "parts": " ".join(sorted(parts() - names())),
        "names": " ".join(sorted(names())),
        "called": called(),
        "links": list(links()),
        "shortest": SHORTEST,
        "deepest": _DEEPEST,
    }


def is_compound(text: str, deep: int = _DEEPEST) -> bool:
    """Whether a text is made of known parts, with what joins them."""
    if text in parts():
        return True
    return deep > 1 and any(
        text[:at] in parts() and any(_rest_is(text[at:], link, deep) for link in links())
        for at in range(2, len(text))
    )


def _rest_is(rest: str, link: str, deep: int) -> bool:
    return rest.startswith(link) and (
        rest == link or (len(rest) > len(link) and is_compound(rest[len(link) :], deep - 1))
    )


def continues(compound: str, name: str) -> bool:
    """Whether what begins with a name is that name or a compound of it: Buchenholz is of Buche, Bücherregal is not."""
    rest = compound[len(name) :]
    return not rest or any(_rest_is(rest, link, _DEEPEST) for link in links())


def has_part(compound: str, word: str) -> bool:
    """Whether a word is a part of a compound and not its beginning: what stands before it is made of known parts, and
    what follows is nothing or is.
    """
    if len(word) < SHORTEST and word not in parts():
        return False
    at = compound.find(word, 2)
    while at > 0:
        after = compound[at + len(word) :]
        if _joined(compound[:at]) and (not after or any(_rest_is(after, link, _DEEPEST) for link in links())):
            return True
        at = compound.find(word, at + 1)
    return False


def compound_parts(text: str) -> tuple[Token, ...]:
    """The two words of a compound, the first without what joins it; empty for what is none."""
    for at in range(len(text) - 2, 2, -1):
        before, after = text[:at], text[at:]
        if after in parts() and (first := _without_link(before)):
            return tuple(Token(word, word, 0, 0, 0) for word in (first, after))
    return ()


def _without_link(before: str) -> str:
    """A known part without what joins it to the next: `eiche` of `eichen`, too where the join took its last letter."""
    for link in links():
        bare = before.removesuffix(link) if before.endswith(link) else ""
        if bare in parts():
            return bare
        if bare and link in ("", "en") and f"{bare}e" in parts():
            return f"{bare}e"
    return ""


def _joined(before: str) -> bool:
    """Whether a text is made of known parts, what joins it to the next one included."""
    return any(
        before.endswith(link) and len(before) > len(link) and is_compound(before[: len(before) - len(link)])
        for link in links()
    )

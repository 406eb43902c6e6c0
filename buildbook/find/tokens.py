"""Text -> words as the index keeps them. `render/data/find.js` does the very same (tests compare them).

Capitals, accents and the plural s make no difference; ä and ae are one, ß and ss too. A number with a unit of length
is one word (`8 mm` is `8mm`), and so are an angle (`11°` is `11deg`) and a fraction. Reads its own data file; imports
nothing else of the package.
"""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Collection
from functools import cache, lru_cache
from itertools import pairwise
from pkgutil import get_data
from typing import Any, NamedTuple


class Token(NamedTuple):
    """A word of a text: `term` as the index keeps it, `typed` the same with its ending as it stands, where it begins
    and ends in the text. `tenths` is its length in tenths of a millimetre, 0 for what is no length.
    """

    term: str
    typed: str
    tenths: int
    start: int
    end: int


@cache
def language() -> dict[str, Any]:
    """The tables of language.toml, `idle` as the terms that are left out."""
    tables = tomllib.loads((get_data(__name__, "language.toml") or b"").decode("utf-8"))
    several = tables["several"]
    tables["several"] = {_bare(word, tables["letters"]): one for word, one in several.items()}
    idle = {_one(_bare(word, tables["letters"]), tables["several"]) for word in tables["idle"].split()}
    return tables | {"idle": sorted(idle)}


@cache
def idle() -> frozenset[str]:
    """Terms that say nothing."""
    return frozenset(language()["idle"])


# -- one word ------------------------------------------------------------------------------------


def _bare(word: str, letters: dict[str, str]) -> str:
    plain = word.lower()
    if not word.isascii():  # most are: what follows leaves them as they are
        spread = unicodedata.normalize("NFKD", word).lower()
        plain = "".join(letter for letter in spread if not unicodedata.category(letter).startswith("M"))
        plain = "".join(letters.get(letter, letter) for letter in plain)
    return plain.replace("ae", "a").replace("oe", "o").replace("ue", "u")


def _one(folded: str, several: dict[str, str]) -> str:
    if folded in several:
        return several[folded]
    if len(folded) < 4 or not folded.endswith("s") or folded.endswith(("ss", "us", "is")):
        return folded
    if folded.endswith("ies") and len(folded) > 4:
        return folded[:-3] + "y"
    return folded[:-2] if folded.endswith(("sses", "xes", "ches", "shes")) else folded[:-1]


def fold(word: str) -> str:
    """A word without capitals, accents and two ways to write an umlaut."""
    return _bare(word, language()["letters"])


def singular(folded: str) -> str:
    """A folded word without the s of several."""
    return _one(folded, language()["several"])


# -- a text --------------------------------------------------------------------------------------

_SPACE = "[ \\t\\n\\u00a0\\u2009\\u202f]"
LETTER = r"[^\W_]"
_APOSTROPHES = re.compile("['’]")
_SPACES = re.compile(f"{_SPACE}+")


@cache
def pattern() -> str:
    """The pattern of a length, a number or a word. The page gets it too, with the names of groups and the class of
    letters written as its language has them.
    """
    glyphs = "".join(language()["fractions"])
    whole = "[0-9]{1,7}"
    fraction = "[0-9]{1,3}[/⁄][0-9]{1,3}"
    number = f"(?:{whole}{_SPACE}+{fraction}|{fraction}|(?:{whole})?{_SPACE}?[{glyphs}]|{whole}(?:[.,][0-9]{{1,4}})?)"
    feet = f"(?P<feet>{whole}){_SPACE}?{_unit('ft')}{_SPACE}?(?P<inches>{number})(?:{_SPACE}?{_unit('in')})?"
    length = f"(?P<number>{number}){_SPACE}?(?P<unit>{_unit()})"
    words = f"{LETTER}+(?:['’]{LETTER}+)*"
    figures = f"(?:{feet}|{length}|(?P<bare>{number}))(?!{LETTER})"
    return f"(?P<word>(?![0-9{glyphs}]){words})|{figures}|(?P<mixed>{words})"


def _unit(meaning: str = "") -> str:
    """The ways to write a unit, or any, in any capitals, the longest first."""
    ways = [way for way, unit in language()["units"].items() if not meaning or unit == meaning]
    anyhow = ["".join(f"[{c}{c.upper()}]" if c.isalpha() else c for c in way) for way in ways]
    return f"(?:{'|'.join(sorted(anyhow, key=lambda way: (-len(way), way)))})"


@cache
def _patterns() -> tuple[re.Pattern[str], re.Pattern[str]]:
    return re.compile(pattern()), re.compile("([0-9.]*) ?(?:([0-9]+)/([0-9]+))?")


def _canonical(number: str) -> str:
    """`1 1/4` for `1¼`, `12.5` for `12,5`."""
    for glyph, written in language()["fractions"].items():
        number = number.replace(glyph, f" {written}")
    return _SPACES.sub(" ", number.replace(",", ".").replace("⁄", "/")).strip()


def _value(canonical: str) -> float:
    if "/" in canonical and " " not in canonical:
        canonical = f" {canonical}"
    match = _patterns()[1].fullmatch(canonical)
    assert match, canonical
    whole = float(match[1]) if match[1] else 0.0
    return whole + (int(match[2]) / int(match[3]) if match[3] and int(match[3]) else 0.0)


def _tenths(value: float, unit: str) -> int:
    return int(value * language()["tenths"][unit] + 0.5)  # 0 for an angle


@cache
def _whole() -> re.Pattern[str]:
    """The pattern without groups, to list what is written much faster than by matches."""
    return re.compile(re.sub(r"\(\?P<\w+>", "(?:", pattern()))


def terms(text: str) -> list[str]:
    """The terms of `tokens` and, after them, of `joined`: all that an index needs of a text."""
    found = single_terms(text)
    if "-" in text:
        found += [token.term for token in joined(text, tokens(text))]
    return found


def single_terms(text: str) -> list[str]:
    """The terms of `tokens`, without where they stand, in half the time."""
    return [_read(written)[0] for written in _whole().findall(text)]


def tokens(text: str) -> list[Token]:
    """The words of a text in order, idle ones too."""
    # the one pattern that `_read` needs as well: a question would wait for a second
    return [Token(*_read(match[0]), match.start(), match.end()) for match in _patterns()[0].finditer(text)]


@lru_cache(maxsize=1 << 16)
def _read(written: str) -> tuple[str, str, int]:
    """`term`, `typed` and `tenths` of one word, number or length as it is written."""
    if written.isalpha():  # most are; what is none of that has groups
        typed = fold(written)
        return singular(typed), typed, 0
    if written.isascii() and written.isdigit():
        return written, written, 0
    match = _patterns()[0].fullmatch(written)
    assert match, written
    if match["word"] or match["mixed"]:
        typed = fold(_APOSTROPHES.sub("", written))
        return singular(typed), typed, 0
    if match["feet"] is not None:
        inches = _canonical(match["inches"])
        term = f"{match['feet']}ft{inches}in"
        return term, term, _tenths(int(match["feet"]) * 12 + _value(inches), "in")
    if match["number"] is not None:
        number, unit = _canonical(match["number"]), language()["units"][match["unit"].lower()]
        return number + unit, number + unit, _tenths(_value(number), unit)
    number = _canonical(written)
    return number, number, 0


# -- whether a text may hold a term --------------------------------------------------------------


class _Folding(dict[int, str]):
    """Each sign as `fold` makes it where it stands alone, found out when it is met first."""

    def __missing__(self, code: int) -> str:
        spread = unicodedata.normalize("NFKD", chr(code)).lower()
        letters = language()["letters"]
        plain = (letter for letter in spread if not unicodedata.category(letter).startswith("M"))
        self[code] = "".join(letters.get(letter, letter) for letter in plain)
        return self[code]


_FOLDED = _Folding({**dict.fromkeys(map(ord, "'’"), ""), ord("ς"): "σ"})  # which it is hangs on what follows


def traced(text: str) -> str:
    """A text in which `Traces` are looked for: folded, and once more without hyphens, which may join words."""
    plain = text.lower().replace("'", "") if text.isascii() else text.translate(_FOLDED)
    plain = plain.replace("ae", "a").replace("oe", "o").replace("ue", "u")
    return f"{plain}\n{plain.replace('-', '')}" if "-" in plain else plain


class Traces:
    """What a text holds if one of some terms is in it: a few pieces of words, looked for much faster than the words of
    a text are told apart. `may_be_in` never says no where one is.
    """

    def __init__(self, wanted: Collection[str]) -> None:
        ways = {way for way, one in language()["several"].items() if one in wanted}
        pieces = ways | {term.removesuffix("y").replace("ς", "σ") for term in wanted}  # `ies` of several
        self._anything = not all(map(str.isalpha, wanted)) or "" in pieces  # figures are written in many ways
        self._pieces: list[str] = []
        for piece in sorted(pieces, key=len):
            if not any(one in piece for one in self._pieces):
                self._pieces.append(piece)

    def may_be_in(self, traced_text: str) -> bool:
        if self._anything:
            return True
        for piece in self._pieces:  # noqa: SIM110 - thousands of texts: no generator for each
            if piece in traced_text:
                return True
        return False


def joined(text: str, found: list[Token]) -> list[Token]:
    """The words that a hyphen joins, as one word (`book-matched` as `bookmatched`), for each pair."""
    pairs = pairwise(found)
    return [
        Token(singular(a.typed + b.typed), a.typed + b.typed, 0, a.start, b.end)
        for a, b in pairs
        if text[a.end : b.start] == "-" and a.typed.isalpha() and b.typed.isalpha()
    ]

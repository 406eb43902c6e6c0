"""One sum of `adds`, read and written out again: `width: 2 x Carcase side thickness + 3 x Door width + 4 x gap 1.5`.

In: one text, the unit of a bare length. Out: an `Add` whose parts are as written; `job.adding` holds them against the
parts of the job. Grammar, blanks and capitals apart:

    sum   = size (":" | "=") ["-"] term {("+" | "-") term}      a minus has a blank on each side
    size  = width | height | depth | part dimension
    term  = [count ("x" | "×" | "*")] (part dimension | width | height | depth | [words] length)
    part dimension = name of a part, then length | width | thickness | between shoulders
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import resources
from typing import Any, cast

from buildbook.folding import folded
from buildbook.job.adds_model import Add, Dimension, PartSize, Term
from buildbook.job.text import shown
from buildbook.quantity import QuantityError, read_length, read_number

EXAMPLE = "width: 2 x Side thickness + 3 x Door width + 4 x gap 1.5"
_GAP = "1.5"
_HINT = f'Write adds = ["{EXAMPLE}"].'
_JOINS = re.compile(r"\s+([-−–])\s+|\s*(\+)\s*")
_TIMES = re.compile(r"(?P<times>\d[\d.,/ ]*?)\s*(?:[×*]|x(?![\w’']))\s*(?P<what>.+)", re.I | re.S)
_HEAD = re.compile(r"(?P<size>[^:=]*)[:=](?P<terms>.*)", re.S)
_LABELLED = re.compile(r"(?P<label>[^\d½⅓⅔¼¾⅛⅜⅝⅞]*?)\s*(?P<length>[\d½⅓⅔¼¾⅛⅜⅝⅞].*)", re.S)


@cache
def table() -> Mapping[str, Any]:
    """The words and limits of sums."""
    text = resources.files("buildbook.job").joinpath("data", "adds.toml").read_text("utf-8")
    return tomllib.loads(text)


@cache
def _dimensions(of: str) -> tuple[tuple[str, Dimension], ...]:
    """The words of the sizes of a piece or a part, the longest first."""
    words = [(folded(word), cast(Dimension, name)) for name, said in table()[of].items() for word in said]
    return tuple(sorted(words, key=lambda one: -len(one[0])))


def read_add(text: str, units: str) -> Add:
    """A sum as written. QuantityError for what cannot be read."""
    head = _HEAD.fullmatch(text.strip())
    if head is None:
        raise QuantityError(f"{shown(text)} does not say what it must come out at.", _HINT)
    size = size_named(head["size"])
    if size is None:
        raise QuantityError(
            f"{shown(head['size'].strip())} is not a size that a sum can come out at.",
            "Begin with width, height or depth, or with a part and its length, width or thickness.",
        )
    pieces = list(_pieces(head["terms"], text))
    if len(pieces) > table()["limits"]["terms"]:
        raise QuantityError(f"{shown(text)} has {len(pieces)} terms.", "Make several sums of it.")
    return Add(" ".join(text.split()), size, tuple(_term(sign, term, units) for sign, term in pieces))


def written(add: Add) -> str:
    """The sum as it would be written: what reads as the same `Add`, but for its words."""

    def said(size: PartSize) -> str:
        return f"{size.part} {size.dimension}".strip()

    out = [f"{said(add.size)}:"]
    for place, term in enumerate(add.terms):
        sign = "-" if term.times < 0 else "+" if place else ""
        what = said(term.size) if term.size else f"{term.label} {term.written}".strip()
        out += [*([sign] if sign else []), f"{abs(term.times):g} x {what}"]
    return " ".join(out)


def _pieces(terms: str, text: str) -> Iterator[tuple[int, str]]:
    """The terms of a sum, each with its sign."""
    sign, rest = 1, terms.strip()
    if match := re.match(r"[-−–]\s*", rest):
        sign, rest = -1, rest[match.end() :]
    place = 0
    for join in _JOINS.finditer(rest):
        yield sign, _there(rest[place : join.start()], text)
        sign, place = (-1 if join[1] else 1), join.end()
    yield sign, _there(rest[place:], text)


def _there(term: str, text: str) -> str:
    if not term.strip():
        raise QuantityError(f"Nothing stands beside a sign in {shown(text)}.", _HINT)
    return term.strip()


def size_named(text: str) -> PartSize | None:
    """A size of the piece or of a part, as it is named; None for what names no size."""
    plain = folded(text)
    for word, dimension in _dimensions("piece"):
        if plain == word:
            return PartSize("", dimension)
    for word, dimension in _dimensions("part"):
        if plain.endswith(f" {word}"):
            kept = text.split()[: -len(word.split())]
            return PartSize(" ".join(kept), dimension)
    return None


def _term(sign: int, text: str, units: str) -> Term:
    times = 1.0
    if (match := _TIMES.fullmatch(text)) and (counted := _count(match["times"])) is not None:
        times, text = counted, match["what"].strip()
    if size := size_named(text):
        return Term(sign * times, text, size)
    labelled = _LABELLED.fullmatch(text)
    if labelled is None:
        raise QuantityError(
            f"{shown(text)} has no size: it names none of a part, and no length.",
            f"Write length, width or thickness after the name of a part, and a figure such as {_GAP} after a gap.",
        )
    length = read_length(labelled["length"], units)
    return Term(sign * times, length.written, None, length.m, " ".join(labelled["label"].split()))


def _count(text: str) -> float | None:
    """How many times; None where what stands before the sign is no count (`1 1/2 in x`)."""
    try:
        times = read_number(text)
    except QuantityError:
        return None
    if not 0 < times <= table()["limits"]["times"]:
        raise QuantityError(f"{shown(text)} times is not to be reckoned with.", _HINT)
    return times

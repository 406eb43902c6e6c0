"""The figures in a marked line of a note: `Joint: tenon 34 x 8, haunch 12, Division > Bottom`.

In: the text behind the mark, its key, the unit of the job. Out: `NoteFigure`s in the order of the text, each
with the words before it, and the parts that the text names. Nothing is refused: what is no figure stays words. An
angle, a slope, a time, a count is kept as what it is, and is never taken for a length. The words that tell are
`data/measures.toml`.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib import resources
from typing import Any, Literal

from buildbook.folding import folded
from buildbook.quantity.units import LENGTH_UNITS

Kind = Literal[
    "length", "round", "radius", "angle", "slope", "temperature", "percent", "time", "speed", "teeth", "grit",
    "pressure", "mass", "volume", "count", "number",
]  # fmt: skip
LENGTHS: tuple[Kind, ...] = ("length", "round", "radius")
"""The kinds whose values are metres."""


@dataclass(frozen=True)
class NoteFigure:
    """One figure of a marked line.

    name    the words before it, since the last comma or figure: `tenon`. `after`: those behind it, up to a comma.
    values  of the kinds in `LENGTHS` in metres, one for each of `34 x 8`; of the others the plain figure as written.
    words   the figure as written, with its unit. start, end: where it stands in the text.
    """

    kind: Kind
    name: str
    values: tuple[float, ...]
    words: str
    after: str
    start: int
    end: int

    @property
    def is_length(self) -> bool:
        return self.kind in LENGTHS


_GLYPHS = {
    "¼": "1/4",
    "½": "1/2",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}
_FRACTION = rf"(?:\d{{1,3}}\s*[/⁄]\s*\d{{1,3}}|[{''.join(_GLYPHS)}])"
_MIXED = r"\d{1,5}(?:\s+|-)\d{1,3}[/⁄]\d{1,3}"
_WITH_GLYPH = rf"\d{{1,5}}\s?[{''.join(_GLYPHS)}]"
_GROUPED = r"\d{1,3}(?:[,.]\d{3})+(?![\d.,]\d)"
_NUMBER = rf"(?:{_MIXED}|{_WITH_GLYPH}|{_FRACTION}|{_GROUPED}|\d{{1,6}}[.,]\d{{1,4}}|\d{{1,6}})"
_TIMES = r"\s*(?:x|X|×|\*|by|mal)\s*"
_NO_LETTER = r"(?![^\W\d_])"
_MOST_INCHES = 12
_NO_FIGURE = re.compile(
    r"\d+(?:st|nd|rd|th)\b|\d{4}-\d{2}-\d{2}|\d{1,2}\.\s?\d{1,2}\.\s?\d{2,4}|#\d+", re.IGNORECASE
)
_BREAKS = re.compile(r"[,;:()]\s|[,;:]$|\.\s|\s[-–—]\s|[()>]")
_ARROW = re.compile(r"\s*(?:>|→|->)\s*")
_AROUND = " ,;.-–=\"'“”"
_PART = re.compile(r"[^,;:()>]+")


@cache
def _table() -> dict[str, Any]:
    text = resources.files("buildbook.job").joinpath("data", "measures.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


@cache
def _words(side: str) -> tuple[tuple[re.Pattern[str], Kind], ...]:
    """Each kind's pattern of words before or after a figure: what is written longest is tried first."""
    listed = [(word, kind) for kind, row in _table()[side].items() for word in row["words"]]
    found = []
    for word, kind in sorted(listed, key=lambda pair: -len(pair[0])):
        shape = re.escape(word).replace(r"\ ", r"\s+")
        if side == "after":
            found.append(
                (re.compile(rf"\s?-?{shape}(?!\w)" if word[-1].isalnum() else rf"\s?{shape}", re.I), kind)
            )
        else:
            start = r"(?<!\w)" if word[0].isalnum() else ""
            found.append((re.compile(rf"{start}{shape}\s?$", re.I), kind))
    return tuple(found)


@cache
def _start() -> re.Pattern[str]:
    """Where a figure begins: at a number in words, or at a digit or fraction behind no letter but that of a radius, a
    grit or a diameter.
    """
    spelled = "|".join(sorted(_table()["spelled"], key=len, reverse=True))
    digit = rf"(?:(?<![\w.,])|(?<=(?<!\w)[RPøØ]))(?=[\d{''.join(_GLYPHS)}])"
    return re.compile(rf"{digit}|\b(?P<spelled>{spelled})\b", re.IGNORECASE)


@cache
def _unit() -> str:
    ways = sorted((way for way in LENGTH_UNITS if way), key=len, reverse=True)
    return (
        "(?:"
        + "|".join(re.escape(way) + (_NO_LETTER if way[-1].isalpha() else "") for way in ways)
        + r"|\"|″|”|''|'|′|’)"
    )


@cache
def _shapes() -> tuple[re.Pattern[str], re.Pattern[str], re.Pattern[str]]:
    one = rf"{_NUMBER}(?:\s?-?{_unit()})?"
    feet = rf"(?P<feet>\d{{1,3}})\s?(?:'|′|’|ft{_NO_LETTER})\s?-?(?P<inches>{_NUMBER})\s?(?:\"|″|”|in{_NO_LETTER})?"
    slope = re.compile(
        r"(?P<rise>\d{1,3}(?:[.,]\d)?)\s?(?:in|:|zu|auf)\s?(?P<run>\d{1,3}(?:[.,]\d)?)(?![\w.,]*[:\d])"
    )
    size = re.compile(rf"{one}(?:{_TIMES}{one}){{0,2}}")
    return slope, size, re.compile(feet)


def measures(text: str, mark: str, unit: str, *, decimal_comma: bool = False) -> tuple[NoteFigure, ...]:
    """The figures of a marked line. `unit` is that of a bare length: `mm` or `in`."""
    found: list[NoteFigure] = []
    skips = [match.span() for match in _NO_FIGURE.finditer(text)]
    place = last = 0
    while start := _start().search(text, place):
        at = start.start()
        if skip := next((end for begin, end in skips if begin <= at < end), 0):
            place = skip
            continue
        name = _name(text[last:at])
        if start["spelled"]:
            found += _spelled(start, name, text)
            place = start.end()
            last = max(last, found[-1].end if found and found[-1].start == at else last)
            continue
        found += _figures(at, name, text, mark, unit, decimal_comma)
        place = last = found[-1].end
    return tuple(found)


def _figures(at: int, name: str, text: str, mark: str, unit: str, comma: bool) -> list[NoteFigure]:
    """What begins at a digit."""
    slope, size, feet = _shapes()
    if match := feet.match(text, at):
        metres = (
            Fraction(match["feet"]) * LENGTH_UNITS["ft"]
            + _fraction(match["inches"], comma) * LENGTH_UNITS["in"]
        )
        return [_measure("length", name, (float(metres),), text, match.span())]
    if (match := slope.match(text, at)) and _is_slope(match, text):
        values = (_number(match["rise"], True), _number(match["run"], True))
        return [_measure("slope", name, values, text, match.span())]
    match = size.match(text, at)
    assert match, text[at:]
    return _sized(match, name, text, mark, unit, comma)


def _spelled(match: re.Match[str], name: str, text: str) -> list[NoteFigure]:
    """`six bars`: a number in words, of what is counted; nothing where something else follows."""
    behind = _behind(text, match.end())
    if behind is None or behind[1] not in ("count", "time"):
        return []
    value = float(_table()["spelled"][match["spelled"].casefold()])
    return [_measure(behind[1], name, (value,), text, (match.start(), behind[0]))]


def _is_slope(match: re.Match[str], text: str) -> bool:
    """`1 in 7` and `2:15`; not `3 in 4 passes`, nor `14:30`, an hour."""
    is_hour = re.match(r":\d{2}\b", text[match.end("rise") :]) and len(match["rise"]) > 1
    return match["rise"] == "1" or (":" in match[0] and not is_hour)


def _sized(match: re.Match[str], name: str, text: str, mark: str, unit: str, comma: bool) -> list[NoteFigure]:
    """A figure, or a size of two or three, by what stands beside it."""
    start, end = match.span()
    if _inward(match, text, unit):
        end = start + len(match[0].split()[0])
    pieces = [_piece(piece) for piece in re.split(_TIMES, text[start:end])]
    before = next((kind for shape, kind in _words("before") if shape.search(text[:start])), "")
    if not any(one for _, one in pieces):
        behind = _behind(text, end)
        if len(pieces) > 1 and behind and behind[1] == "angle":  # a chamfer of 2 x 45°
            cut = start + text[start:end].rindex(pieces[-1][0])
            side = _lengths(pieces[:-1], name, before, text, (start, start + len(pieces[0][0])), unit, comma)
            return [side, _measure("angle", "", (_number(pieces[-1][0], comma),), text, (cut, behind[0]))]
        if len(pieces) == 1 and (kind := _kind_of_bare(text, end, mark, before, behind)) != "length":
            span = (start, behind[0] if behind and behind[1] == kind else end)
            return [_measure(kind, name, (_number(pieces[0][0], comma),), text, span)]
    return [_lengths(pieces, name, before, text, (start, end), unit, comma)]


def _kind_of_bare(text: str, end: int, mark: str, before: str, behind: tuple[int, Kind] | None) -> Kind:
    """What a single figure without a unit of length is."""
    if behind and behind[1] not in ("length", "count"):
        return behind[1]
    if behind and behind[1] == "count" and not _is_off(text, end):
        return "count"
    if before == "grit":
        return "grit"
    rules = _table()["marks"]
    if before == "number" or mark in rules["numbers"]:
        return "number"
    if behind or before in LENGTHS or mark in rules["lengths"]:
        return "length"
    return "number"


def _behind(text: str, end: int) -> tuple[int, Kind] | None:
    """Where the word behind a figure ends, and what the figure is by it."""
    for shape, kind in _words("after"):
        if match := shape.match(text, end):
            return match.end(), kind
    return None


def _lengths(
    pieces: Sequence[tuple[str, str]],
    name: str,
    before: str,
    text: str,
    span: tuple[int, int],
    unit: str,
    comma: bool,
) -> NoteFigure:
    """One length, or the sides of a size; the last unit that is written is that of all."""
    last = next((one for _, one in reversed(pieces) if one), unit)
    metres = tuple(float(_fraction(number, comma) * LENGTH_UNITS[one or last]) for number, one in pieces)
    kind: Kind = "round" if before == "round" else "radius" if before == "radius" else "length"
    return _measure(kind, name, metres, text, span)


def _is_off(text: str, end: int) -> bool:
    """`12 off the end` is a distance, `2 off` a count: the word counts where nothing follows it."""
    return re.match(r"\s*off\s+(?:the|each|both|a)?\s*\w", text[end:], re.IGNORECASE) is not None


_MARKS_OF_INCH = {'"': "in", "″": "in", "”": "in", "''": "in", "'": "ft", "′": "ft", "’": "ft"}


def _piece(piece: str) -> tuple[str, str]:
    """The number and the unit of `34 mm`."""
    match = re.match(_NUMBER, piece)
    assert match, piece
    unit = piece[match.end() :].strip(" -")
    return match[0], _MARKS_OF_INCH.get(unit, unit.lower())


def _inward(match: re.Match[str], text: str, unit: str) -> bool:
    """Whether the `in` of `212 up, 30 in` is the direction: among millimetres, behind more whole inches than a
    place is ever given in.
    """
    number = re.fullmatch(r"(\d+)(?:[.,]\d+)?\s+in", match[0])
    if not number or unit != "mm" or int(number[1]) <= _MOST_INCHES:
        return False
    return re.match(r"\s*(?:$|[,;.)]|from\b|and\b)", text[match.end() :]) is not None


def _fraction(number: str, comma: bool) -> Fraction:
    """The exact value of a number: with a fraction, thousands in groups, or a decimal sign of either kind."""
    for glyph, written in _GLYPHS.items():
        number = number.replace(glyph, f" {written}")
    number = re.sub(r"\s*[/⁄]\s*", "/", number.strip())
    if "/" in number:
        whole, _, fraction = number.replace("-", " ").rpartition(" ")
        above, below = fraction.split("/")
        return Fraction(int(whole or 0)) + (Fraction(int(above), int(below)) if int(below) else 0)
    groups = r"\d{1,3}(?:[.]\d{3})+" if comma else r"\d{1,3}(?:[,]\d{3})+"
    if re.fullmatch(groups, number):
        return Fraction(re.sub(r"[.,]", "", number))
    return Fraction(number.replace(",", "."))


def _number(number: str, comma: bool) -> float:
    return float(_fraction(number, comma))


def _measure(
    kind: Kind, name: str, values: tuple[float, ...], text: str, span: tuple[int, int]
) -> NoteFigure:
    start, end = span
    behind = _BREAKS.split(text[end:], maxsplit=1)[0]
    after = re.split(r"\d", behind, maxsplit=1)[0]
    return NoteFigure(kind, name, values, text[start:end].strip(), after.strip(" ,;.-–"), start, end)


def _name(before: str) -> str:
    """The words before a figure, without what only says of which kind it is."""
    words = _BREAKS.split(before)[-1].strip(_AROUND)
    for shape, kind in _words("before"):
        if kind in ("round", "radius", "grit") and (match := shape.search(words)):
            return words[: match.start()].strip(_AROUND) or ("" if kind == "grit" else words)
    return words


# -- parts --------------------------------------------------------------------------------------------


def parts_named(text: str, names: Iterable[str]) -> tuple[str, ...]:
    """The names of parts that stand in a text, in the order of the text, each once; a longer name goes first: in
    `Door stile` no `Door` is named. Capitals, accents and a plural make no difference.
    """
    plain = f" {_plain(text)} "
    found: list[tuple[int, str]] = []
    for name in sorted(set(names), key=lambda one: (-len(one), one)):
        if not (wanted := _plain(name)):
            continue
        for match in re.finditer(rf"(?<= ){re.escape(wanted)}(?:e?s|n|en)?(?= )", plain):
            found.append((match.start(), name))
            plain = plain[: match.start()] + "\0" * (match.end() - match.start()) + plain[match.end() :]
    return tuple(dict.fromkeys(name for _, name in sorted(found)))


def joined(text: str, names: Sequence[str]) -> tuple[str, str] | None:
    """The two parts of `Division > Bottom`: the one that has the tenon or tail, and the one that takes it. As written
    where parts.csv has no such name; None where no arrow stands.
    """
    match = _ARROW.search(text)
    if match is None:
        return None
    left = _PART.findall(text[: match.start()])
    right = _PART.findall(text[match.end() :])
    if not left or not right:
        return None
    sides = (left[-1].strip(), right[0].strip())
    if not all(sides):
        return None
    one, other = ((parts_named(side, names) or (side,))[0] for side in sides)
    return one, other


def _plain(text: str) -> str:
    return " ".join(re.findall(r"[\w']+", folded(text)))

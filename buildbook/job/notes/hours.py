"""Lines of hours in a note: `Hours: milling 2.5, joinery 1 1/4`, or `Stunden: Zuschnitt 2,5`.

In: a `Note` and a stretch of its lines. Out: what each line says, and the text without these lines.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from buildbook.job.believable import check
from buildbook.job.notes.markdown import Note
from buildbook.job.text import shown
from buildbook.quantity import QuantityError, read_number

_MARKER = r"\s*(?:(?:[-*+]|\d{1,9}[.)])\s+)*"
_WORD = (
    r"[*_]{0,3}(?:(?:hours?|stunden?)(?=[*_]{0,3}\s*[:：])"
    r"|(?:hours?|hrs?\.?|stunden?|std\.?|time(?:\s+(?:spent|taken|booked))?|worked|zeit|arbeitszeit|gearbeitet)"
    r"(?=[*_]{0,3}(?:\s*[:：]|\s+[-–—]\s)[^\n]*\d))[*_]{0,3}(?:\s*[:：]|\s+[-–—](?=\s))"
)
_LINE = re.compile(rf"(?P<marker>{_MARKER}){_WORD}[*_]{{0,3}}(?P<rest>.*)", re.IGNORECASE)
# possessive (*+), so that a line of nothing but blanks and marks is given up at once
LIKE_HOURS = re.compile(rf"(?:[\s>#]++|(?:[-*+]|\d{{1,9}}[.)])(?=\s))*+{_WORD}", re.IGNORECASE)
"""A line that may be one of hours, wherever it stands: none of these may leave."""

_SEPARATOR = re.compile(r";|,(?!\d)|\s(?:\+|&|and|und)\s", re.IGNORECASE)
_FRACTIONS = "½¼¾⅓⅔⅛⅜⅝⅞"
_NUMBER = rf"(?:\d[\d\s.,/⁄-]*[\d{_FRACTIONS}]|[\d{_FRACTIONS}]|[.,]\d+)"
_HOURS = r"(?:h(?:(?:ou)?rs?)?|std|stunden?)"
_AMOUNT = rf"""
    (?: (?P<clock_h>\d{{1,3}}):(?P<clock_min>[0-5]\d)
      | (?P<hours>{_NUMBER})\s*{_HOURS}\.?(?:\s*(?P<rest_min>\d{{1,2}})\s*(?:m(?:in(?:ute)?[sn]?)?\.?)?)?
      | (?P<minutes>{_NUMBER})\s*m(?:in(?:ute)?[sn]?)?\.?
      | (?P<bare>{_NUMBER}) )
"""
_STAGE_FIRST = re.compile(rf"(?P<stage>[^\W\d_].*?)[\s:=]+{_AMOUNT}", re.VERBOSE | re.IGNORECASE | re.DOTALL)
_AMOUNT_FIRST = re.compile(
    rf"{_AMOUNT}\s+(?:of\s+)?(?P<stage>[^\W\d_].*?)", re.VERBOSE | re.IGNORECASE | re.DOTALL
)
_AMOUNT_ALONE = re.compile(_AMOUNT, re.VERBOSE | re.IGNORECASE | re.DOTALL)
_WAYS = (_AMOUNT_ALONE, _STAGE_FIRST, _AMOUNT_FIRST)  # an amount alone first: the h of `3 h` is no stage
_LONGEST = 200  # characters of one item
_MINUTES = 60
_BELIEVABLE = "booked hours"


@dataclass(frozen=True)
class HoursLine:
    """A line of hours: what it says after its colon, and what is left of the line in the text (None:
    nothing).
    """

    line: int
    says: str
    left: str | None


@cache
def stages_by_name(stages: tuple[str, ...]) -> Mapping[str, str]:
    """The stages of a shop by their names, folded, and by what another language calls the same stage."""
    known = {stage.casefold(): stage for stage in stages}
    for names in _words_file()["stages"]:
        here = next((known[name] for name in names if name in known), None)
        if here:
            known = dict.fromkeys(names, here) | known
    return known


def find_hours(note: Note, start: int, end: int, stages: Sequence[str] = ()) -> list[HoursLine]:
    """The lines of hours in a stretch of a note, in paragraphs and list items; none in a comment. A line
    that is nothing but one of the `stages` with its hours needs no word before it.
    """
    found = []
    for first, last in note.between(note.prose, lambda lines: lines[0], start, end):
        if last > end:
            continue
        matches = {line: _match(note.lines, line, first, stages) for line in range(first, last)}
        alone = all(matches.values())
        for line, match in matches.items():
            if match and not note.in_comment(line):
                # the marker of a list item stays for the lines that follow in it
                marker, says = match
                keeps = line == first and marker.strip() and not alone
                found.append(HoursLine(line, says, marker.rstrip() if keeps else None))
    return found


def _match(lines: Sequence[str], line: int, first: int, stages: Sequence[str]) -> tuple[str, str] | None:
    """The marker of a list item before a line of hours, and what the line says; None for another line."""
    if found := _LINE.fullmatch(lines[line]):
        return found["marker"], found["rest"].strip()
    if line > first and not _ENDS.search(lines[line - 1]):  # the middle of a sentence
        return None
    return plain_hours(lines[line], stages)


def ends_above(line: str) -> bool:
    """Whether a sentence ends with a line, so that the next one begins something."""
    return not line.strip() or bool(_ENDS.search(line))


_ENDS = re.compile(r"[.:!?)]\s*$|\d\s*(?:h(?:(?:ou)?rs?)?|std|stunden?)\.?\s*$", re.IGNORECASE)


# -- lines without a word before them --------------------------------------------------------------


@cache
def _words_file() -> Mapping[str, Any]:
    text = resources.files("buildbook.job").joinpath("data/hours_words.toml").read_text("utf-8")
    return tomllib.loads(text)


@cache
def _words(kind: str) -> frozenset[str]:
    return frozenset(_words_file()[kind])


def plain_hours(text: str, stages: Sequence[str]) -> tuple[str, str] | None:
    """The marker of a line, and what it books; None where it is no line of hours by its stage or by a word for work."""
    parts = _plain_parts(text)
    if parts is None:
        return _several(text, stages)
    marker, amount, said = parts
    known = stages_by_name(tuple(stages))
    worked = sorted(_words("worked"), key=len, reverse=True)
    kind = said.casefold()
    for word in worked:
        if kind == word or kind.startswith(f"{word} ") or kind.endswith(f" {word}"):
            kind = kind.removeprefix(word).removesuffix(word).strip(" :=-–")
            break
    else:
        word = ""
    kind = _ON.sub("", kind)
    if kind and kind not in known:
        return None
    return marker, f"{kind} {amount}".strip()


def _several(text: str, stages: Sequence[str]) -> tuple[str, str] | None:
    """The same of a line that books to several stages: `Milling 6.5 h, stock 1 h`; each of them has to be known."""
    items = _SEPARATOR.split(text.strip().rstrip(".")) if len(text) <= _LONGEST else []
    if len(items) < _LEAST_SEVERAL or not all(item.strip() for item in items):
        return None
    read = [plain_hours(item, stages) for item in items]
    if any(one is None for one in read):
        return None
    marker = (read[0] or ("", ""))[0]
    return marker, ", ".join(says for one in read if one for says in (one[1],))


_LEAST_SEVERAL = 2


def may_be_hours(text: str, stages: Sequence[str] = ()) -> bool:
    """Whether a line looks like hours of work that nothing books: a few words with hours, or hours beside the name of a
    stage in a sentence, and none of waiting.
    """
    if _SPENT.match(text):
        return True
    if len(text) <= _LONGEST and (found := _beside_a_stage(tuple(stages)).search(text)):
        before, after = _CLAUSE.split(text[: found.start()])[-1], _CLAUSE.split(text[found.end() :])[0]
        return not _words("waiting").intersection(re.findall(r"[^\W\d_]+", f"{before} {after}".casefold()))
    if (parts := _plain_parts(text)) is None:
        return False
    words = re.findall(r"[^\W\d_]+", parts[2].casefold())
    return 0 < len(words) <= _FEW and not _words("waiting").intersection(words)


def is_waiting(text: str) -> bool:
    """Whether a text speaks of time that passes by itself."""
    return bool(_words("waiting").intersection(re.findall(r"[^\W\d_]+", text.casefold())))


_FEW = 3  # words beside hours that may name a kind of work
_TIME = rf"(?P<amount>{_NUMBER}\s*{_HOURS}(?:\s*\d{{1,2}}\s*m(?:in)?)?|{_NUMBER}\s*min(?:ute[sn]?|s)?)"
TIME_IN_HOURS = rf"{_NUMBER}\s*{_HOURS}(?![\w/])(?:\s*\d{{1,2}}\s*m(?:in)?)?"
"""A time that is written in hours."""
_PLAIN = re.compile(
    rf"(?P<marker>{_MARKER})[*_]{{0,3}}(?:(?P<before>[^\W\d_][^\d:.,;!?]{{0,40}}?)[\s:=*_–—-]+)?{_TIME}(?![\w/])\.?"
    rf"(?:\s+(?P<after>[^\W\d_][^\d:.,;!?]{{0,40}}?))?[*_]{{0,3}}\s*\.?\s*",
    re.IGNORECASE,
)


_CLAUSE = re.compile(r"[.,:;!?]\s")


@cache
def _beside_a_stage(stages: tuple[str, ...]) -> re.Pattern[str]:
    named = "|".join(re.escape(name) for name in sorted(stages_by_name(stages), key=len, reverse=True))
    time = _TIME.replace("?P<amount>", "?:")
    return re.compile(
        rf"{time}\.?\s+(?:(?:of|on|an|für|for)\s+)?(?:{named})\b|\b(?:{named})[\s:,=–-]+{time}(?![\w/])",
        re.IGNORECASE,
    )


_ON = re.compile(r"^(?:of|on|at|with|an|bei|mit|am|the)\s+")
_SPENT = re.compile(rf"{_MARKER}(?:i\s+|we\s+)?spent\s+{_TIME}", re.IGNORECASE)


def _plain_parts(text: str) -> tuple[str, str, str] | None:
    """Marker, amount with its unit, and the words around it, of a line that is nothing else."""
    match = _PLAIN.fullmatch(text) if len(text) <= _LONGEST else None
    if match is None:
        return None
    said = " ".join(filter(None, (match["before"], match["after"])))
    return match["marker"], match["amount"], " ".join(said.split()).strip(" *_:")


def without_hours(note: Note, found: list[HoursLine], start: int, end: int) -> str:
    """The lines of a stretch without those of hours, and without blank lines around."""
    left = {hours.line: hours.left for hours in found}
    lines = [left.get(line, note.lines[line]) for line in range(start, end)]
    return "\n".join(line for line in lines if line is not None).strip("\n")


def read_items(says: str) -> list[tuple[str, float]]:
    """What a line of hours says: stages, an empty one where none is named, and hours. QuantityError, with the part that
    cannot be read.
    """
    parts = (part.strip() for part in _SEPARATOR.split(says.strip().rstrip(".")))
    items = [part for part in parts if part]
    if not items:
        raise QuantityError(
            "There are no hours in this line.", "Write such as Hours: milling 2.5, joinery 1 1/4."
        )
    return [_item(item) for item in items]


def _item(text: str) -> tuple[str, float]:
    match = None
    if len(text) <= _LONGEST:
        match = next(filter(None, (way.fullmatch(text) for way in _WAYS)), None)
    if not match:
        raise QuantityError(
            f"“{text[:40]}” is not a kind of work and its hours.",
            "Write such as Hours: milling 2.5, joinery 1 1/4.",
        )
    hours = _hours(match)
    if hours <= 0:
        raise QuantityError(f"“{text}” is no time.", "Write the hours, or leave it out.")
    check(hours, _BELIEVABLE, shown(text))
    stage = match.groupdict().get("stage") or ""
    return " ".join(stage.strip(" *_:").split()), hours


def _hours(match: re.Match[str]) -> float:
    if match["clock_h"]:
        return int(match["clock_h"]) + int(match["clock_min"]) / _MINUTES
    if match["minutes"]:
        return _number(match["minutes"]) / _MINUTES
    rest = int(match["rest_min"]) / _MINUTES if match["rest_min"] else 0.0
    return _number(match["hours"] or match["bare"]) + rest


def _number(text: str) -> float:
    return read_number(text.strip(), decimal_comma="," in text)

"""What the lines of a log say of the shape of a part: its tenons, its taper, its edges. Facts, no geometry.

In: a part, the marked lines that name it. Out: `Tenon`s, a `Taper`, `WorkedEdge`s; None or nothing where a line does
not tell enough to draw it.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from buildbook.job.model import Part
from buildbook.job.notes.measures import NoteFigure, measures
from buildbook.job.notes.placing import holds_word, one_of, spans_of, start_of, table
from buildbook.pages.drawn.lie import Lie

_SAME_M = 1e-6
_LONGEST_LABEL = 38
_CLAUSES = re.compile(r";\s*|\.\s+")
_ARROW = re.compile(r"\s*(?:>|→|->)\s*")
Where = Literal["upper", "lower", "front", "back", "all"]


class MarkedLine(NamedTuple):
    """A marked line of the log: its mark, its text, its day in short, and the id of where it stands."""

    key: str
    text: str
    day: str
    anchor: str


@dataclass(frozen=True)
class Tenon:
    """At one end: how long it is, and what it is called with its sizes. None of the others where no line tells.

    width_m      along the width of the part; rest_m: what stands below it, where that follows from a haunch.
    haunch       how wide and how long the haunch beside it is.
    """

    length_m: float
    label: str = ""
    thickness_m: float | None = None
    width_m: float | None = None
    rest_m: float | None = None
    haunch: tuple[float, float] | None = None


@dataclass(frozen=True)
class Taper:
    """From one size to another, between two places from the left, where its narrow end is: the foot of what stands.
    `sides`: of the face, both or one; empty where no
    line says, and both are drawn. on_edge: whether the edge is tapered as the face is; None where that is not known.
    """

    start_m: float
    end_m: float
    from_m: float
    to_m: float
    sides: Literal["both", "one", ""]
    on_edge: bool | None = False


@dataclass(frozen=True)
class WorkedEdge:
    where: Where
    label: str


# -- tenons -----------------------------------------------------------------------------------------


def tenons_of(
    part: Part, lines: Sequence[MarkedLine], names: Sequence[str], unit: str, comma: bool
) -> tuple[Tenon, Tenon] | None:
    """Those of the left and the right end; None of a part without. Both ends are alike but where a line gives one
    tenon the length of both.
    """
    if part.tenons is None:
        return None
    whole = part.tenons.m
    for line in lines:
        if part.name not in joins(line, names):
            continue
        figures = measures(_before_parts(line.text), "joint", unit, decimal_comma=comma)
        for length in (whole / 2, whole):
            if tenon := _tenon(part, figures, length, line.text):
                return (tenon, tenon) if length < whole else (tenon, Tenon(0.0))
    return Tenon(whole / 2), Tenon(whole / 2)


def joins(line: MarkedLine, names: Sequence[str]) -> tuple[str, ...]:
    """The parts whose ends a line of a joint tells: those before an arrow."""
    found: list[str] = []
    if line.key == "joint":
        for clause in _CLAUSES.split(line.text):
            for before in _ARROW.split(clause)[:-1]:
                found += [name for _, _, name in spans_of(before.rsplit(",", 1)[-1], names)][-1:]
    return tuple(found)


def _before_parts(text: str) -> str:
    """The first clause of a line, up to the parts that it joins."""
    before = _ARROW.split(_CLAUSES.split(text)[0])[0]
    return before.rsplit(",", 1)[0] if "," in before else before


def _tenon(part: Part, figures: Sequence[NoteFigure], length_m: float, text: str) -> Tenon | None:
    first = next((one for one in figures if one.is_length), None)
    if first is None or not any(abs(value - length_m) < _SAME_M for value in first.values):
        return None
    others = [value for value in first.values if abs(value - length_m) >= _SAME_M]
    thick = part.thickness.m if part.thickness else 0.0
    thickness = others[0] if len(others) == 1 and others[0] < thick else None
    wide = part.width.m if part.width else 0.0
    width = next(
        (
            one.values[0]
            for one in figures
            if len(one.values) == 1
            and re.match(r"(?:wide|breit)\b", one.after, re.I)
            and one.values[0] < wide
        ),
        None,
    )
    haunch = _haunch(figures)
    rest = None
    if haunch and width and width + haunch[0] <= wide + _SAME_M and haunch[1] < length_m:
        rest = max(wide - width - haunch[0], 0.0)
    elif re.search(r"haunch|nutzapfen|federzapfen|abgesetzt", text, re.IGNORECASE):
        width = haunch = None  # where it stands across is not said
    return Tenon(length_m, _label(text), thickness, width, rest, haunch if rest is not None else None)


def _haunch(figures: Sequence[NoteFigure]) -> tuple[float, float] | None:
    """`haunch 12, 11 deep`: how wide and how long."""
    for place, one in enumerate(figures):
        if not re.search(r"(?<!\w)(?:haunch|feder)(?!\w)", one.name, re.IGNORECASE) or not one.is_length:
            continue
        if len(one.values) == 2:
            return one.values[0], one.values[1]
        after = figures[place + 1] if place + 1 < len(figures) else None
        if after and re.match(r"(?:deep|long|tief|lang)\b", after.after, re.IGNORECASE):
            return one.values[0], after.values[0]
    return None


def _label(text: str) -> str:
    """What a joint is called, with as many of its sizes as have room."""
    pieces = [piece.strip() for piece in _before_parts(text).split(",")]
    while len(pieces) > 1 and len(", ".join(pieces)) > _LONGEST_LABEL:
        pieces.pop()
    return re.sub(r"(?<=\d)\s*[x*]\s*(?=\d)", " × ", ", ".join(pieces))[:_LONGEST_LABEL].strip()


# -- taper ------------------------------------------------------------------------------------------


def taper_of(part: Part, text: str, unit: str, comma: bool) -> Taper | None:
    """`45 to 28, from 60 below the top to the foot`; `from 34 to 22 over 400`. None of what is neither as wide nor as
    thick as the part where it begins, or does not say how far it runs.
    """
    if part.length is None or part.width is None:
        return None
    length, wide = part.length.m, part.width.m
    words = table()["taper"]
    figures = [one for one in measures(text, "taper", unit, decimal_comma=comma) if one.kind == "length"]
    pair = _pair(text, figures, words["to"])
    if pair is None or abs(max(pair) - wide) > _SAME_M or not 0 < min(pair) < max(pair):
        return None
    run = _run(text, figures, words, length)
    if run is None or not 0 < run <= length + _SAME_M:
        return None
    bare = re.sub(re.escape(part.name), "", text, flags=re.IGNORECASE)
    sides: Literal["both", "one", ""] = ""
    if holds_word(bare, words["one"]):
        sides = "one"
    elif holds_word(bare, words["both"]):
        sides = "both"
    is_square = part.thickness is not None and abs(part.thickness.m - wide) < _SAME_M
    on_edge = (holds_word(bare, words["all_faces"]) or (None if not sides else False)) if is_square else False
    return Taper(min(run, length), 0.0, max(pair), min(pair), sides, on_edge)


def _pair(text: str, figures: Sequence[NoteFigure], to: Sequence[str]) -> tuple[float, float] | None:
    for one, other in itertools.pairwise(figures):
        if re.fullmatch(one_of(to), text[one.end : other.start].strip(), re.IGNORECASE):
            return one.values[0], other.values[0]
    return None


def _run(
    text: str, figures: Sequence[NoteFigure], words: dict[str, list[str]], length_m: float
) -> float | None:
    """How far it runs: `over 400`, or from a distance below the top; all of the length where it says so."""
    for one in figures:
        before = text[: one.start].rstrip()
        if re.search(rf"(?<!\w){one_of(words['over'])}$", before, re.IGNORECASE):
            return one.values[0]
        if start_of(one.after)[0] == "top":
            return length_m - one.values[0]
    return None


# -- edges ------------------------------------------------------------------------------------------


def edges_of(part: Part, text: str, lie: Lie) -> Iterator[WorkedEdge]:
    """What is said of each edge: `round 3 above, chamfer 1.5 below`. Nothing of one that is not named."""
    words = table()["edges"]
    for piece in re.split(r"[,;]\s+|\.\s*$|\.\s+", text):
        said = re.sub(
            rf"(?:(?:the|der|die|das)\s+)?{re.escape(part.name)}(?:'s|s)?\s*[:,]?\s*", "", piece
        ).strip()
        if not re.search(r"\d", said):
            continue
        named: list[Where] = [
            where for where in ("all", "front", "back", "upper", "lower") if holds_word(said, words[where])
        ]
        if len(named) != 1:
            continue
        if named[0] in ("upper", "lower") and part.thickness is None:
            continue
        if named[0] in ("front", "back") and lie.width != "depth":
            continue
        yield WorkedEdge(named[0], said[:_LONGEST_LABEL])

"""Parts with their places: what is measured on each, from the lines of the log and from parts.csv. Holds no geometry.

In: a job and its marked lines. Out: a `SetOut` for each part that a line of a joint, a place, a taper or an edge names,
or that has tenons: sizes, tenons, taper, marks, dimensions, and the lines themselves with their days. What a line does
not say clearly stands in its words only. Private: for the build log.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from buildbook.job.model import Job, Part
from buildbook.job.notes.placing import Placement, first_named, holds_word, hosts_of, placements, table
from buildbook.job.toml.shop_toml import decimal_comma
from buildbook.pages.drawn.lie import FIRST, LAST, LOWER, Lie, On, Spot, lie_of, spot
from buildbook.pages.drawn.outlines import drawable, size_of
from buildbook.pages.drawn.shaped import (
    MarkedLine,
    Taper,
    Tenon,
    WorkedEdge,
    edges_of,
    joins,
    taper_of,
    tenons_of,
)
from buildbook.pages.phrases import Phrases

_KEYS = ("joint", "at", "taper", "edge")
_MOST_SPOTS = 12  # places of one thing on one part: more is a row of holes, and stays in words
_PLACES_M = 7  # decimals by which two places are one


@dataclass(frozen=True)
class Dimension:
    """A distance along the part (from the left) or across it (from the lower line), in metres, with its figure."""

    on: On
    start_m: float
    end_m: float
    figure: str


@dataclass(frozen=True)
class PlaceMark:
    """Where a thing sits: a point, or a line where only one of the two places is known."""

    along_m: float | None
    across_m: float | None
    label: str


@dataclass(frozen=True)
class SaidLine:
    """A line of the log that bears on a part. `drawn`: whether anything of it is."""

    label: str
    text: str
    day: str
    anchor: str
    drawn: bool


@dataclass(frozen=True)
class SetOut:
    """A part with its places.

    right, lower  which side lies at the right and below, where a place is measured from a named side; else empty
    overall       the figures of length, width and thickness; between: that between the shoulders
    remark        what was taken for granted in drawing it
    """

    name: str
    count: str
    size: str
    title: str
    described: str
    length_m: float
    width_m: float
    thickness_m: float | None
    overall: tuple[str, str, str]
    tenons: tuple[Tenon, Tenon] | None
    taper: Taper | None
    edges: tuple[WorkedEdge, ...]
    marks: tuple[PlaceMark, ...]
    dimensions: tuple[Dimension, ...]
    right: str
    lower: str
    remark: str
    lines: tuple[SaidLine, ...]
    taper_figures: tuple[str, str] = ("", "")


def set_out(job: Job, lines: Sequence[MarkedLine], phrases: Phrases) -> tuple[SetOut, ...]:
    """In the order of parts.csv. A name that several parts have is that of the first."""
    parts = {part.name: part for part in reversed(drawable(job)) if part.round != "disc"}
    parts = dict(reversed(parts.items()))
    reader = _PartReader(job, tuple(parts), phrases)
    found = (reader.part(part, [one for one in lines if one.key in _KEYS]) for part in parts.values())
    return tuple(one for one in found if one)


class _PartReader:
    """Reads the lines of one job."""

    def __init__(self, job: Job, names: tuple[str, ...], phrases: Phrases) -> None:
        self.job = job
        self.names = names
        self.others = tuple(part.name for part in job.parts if part.name not in names)
        self.phrases = phrases
        self.comma = decimal_comma(job.shop.language)
        self.told_of: dict[MarkedLine, tuple[str, ...]] = {}

    def part(self, part: Part, lines: Sequence[MarkedLine]) -> SetOut | None:
        assert part.length
        assert part.width
        of_it = [line for line in lines if part.name in self._bears_on(line)]
        if not of_it and part.tenons is None:
            return None
        lie = lie_of(part, self.job.overall.height.m if self.job.overall.height else None)
        drawing = _Drawing(part, lie, self.phrases)
        drawing.tenons = tenons_of(part, of_it, (*self.names, *self.others), self.job.units, self.comma)
        said = [self._said(line, drawing) for line in of_it]
        is_alone = any(self._is_of_one(line, part) for line in of_it)
        return drawing.done(said) if is_alone or part.tenons or any(line.drawn for line in said) else None

    def _is_of_one(self, line: MarkedLine, part: Part) -> bool:
        """Whether a line is told of one part alone, whose drawing then shows its words if nothing else."""
        if line.key == "joint":
            return part.name in joins(line, (*self.names, *self.others))
        return len(set(self._bears_on(line)) & set(self.names)) == 1

    def _bears_on(self, line: MarkedLine) -> tuple[str, ...]:
        """The parts that a line is told of; read once, for every part asks."""
        if line not in self.told_of:
            self.told_of[line] = self._read(line)
        return self.told_of[line]

    def _read(self, line: MarkedLine) -> tuple[str, ...]:
        if line.key == "joint":
            along = hosts_of(line.text, self.names, self.others) if _runs_along(line.text) else ()
            return (*joins(line, (*self.names, *self.others)), *along)
        if line.key == "at":
            return hosts_of(line.text, self.names, self.others)
        return first_named(line.text, (*self.names, *self.others))

    def _said(self, line: MarkedLine, drawing: _Drawing) -> SaidLine:
        label = self.phrases(f"log.gathered.{line.key}")
        return SaidLine(label, line.text, line.day, line.anchor, self._draws(line, drawing))

    def _draws(self, line: MarkedLine, drawing: _Drawing) -> bool:
        part = drawing.part
        if line.key == "taper":
            taper = None if drawing.taper else taper_of(part, line.text, self.job.units, self.comma)
            drawing.taper = taper or drawing.taper
            return taper is not None
        if line.key == "edge":
            edges = tuple(edges_of(part, line.text, drawing.lie))
            drawing.edges += edges
            return bool(edges)
        found = placements(
            line.text, line.key, self.job.units, self.names, self.others, decimal_comma=self.comma
        )
        if line.key == "joint":
            found = tuple(one for one in found if _runs_along(one.thing))
        drew = [drawing.place(one) for one in found if one.part == part.name]
        tells_tenon = bool(drawing.tenons and drawing.tenons[0].label) and line.key == "joint"
        return any(drew) or (tells_tenon and drawing.is_told_by(line.text))


def _runs_along(text: str) -> bool:
    return holds_word(text, table()["words"]["runs_along"])


class _Drawing:
    """What of a part is drawn, as it is gathered."""

    def __init__(self, part: Part, lie: Lie, phrases: Phrases) -> None:
        self.part = part
        self.lie = lie
        self.phrases = phrases
        self.tenons: tuple[Tenon, Tenon] | None = None
        self.taper: Taper | None = None
        self.edges: tuple[WorkedEdge, ...] = ()
        self.marks: list[PlaceMark] = []
        self.dimensions: list[Dimension] = []
        self.told: list[str] = []
        self.named: set[tuple[On, str]] = set()

    @property
    def sides_m(self) -> tuple[float, float]:
        assert self.part.length
        assert self.part.width
        return self.part.length.m, self.part.width.m

    def is_told_by(self, text: str) -> bool:
        """Whether the tenons were read from this line."""
        label = self.tenons[0].label.replace(" × ", " x ") if self.tenons else ""
        return bool(label) and text.replace(" × ", " x ").startswith(label[: len(label) // 2])

    def place(self, placed: Placement) -> bool:
        """Draw a thing as far as its distances can be drawn; whether any can."""
        length, width = self.sides_m
        spots = [
            (found, one)
            for one in placed.distances
            if (found := spot(one.m, one.start, length, width, self.lie))
        ]
        if not spots:
            return False
        along = _places(found for found, _ in spots if found.on == "along")
        across = _places(found for found, _ in spots if found.on == "across")
        if len(along or (0,)) * len(across or (0,)) > _MOST_SPOTS:
            return False
        if placed.middle and not (along and across):
            along, across = along or [(0.0, length / 2)], across or [(0.0, width / 2)]
        xs: list[float | None] = [at for _, at in along]
        ys: list[float | None] = [at for _, at in across]
        self.marks += [PlaceMark(x, y, placed.thing) for x in xs or [None] for y in ys or [None]]
        for found, one in spots:
            figure = self.phrases.style.figure(one.m)
            self.dimensions += [Dimension(found.on, start, end, figure) for start, end in found.ends]
            if found.named:
                self.named.add((found.on, one.start))
            whence = self.phrases(f"drawing.set_out.from.{one.start}")
            self.told.append(
                self.phrases("drawing.set_out.place", thing=placed.thing, figure=figure, whence=whence)
            )
        return True

    def done(self, lines: list[SaidLine]) -> SetOut:
        part, style = self.part, self.phrases.style
        length, width = self.sides_m
        thickness = part.thickness.m if part.thickness and not part.round else None
        overall = (style.figure(length), self._across(), style.figure(thickness) if thickness else "")
        size, count = size_of(part, style), self.phrases.count("drawing.count", part.qty)
        dimensions = [*self._of_shape(), *self.dimensions]
        right, lower = self._sides()
        remark = self._remark(lines)
        described = [f"{size}, {count}", *self._shape_told(), *self.told, remark]
        return SetOut(
            name=part.name,
            count=count,
            size=size,
            title=self.phrases("drawing.set_out.title", part=part.name),
            described=". ".join(one.rstrip(".") for one in described if one) + ".",
            length_m=length,
            width_m=width,
            thickness_m=thickness,
            overall=overall,
            tenons=self.tenons,
            taper=self.taper,
            edges=self.edges,
            marks=tuple(dict.fromkeys(self.marks)),
            dimensions=_each_once(dimensions),
            right=right,
            lower=lower,
            remark=remark,
            lines=tuple(lines),
            taper_figures=(style.figure(self.taper.to_m), style.figure(self.taper.from_m))
            if self.taper
            else ("", ""),
        )

    def _of_shape(self) -> Iterator[Dimension]:
        """The dimensions of tenons and taper, and those over all."""
        figure = self.phrases.style.figure
        length, width = self.sides_m
        if self.tenons:
            left, right = (one.length_m for one in self.tenons)
            yield Dimension("along", left, length - right, figure(length - left - right))
            if self.tenons[0].label:
                yield Dimension("along", 0.0, left, figure(left))
        if self.taper:
            yield Dimension("along", self.taper.end_m, self.taper.start_m, figure(self.taper.start_m))
        yield Dimension("along", 0.0, length, figure(length))
        if not self.taper:
            yield Dimension("across", 0.0, width, self._across())

    def _across(self) -> str:
        figure = self.phrases.style.figure(self.sides_m[1])
        return f"ø{figure}" if self.part.round else figure

    def _shape_told(self) -> Iterator[str]:
        figure, told = self.phrases.style.figure, self.phrases
        if self.part.between_shoulders_m is not None:
            yield told("drawing.set_out.between", figure=figure(self.part.between_shoulders_m))
        if self.tenons and self.tenons[0].label:
            yield self.tenons[0].label
        if self.taper:
            sizes = {"wide": figure(self.taper.from_m), "narrow": figure(self.taper.to_m)}
            yield told("drawing.set_out.taper", **sizes, run=figure(self.taper.start_m))
        yield from (edge.label for edge in self.edges)

    def _sides(self) -> tuple[str, str]:
        """The words of the sides that places are measured from: what lies at the right, and what lies below."""

        def word(on: On, ends: dict[str, str], others: dict[str, str]) -> str:
            named = {start for one, start in self.named if one == on}
            axis = next((a for a in ends if ends[a] in named or others[a] in named), "")
            return self.phrases(f"drawing.set_out.side.{ends[axis]}") if axis else ""

        first, last, lower = dict(FIRST), dict(LAST), dict(LOWER)
        upper = {axis: first[axis] if lower[axis] == last[axis] else last[axis] for axis in first}
        return word("along", last, first), word("across", lower, upper)  # type: ignore[arg-type]

    def _remark(self, lines: Sequence[SaidLine]) -> str:
        """What is drawn and not said: two ends alike, a taper on both sides."""
        said = []
        if self.tenons and not self.tenons[0].label:
            said.append(self.phrases("drawing.set_out.ends_alike"))
        if self.taper and not self.taper.sides:
            said.append(self.phrases("drawing.set_out.both_sides"))
        return " ".join(said)


def _places(spots: Iterator[Spot]) -> list[tuple[float, float]]:
    return [end for found in spots for end in found.ends]


def _each_once(dimensions: Sequence[Dimension]) -> tuple[Dimension, ...]:
    """The same distance told twice is drawn once."""
    kept: dict[tuple[str, float, float], Dimension] = {}
    for one in dimensions:
        low, high = sorted((one.start_m, one.end_m))
        if high > low:
            kept.setdefault(
                (one.on, round(low, _PLACES_M), round(high, _PLACES_M)), replace(one, start_m=low, end_m=high)
            )
    return tuple(kept.values())

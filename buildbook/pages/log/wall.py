"""The sheet that hangs over the bench: what is read while the hands are dusty, and nothing that is not.

In: a job and its gathered lines. Out: a `WallSheet`: the cut list by wood, the marked lines that are cut and set by,
the finishes. No price, no client, no hours are in it. None of a job that has nothing of these.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from buildbook.job.log_model import Mark
from buildbook.job.model import Finish, Job, Part
from buildbook.job.notes.measures import measures
from buildbook.pages import sets
from buildbook.pages.log.sets import counts_note
from buildbook.pages.log.tables import told_of
from buildbook.pages.phrases import Phrases, capital
from buildbook.quantity.show import NARROW
from buildbook.summary.model import FinishUse, Summary
from buildbook.words import Words

Sheet = Literal["a4", "us-letter"]
KINDS = ("joint", "at", "gap", "taper", "edge", "setting", "glue", "jig", "template")
"""The marks that hang over the bench, in the order in which they are asked for."""
_CUT = ("wood", "panel", "glass", "stone", "upholstery")


@dataclass(frozen=True)
class Run:
    """A stretch of a line; `figure`: it is one, and is seen from afar."""

    text: str
    figure: bool = False


@dataclass(frozen=True)
class WallPart:
    """A row of the cut list, as ready-made text."""

    name: str
    qty: str
    length: str
    between_shoulders: str
    width: str
    thickness: str
    stock: str
    note: str


@dataclass(frozen=True)
class CutWood:
    """The parts of one material."""

    material: str
    parts: tuple[WallPart, ...]


@dataclass(frozen=True)
class WallLine:
    """One line of a kind; `day` is that of its note, in short."""

    runs: tuple[Run, ...]
    day: str = ""


@dataclass(frozen=True)
class WallKind:
    """The lines of one mark, or the finishes. `more`: how many lines it has that found no room, in words."""

    heading: str
    lines: tuple[WallLine, ...]
    more: str = ""


@dataclass(frozen=True)
class WallSheet:
    """What hangs over the bench. `more`: the rows of the cut list that found no room, in words; `cut_short`: that
    lines end in …, where some do.
    """

    language: str
    sheet: Sheet
    title: str
    number: str
    maker: str
    days: str
    size: str
    notes: tuple[str, ...]
    woods: tuple[CutWood, ...]
    kinds: tuple[WallKind, ...]
    wood_colours: tuple[str, str]
    dated: date | None = None
    more: str = ""
    cut_short: str = ""

    @property
    def rows(self) -> int:
        """Rows of the cut list."""
        return sum(len(wood.parts) for wood in self.woods)


def wall_sheet(
    job: Job, summary: Summary, phrases: Phrases, wood_colours: tuple[str, str]
) -> WallSheet | None:
    """The sheet of a job; None where there is nothing to hang."""
    woods = _woods(job, phrases)
    kinds = (*_marked(job, phrases), *_finishes(job, summary, phrases))
    if not woods and not kinds:
        return None
    return WallSheet(
        language=phrases.words.language,
        sheet="us-letter" if job.shop.letter_paper else "a4",
        title=job.title or job.key,
        number=sets.numbers_said(job),
        maker=job.shop.name or job.shop.maker,
        days=_days(job, phrases),
        size=sets.each(phrases.style.size(*job.overall.metres), job, phrases),
        notes=(phrases("tables.unit", unit=phrases.style.units), *counts_note(job, phrases)) if woods else (),
        woods=woods,
        kinds=kinds,
        wood_colours=wood_colours,
        dated=job.delivered or job.begun,
    )


def _days(job: Job, phrases: Phrases) -> str:
    """When it was begun and delivered; of a set that went on several days, only the first."""
    gone = job.delivered or min((batch.day for batch in job.batches if batch.day), default=None)
    days = (("log.begun", job.begun), ("log.delivered", gone))
    return " · ".join(f"{phrases(key)} {phrases.short_date(day)}" for key, day in days if day)


# -- cut list ------------------------------------------------------------------------------------


def _woods(job: Job, phrases: Phrases) -> tuple[CutWood, ...]:
    """In the order in which the parts file first names a material."""
    found: dict[str, list[WallPart]] = {}
    for part in job.parts:
        if part.kind in _CUT:
            found.setdefault(capital(part.material), []).append(_part(part, phrases))
    return tuple(CutWood(material, tuple(parts)) for material, parts in found.items())


def _part(part: Part, phrases: Phrases) -> WallPart:
    figure = phrases.style.figure
    length, width, thickness = (
        figure(side.m) if side else "" for side in (part.length, part.width, part.thickness)
    )
    if part.round == "rod":
        width, thickness = f"ø{NARROW}{width}", ""
    elif part.round == "disc":
        length, width = f"ø{NARROW}{length}", ""
    between_m = part.between_shoulders_m
    return WallPart(
        name=part.name,
        qty=str(part.qty),
        length=length,
        between_shoulders=figure(between_m) if between_m is not None else "",
        width=width,
        thickness=thickness,
        stock=part.stock.told if part.stock else "",
        note=told_of(part, phrases),
    )


# -- marked lines --------------------------------------------------------------------------------


def _marked(job: Job, phrases: Phrases) -> Iterator[WallKind]:
    for key in KINDS:
        lines = [
            WallLine(_runs(mark, job, phrases), phrases.short_date(entry.day))
            for entry in job.entries
            for mark in entry.marks
            if mark.key == key
        ]
        if lines:
            yield WallKind(phrases(f"log.gathered.{key}"), tuple(lines))


def _runs(mark: Mark, job: Job, phrases: Phrases) -> tuple[Run, ...]:
    """A line with its figures apart from its words."""
    comma = phrases.style.decimal == ","
    runs, place = [], 0
    for found in measures(mark.text, mark.key, job.units, decimal_comma=comma):
        figure = mark.text[found.start : found.end]
        if job.units != "in":
            figure = figure.removesuffix(" in")  # `20 in front`: among millimetres no unit
        runs += [Run(mark.text[place : found.start]), Run(figure, True)]
        place = found.start + len(figure)
    return tuple(run for run in (*runs, Run(mark.text[place:])) if run.text)


# -- finishes ------------------------------------------------------------------------------------


def _finishes(job: Job, summary: Summary, phrases: Phrases) -> Iterator[WallKind]:
    lines = tuple(
        WallLine(_finish(use, finish, phrases))
        for use, finish in zip(summary.finish, job.finishes, strict=True)
    )
    if lines:
        yield WallKind(phrases("tables.finishes"), lines)


def _finish(use: FinishUse, finish: Finish, phrases: Phrases) -> tuple[Run, ...]:
    """`Hardwax oil: 3 coats, 2026-03-26, … · satin · batch Q40`."""
    coats = ""
    if finish.coats:
        days = ", ".join(map(phrases.short_date, finish.coats))
        coats = f"{phrases.count('finish.coat_count', len(finish.coats))}, {days}"
    batch = phrases("log.wall.batch", batch=finish.batch) if finish.batch else ""
    said = " · ".join(text for text in (coats, finish.sheen, batch, finish.note) if text)
    name = phrases.finish(use)
    return (Run(name, True), Run(f": {said}")) if said else (Run(name, True),)


# -- less ----------------------------------------------------------------------------------------

_LONGEST = 280  # signs of a line, where there is no room for all of it
_LONGEST_NOTE = 60


def shortened(wall: WallSheet, rows: int, lines: int, words: Words, *, part_notes: bool = True) -> WallSheet:
    """The same with at most so many rows of the cut list and lines of each kind, without the notes of its parts where
    they are not wanted; what is left out is counted or said, what is cut short ends in …. Pure.
    """
    left = rows
    longest = _LONGEST_NOTE if part_notes else 0
    woods = []
    for wood in wall.woods:
        parts = tuple(replace(part, note=_short(part.note, longest)) for part in wood.parts[:left])
        left -= len(parts)
        if parts:
            woods.append(replace(wood, parts=parts))
    kinds = tuple(
        replace(
            kind,
            lines=tuple(replace(line, runs=_short_runs(line.runs)) for line in kind.lines[:lines]),
            more=_more(len(kind.lines) - lines, words),
        )
        for kind in wall.kinds
    )
    has_notes = any(part.note for wood in wall.woods for part in wood.parts)
    notes = (*wall.notes, words.text("log.wall.no_notes")) if has_notes and not part_notes else wall.notes
    short = replace(wall, woods=tuple(woods), kinds=kinds, notes=notes, more=_more(wall.rows - rows, words))
    return replace(short, cut_short=words.text("log.wall.cut_short") if _is_cut_short(short) else "")


def _more(count: int, words: Words) -> str:
    return words.text("log.wall.more", count=count) if count > 0 else ""


def _short(text: str, most: int) -> str:
    if not most:
        return ""
    return text if len(text) <= most else text[:most].rsplit(" ", 1)[0].rstrip(" ,;:") + " …"


def _short_runs(runs: tuple[Run, ...]) -> tuple[Run, ...]:
    out, left = [], _LONGEST
    for run in runs:
        if left <= 0:
            break
        out.append(replace(run, text=_short(run.text, left)))
        left -= len(run.text)
    if left < 0 or len(out) < len(runs):
        out[-1] = replace(out[-1], text=out[-1].text.removesuffix(" …") + " …")
    return tuple(out)


def _is_cut_short(wall: WallSheet) -> bool:
    notes = (part.note for wood in wall.woods for part in wood.parts)
    lines = (line.runs[-1].text for kind in wall.kinds for line in kind.lines)
    return any(text.endswith(" …") for text in (*notes, *lines))


__all__ = ["CutWood", "Run", "WallKind", "WallLine", "WallPart", "WallSheet", "shortened", "wall_sheet"]

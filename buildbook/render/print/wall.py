"""The wall sheet on paper: a `WallSheet` in, a PDF out, one or two sheets of A4 or US Letter.

It is set with air, then closer, then with the cut list in two columns, then smaller; a step is taken only where it
saves a sheet that is one too many. What finds no room even so is left out from the end of each kind on, and counted.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, dataclass
from functools import partial
from typing import Any

from buildbook.pages.log.wall import WallSheet, shortened
from buildbook.render.colour import accent
from buildbook.render.html.theme import Theme
from buildbook.render.print.typeset import Printed, Typeset, typeset, unshown_problem
from buildbook.words import Words

FILE = "wall.pdf"
_PAPER = "#ffffff"
_SHEETS = 2
_MOST_LINES = 24  # of a kind, where there is no room for all: more than two sheets hold
_MOST_ROWS = 300  # of the cut list: likewise
_SPILLS_MM = (8.0, 20.0, 40.0, None)
"""How much more than half of it two columns are high, the evenest first; None lets them be as high as the sheet."""
_FEW_LINES = 2  # of each kind hang there before rows of the cut list give way


@dataclass(frozen=True)
class WallWay:
    """How the sheet is set: closer, with the cut list in two columns, in smaller type."""

    close: bool = False
    twofold: bool = False
    small: bool = False


_WAYS = (
    WallWay(),
    WallWay(close=True),
    WallWay(close=True, twofold=True),
    WallWay(close=True, twofold=True, small=True),
)


def wall_pdf(wall: WallSheet, theme: Theme) -> Printed:
    """The sheet as PDF/A-2a and PDF/UA-1. Raises `TypesetError` when the theme's template is at fault."""
    made = next((made for made in _ways(wall, theme) if made.report["sheets"] <= _SHEETS), None)
    if made is None:
        made = _what_fits(wall, theme)
    return Printed(made.pdf, tuple(unshown_problem(FILE, made.unshown)))


def _ways(wall: WallSheet, theme: Theme) -> Iterator[Typeset]:
    """What may be enough, the roomiest first; of two sheets that closer setting makes one of, that one."""
    if wall.rows > _MOST_ROWS:  # far too much: not set to no purpose
        return
    roomy, close, *others = _WAYS
    first = _set(wall, theme, roomy)
    second = _set(wall, theme, close) if first.report["sheets"] > 1 else first
    yield first if second.report["sheets"] > 1 else second
    yield second
    yield from (_set(wall, theme, way) for way in others)


def _what_fits(wall: WallSheet, theme: Theme) -> Typeset:
    """The cut list whole and the most lines of each kind that two sheets hold; where they do not even hold a few, those
    few and the list without notes; where they do not hold that, the most rows of it.
    """
    words = Words(wall.language)
    every = min(wall.rows, _MOST_ROWS)

    def made(rows: int, lines: int, *, part_notes: bool) -> Typeset | None:
        short = shortened(wall, rows, lines, words, part_notes=part_notes)
        found = _set(short, theme, _WAYS[-1], _SPILLS_MM[-2:])
        return found if found.report["sheets"] <= _SHEETS else None

    for part_notes in (True, False):
        if few := made(every, _FEW_LINES, part_notes=part_notes):
            of_lines = partial(made, every, part_notes=part_notes)
            return _most(of_lines, _FEW_LINES, _MOST_LINES, few)
    least = _set(shortened(wall, 1, 1, words, part_notes=False), theme, _WAYS[-1])
    return _most(lambda rows: made(rows, min(rows, _FEW_LINES), part_notes=False), 1, every - 1, least)


def _most(make: Callable[[int], Typeset | None], low: int, high: int, best: Typeset) -> Typeset:
    """What is made of the largest number of which something is; `best` is that of the lowest."""
    while low < high:
        middle = (low + high + 1) // 2
        if found := make(middle):
            low, best = middle, found
        else:
            high = middle - 1
    return best


def _set(wall: WallSheet, theme: Theme, way: WallWay, spills: Sequence[float | None] = _SPILLS_MM) -> Typeset:
    """The sheet in one way. Columns are made as high as each other where that holds all that stands in them."""
    data = _data(wall, way)
    for spill in spills:
        made = typeset(theme.file("wall.typ"), {**data, "spill": spill}, {}, wall.dated, theme.look)
        if not made.report["over"] or made.report["sheets"] > _SHEETS:
            break
    return made


def _data(wall: WallSheet, way: WallWay) -> dict[str, Any]:
    words = Words(wall.language)
    colours = accent(wall.wood_colours[1], _PAPER)
    parts = [part for wood in wall.woods for part in wood.parts]
    return {
        **{
            name: value
            for name, value in asdict(wall).items()
            if name not in ("dated", "wood_colours", "sheet")
        },
        **asdict(way),
        "page": {"file": wall.sheet},
        "file_title": words.text("log.wall.page_title", title=wall.title),
        "words": {
            "cut_list": words.text("tables.cut_list"),
            "private": words.text("log.private"),
            **{name: words.text(f"columns.{name}") for name in _COLUMNS},
        },
        "of": words.text("log.wall.sheet", page="{page}", pages="{pages}"),
        "shown": {"part": True, **{name: any(getattr(part, name) for part in parts) for name in _COLUMNS}},
        "accent": {"line": {"colour": colours.line}},
    }


_COLUMNS = ("qty", "length", "between_shoulders", "width", "thickness", "stock")

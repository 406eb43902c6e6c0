"""Shapes in full size on paper: a `FullSize` in, a PDF out, sheets of A4 or US Letter to be laid together.

Each sheet carries a bar of 100 mm to be measured, its name and place among the others, lines to cut by and marks to lay
the next one by. A millimetre of a shape is one of the paper.
"""

from __future__ import annotations

import textwrap
from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from buildbook.pages.log.full_size import FullSize, FullSizeShape
from buildbook.quantity.show import NARROW
from buildbook.render.html.theme import Theme
from buildbook.render.print.tiles import Tiling, tiling
from buildbook.render.print.typeset import Printed, typeset, unshown_problem
from buildbook.words import Words

FILE = "templates.pdf"
_SHEETS_MM = {"a4": (210.0, 297.0), "us-letter": (215.9, 279.4)}  # ISO 216; ANSI/ASME Y14.1
_MARGIN_MM = 8.0  # what no printer of a household leaves white
_FOOT_MM = 25.0  # for the bar and the words below the shape
_OVERLAP_MM = 12.0
_HEAD = 70  # signs of number and title below a shape: two lines
_ROOM_MM = 1.0  # around a shape, so that its line is whole


def full_size_pdf(full: FullSize, theme: Theme, pictures: Mapping[str, bytes]) -> Printed:
    """The shapes as PDF/A-2a and PDF/UA-1. `pictures`: JPEGs by digest. Raises `TypesetError` when the theme's template
    is at fault.
    """
    words = Words(full.language)
    files = {f"picture-{number}.jpg": pictures[p.digest] for number, p in enumerate(full.pictures())}
    names = {p.digest: name for p, name in zip(full.pictures(), files, strict=True)}
    width, height = _SHEETS_MM[full.sheet]
    area = (width - 2 * _MARGIN_MM, height - 2 * _MARGIN_MM - _FOOT_MM)
    data = {
        "language": full.language,
        "page": {"file": full.sheet},
        "file_title": words.text("full_size.page_title", title=full.title),
        "author": full.maker,
        "head": textwrap.shorten(f"{full.number}  {full.title}", _HEAD, placeholder=" …"),
        "words": {name: words.text(f"full_size.{name}") for name in _WORDS},
        "bars": [f"100{NARROW}mm", f"4{NARROW}in"],
        "of": words.text("full_size.sheet", sheet="{sheet}", sheets="{sheets}"),
        "inches": full.inches,
        "margin": _MARGIN_MM,
        "foot": _FOOT_MM,
        "overlap": _OVERLAP_MM,
        "area": list(area),
        "shapes": [_laid(shape, area, names) for shape in full.shapes],
    }
    made = typeset(theme.file("templates.typ"), data, files, full.dated, theme.look)
    return Printed(made.pdf, tuple(unshown_problem(FILE, made.unshown)))


_WORDS = ("measure", "safety", "cut")


def _laid(shape: FullSizeShape, area: tuple[float, float], names: Mapping[str, str]) -> dict[str, Any]:
    """A shape with its sheets; where it lies on its side, its points do."""
    around = 2 * _ROOM_MM
    laid = tiling(shape.width_mm + around, shape.height_mm + around, area, _OVERLAP_MM)
    return {
        **{name: getattr(shape, name) for name in ("name", "said", "day", "size", "alt", "check")},
        "tiles": [asdict(tile) for tile in laid.tiles],
        "crosses": [list(point) for point in laid.crosses],
        "columns": laid.columns,
        "rows": laid.rows,
        "turned": laid.turned,
        "room": _ROOM_MM,
        "outline": [list(_placed(point, shape, laid)) for point in shape.outline_mm],
        "levels": [
            {
                "label": level.label,
                "from": list(_placed((0.0, level.y_mm), shape, laid)),
                "to": list(_placed((shape.width_mm, level.y_mm), shape, laid)),
            }
            for level in shape.levels
        ],
        "picture": {"file": names[shape.picture.digest]} if shape.picture else None,
        "width": shape.width_mm,
        "height": shape.height_mm,
    }


def _placed(point: tuple[float, float], shape: FullSizeShape, laid: Tiling) -> tuple[float, float]:
    """A point of a shape where it lies: turned a quarter clockwise, or as it is."""
    x, y = (shape.height_mm - point[1], point[0]) if laid.turned else point
    return x + _ROOM_MM, y + _ROOM_MM

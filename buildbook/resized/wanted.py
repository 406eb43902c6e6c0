"""The sizes that are asked for: `width 1800`, `width 72in, depth 450`, `Breite 1800`, and a size of a part, as the sums
of job.toml name it: `Drawer front length 478`.

In: the texts, the unit of a bare length. Out: sizes in metres. `QuantityError` for what is none.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from buildbook.job.adds_model import PartSize
from buildbook.job.text import shown
from buildbook.job.toml.adds import size_named
from buildbook.quantity import QuantityError, read_length

_NEXT = re.compile(r"\s*(?:;|\n|,(?=\s*[^\W\d]))\s*")
"""Between two sizes: a comma before a figure is a decimal one."""
_GAP = re.compile(r"[\s:=]+(?=[\d½⅓⅔¼¾⅛⅜⅝⅞.])")
_COMMA = re.compile(r"\d,\d")
_EXAMPLE = "Write one such as width 1800, or width 72in, depth 450."


def read_sizes(texts: Iterable[str], units: str) -> dict[PartSize, float]:
    """Every size that is asked for, in metres. A size that is named twice counts as it was named last."""
    return {size: m for text in texts for size, m in _sizes(text, units)}


def _sizes(text: str, units: str) -> Iterator[tuple[PartSize, float]]:
    pieces = list(_joined(_NEXT.split(text.strip())))
    if not pieces:
        raise QuantityError(f"{shown(text)} names no size.", _EXAMPLE)
    for piece in pieces:
        yield _size(piece, units)


def _joined(pieces: list[str]) -> Iterator[str]:
    """The pieces, those put together again that a comma in the name of a part took apart (`Back, upper width 12`)."""
    held = ""
    for piece in filter(None, pieces):
        held = f"{held}, {piece}" if held else piece
        if _GAP.search(held):
            yield held
            held = ""
    if held:
        yield held


def _size(text: str, units: str) -> tuple[PartSize, float]:
    for gap in _GAP.finditer(text):
        if size := size_named(text[: gap.start()]):
            written = text[gap.end() :]
            return size, read_length(written, units, decimal_comma=bool(_COMMA.search(written))).m
    if _GAP.search(text):
        raise QuantityError(
            f"{shown(text)} names no size of the piece.",
            "Say width, depth or height; of a part its name, then length, width or thickness.",
        )
    raise QuantityError(f"{shown(text)} has no length.", _EXAMPLE)

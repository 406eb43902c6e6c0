"""The sizes of the parts of a job that could follow, each once: rows of one name and size go together.

In: a `Job`. Out: `Dim`s by what they are called. Pure.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from buildbook.folding import folded
from buildbook.job.adds_model import PartSize
from buildbook.job.model import Job, Part
from buildbook.resized.model import Axis, SizeOf
from buildbook.resized.runs import runs


@dataclass(frozen=True)
class Dim:
    """A size of a part that could follow: its rows, how long it is, the sizes of the piece that it may go with."""

    size: SizeOf
    part: Part
    rows: tuple[int, ...]
    m: float
    axes: tuple[Axis, ...]


def dims_of(job: Job) -> dict[SizeOf, Dim]:
    """The sizes of all parts that are made to size, rows of one name and size together, thicknesses too."""
    found: dict[SizeOf, Dim] = {}
    ordered = sorted(job.parts, key=lambda part: (folded(part.name), part.row))
    for _, group in groupby(ordered, key=lambda part: folded(part.name)):
        rows = list(group)
        for side in ("length", "width", "thickness"):
            sized = [(part, length.m) for part in rows if (length := getattr(part, side))]
            alike = len({round(m, 6) for _, m in sized}) == 1 and len(sized) == len(rows)
            for part, m in sized[:1] if alike else sized:
                size = SizeOf(rows[0].name, side, 0 if alike else part.row)
                held = tuple(one.row for one in rows) if alike else (part.row,)
                found[size] = Dim(size, part, held, m, runs(part, side))
    return dict(sorted(found.items(), key=lambda item: (item[1].rows[0], item[0].side)))


def side_of(size: PartSize) -> str:
    """The side of a part that a size of a sum is of: between shoulders it is the length."""
    return "length" if size.dimension == "between shoulders" else size.dimension

"""Which sizes of a piece those of a part can follow, by its name and its kind; what is a section, and stays.

In: a part. Out: by side, the sizes of the piece; none for a section. The words are data/runs.toml.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache, lru_cache
from importlib import resources
from typing import Any, cast

from buildbook.job.model import Part
from buildbook.resized.model import AXES, Axis
from buildbook.signs import holds

_KINDS = ("wood", "panel", "glass", "stone")


@cache
def table() -> Mapping[str, Any]:
    text = resources.files(__package__).joinpath("data", "runs.toml").read_text("utf-8")
    return tomllib.loads(text)


def choice(name: str) -> float:
    """A limit of ours of data/runs.toml."""
    return float(table()["choice"][name])


def is_made(part: Part) -> bool:
    """Whether a part is made to size, and not bought as it is."""
    return part.kind in _KINDS


def runs(part: Part, side: str) -> tuple[Axis, ...]:
    """The sizes of the piece that a side of a part can follow; none of what stays by itself: a thickness, the section
    of a stick, a diameter, and what is bought.
    """
    if side == "thickness" or not is_made(part) or part.round:
        return ()
    if (entry := _entry(part.name)) is not None:
        return cast(tuple[Axis, ...], tuple(entry[side]))
    if side == "width" and part.length and part.width and part.length.m >= choice("stick") * part.width.m:
        return ()
    return AXES


@lru_cache(maxsize=1 << 12)
def _entry(name: str) -> Mapping[str, Any] | None:
    """The first entry that a name holds a word of."""
    return next((entry for entry in table()["part"] if holds(entry["words"], name)), None)

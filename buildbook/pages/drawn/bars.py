"""Figures by year as a picture: a strip of bars a thing, one below the other, the years from left to right.

Figures and words only; holds no geometry (that is `render.drawing.bars`).
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class YearBar:
    """The figure of one year; `words` is lettered on it. None: there is none, which is not the same as nothing."""

    value: float | None
    words: str


@dataclass(frozen=True)
class Strip:
    """A thing, with a bar a year. `top` is the figure that the full height stands for."""

    label: str
    bars: tuple[YearBar, ...]
    top: float


@dataclass(frozen=True)
class YearBars:
    """Strips over the same years. `sentence` says the picture in words, `by_row` each figure of it.

    unit    lettered once where all strips have the same. to_top: the full height is a figure that means something
            (100 %), lettered with these words.
    """

    title: str
    sentence: str
    by_row: str
    years: tuple[str, ...]
    strips: tuple[Strip, ...]
    unit: str = ""
    to_top: str = ""

"""What of a log is printed in full size: tapers, bows, curves and pictures of squared paper.

In: a job's `Shape`s. Out: a `FullSize` with ready-made words and its lengths in millimetres; None of a job without one.
"""

from __future__ import annotations

import textwrap
from dataclasses import dataclass
from datetime import date
from typing import Literal

from buildbook.job.model import Job
from buildbook.job.parts.full_size import Shape, shapes
from buildbook.pages import sets
from buildbook.pages.phrases import Phrases, capital
from buildbook.pages.shared import Picture

_NAME = 50  # signs of a name: two lines of print
_SAID = 130  # signs of its line that stand below a shape: two lines of print


@dataclass(frozen=True)
class Level:
    """A place along a shape where it changes, in words."""

    y_mm: float
    label: str


@dataclass(frozen=True)
class FullSizeShape:
    """One shape. Millimetres, x across, y along from its top; `outline` is empty where it is a picture.

    name   of the part, or what its line calls it. said: the line as written. check: what to measure on it besides the
    bar, in words. alt: what it is, for whoever does not see it.
    """

    name: str
    said: str
    day: str
    size: str
    alt: str
    width_mm: float
    height_mm: float
    outline_mm: tuple[tuple[float, float], ...] = ()
    levels: tuple[Level, ...] = ()
    picture: Picture | None = None
    check: str = ""


@dataclass(frozen=True)
class FullSize:
    """The shapes of a job, for one file. `inches`: the shop measures in inches."""

    language: str
    sheet: Literal["a4", "us-letter"]
    title: str
    number: str
    maker: str
    shapes: tuple[FullSizeShape, ...]
    inches: bool
    dated: date | None = None

    def pictures(self) -> tuple[Picture, ...]:
        """Every picture, each once."""
        return tuple({shape.picture.digest: shape.picture for shape in self.shapes if shape.picture}.values())


def full_size(job: Job, phrases: Phrases) -> FullSize | None:
    """What the job has to be printed in full size."""
    drawn = tuple(_shape(shape, phrases) for shape in shapes(job))
    if not drawn:
        return None
    return FullSize(
        language=phrases.words.language,
        sheet="us-letter" if job.shop.letter_paper else "a4",
        title=job.title or job.key,
        number=sets.numbers_said(job),
        maker=job.shop.name or job.shop.maker,
        shapes=drawn,
        inches=not phrases.style.metric,
        dated=job.delivered or job.begun,
    )


def _shape(shape: Shape, phrases: Phrases) -> FullSizeShape:
    style = phrases.style
    name = capital(textwrap.shorten(shape.name, _NAME, placeholder=" …")) or phrases(
        f"full_size.{shape.kind}"
    )
    size = (
        style.size(shape.height_m, shape.width_m)
        if shape.kind == "taper"
        else style.size(shape.width_m, shape.height_m)
    )
    picture = None
    if photo := shape.picture:
        picture = Picture(photo.digest, photo.width, photo.height, name)
    return FullSizeShape(
        name=name,
        said=textwrap.shorten(shape.said, _SAID, placeholder=" …"),
        day=phrases.short_date(shape.day),
        size=size,
        alt=phrases(f"full_size.{shape.kind}_alt", name=name),
        width_mm=shape.width_m * 1000,
        height_mm=shape.height_m * 1000,
        outline_mm=tuple((x * 1000, y * 1000) for x, y in shape.outline),
        levels=tuple(
            Level(y * 1000, phrases("full_size.level", along=style.length(y))) for y in shape.levels
        ),
        picture=picture,
        check=phrases("full_size.square", side=style.length(shape.square_m)) if shape.square_m else "",
    )

"""The parts of the cut list as outlines to one scale, in groups by material. Private: for the build log."""

from __future__ import annotations

from dataclasses import dataclass

from buildbook.job.model import Job, Part
from buildbook.pages.phrases import Phrases, capital
from buildbook.quantity import Style
from buildbook.quantity.show import NARROW
from buildbook.trade import tables

_DRAWN = ("wood", "panel", "glass", "stone")
_TALLEST = 0.75  # a part across takes at most this share of the longest length, so that no row grows too high
_BAR_STEPS_MM = (1000, 500, 200, 100, 50, 20, 10)
_BAR_STEPS_IN = (48, 24, 12, 6, 3, 1)
_INCH_M = 0.0254
_BAR_SHARE = 0.4  # of the longest part


@dataclass(frozen=True)
class PartOutline:
    """A part's face with its edge: `across_m` is the length that fills the drawing's width, the same for
    all.
    """

    name: str
    size: str
    count: str
    described: str
    length_m: float
    width_m: float
    thickness_m: float | None
    grain: bool
    across_m: float
    disc: bool = False


@dataclass(frozen=True)
class OutlineGroup:
    """The parts of one material."""

    material: str
    parts: tuple[PartOutline, ...]


@dataclass(frozen=True)
class ScaleBar:
    """A length to the scale of the outlines, with its figure."""

    title: str
    length_m: float
    label: str
    across_m: float


def _has_grain(part: Part) -> bool:
    if part.kind == "panel":
        return part.key in tables.sheets() and tables.sheets()[part.key].grain
    return part.kind == "wood"


def drawable(job: Job) -> list[Part]:
    return [part for part in job.parts if part.kind in _DRAWN and part.length and part.width]


def _across_m(parts: list[Part]) -> float:
    sides = [(p.length.m, p.width.m) for p in parts if p.length and p.width]
    return max(max(length_m, width_m / _TALLEST) for length_m, width_m in sides)


def outlines(job: Job, phrases: Phrases) -> tuple[OutlineGroup, ...]:
    """Groups in the order in which the parts file first names a material."""
    parts = drawable(job)
    if not parts:
        return ()
    across_m = _across_m(parts)
    groups: dict[str, list[PartOutline]] = {}
    for part in parts:
        groups.setdefault(part.material, []).append(_outline(part, across_m, phrases))
    return tuple(OutlineGroup(capital(material), tuple(of)) for material, of in groups.items())


def _outline(part: Part, across_m: float, phrases: Phrases) -> PartOutline:
    length_m, width_m = part.length.m if part.length else 0.0, part.width.m if part.width else 0.0
    thickness_m = part.thickness.m if part.thickness else None
    size = size_of(part, phrases.style)
    grain = _has_grain(part)
    count = phrases.count("drawing.count", part.qty)
    return PartOutline(
        name=part.name,
        size=size,
        count=count,
        described=phrases(f"drawing.outline_{'grain' if grain else 'plain'}", size=size, count=count),
        length_m=length_m,
        width_m=width_m,
        thickness_m=thickness_m,
        grain=grain,
        across_m=across_m,
        disc=part.round == "disc",
    )


def size_of(part: Part, style: Style) -> str:
    sides = (part.length, part.width, part.thickness)
    if not part.round:
        return style.size(*(side.m if side else None for side in sides))
    across, along = (sides[1], sides[0]) if part.round == "rod" else sides[1:]
    return f"ø{NARROW}{style.size(*(side.m if side else None for side in (across, along)))}"


def scale_bar(job: Job, phrases: Phrases) -> ScaleBar | None:
    """A round length of less than half the longest part."""
    parts = drawable(job)
    if not parts:
        return None
    across_m = _across_m(parts)
    metric = phrases.style.metric
    steps_m = (
        [mm / 1000 for mm in _BAR_STEPS_MM] if metric else [inches * _INCH_M for inches in _BAR_STEPS_IN]
    )
    length_m = next((step_m for step_m in steps_m if step_m <= _BAR_SHARE * across_m), steps_m[-1])
    return ScaleBar(phrases("drawing.scale"), length_m, phrases.style.length(length_m), across_m)

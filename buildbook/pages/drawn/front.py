"""The piece from the front and from the side, as far as its overall sizes tell. Holds no geometry.

What is not measured is not drawn: the outline is the box that the piece fills, and nothing stands inside it.
"""

from __future__ import annotations

from dataclasses import dataclass

from buildbook.job.model import Job
from buildbook.pages.phrases import Phrases
from buildbook.trade import tables

_CUT = ("wood", "panel", "glass", "stone", "upholstery")
_SMALL_BESIDE = 1.5  # a thing for scale is at most half as large again as the piece


@dataclass(frozen=True)
class ForScale:
    """A thing whose size everyone knows. `kind` is `chair` or `sheet`."""

    kind: str
    name: str
    width_m: float
    height_m: float
    seat_m: float = 0.0


@dataclass(frozen=True)
class FrontView:
    """Width and height, the depth where it is known, each with its figure as a shop writes it."""

    title: str
    sentence: str
    width_m: float
    height_m: float
    depth_m: float | None
    width: str
    height: str
    depth: str
    stands: str
    front: str
    side: str
    beside: ForScale | None


def front_view(job: Job, phrases: Phrases) -> FrontView | None:
    """None without width and height, and for a piece that is one flat part: its outline would say nothing."""
    width_m, depth_m, height_m = job.overall.metres
    if not width_m or not height_m:
        return None
    cut = [part.qty for part in job.parts if part.kind in _CUT]
    if sum(cut) == job.quantity:
        return None
    style = phrases.style
    beside = _for_scale(job, max(width_m, height_m), phrases)
    said = {
        "size": style.size(width_m, depth_m, height_m),
        "stands": phrases(f"drawing.stands.{job.stands or 'free'}"),
    }
    sentence = phrases("drawing.front_sentence" if depth_m else "drawing.front_sentence_no_depth", **said)
    if beside:
        sentence += " " + phrases(f"drawing.{beside.kind}_sentence", thing=beside.name)
    return FrontView(
        title=phrases("drawing.front"),
        sentence=sentence,
        width_m=width_m,
        height_m=height_m,
        depth_m=depth_m,
        width=style.figure(width_m),
        height=style.figure(height_m),
        depth=style.figure(depth_m) if depth_m else "",
        stands=job.stands,
        front=phrases("drawing.from_front"),
        side=phrases("drawing.from_side"),
        beside=beside,
    )


def _for_scale(job: Job, largest_m: float, phrases: Phrases) -> ForScale | None:
    """A chair beside what stands on the floor, a sheet of paper beside what is small or hangs."""
    of = tables.constant
    paper = "paper_a4" if phrases.style.metric else "paper_letter"
    things = [
        ForScale("sheet", phrases(f"drawing.{paper}"), of(f"{paper}_width"), of(f"{paper}_height")),
    ]
    if job.stands in ("floor", ""):
        chair = ForScale(
            "chair", phrases("drawing.chair"), of("chair_depth"), of("chair_height"), of("chair_seat_height")
        )
        things.insert(0, chair)
    return next((thing for thing in things if thing.height_m <= _SMALL_BESIDE * largest_m), None)

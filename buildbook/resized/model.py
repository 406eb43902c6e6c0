"""What becomes of a piece at another size: frozen records, lengths in metres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from buildbook.job.model import Job

Axis = Literal["width", "height", "depth"]
AXES: tuple[Axis, ...] = ("width", "height", "depth")

WhyKind = Literal["said", "sum", "was", "same", "less", "share"]
"""said: by the maker. sum: a sum of `adds` asks for it. was: it was the old size of the piece. same: it was as long as
another part, and goes with it. less, share: it was the old size, or an equal share of it, less thicknesses of parts.
"""


@dataclass(frozen=True, order=True)
class SizeOf:
    """A size of a part: its name as in parts.csv, and the side. Rows of one name that differ have their row with it."""

    part: str
    side: str
    row: int = 0


@dataclass(frozen=True)
class Why:
    """Why a size changes, or stays. sum: as the maker wrote it. size: of the part that it goes with. shares: how many
    make up the old size; less: thicknesses beside them, how often and of which part.
    """

    kind: WhyKind
    sum: str = ""
    size: SizeOf | None = None
    shares: int = 1
    less: tuple[tuple[int, str], ...] = ()


@dataclass(frozen=True)
class Move:
    """What a size changes by, which size of the piece it follows (empty: none), and why."""

    by_m: float
    axis: Axis | Literal[""]
    why: Why


@dataclass(frozen=True)
class Option:
    """One way to meet a sum: these sizes change by so much each."""

    sizes: tuple[SizeOf, ...]
    by_m: float


@dataclass(frozen=True)
class Shared:
    """A sum that several sizes may meet: which of them is to change? out_by_m: by how much it is out now."""

    sum: str
    axis: Axis | Literal[""]
    out_by_m: float
    options: tuple[Option, ...]


@dataclass(frozen=True)
class Likely:
    """A size that may follow; `likely_m` is what it would be then. beside: the size of a part that it is near to, None
    for the size of the piece; `beside_m` how long that was, for `shares` of them.
    """

    size: SizeOf
    old_m: float
    likely_m: float
    axis: Axis
    beside: SizeOf | None
    beside_m: float
    shares: int = 1


Question = Shared | Likely


@dataclass(frozen=True)
class Change:
    """A size of a part, before and after."""

    size: SizeOf
    rows: tuple[int, ...]
    old_m: float
    new_m: float
    axis: Axis | Literal[""]
    why: Why


@dataclass(frozen=True)
class OverallChange:
    axis: Axis
    old_m: float
    new_m: float


@dataclass(frozen=True)
class Followed:
    """Sizes that were decided, those that stay among them, and what is open."""

    moves: Mapping[SizeOf, Move]
    questions: tuple[Question, ...]


@dataclass(frozen=True)
class Resized:
    """The piece at its new sizes.

    old, new   the job as it would be read of a folder begun like it: without what belongs to the past one alone.
    changes    of parts, in the order of parts.csv. openings: rooms across the grain, which go with the width.
    untold     sizes that may follow and of which nothing was said: they are as they were.
    restate    masses written in parts.csv that were of the old size, by part.
    """

    old: Job
    new: Job
    overall: tuple[OverallChange, ...]
    changes: tuple[Change, ...]
    openings: tuple[Change, ...]
    untold: tuple[Question, ...]
    restate: tuple[str, ...] = ()


UnfitKind = Literal[
    "sum",
    "leaves",
    "panel",
    "sheet",
    "sag",
    "door",
    "hinges",
    "slot",
    "opening",
    "wide",
    "long",
    "wall",
    "glass",
    "heavy",
]


@dataclass(frozen=True)
class Unfit:
    """One thing that no longer fits, or wants a look. `values` fill the words of its kind: lengths in metres under
    `…_m`, forces under `…_n`, masses under `…_kg`, else counts and words. source: of the limit that it goes by.
    before: it was so at the old size too.
    """

    kind: UnfitKind
    part: str
    values: Mapping[str, float | str]
    source: str = ""
    before: bool = False


@dataclass(frozen=True)
class StageGuess:
    """Hours of a stage by ratio: `driver` is what they go with, `ratio` how much of it there is now; a guess."""

    stage: str
    old_h: float
    new_h: float
    driver: str
    ratio: float

"""What must come out, as the maker wrote it: sizes that parts and gaps add up to. *private*."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Dimension = Literal["width", "height", "depth", "length", "thickness", "between shoulders"]


@dataclass(frozen=True)
class PartSize:
    """A size of a part, or with `part` empty of the whole piece. `part` is as written, until it is held against the
    parts of the job; then it is the name as it stands there.
    """

    part: str
    dimension: Dimension


@dataclass(frozen=True)
class Term:
    """What is added `times` over, or taken away where that is below zero: a size, or a length that the maker wrote.

    label  what a length is of (`gap`), empty where it is not said.
    """

    times: float
    written: str
    size: PartSize | None = None
    m: float | None = None
    label: str = ""


@dataclass(frozen=True)
class Add:
    """One sum: what it must come out at, and what it is made of. `words` is the whole as written."""

    words: str
    size: PartSize
    terms: tuple[Term, ...]

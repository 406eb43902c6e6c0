"""What a dated note holds: hours, passages for the client, pictures, marked lines. Frozen records, no reading."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True)
class Hours:
    """Hours of a day; `stage` is empty where the note names none."""

    stage: str
    hours: float


@dataclass(frozen=True)
class Passage:
    """A stretch of the maker's Markdown and the line of its file where it starts."""

    markdown: str
    line: int


@dataclass(frozen=True)
class Picture:
    """A picture that a note shows: the photo's name, its caption, whether a passage for the client shows it,
    and the reference by which the note names it (percent-encoded, as a parser of Markdown gives it).
    """

    name: str
    caption: str
    for_client: bool
    line: int
    reference: str = ""


@dataclass(frozen=True)
class Mark:
    """A line of a note that the maker marked: `Setting: …`. *private*.

    key   of `data/marks.toml`: setting, mistake, joint … text: what stands behind the colon. line: in the file, from 1.
    pictures: the references of pictures that stand in it, as written.
    """

    key: str
    text: str
    line: int = 0
    pictures: tuple[str, ...] = ()


@dataclass(frozen=True)
class LogEntry:
    """A dated note. `body` and `marks` are *private*; only `for_client` passages may leave. `line` is where it begins
    in `file`.
    """

    day: date
    title: str
    body: str
    for_client: tuple[Passage, ...] = ()
    hours: tuple[Hours, ...] = ()
    pictures: tuple[Picture, ...] = ()
    file: str = ""
    line: int = 0
    marks: tuple[Mark, ...] = ()

    @property
    def total_hours(self) -> float:
        return math.fsum(booked.hours for booked in self.hours)

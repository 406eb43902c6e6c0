"""The days of the pieces of a set that went together."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True)
class BatchDates:
    """The days of a finish on pieces that went together, by their last coat; `delivered` None while they are here."""

    pieces: tuple[int, ...]
    delivered: date | None
    coats: tuple[date, ...]
    light_use_from: date | None
    full_cure_from: date | None
    full_cure_to: date | None
    refresh: tuple[date, ...] = ()

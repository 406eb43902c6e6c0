"""The figures of a set: what one of its pieces is, and the days of those that went together."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from buildbook.summary.model import Money


@dataclass(frozen=True)
class Each:
    """One piece: the job divided by how many it makes, money to the coin. Of a job that makes one piece, the whole.

    What somebody lifts, hangs or loads is one piece: care asks here, never the mass of the whole.
    loaded_kg  with what one piece is said to carry; None when that is not known. price: None where there is none.
    """

    mass_kg: float
    loaded_kg: float | None
    price: Money | None
    hours_h: float
    stored_kg_co2: float


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

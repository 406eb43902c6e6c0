"""What a piece carries, and what carries a piece that hangs: frozen records, as `model` has them of a job."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Fastener:
    kind: str
    diameter_m: float
    length_m: float
    in_wall_m: float
    count: int


@dataclass(frozen=True)
class Wall:
    kind: str
    specific_gravity: float | None = None


@dataclass(frozen=True)
class Hanging:
    """How the piece hangs; `pull_height_m` from the fixings down to the lower bearing edge."""

    method: str
    fastener: Fastener | None = None
    wall: Wall | None = None
    pull_height_m: float | None = None


@dataclass(frozen=True)
class PlaceLoad:
    """What one place carries: `15 kg in each drawer`. `place` is the maker's own words, that follow the mass."""

    kg: float
    place: str

"""Finishes: the area to coat, how much it takes, what evaporates, when the piece may be used and is to be
refreshed.

In: sizes in m, spread in m2 per litre and coat, dates. Out: m2, litres (`_l`), kg, dates.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import pairwise
from typing import Any, Literal

from buildbook.trade import tables
from buildbook.trade.days import MONTHS_OF_YEAR, add_months, days_after
from buildbook.trade.records import Ends, FinishFamily

HOURS_OF_DAY = 24

Faces = Literal["all", "faces", "one face", "edges", "none"]


@dataclass(frozen=True)
class Schedule:
    """When a finish may be used lightly and when it is hard through; None for a day that nobody knows, or beyond the
    calendar.
    """

    last_coat: date
    light_use_from: date | None
    full_cure_from: date | None
    full_cure_to: date | None


def part_area_m2(count: int, length_m: float, width_m: float, thickness_m: float, faces: Faces) -> float:
    """Finished area of rectangular parts: all six sides, both faces, one face, the four edges, or none."""
    face_m2 = length_m * width_m
    edges_m2 = 2 * (length_m + width_m) * thickness_m
    by_faces = {
        "all": 2 * face_m2 + edges_m2,
        "faces": 2 * face_m2,
        "one face": face_m2,
        "edges": edges_m2,
        "none": 0 * face_m2,
    }
    return count * by_faces[faces]


def per_coat_l(area_m2: float, spread_m2_per_l: float) -> float:
    """What one coat takes: area over spread."""
    return area_m2 / spread_m2_per_l


def volume_l(area_m2: float, coats: int, spread_m2_per_l: float) -> float:
    """What all coats take: V = A n / s."""
    return coats * per_coat_l(area_m2, spread_m2_per_l)


def spread_m2_per_l(solids_share: float, dry_film_m: float) -> float:
    """Spread of a coat that leaves a dry film of a thickness, from the share of solids by volume: no loss
    counted.
    """
    return solids_share * tables.constant("litre") / dry_film_m


def volume_of_coats_l(area_m2: float, coats: int, first_m2_per_l: float, later_m2_per_l: float) -> float:
    """What all coats take where a coat on a sealed surface goes farther than the first on bare wood:
    V = A (1 / s₁ + (n - 1) / s₂).
    """
    if not coats:
        return 0.0
    return per_coat_l(area_m2, first_m2_per_l) + volume_l(area_m2, coats - 1, later_m2_per_l)


def coats_too_near(coats: Sequence[date], wait_h: float) -> tuple[date, date] | None:
    """The first two coats between which even the whole of both days is less than what a coat waits for, in hours; None
    where there are none. Only days are known, so that a wait of a day fits two days in a row.
    """
    days = sorted(coats)
    for earlier, next_one in pairwise(days):
        if ((next_one - earlier).days + 1) * HOURS_OF_DAY < wait_h:
            return earlier, next_one
    return None


def voc_kg(volume_l: float, voc_kg_per_l: float) -> float:
    """Mass of solvent that evaporates: m = V VOC.

    A label may tell VOC of the coating less its water, which overstates the mass of a water-based product.
    """
    return volume_l * voc_kg_per_l


def voc_range_kg(volume_l: float, voc_kg_per_l: Ends) -> Ends:
    """`voc_kg` for both ends of a family's range."""
    return Ends(voc_kg(volume_l, voc_kg_per_l.low), voc_kg(volume_l, voc_kg_per_l.high))


def refresh_dates(
    start: date, interval_months: float, count: int, not_before: date | None = None
) -> tuple[date, ...]:
    """The first dates on which a finish is due again, every so many months (whole ones, rounded down, at
    least one); those that the calendar has, none before a day.
    """
    whole = max(1, math.floor(interval_months))
    first = 1
    if not_before and not_before > start:
        apart = (not_before.year - start.year) * MONTHS_OF_YEAR + not_before.month - start.month
        first = max(1, apart // whole)
    days = (add_months(start, whole * turn) for turn in range(first, first + count + 2))
    return tuple(day for day in days if day and (not_before is None or day >= not_before))[:count]


def stated(
    family: FinishFamily,
    *,
    light_use_days: float | None = None,
    full_cure_days: float | None = None,
    refresh_months: float | None = None,
) -> FinishFamily:
    """The family with the days and months that a maker or a data sheet states instead of its own."""
    own: dict[str, Any] = {}
    if light_use_days is not None:
        own["light_use_days"] = light_use_days
    if full_cure_days is not None:
        own["full_cure_days"] = Ends(full_cure_days, full_cure_days)
    if refresh_months is not None:
        own["refresh_months"] = Ends(refresh_months, refresh_months)
    return replace(family, **own)


def schedule(family: FinishFamily, last_coat: date) -> Schedule:
    """The dates of a finish of a family after its last coat."""
    cure, light_use = family.full_cure_days, family.light_use_days
    return Schedule(
        last_coat=last_coat,
        light_use_from=None if light_use is None else days_after(last_coat, light_use),
        full_cure_from=days_after(last_coat, cure.low) if cure else None,
        full_cure_to=days_after(last_coat, cure.high) if cure else None,
    )

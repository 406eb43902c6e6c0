"""Hardware: like items together, their mass, screws by size.

In: counts, sizes, records. Out: counts, kg.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from buildbook.trade import tables
from buildbook.trade.records import Screw
from buildbook.trade.rounding import GUARD


@dataclass(frozen=True)
class Item:
    """An item of hardware as it is asked for when one breaks: what it is, its make-up and size, how many."""

    name: str
    spec: str
    count: int
    each_kg: float | None = None

    @property
    def total_kg(self) -> float | None:
        """Mass of all of them, if the mass of one is known."""
        return None if self.each_kg is None else total_kg(self.count, self.each_kg)


def total_kg(count: int, each_kg: float) -> float:
    """Mass of a number of items."""
    return count * each_kg


def together(items: Iterable[Item]) -> tuple[Item, ...]:
    """Like items (name, spec and mass alike) as one with their counts added, in the order they first came."""
    found: dict[tuple[str, str, float | None], Item] = {}
    for item in items:
        key = (item.name, item.spec, item.each_kg)
        known = found.get(key)
        found[key] = replace(known, count=known.count + item.count) if known else item
    return tuple(found.values())


def screw_in_shear(diameter_m: float) -> Screw | None:
    """The stoutest wood screw of a known root and bending strength that is no thicker than a diameter; None below all.

    Counting a screw as a thinner one errs on the side of safety. Source: ASME B18.6.1 for the shanks, NDS (AWC)
    appendices for roots and strengths, as recalled.
    """
    known = [screw for screw in tables.screws().values() if screw.root_m and screw.bending_pa]
    return max(
        (screw for screw in known if screw.diameter_m <= diameter_m + GUARD),
        key=lambda screw: screw.diameter_m,
        default=None,
    )

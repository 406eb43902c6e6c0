"""Hardware: like items together, their mass, screws by size, metals against woods.

In: counts, sizes, records. Out: counts, kg, advice in words.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from buildbook.trade import tables
from buildbook.trade.records import Metal, Screw, Species


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


def screw_diameter_m(gauge: float) -> float:
    """Shank diameter of an inch wood screw by its number: D = 0.060 + 0.013 n in. Source: ASME B18.6.1."""
    return tables.constant("screw_base_diameter") + gauge * tables.constant("screw_diameter_step")


def nearest_screw(diameter_m: float, system: str) -> Screw:
    """The screw of a system ("gauge", "mm" or "lag") whose shank is nearest to a diameter: what to ask
    for.
    """
    screws = (screw for screw in tables.screws().values() if screw.system == system)
    return min(screws, key=lambda screw: abs(screw.diameter_m - diameter_m))


def stains(metal: Metal, species: Species) -> str:
    """Why a metal should not touch a wood, as a sentence; empty when it may."""
    if metal.tannin and species.tannin:
        return f"{metal.name} and the tannin of {species.name} turn blue-black where they get damp"
    return ""

"""Glass: area, mass, and whether the place calls for safety glass.

In: sizes in m. Out: m2, kg, advice in words.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from buildbook.trade import tables
from buildbook.trade.mass import mass_kg
from buildbook.trade.records import GlassKind

Place = Literal["door", "beside a door", "top", "shelf", "overhead", "panel", "mirror", "picture", "lamp"]
"""Where glass sits; `panel` is a side, a back or a fixed pane, `picture` the glass over a picture."""

DEFERS = "Local building rules decide: ask the glazier or the local authority which class the place needs."

PLACES: dict[Place, str] = {
    "door": "it is in a door, where a hand or a body meets it",
    "beside a door": "it is beside a door, where a hand or a body meets it",
    "top": "it is a top that people lean and stand things on",
    "shelf": "it is a shelf that carries a load",
    "overhead": "it is over people's heads",
}
"""Places that call for safety glass by themselves. Source: common practice, the building codes of Europe
and the US.
"""


@dataclass(frozen=True)
class GlazingAdvice:
    """Whether a pane should be safety glass, the reasons, whether this one is, and who decides."""

    calls_for_safety: bool
    is_safety: bool
    reasons: tuple[str, ...]
    defers: str = DEFERS

    @property
    def ok(self) -> bool:
        """Nothing to warn of by this rule."""
        return self.is_safety or not self.calls_for_safety


def pane_area_m2(length_m: float, width_m: float) -> float:
    """Area of a rectangular pane."""
    return length_m * width_m


def pane_kg(area_m2: float, thickness_m: float, density: float | None = None) -> float:
    """Mass of a pane: 2.5 kg per m2 and mm for glass (2500 kg/m3, EN 572-1). Tolerances of thickness are
    3 to 8 %.
    """
    return mass_kg(area_m2 * thickness_m, tables.constant("glass_density") if density is None else density)


def calls_for_safety_glazing(
    kind: GlassKind, place: Place, area_m2: float, bottom_above_floor_m: float | None = None
) -> GlazingAdvice:
    """A simple, cautious rule: doors, tops, shelves, overhead; low panes; large panes of which the height is
    not told.

    Source: a common core of building rules in Europe and the US as recalled (heights and area are in the
    table of constants); it never says that a pane is allowed.
    """
    reasons = [PLACES[place]] if place in PLACES else []
    if bottom_above_floor_m is None:
        if area_m2 > tables.constant("safety_large_pane"):
            reasons.append("it is a large pane, and its height above the floor is not told")
    elif bottom_above_floor_m < tables.constant("safety_low_pane"):
        reasons.append("it is low enough to fall against")
    elif bottom_above_floor_m < tables.constant("safety_door_pane") and area_m2 > tables.constant(
        "safety_large_pane"
    ):
        reasons.append("it is a large pane within reach of the body")
    return GlazingAdvice(bool(reasons), kind.safety, tuple(reasons))

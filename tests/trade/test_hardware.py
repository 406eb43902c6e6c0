"""Hardware: like items together, screws by size, metals against woods."""

from __future__ import annotations

import pytest

from buildbook.trade import hardware, tables
from buildbook.trade.hardware import Item

from .reference import INCH


@pytest.mark.parametrize(
    ("gauge", "inches"), [(0, 0.060), (6, 0.138), (8, 0.164), (10, 0.190), (12, 0.216), (20, 0.320)]
)
def test_the_gauge_of_a_wood_screw(gauge: int, inches: float) -> None:
    """ASME B18.6.1: D = 0.060 + 0.013 n in; the printed table has the same."""
    assert hardware.screw_diameter_m(gauge) == pytest.approx(inches * INCH)
    assert tables.screws()[f"#{gauge}"].diameter_m == pytest.approx(inches * INCH)


def test_a_metric_screw_has_a_nearest_gauge() -> None:
    assert hardware.nearest_screw(0.005, "gauge").name == "#10"
    assert hardware.nearest_screw(0.19 * INCH, "mm").name == "5 mm"


def test_like_items_are_put_together() -> None:
    butt, pull = Item("butt hinge", "brass, 50 mm", 2, 0.06), Item("pull", "brass", 1)
    found = hardware.together([butt, pull, Item("butt hinge", "brass, 50 mm", 4, 0.06)])
    assert found == (Item("butt hinge", "brass, 50 mm", 6, 0.06), pull)
    assert found[0].total_kg == pytest.approx(0.36)
    assert found[1].total_kg is None


def test_bare_steel_stains_oak_and_brass_does_not() -> None:
    oak, metals = tables.species()["white-oak"], tables.metals()
    assert hardware.stains(metals["steel"], oak) == (
        "Steel and the tannin of White oak turn blue-black where they get damp"
    )
    assert hardware.stains(metals["brass"], oak) == ""
    assert hardware.stains(metals["steel"], tables.species()["sugar-maple"]) == ""

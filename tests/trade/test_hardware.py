"""Hardware: like items together, screws by size."""

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
    assert inches == pytest.approx(0.060 + 0.013 * gauge)
    assert tables.screws()[f"#{gauge}"].diameter_m == pytest.approx(inches * INCH)


@pytest.mark.parametrize(
    ("diameter_mm", "name"),
    [(3.4, None), (3.5, None), (4, "#6"), (4.5, "#8"), (5, "#10"), (6, "#12"), (8, "#12")],
)
def test_a_screw_counts_in_shear_as_the_stoutest_of_the_table_that_is_no_thicker(diameter_mm, name) -> None:
    found = hardware.screw_in_shear(diameter_mm / 1000)
    assert (found.name if found else None) == name


def test_like_items_are_put_together() -> None:
    butt, pull = Item("butt hinge", "brass, 50 mm", 2, 0.06), Item("pull", "brass", 1)
    found = hardware.together([butt, pull, Item("butt hinge", "brass, 50 mm", 4, 0.06)])
    assert found == (Item("butt hinge", "brass, 50 mm", 6, 0.06), pull)
    assert found[0].total_kg == pytest.approx(0.36)
    assert found[1].total_kg is None

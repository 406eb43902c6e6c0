"""Glass: mass by area and thickness; the rule for safety glass is cautious and defers."""

from __future__ import annotations

import pytest

from buildbook.trade import glass, tables

FLOAT = tables.glass()["float"]
TOUGHENED = tables.glass()["toughened"]


def test_acrylic_weighs_half_of_glass() -> None:
    density = tables.glass()["acrylic"].density_kg_m3
    assert glass.pane_kg(1.0, 0.006, density) == pytest.approx(7.14)
    assert glass.pane_kg(1.0, 0.006) == pytest.approx(15.0)


@pytest.mark.parametrize(
    ("place", "area_m2", "bottom_m", "reasons"),
    [
        ("door", 0.1, 1.0, ("it is in a door, where a hand or a body meets it",)),
        ("panel", 0.2, 0.3, ("it is low enough to fall against",)),
        ("panel", 0.7, 1.0, ("it is a large pane within reach of the body",)),
        ("panel", 0.7, None, ("it is a large pane, and its height above the floor is not told",)),
        ("panel", 0.2, 1.0, ()),
        ("panel", 0.7, 1.6, ()),
        ("panel", 0.2, None, ()),
        (
            "door",
            0.2,
            0.1,
            ("it is in a door, where a hand or a body meets it", "it is low enough to fall against"),
        ),
    ],
)
def test_a_pane_that_can_be_fallen_against_calls_for_safety_glass(place, area_m2, bottom_m, reasons) -> None:
    advice = glass.calls_for_safety_glazing(FLOAT, place, area_m2, bottom_m)
    assert advice.reasons == reasons
    assert advice.calls_for_safety is bool(reasons)
    assert advice.ok is not bool(reasons)
    assert "Local building rules decide" in advice.defers


def test_safety_glass_answers_the_call() -> None:
    advice = glass.calls_for_safety_glazing(TOUGHENED, "door", 0.5, 0.1)
    assert advice.calls_for_safety
    assert advice.ok

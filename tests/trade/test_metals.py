"""A metal is known by the words that name it, whatever is plated over it."""

import pytest

from buildbook.trade.metals import metal_in


@pytest.mark.parametrize(
    ("named", "key", "magnetic", "density"),
    [
        ("nickel-plated steel knob", "nickel-plated-steel", True, 7850),
        ("nickel-plated brass knob", "nickel-plated", False, 8500),
        ("Knopf, Stahl vernickelt", "nickel-plated-steel", True, 7850),
        ("Zinkblech", "zinc", False, 7140),
        ("Griff aus Zinkdruckguss", "zinc-alloy", False, 6700),
        ("chrome plated steel rail", "chrome-plated-steel", True, 7850),
    ],
)
def test_a_plated_steel_is_steel(named, key, magnetic, density):
    metal = metal_in(named)
    assert (metal.key, metal.magnetic, metal.density_kg_m3) == (key, magnetic, density)

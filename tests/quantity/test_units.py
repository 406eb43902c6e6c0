"""The factors behind the units are those of NIST SP 811 (2008), Appendix B.8."""

import pytest

from buildbook.quantity import units
from buildbook.quantity.units import KINDS, LENGTH_UNITS, convert, registry, to_si


@pytest.mark.parametrize(
    ("unit", "metres"),
    [("in", 2.54e-02), ("ft", 3.048e-01), ("yd", 9.144e-01), ("mm", 1e-03), ("cm", 1e-02), ("m", 1.0)],
)
def test_units_of_length_are_exact(unit, metres):
    assert float(LENGTH_UNITS[unit]) == metres


@pytest.mark.parametrize(
    ("source", "target", "factor"),
    [
        ("pound", "kilogram", 4.535924e-01),
        ("ounce", "kilogram", 2.834952e-02),
        ("foot ** 2", "meter ** 2", 9.290304e-02),
        ("gallon", "liter", 3.785412),
        ("quart", "liter", 9.463529e-01),
        ("pound / gallon", "gram / liter", 1.198264e02),
        ("degree", "radian", 1.745329e-02),
        ("fluid_ounce", "milliliter", 2.957353e01),
    ],
)
def test_other_factors(source, target, factor):
    assert convert(1, source, target) == pytest.approx(factor, rel=5e-7)


@pytest.mark.parametrize("pair", units._FACTORS, ids=" to ".join)
def test_what_is_shown_without_loading_pint_is_what_pint_has(pair):
    source, target = pair
    assert convert(7.25, source, target) == pytest.approx(
        registry().Quantity(7.25, source).to(target).magnitude, rel=1e-15
    )


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_every_unit_of_a_kind_has_its_dimension(kind):
    for unit in kind.spellings.values():
        assert isinstance(to_si(1, unit, kind), float)


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_units_are_spelt_as_they_are_looked_up(kind):
    assert [word for word in kind.spellings if word != word.lower() or " " in word] == []

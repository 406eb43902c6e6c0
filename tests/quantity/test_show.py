"""What is shown is rounded as a person rounds, and can be read back to the same length."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.quantity import Style, read_length
from buildbook.quantity.show import NARROW, round_to

METRIC, INCH = Style("mm"), Style("in")


@pytest.mark.parametrize(
    ("metres", "metric", "inch"),
    [
        (0.019, "19 mm", "¾ in"),
        (0.0195, "19.5 mm", "25⁄32 in"),
        (1.2, "1200 mm", "47¼ in"),
        (12.0, "12 000 mm", "472 7⁄16 in"),
        (0.0254, "25.4 mm", "1 in"),
        (0.0333375, "33.3 mm", "1 5⁄16 in"),
        (0.0, "0 mm", "0 in"),
    ],
)
def test_lengths_in_both_systems(metres, metric, inch):
    assert METRIC.length(metres) == metric.replace(" ", NARROW)
    assert INCH.length(metres) == inch.replace(" ", NARROW)
    assert METRIC.length_both(metres) == f"{METRIC.length(metres)} ({INCH.length(metres)})"


@given(st.integers(0, 200_000))
def test_tenths_of_a_millimetre_are_shown_and_read_back(tenths):
    assert read_length(METRIC.length(tenths / 10_000), "in").m == pytest.approx(tenths / 10_000, abs=1e-12)


@given(st.integers(0, 32 * 800))
def test_thirty_seconds_of_an_inch_are_shown_and_read_back(steps):
    metres = steps / 32 * 0.0254
    assert read_length(INCH.length(metres), "mm").m == pytest.approx(metres, abs=1e-12)


@given(st.floats(0, 20), st.sampled_from([METRIC, INCH]))
def test_showing_what_was_read_back_changes_nothing(metres, style):
    shown = style.length(metres)
    assert style.length(read_length(shown, style.units).m) == shown


def test_sizes_leave_out_what_is_not_known():
    assert METRIC.size(1.6, None, 0.78) == f"1600 × 780{NARROW}mm"
    assert INCH.size(None, None) == ""


@pytest.mark.parametrize(
    ("value", "places", "shown"), [(0.5, 0, "1"), (2.675, 2, "2.68"), (1.005, 2, "1.01"), (-0.04, 1, "0.0")]
)
def test_halves_go_up_as_a_person_rounds(value, places, shown):
    assert abs(round_to(value, places)) == Decimal(shown)
    assert METRIC.number(value, places) == shown


@pytest.mark.parametrize(
    ("shown", "expected"),
    [
        (METRIC.small(0.0042), "4.2 mm"),
        (INCH.small(0.0003), "1⁄32 in (0.3 mm)"),
        (INCH.small(0.0042), "5⁄32 in (4.2 mm)"),
        (METRIC.mass(60), "60 kg (132 lb)"),
        (INCH.mass(0.5), "1.1 lb (0.5 kg)"),
        (METRIC.area(2.345), "2.35 m²"),
        (METRIC.spread(24), "24 m²/l"),
        (INCH.spread(24), "978 ft²/US gal (24 m²/l)"),
        (INCH.temperature(20), "68 °F (20 °C)"),
        (METRIC.hours(2.5), "2.5 h"),
        (METRIC.number(-1234.5, 1), "−1234.5"),
        (Style("mm", ",").number(1234.5, 1), "1234,5"),
        (METRIC.money(Decimal("4850")), "€4 850.00"),
        (Style(currency="CHF").money(Decimal("-12.345")), "−12.35 CHF"),
    ],
    ids=str,
)
def test_other_quantities(shown, expected):
    assert shown.replace(NARROW, " ") == expected

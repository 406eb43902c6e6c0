"""What is shown is rounded as a person rounds, and can be read back to the same length."""

import re
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


@pytest.mark.parametrize(
    ("metres", "metric", "inch"),
    [
        (1.2, "1200 mm (47¼ in)", "47¼ in (1200 mm)"),
        (12.0, "12 000 mm (472½ in)", "472 7⁄16 in (12 000 mm)"),
        (0.019, "19 mm (¾ in)", "¾ in (19 mm)"),
        (0.022, "22 mm (⅞ in)", "⅞ in (22 mm)"),  # 22.2: less than 2 % off
        (0.008, "8 mm (5⁄16 in)", "5⁄16 in (8 mm)"),  # ⅜ would be 9.5
        (0.006, "6 mm (¼ in)", "¼ in (6 mm)"),
        (0.003175, "3.2 mm (⅛ in)", "⅛ in (3.2 mm)"),  # 3 would be 5 % off
        (0.0195, "19.5 mm (25⁄32 in)", "25⁄32 in (19.5 mm)"),
        (0.0, "0 mm (0 in)", "0 in (0 mm)"),
    ],
)
def test_in_brackets_stand_eighths_and_whole_millimetres_unless_that_is_too_coarse(metres, metric, inch):
    assert METRIC.length_both(metres) == metric.replace(" (", "(").replace(" ", NARROW).replace("(", " (")
    assert INCH.length_both(metres) == inch.replace(" (", "(").replace(" ", NARROW).replace("(", " (")


@given(st.floats(0.002, 20), st.sampled_from([METRIC, INCH]))
def test_what_stands_in_brackets_is_within_a_fiftieth(metres, style):
    beside = re.search(r"\((.*)\)", style.length_both(metres))[1]
    step = 0.0254 / 64 if style.metric else 0.00005
    assert abs(read_length(beside, "mm").m - metres) <= max(0.02 * metres, step) * (1 + 1e-9)


@pytest.mark.parametrize("units", ["mm", "in"])
def test_no_second_system_at_all_where_the_shop_says_so(units):
    style = Style(units, both=False)
    shown = [
        style.length_both(1.2), style.size_both(1.2, None, 0.4), style.small(0.0042), style.mass(60), style.force(200),
        style.area(2.3), style.litres(0.7), style.can(0.7), style.spread(24), style.temperature(20),
        style.told_in((60, "mm"), (2.375, "in")),
    ]  # fmt: skip
    other = r"\bin\b|lb|ft|fl oz|°F" if units == "mm" else r"mm\b|kg|N\b|m²|°C|\bl\b|\bml\b"
    assert [text for text in shown if "(" in text or re.search(other, text)] == []


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

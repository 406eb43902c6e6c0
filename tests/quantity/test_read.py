"""What makers write becomes the right SI value, exactly; whatever it is not gets one clear sentence."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.quantity import (
    QuantityError,
    read_amount,
    read_count,
    read_length,
    read_number,
    read_quantity,
)
from buildbook.quantity.units import KINDS

INCH = Fraction(254, 10_000)  # metres; exact (NIST SP 811, B.6)
FOOT = 12 * INCH


@pytest.mark.parametrize(
    ("text", "units", "metres"),
    [
        ("3/4", "in", INCH * 3 / 4),
        ('3/4"', "mm", INCH * 3 / 4),
        ("¾", "in", INCH * 3 / 4),
        ("¾″", "mm", INCH * 3 / 4),
        ('1 1/4"', "mm", INCH * 5 / 4),
        ("1-1/4 in", "mm", INCH * 5 / 4),
        ("1 - 1/4", "in", INCH * 5 / 4),
        ("1¼", "in", INCH * 5 / 4),
        ("1 ¼ inches", "mm", INCH * 5 / 4),
        ("5/4", "in", INCH * 5 / 4),
        (".75", "in", INCH * 3 / 4),
        ("19.5 in.", "mm", INCH * Fraction(39, 2)),
        ("7' 3 1/2\"", "mm", 7 * FOOT + INCH * 7 / 2),
        ("7'3½\"", "mm", 7 * FOOT + INCH * 7 / 2),
        ("7'-3 1/2", "in", 7 * FOOT + INCH * 7 / 2),
        ("7 ft 3.5 in", "mm", 7 * FOOT + INCH * 7 / 2),
        ("7’ 3 1⁄2”", "mm", 7 * FOOT + INCH * 7 / 2),
        ("6'", "mm", 6 * FOOT),
        ("6 feet", "mm", 6 * FOOT),
        ("1 1/2 ft", "mm", FOOT * 3 / 2),
        ("19", "mm", Fraction(19, 1000)),
        ("19", "in", INCH * 19),
        ("19mm", "in", Fraction(19, 1000)),
        ("19 MM", "in", Fraction(19, 1000)),
        ("1.2 m", "mm", Fraction(6, 5)),
        ("120 cm", "mm", Fraction(6, 5)),
        ("1\u202f200\u202fmm", "in", Fraction(6, 5)),
        ("\u00a019\u00a0mm ", "in", Fraction(19, 1000)),
        ("0", "mm", Fraction(0)),
    ],
)
def test_a_length_is_read_exactly(text, units, metres):
    length = read_length(text, units)
    assert length.m == float(metres)
    assert length.written == text.strip()


@pytest.mark.parametrize(
    ("text", "units", "metres"),
    [
        ("29,5", "mm", 0.0295),
        ("0,75 in", "mm", 0.01905),
        ("1,2 m", "mm", 1.2),
        ("29.5", "mm", 0.0295),
        ("0.375", "in", 0.375 * 0.0254),
        ("1.375", "in", 1.375 * 0.0254),
        ("1.200 m", "mm", 1.2),
    ],
)
def test_a_decimal_comma_is_read_where_the_table_has_one(text, units, metres):
    assert read_length(text, units, decimal_comma=True).m == pytest.approx(metres, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "units", "said"),
    [
        ("", "mm", "There is no length. Write the length."),
        ("wide", "mm", "“wide” is not a length. Write one such as 19 mm, 3/4 in or 7' 3 1/2\"."),
        ("3/8", "mm", "“3/8” is a fraction without a unit, among millimetres. Write 3/8 in if it is inches."),
        (
            "1 5/4",
            "in",
            "“1 5/4” has a fraction of one or more after a whole number. Write it as one number.",
        ),
        ("1/0", "in", "“1/0” has nothing below the line. Write the fraction again."),
        ("19 mn", "mm", "“19 mn”: “mn” is not a unit of length. Use mm, cm, m, in or ft."),
        ("60 kg", "mm", "“60 kg”: “kg” is not a unit of length. Use mm, cm, m, in or ft."),
        ("-5 mm", "mm", "“-5 mm” is below zero. Write it without the minus sign."),
        (
            "29,5",
            "mm",
            "“29,5” has a comma. Write 29.5 with a point; a decimal comma is read in a table separated by"
            " semicolons.",
        ),
        (
            "1,200",
            "mm",
            "“1,200” has a comma. Write 1200 if it groups thousands, else 1.200 with a point;"
            " a decimal comma is read in a table separated by semicolons.",
        ),
        ("9**9**9 mm", "mm", "“9**9**9 mm” is not a length. Write one such as 19 mm, 3/4 in or 7' 3 1/2\"."),
        ("1" * 30, "mm", f"“{'1' * 30}” is too long for a number. Write it with fewer digits."),
        ("2 " * 40, "mm", f"“{'2 ' * 15}…” is too long for a length. Write only the length here."),
    ],
    ids=lambda value: repr(value)[:24],
)
def test_what_is_no_length_is_told(text, units, said):
    with pytest.raises(QuantityError) as told:
        read_length(text, units)
    assert str(told.value) == said


def test_a_grouped_number_beside_decimal_commas_is_never_guessed():
    with pytest.raises(QuantityError) as told:
        read_length("1.200", "cm", decimal_comma=True)
    assert str(told.value) == "“1.200” may be 1200 or 1,200. Write 1200, or 1,200 with a comma."


def test_a_point_before_three_digits_of_millimetres_groups_them():
    assert read_length("1.290", "mm", decimal_comma=True).m == 1.29
    assert read_length("1.290 mm", "cm", decimal_comma=True).m == 1.29


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("60 kg", "mass", 60),
        ("10 lb", "mass", 4.5359237),  # NIST SP 811, B.8: pound (avoirdupois), exact
        ("1 oz", "mass", 0.028349523125),  # ounce (avoirdupois), exact
        ("68 °F", "temperature", 20),  # B.8: t/°C = (t/°F − 32)/1.8
        ("-4 F", "temperature", -20),
        ("10 C", "temperature", 10),
        ("293.15 K", "temperature", 20),
        ("24 m2/l", "spread", 24),
        ("24 m²/l", "spread", 24),
        # B.8: square foot 0.09290304 m2, exact; US gallon 3.785411784 l, exact
        ("400 ft2/gal", "spread", 400 * 0.09290304 / 3.785411784),
        ("400 sq ft/US gal", "spread", 400 * 0.09290304 / 3.785411784),
        ("100 ft²/qt", "spread", 400 * 0.09290304 / 3.785411784),
        ("350 g/l", "solvent content", 350),
        ("350 kg/m3", "solvent content", 350),
        ("1 lb/gal", "solvent content", 119.8264),  # B.8: pound per gallon (US), to seven figures
        ("5°", "angle", 5),
        ("5 deg", "angle", 5),
        ("1 rad", "angle", 57.29578),  # B.8: degree 1.745329 E-02 rad
        ("0.5 m2", "area", 0.5),
        ("10 sq ft", "area", 0.9290304),
        ("3 weeks", "period", 21),
        ("12 h", "period", 0.5),
    ],
)
def test_a_quantity_is_held_in_its_si_unit(text, kind, value):
    assert read_quantity(text, kind) == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "kind", "said"),
    [
        ("60", "mass", "“60” has no unit. Write one such as 60 kg."),
        (
            "60 mm",
            "mass",
            "“60 mm”: “mm” is not a unit of mass. Use kg, g, lb, oz, t or st.",
        ),
        ("-3 kg", "mass", "“-3 kg” is below nothing. Write one such as 60 kg."),
        ("warm", "temperature", "“warm” is not a temperature. Write one such as 20 degC."),
    ],
)
def test_what_is_no_such_quantity_is_told(text, kind, said):
    with pytest.raises(QuantityError) as told:
        read_quantity(text, kind)
    assert str(told.value) == said


@pytest.mark.parametrize(
    ("text", "count"), [("4", 4), ("4.0", 4), ("4 pcs", 4), ("4 off", 4), ("4x", 4), ("8/2", 4)]
)
def test_counts(text, count):
    assert read_count(text) == count


@pytest.mark.parametrize("text", ["0", "2.5", "1/2", "some", "-1", ""])
def test_what_is_no_count_is_refused(text):
    with pytest.raises(QuantityError):
        read_count(text)


@pytest.mark.parametrize(
    ("text", "comma", "amount"),
    [
        ("4850", False, "4850"),
        ("£ 12.50", False, "12.50"),
        ("12.50 EUR", False, "12.50"),
        ("1,250.00", False, "1250.00"),
        ("1,250", False, "1250"),
        ("12,50", False, "12.50"),
        ("1.250,00", True, "1250.00"),
        ("1.250", True, "1250"),
        ("12.50", True, "12.50"),
        ("1 250,00 €", True, "1250.00"),
        ("1'250.00", False, "1250.00"),
    ],
)
def test_amounts_of_money(text, comma, amount):
    assert read_amount(text, decimal_comma=comma) == Decimal(amount)


@pytest.mark.parametrize("text", ["", "free", "-5", "1.2.3", "1,2,3", "12 per m2"])
def test_what_is_no_amount_is_refused(text):
    with pytest.raises(QuantityError):
        read_amount(text)


TEXT = st.text(
    st.one_of(st.sampled_from("0123456789 ./,-'\"½⅜⁄x×°minftckgl²³−\u202f\u00a0٣①"), st.characters()),
    max_size=40,
)


@given(TEXT, st.booleans(), st.sampled_from(["mm", "in"]))
def test_no_text_raises_anything_but_a_quantity_error(text, comma, units):
    readers = [read_number, read_count, read_amount]
    for read in (
        *(lambda read=read: read(text, decimal_comma=comma) for read in readers),
        lambda: read_length(text, units, decimal_comma=comma),
        *(lambda kind=kind: read_quantity(text, kind, decimal_comma=comma) for kind in KINDS),
    ):
        told = _told(read)
        assert told is None or told.message


def _told(read):
    """The `QuantityError` of a reading, None when it went well; another exception is let through."""
    try:
        read()
    except QuantityError as error:
        return error
    return None


@st.composite
def spellings(draw):
    """A length in thirty-seconds of an inch, and one of the ways to write it."""
    steps = draw(st.integers(1, 32 * 120))
    inches = Fraction(steps, 32)
    feet, rest = divmod(inches, 12)
    ways = [
        _mixed(inches, sep) + mark
        for sep in (" ", "-", " - ", "\u00a0")
        for mark in ('"', " in", "″", " inches")
    ]
    if feet:
        ways += [
            f"{feet}{foot}{_mixed(rest, ' ')}{mark}"
            for foot in ("' ", "'", " ft ")
            for mark in ('"', " in", "")
        ]
    return inches, draw(st.sampled_from(ways))


def _mixed(inches, between):
    whole, rest = divmod(inches, 1)
    if not rest:
        return str(whole)
    fraction = f"{rest.numerator}/{rest.denominator}"
    return f"{whole}{between}{fraction}" if whole else fraction


@given(spellings())
def test_every_spelling_of_a_length_is_the_same_length(spelt):
    inches, text = spelt
    assert read_length(text, "mm").m == float(inches * INCH)

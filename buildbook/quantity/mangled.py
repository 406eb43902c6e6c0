"""Spreadsheets turn `3/8` into 8 March. This finds such dates and names the fraction that was probably meant.

The forms are those that spreadsheet programs write in several languages: `8-Mar`, `Mar-08`, `03/08/26`,
`08.03.2026`, `2026-03-08`, and the bare day number `46089`.
"""

from __future__ import annotations

import re
from datetime import date, timedelta
from fractions import Fraction

_MONTHS = {
    name: number
    for number, names in enumerate(
        (
            "jan january januar jänner jän janv janvier ene enero gen gennaio",
            "feb february februar févr fevr février febrero feb febbraio",
            "mar march mär mrz märz maerz mars marzo",
            "apr april avr avril abr abril aprile",
            "may mai mayo mag maggio",
            "jun june juni juin junio giu giugno",
            "jul july juli juil juillet julio lug luglio",
            "aug august août aout ago agosto",
            "sep sept september septembre septiembre set settembre",
            "oct october okt oktober octobre octubre ott ottobre",
            "nov november novembre noviembre",
            "dec december dez dezember déc décembre dic diciembre dicembre",
        ),
        1,
    )
    for name in names.split()
}
_LARGEST_BELOW_THE_LINE = 64  # makers' rules are divided in halves down to 1/64 in
_DAY_NUMBERS = range(43_000, 60_001)  # September 2017 to April 2064
_DAY_ZERO = date(1899, 12, 30)  # what spreadsheets count days from

_NUMERIC = re.compile(r"^\s*(\d{1,4})([./-])(\d{1,2})\2(\d{1,4})\.?(?:[ T]\d{1,2}:\d{2}(?::\d{2})?)?\s*$")
_DAY_NAME = re.compile(r"^\s*(\d{1,2})[.\s/-]*([^\W\d_]{3,10})\.?(?:[\s/-]+\d{2,4})?\s*$")
_NAME_DAY = re.compile(r"^\s*([^\W\d_]{3,10})\.?[\s/-]+(\d{1,2})(?:[,\s/-]+\d{2,4})?\s*$")


def day_and_month(text: str) -> tuple[int, int] | None:
    """The two numbers that a spreadsheet took for day and month, in the order written; None if this is no
    date.
    """
    if match := _NUMERIC.match(text):
        first, _, second, third = match.groups()
        if len(first) == 4:  # year first
            return int(second), int(third)
        return int(first), int(second)
    if (match := _DAY_NAME.match(text)) and match[2].casefold() in _MONTHS:
        return int(match[1]), _MONTHS[match[2].casefold()]
    if (match := _NAME_DAY.match(text)) and match[1].casefold() in _MONTHS:
        return _MONTHS[match[1].casefold()], int(match[2])
    return None


def month_of(word: str) -> int | None:
    """The number of a month by its name, whole or short, in the languages of spreadsheets; None for another word."""
    return _MONTHS.get(word.casefold().rstrip("."))


def day_number(text: str) -> date | None:
    """The date behind a bare whole number that spreadsheets use for days, 43,000 to 60,000; None
    otherwise.
    """
    if not re.fullmatch(r"\s*\d{5}\s*", text) or int(text) not in _DAY_NUMBERS:
        return None
    return _DAY_ZERO + timedelta(days=int(text))


def fractions_behind(first: int, second: int) -> list[str]:
    """The fractions that a maker could have written, likeliest first: a power of two below the line, at most
    64.

    Lowest terms come first, then quarters from 4/4 up (stock thicknesses), then the rest.
    """
    found = []
    for over, under in ((first, second), (second, first)):
        power_of_two = under > 1 and under <= _LARGEST_BELOW_THE_LINE and under & (under - 1) == 0
        if power_of_two and over > 0 and (over, under) not in found:
            found.append((over, under))
    return [
        f"{over}/{under}"
        for over, under in sorted(
            found,
            key=lambda f: (
                Fraction(*f).denominator != f[1],
                not (f[1] == 4 and f[0] >= 4),
            ),
        )
    ]


def explain(text: str) -> tuple[str, str] | None:
    """Message and hint for a cell that holds a date where a length should be; None if it holds none."""
    if numbers := day_and_month(text):
        likely = fractions_behind(*numbers)
        if not likely:
            return f"“{text}” is a date.", "Write the length again and format the column as text."
        what = " or ".join(likely)
        return (
            f"“{text}” is a date. A spreadsheet probably turned {what} into it:",
            f"write {likely[0]} in, or format the column as text.",
        )
    if day := day_number(text):
        likely = fractions_behind(day.month, day.day)
        fraction = f" and was probably typed as {' or '.join(likely)}" if likely else ""
        return (
            f"“{text}” is either a very long length or the day number of {day.isoformat()}"
            f" in a spreadsheet{fraction}.",
            f"Write {likely[0] if likely else 'the length'} in again as text, or add the unit: {text} mm.",
        )
    return None

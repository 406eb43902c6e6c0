"""New sizes in the files of a new job: each as the cell wrote the old one, in its unit and with its decimal mark.

In: a cell, a length in metres. Out: the cell's new text, which reads as that length.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from buildbook.job.table.shoulders import bare_length
from buildbook.quantity import QuantityError, read_length

_FIGURE = re.compile(
    r"(?P<before>.*?)(?P<figure>\d(?:[\d.,]|[\s-]+(?=\d+\s*[/⁄])|\s*[/⁄]\s*(?=\d))*\s*[½⅓⅔¼¾⅛⅜⅝⅞]?|[½⅓⅔¼¾⅛⅜⅝⅞])"
    r"(?P<after>\D*)",
    re.S,
)
_UNITS = ((r"mm\b", "mm"), (r"cm\b", "cm"), (r"m\b", "m"), (r"(?:in\b|inch|zoll|[\"″”])", "in"))
_METRES: Mapping[str, Fraction] = {
    "mm": Fraction(1, 1000),
    "cm": Fraction(1, 100),
    "m": Fraction(1),
    "in": Fraction(254, 10000),
}
_SAME_M = 1e-7  # what is written reads as the size within it
_FINEST = 64  # of an inch, as rules are divided
_PLACES = 4  # decimals that a size may need in its unit; of metres three more


@dataclass(frozen=True)
class NewSizes:
    """What a new job has of another size than the past one. Lengths in metres.

    overall  by the size of the piece. parts: by row of the past job's parts file and column. emptied: rows whose mass
             was of the old size. files: more files of the new job, by name.
    """

    overall: Mapping[str, float] = field(default_factory=dict)
    parts: Mapping[tuple[int, str], float] = field(default_factory=dict)
    emptied: frozenset[int] = frozenset()
    files: Mapping[str, str] = field(default_factory=dict)


def in_cell(cell: str, m: float, unit: str, *, decimal_comma: bool) -> str:
    """A cell with its length changed: `1 1/4 in` to `2 1/2 in`, `1200 between shoulders` to `1400 between …`. `unit`
    is that of a bare number.
    """
    match = _FIGURE.fullmatch(cell)
    if match:
        own = next((name for sign, name in _UNITS if re.match(rf"\s*{sign}", match["after"], re.I)), unit)
        said = f"{match['before']}{figure(m, own, decimal_comma)}{_gap(match)}{match['after']}"
        if _reads(said, unit, decimal_comma) == _near(m):
            return said
    own = unit if unit in _METRES else "mm"
    said = figure(m, own, decimal_comma)
    return said if _reads(said, unit, decimal_comma) == _near(m) else f"{said} {own}"


def length_in(cell: str, unit: str, *, decimal_comma: bool) -> float | None:
    """The length that a cell says, in metres, whatever it is taken between; None where it says none."""
    try:
        return read_length(bare_length(cell), unit, decimal_comma=decimal_comma).m
    except QuantityError:
        return None


def _gap(match: re.Match[str]) -> str:
    """The blank that the figure ended with, before what stands after it."""
    figure = match["figure"]
    return figure[len(figure.rstrip()) :]


def _near(m: float | None) -> int | None:
    return None if m is None else round(m / _SAME_M)


def _reads(text: str, unit: str, decimal_comma: bool) -> int | None:
    return _near(length_in(text, unit, decimal_comma=decimal_comma))


def figure(m: float, unit: str, decimal_comma: bool = False) -> str:
    """A length as a figure in a unit: inches as whole and fraction where a rule has it, else with decimals."""
    exact = Fraction(m).limit_denominator(10**9) / _METRES[unit]
    if unit == "in":
        steps = round(exact * _FINEST)
        if abs(float(exact) - steps / _FINEST) * float(_METRES["in"]) <= _SAME_M:
            whole, rest = divmod(Fraction(steps, _FINEST), 1)
            return f"{whole or ''} {rest}".strip() if rest else str(whole)
    places = _PLACES + (3 if unit == "m" else 0)
    text = f"{float(exact):.{places}f}".rstrip("0").rstrip(".")
    return text.replace(".", ",") if decimal_comma else text

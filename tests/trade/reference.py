"""Reference figures for the tests, and conversion factors that owe nothing to the package.

Factors: NIST SP 811 (2008), Appendix B; those of inch, pound and gravity are exact by definition.
"""

from __future__ import annotations

import csv
from pathlib import Path

FOLDER = Path(__file__).parents[1] / "data" / "reference"

INCH = 0.0254
FOOT = 12 * INCH
MIL = INCH / 1000
MM = 1 / 1000
POUND = 0.45359237
GRAVITY = 9.80665
POUND_FORCE = POUND * GRAVITY
PSI = POUND_FORCE / INCH**2
US_GALLON_L = 231 * (INCH * 10) ** 3
BOARD_FOOT_M3 = 144 * INCH**3


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9


def rows(name: str) -> list[dict[str, str]]:
    """The rows of a reference table; lines that start with a hash are comments."""
    lines = (FOLDER / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("# ")))

"""Between a maker's text and an SI value, and back.

read.py     text -> value in SI, exactly, with the dimension checked
beside.py   words that makers write beside a figure (data/written.toml)
counts.py   counts in words; price.py: prices with what they are for (data/per.csv)
mangled.py  what a spreadsheet makes of a fraction, and which fraction it was
units.py    the one pint registry, and the spellings of units that makers use
figures.py  floats as they are written down, without noise
show.py     value -> text, rounded, in the shop's units with the other system beside it

The maker's text never reaches pint whole: it misreads `1 1/4"`, `7' 3 1/2"` and `19,5 mm` without an error.
Number and unit are parsed here, then the pair is converted.
"""

from buildbook.quantity.faults import QuantityError
from buildbook.quantity.read import (
    Length,
    read_amount,
    read_count,
    read_length,
    read_mass,
    read_number,
    read_quantity,
)
from buildbook.quantity.show import Style

__all__ = [
    "Length",
    "QuantityError",
    "Style",
    "read_amount",
    "read_count",
    "read_length",
    "read_mass",
    "read_number",
    "read_quantity",
]

"""How much of a thing was bought where it is not counted: `1 bottle`, `0,375 l`, `1,8 m`, `1 box of 100`.

In: a row and the kind of its part. Out: a `BoughtAs`: how many there are, and what its price is for. A measure is one
thing, whose price is that of all of it; a tin or a roll is counted as it stands; a box of a hundred is a hundred.
"""

from __future__ import annotations

import re
from decimal import Decimal
from typing import NamedTuple

from buildbook.job.table.sheet import Row
from buildbook.quantity import QuantityError, read_number
from buildbook.quantity.beside import bare_word, words_of
from buildbook.quantity.price import Unit, WrittenPrice, read_unit

_SAID = re.compile(r"(?P<number>\d+(?:[.,]\d+)?|[¼½¾])\s*(?P<word>[^\W\d_]+\.?[²2]?)")
_PACK = re.compile(
    r"(?P<packs>\d{1,4})\s*(?P<word>[^\W\d_]+)\s+(?:of|à|a|mit|je|zu)\s+(?P<each>\d{1,5})", re.IGNORECASE
)
_MEASURES = ("m", "m2", "l", "kg")
_NOT_COUNTED = ("supply", "upholstery")


class BoughtAs(NamedTuple):
    """pieces: how many things. unit, measure: so much of a unit that prices are for. word: of what it was bought in."""

    pieces: int
    word: str = ""
    unit: str = ""
    measure: Decimal = Decimal(1)

    def price(self, whole: WrittenPrice, unit: Unit | None) -> tuple[Decimal, Unit] | None:
        """What the price of a row is for one of `pieces`, where the way in which it was bought says so; else None."""
        if self.unit and unit is not None and unit.per == self.unit:
            return whole.amount * self.measure, Unit("each", unit.of)
        if self.word and unit is None:
            return whole.amount, Unit("each", Decimal(1) if self.unit else self.measure)
        return None


def is_in_a_pack(text: str) -> bool:
    """Whether a quantity is that of a box, a tin or a roll, of which nobody knows how much it holds."""
    found = _SAID.fullmatch(text.strip())
    return found is not None and _is_pack(found["word"])


def read_bought(row: Row, kind: str) -> BoughtAs | None:
    """How much was bought; None where it is counted like anything else."""
    text = row.text("qty").strip()
    if pack := _PACK.fullmatch(text):
        return BoughtAs(int(pack["packs"]) * int(pack["each"]), pack["word"], "", Decimal(pack["each"]))
    found = _SAID.fullmatch(text)
    if found is None or kind not in _NOT_COUNTED:
        return None
    number = read_number(found["number"], decimal_comma="," in found["number"])
    if _is_pack(found["word"]):
        return BoughtAs(max(1, int(number)), found["word"])
    try:
        unit = read_unit(found["word"])
    except QuantityError:
        return None
    if unit.per not in _MEASURES:
        return None
    return BoughtAs(1, found["word"], unit.per, Decimal(str(number)) * unit.of)


def _is_pack(word: str) -> bool:
    return bare_word(word) in words_of("holds.words")


def singular(word: str) -> str:
    """A word of a pack without what many of it end in: bags, boxes, Rollen."""
    return re.sub(r"(?:es|s|en|n)$", "", bare_word(word))

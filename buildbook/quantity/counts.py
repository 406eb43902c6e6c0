"""Counts as makers write them in words: `2 pairs`, `1 dozen`, `2 packs of 10`, `1 left, 1 right`, `two`.

In: a text that is no plain number. Out: how many there are. QuantityError where it does not say.
"""

from __future__ import annotations

import re

from buildbook.quantity.beside import bare_word, is_about, numbered, words_of
from buildbook.quantity.faults import QuantityError

_BRACKET = re.compile(r"\s*\([^\d()]*\)")
_BETWEEN = re.compile(r"\s*(?:[,+&]|\band\b|\bund\b)\s*", re.IGNORECASE)
_ITEM = re.compile(r"(?:(?P<word>[^\W\d_]+\.?|[x×])\s*)?(?P<number>\d{1,6})?\s*(?P<after>[^\d]*)")
_PACKS = re.compile(
    r"(?P<packs>\d{1,4})\s*(?P<word>[^\W\d_]+)\s+(?:of|à|a|mit|je|zu)\s+(?P<each>\d{1,5})", re.IGNORECASE
)


def count_in_words(text: str) -> int:
    """How many things a text names. QuantityError for a number that is only about, a pack that does not say how many it
    holds, and what is no count.
    """
    said = " ".join(text.split())
    if is_about(said):
        raise QuantityError(f"“{said}” is only about a number.", "Write how many there are.")
    if packs := _PACKS.fullmatch(said):
        return int(packs["packs"]) * int(packs["each"])
    return sum(_item(item, said) for item in _BETWEEN.split(_BRACKET.sub("", said)))


_BEFORE = frozenset(("", "x", "×", "je", "qty", "quantity", "anzahl", "menge"))
"""What may stand before a number and changes nothing."""


def _item(item: str, said: str) -> int:
    found = _ITEM.fullmatch(item)
    before = bare_word(found["word"] or "") if found else ""
    after = bare_word(found["after"]) if found else ""
    number = int(found["number"]) if found and found["number"] else None
    if found and not found["number"] and " " in item.strip():  # a pair of them in words: two pairs
        before, _, after = bare_word(item).partition(" ")
    if after in words_of("holds.words") or before in words_of("holds.words"):
        raise QuantityError(f"“{said}” does not say how many there are.", "Write how many pieces: 50.")
    counted = numbered("counted")
    if number is None:
        number = numbered("numbers").get(before)
        if number is None and before in counted and not after:
            return counted[before]
    elif before not in _BEFORE:
        number = None
    if number is None or (after and after not in counted):
        raise QuantityError(f"“{said}” is not a count.", "Write a whole number such as 4.")
    return number * counted.get(after, 1)

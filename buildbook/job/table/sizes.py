"""Thicknesses as timber is bought: `8/4`, `8/4 rough`, `eight quarter`, `27 mm sägerau`, `52er Bohle`."""

from __future__ import annotations

import re

from buildbook.quantity import Length, QuantityError, read_length
from buildbook.quantity.beside import bare_word, numbered, without_words, words_of

_QUARTERS = re.compile(r"\d{1,2}\s*[/⁄]\s*\d{1,2}")
_IN_WORDS = re.compile(r"(?P<number>\d{1,2}|[^\W\d_]+)[\s-]+quarters?", re.IGNORECASE)
_MILLIMETRES = re.compile(r"(?P<mm>\d{1,3})er", re.IGNORECASE)  # as a German yard names its boards
_BESIDE = ("stock", "size")


def _without_first(text: str) -> str:
    """A thickness without a word of the yard before it: `rough 8/4`, `ex 27`."""
    first, _, rest = text.partition(" ")
    return rest if rest[:1].isdigit() and bare_word(first) in words_of(_BESIDE[0]) else text


def read_stock(text: str, units: str, *, decimal_comma: bool = False) -> Length:
    """A thickness as timber is bought: quarters of an inch (`5/4`) in any shop, or a length, with the words of a yard
    beside it. QuantityError if neither.
    """
    bare = _without_first(without_words(" ".join(text.split()), *_BESIDE))
    if in_words := _IN_WORDS.fullmatch(bare):
        said = in_words["number"].casefold()
        number = int(said) if said.isdigit() else numbered("numbers").get(said)
        if number is None:
            raise QuantityError(
                f"“{text.strip()}” is not a thickness of stock.", "Write such as 8/4 or 27 mm."
            )
        bare = f"{number}/4"
    if metric := _MILLIMETRES.fullmatch(bare):
        bare = f"{metric['mm']} mm"
    default = "in" if _QUARTERS.fullmatch(bare) else units
    read = read_length(bare, default, decimal_comma=decimal_comma, beside=_BESIDE)
    return Length(read.m, text.strip())

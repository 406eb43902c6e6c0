"""Thicknesses as timber is bought: `8/4`, `8/4 rough`, `eight quarter`, `27 mm sägerau`, `52er Bohle`."""

from __future__ import annotations

import re

from buildbook.quantity import Length, QuantityError, read_length
from buildbook.quantity.beside import bare_word, numbered, without_words, words_of

_QUARTERS = re.compile(r"\d{1,2}\s*[/⁄]\s*\d{1,2}")
_IN_WORDS = re.compile(r"(?P<number>\d{1,2}|[^\W\d_]+)[\s-]+quarters?", re.IGNORECASE)
_MILLIMETRES = re.compile(r"(?P<mm>\d{1,3})er", re.IGNORECASE)  # as a German yard names its boards
_BESIDE = ("stock", "size")
_LAYERS = re.compile(r"(?P<layers>[2-9]|[1-9]\d)\s*[x×*]\s*(?P<one>\S.*)", re.IGNORECASE | re.DOTALL)
_BARE_INCHES = re.compile(r"\d+")  # `2 x 4` names a size of lumber, no layers


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


def read_layers(text: str, units: str, *, decimal_comma: bool = False) -> tuple[int, Length]:
    """The stock of a part that may be glued up: `3 x 35 mm` is three layers, `35 mm` is one. QuantityError as for
    `read_stock`.
    """
    match = _LAYERS.fullmatch(text.strip())
    if match is None or (units == "in" and _BARE_INCHES.fullmatch(match["one"].strip())):
        return 1, read_stock(text, units, decimal_comma=decimal_comma)
    return int(match["layers"]), read_stock(match["one"], units, decimal_comma=decimal_comma)

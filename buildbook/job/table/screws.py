"""Screws as makers write them: `#10`, `No. 8 x 1 1/4`, `M6 x 30`, `5x60 TX25`.

In: a text, the unit of a bare number. Out: the diameter and, where it says one, the length.
"""

from __future__ import annotations

import re

from buildbook.quantity.faults import QuantityError
from buildbook.quantity.read import Length, read_length
from buildbook.trade import tables

_GAUGE = re.compile(
    r"(?:#\s*|n[or]\.?\s*)(?P<before>\d{1,2})|(?P<after>\d{1,2})\s*(?:ga?\.?|gauge)", re.IGNORECASE
)
_METRIC = re.compile(r"m\s?(?P<mm>\d{1,2}(?:[.,]\d)?)", re.IGNORECASE)
_DIAMETER = re.compile(r"\s*(?:[øØ⌀∅]|dia\.?|d)\s*(?=\d)", re.IGNORECASE)
_TIMES = re.compile(r"\s*[x×]\s*", re.IGNORECASE)
_DRIVE = re.compile(r"\s+(?:tx|t|torx|pz|ph|sw)\s?-?\d{1,2}\s*$", re.IGNORECASE)


def is_screw(text: str) -> bool:
    """Whether a text is a diameter by its number, or a diameter and a length."""
    first, *more = _TIMES.split(_DRIVE.sub("", text.strip()))
    named = bool(_GAUGE.fullmatch(first) or _METRIC.fullmatch(first))
    return named or (len(more) == 1 and first[:1].isdigit())


def read_diameter(text: str, default: str, *, decimal_comma: bool = False) -> Length:
    """The diameter of a screw. QuantityError for a number that no screw has."""
    plain = _DIAMETER.sub("", text.strip(), count=1)
    if gauge := _GAUGE.fullmatch(plain):
        number = int(gauge["before"] or gauge["after"])
        screw = tables.screws().get(f"#{number}")
        if screw is None:
            raise QuantityError(
                f"“{text.strip()}” is not the gauge of a screw.", "Write its diameter, such as 5 mm."
            )
        return Length(screw.diameter_m, text.strip())
    if metric := _METRIC.fullmatch(plain):
        return read_length(f"{metric['mm'].replace(',', '.')} mm", "mm")
    return read_length(plain, default, decimal_comma=decimal_comma)


def read_screw(text: str, default: str, *, decimal_comma: bool = False) -> tuple[Length, Length | None]:
    """Diameter and length of a screw; no length where it says none."""
    first, *more = _TIMES.split(_DRIVE.sub("", text.strip()))
    across = read_diameter(first, default, decimal_comma=decimal_comma)
    if not more:
        return across, None
    if len(more) > 1:
        raise QuantityError(f"“{text.strip()}” is not diameter x length.", "Write such as 5 x 60.")
    return across, read_length(more[0], default, decimal_comma=decimal_comma)

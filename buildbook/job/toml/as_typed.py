"""Values of job.toml as makers of another language than English type them: decimal commas, words for a choice."""

from __future__ import annotations

import csv
import re
from functools import cache
from importlib import resources
from typing import Any

from buildbook.folding import folded
from buildbook.job.text import shown
from buildbook.job.toml.key import Key
from buildbook.quantity import QuantityError, read_length

QUANTITIES = frozenset(
    (
        "length",
        "diameter",
        "stock",
        "boards",
        "loads",
        "sums",
        "mass",
        "temperature",
        "spread",
        "solvent",
        "angle",
        "days",
        "number",
        "percent",
        "count",
    )
)
_WITH_COMMA = re.compile(r"(?<=\d),(?=\d)")
_WITH_POINT = re.compile(
    r"(?<![\d.,])[1-9]\d{0,2}\.\d{3}(?:,\d+)?(?![\d.,])(?=\s*(?:mm|cm)?\s*$)", re.IGNORECASE
)


def with_points(value: Any, key: Key, units: str) -> Any:
    """A quantity in words with points for its decimal commas. QuantityError for a point that may group thousands."""
    if key.reads not in QUANTITIES:
        return value
    if isinstance(value, list):
        return [with_points(one, key, units) for one in value]
    if not isinstance(value, str):
        return value
    if key.reads == "length" and (found := _WITH_POINT.search(value)):
        read_length(value, units, decimal_comma=True)  # tells what the two readings are
        whole = found[0].replace(".", "")
        raise QuantityError(f"{shown(value)} groups thousands with a point.", f"Write {whole}.")
    return _WITH_COMMA.sub(".", value)


@cache
def also(key: str) -> dict[str, str]:
    """Words of other languages for what a key takes."""
    text = resources.files("buildbook.job").joinpath("data/choice_words.csv").read_text("utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {
        folded(word.strip()): row["choice"]
        for row in rows
        if row["key"] == key
        for word in row["also"].split(";")
    }


_LEADING = re.compile(
    r"(?:(?:on|at|by|in|near|next|to|the|a|an|am|auf|an|beim|bei|dem|der|die|das|im|einem|einer)\s+)+"
)


def chosen(text: str, key: Key) -> str | None:
    """The choice of a key that a word means, in any language, hyphened or with an article; None for none."""
    known = also(key.name) | {folded(choice): choice for choice in key.choices}
    said = folded(text)
    plain = " ".join(said.replace("-", " ").split()).strip(" .")
    return known.get(said) or known.get(plain) or known.get(_LEADING.sub("", plain))


def units_said(value: Any, key: Key, usual: str) -> str:
    """The unit of bare numbers that a file says, before its other keys are read; the usual one where it says none."""
    return (chosen(value, key) if isinstance(value, str) else None) or usual


YES_NO = dict.fromkeys(("yes", "y", "true", "on", "ja", "j", "wahr"), True) | dict.fromkeys(
    ("no", "n", "false", "off", "none", "nein", "falsch", "keine"), False
)
"""Words for true and false."""

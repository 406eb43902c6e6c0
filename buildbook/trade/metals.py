"""Which metal a piece of hardware is made of, by the words that name it. Imports `tables` and `records`."""

from __future__ import annotations

import re

from buildbook.trade import tables
from buildbook.trade.records import Metal


def metal_in(text: str) -> Metal | None:
    """The metal with the longest name that stands in a text as whole words; None when none does."""
    said = text.casefold().replace("-", " ")
    named = [
        (len(name), metal)
        for metal in tables.metals()
        for name in (metal.name, *metal.aliases)
        if re.search(rf"\b{re.escape(name.casefold().replace('-', ' '))}\b", said)
    ]
    return max(named, key=lambda pair: pair[0])[1] if named else None

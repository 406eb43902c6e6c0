"""Which metal a piece of hardware is made of, by the words that name it."""

from __future__ import annotations

import re

from buildbook.trade import tables
from buildbook.trade.records import Metal

_ANY = ("metal", "Metall")  # says nothing of which one
_BEGINS_A_WORD = 5  # letters of a name that may be the beginning of a longer word


def metal_in(text: str) -> Metal | None:
    """The metal with the longest name that stands in a text as whole words; None when none does.

    A name may begin a longer word, as the German `Messingknopf` does, unless it is too short to be safe.
    """
    said = text.casefold().replace("-", " ")
    named = [
        (len(name), metal)
        for metal in tables.metals()
        for name in (metal.name, *metal.aliases, *(name for name in metal.taken_for if name not in _ANY))
        if re.search(_named(name.casefold().replace("-", " ")), said)
    ]
    return max(named, key=lambda pair: pair[0])[1] if named else None


def _named(name: str) -> str:
    end = r"\b" if len(name) < _BEGINS_A_WORD else ""
    return rf"\b{re.escape(name)}{end}"

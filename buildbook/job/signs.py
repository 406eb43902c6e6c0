"""Signs that are none: controls, halves of pairs, and what Unicode keeps for itself. No page, calendar or print has a
place for them (XML 1.0, 2.2; RFC 5545, 3.1), wherever a maker's file had them from.
"""

from __future__ import annotations

import re

NO_SIGN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff"
    + "".join(f"{chr(plane + 0xFFFE)}{chr(plane + 0xFFFF)}" for plane in range(0x10000, 0x110000, 0x10000))
    + "]"
)
"""Controls but tab and line breaks (Unicode category Cc), surrogates, and the 66 noncharacters (Unicode, 23.7)."""

_BREAKS = re.compile("\r\n|[\r\x85\u2028\u2029]")


def lines(text: str) -> str:
    """The text with every break of a line written as one is here."""
    return _BREAKS.sub("\n", text)


def line(text: str) -> str:
    """The text on one line: what names a thing has no breaks."""
    return " ".join(part for part in map(str.strip, lines(text).split("\n")) if part)


def shown_signs(text: str) -> str:
    """The text with a mark in the place of each sign that is none."""
    return NO_SIGN.sub("\ufffd", text)

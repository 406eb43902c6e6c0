"""One way to compare what was typed: a maker who writes `Bog  Yew` and `bog yew` means one wood.

Names of the trade are looked up more loosely (`trade.lookup`: word order, hyphens), and words that are searched looser
still (`find.tokens`: accents, the plural s). Imports nothing of the package.
"""

from __future__ import annotations

import unicodedata


def folded(text: str) -> str:
    """The text without what makes no difference: capitals, blanks around and between, how an accent is put together.
    Source: caseless matching of the Unicode standard, section 3.13.
    """
    return " ".join(unicodedata.normalize("NFC", unicodedata.normalize("NFC", text).casefold()).split())

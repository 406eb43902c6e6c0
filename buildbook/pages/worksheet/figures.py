"""What the tables of a worksheet share: sentences of the reckoning, volumes as the shop buys them."""

from __future__ import annotations

from collections.abc import Iterable

from buildbook.estimate.model import Said
from buildbook.estimate.wording import sentence
from buildbook.pages.phrases import Phrases
from buildbook.quantity import Style
from buildbook.quantity.units import convert


def sentences(said: Iterable[Said], phrases: Phrases) -> str:
    """What the reckoning says, in the language of the shop."""
    return " ".join(sentence(one, phrases.words) for one in said)


def volume(m3: float, style: Style) -> str:
    """Rough stock as the shop buys it: cubic metres, or board feet."""
    return style.volume(m3) if style.metric else style.board_feet(convert(m3, "meter ** 3", "board_foot"))

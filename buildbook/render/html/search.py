"""What the page of past work searches with. Private: nothing of it leaves the shop.

In: `Index`, `Words`. Out: text of `search.js`, the index with all that is needed to ask it; and the scripts that do the
asking, as they are in data/.
"""

from __future__ import annotations

from importlib import resources
from typing import Any

from buildbook.find.index import Index
from buildbook.find.lexicon import for_asking
from buildbook.find.packing import SIGNS, pack
from buildbook.find.scripts import index_as_script
from buildbook.find.settings import settings
from buildbook.find.tokens import language, pattern
from buildbook.words import Words

SCRIPTS = ("pictures.js", "find.js", "search-page.js")
"""What shows the pictures near the window, what asks the index, and what shows the answers."""

_RANGES = ("hours", "size")


_PLACES = {name: f"{{{name}}}" for name in ("day", "month", "year")}
"""Of a day in figures, left for the page to fill."""


def index_script(index: Index, words: Words, units: str) -> str:
    """The index with the tables and figures that asking rests on, and the words of the page."""
    packed = pack(index)
    facts = {
        **packed,
        "facets": [
            facet
            | {"label": words.text(f"find.facet.{facet['name']}"), "values": _labelled(facet, words, units)}
            for facet in packed["facets"]
        ],
        "ranking": settings().for_asking(),
        "lexicon": for_asking(),
        "language": language() | {"pattern": pattern(), "signs": SIGNS},
        "words": _plain(words.section("find")) | {"short_day": words.text("dates.short", **_PLACES)},
    }
    return index_as_script(facts)


def script(name: str) -> str:
    """One of `SCRIPTS`."""
    return resources.files("buildbook.render").joinpath("data", name).read_text("utf-8")


def _labelled(facet: dict[str, Any], words: Words, units: str) -> list[list[str]]:
    """Each value with what the page calls it."""
    return [[name, range_label(facet["name"], name, words, units), jobs] for name, jobs in facet["values"]]


def range_label(facet: str, value: str, words: Words, units: str) -> str:
    """`10-25` of hours as `10 to 25 h`; what is no range as it is."""
    if facet not in _RANGES:
        return value
    low, _, high = value.partition("-")
    unit = "h" if facet == "hours" else units
    kind = "between" if low and high else "over" if low else "up_to"
    return words.text(f"find.range.{kind}", low=low, high=high, unit=unit)


def _plain(section: Any) -> dict[str, Any]:
    return {name: value if isinstance(value, str) else _plain(value) for name, value in section.items()}

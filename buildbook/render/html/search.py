"""The index of past work as scripts that a page can load without a server. Private: nothing of it leaves the shop.

In: `Index`, `Excerpt`s, `Words`. Out: text of `search.js` (the index, with all that is needed to ask it)
and of a job's
`words.js` (its words, for passages and phrases); and the scripts that do the asking, as they are in data/.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from importlib import resources
from typing import Any

from buildbook.find.index import Index
from buildbook.find.model import Excerpt
from buildbook.find.packing import SIGNS, pack
from buildbook.find.settings import settings
from buildbook.find.tokens import language, pattern
from buildbook.left.codec import read_as
from buildbook.words import Words

INDEX = "search.js"
WORDS = "words.js"
SCRIPTS = ("pictures.js", "find.js", "search-page.js")
"""What shows the pictures near the window, what asks the index, and what shows the answers."""

_STARTS = "var buildbookIndex = "
_HANDS_OVER, _HANDED = "buildbookWords(", ");\n"
_RANGES = ("hours", "size")


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
        "language": language() | {"pattern": pattern(), "signs": SIGNS},
        "words": _plain(words.section("find")),
    }
    return f"{_STARTS}{_json(facts)};\n"


def read_index(script: str) -> dict[str, Any]:
    """What `index_script` wrote, to be unpacked. Raises ValueError for what it did not write."""
    if not script.startswith(_STARTS):
        raise ValueError("no index of past work")
    facts: dict[str, Any] = json.loads(script.removeprefix(_STARTS).rstrip().removesuffix(";"))
    facts["facets"] = [
        facet | {"values": [[name, jobs] for name, _, jobs in facet["values"]]} for facet in facts["facets"]
    ]
    return facts


def words_script(key: str, passages: Iterable[Excerpt]) -> str:
    """The words of one job, handed to the page that asked for them."""
    return f"{_HANDS_OVER}{_json(key)}, {_json([list(passage) for passage in passages])}{_HANDED}"


def read_words(script: bytes) -> tuple[Excerpt, ...] | None:
    """The words that `words_script` wrote; None for what it did not write."""
    inside = script.removeprefix(_HANDS_OVER.encode()).removesuffix(_HANDED.encode())
    handed = read_as(tuple[str, tuple[Excerpt, ...]], b"[%b]" % inside)
    return handed[1] if handed else None


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


def _json(facts: object) -> str:
    """Plain ASCII: one sign beyond Latin makes a browser keep the whole script at two bytes a letter."""
    return json.dumps(facts, separators=(",", ":"))

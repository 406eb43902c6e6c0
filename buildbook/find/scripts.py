"""The index and the words of a job as scripts, which a page can load without a server; and back from them.

Of the standard library alone: `find` reads them, and how long it takes is mostly what it loads.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from buildbook.find.excerpt import Excerpt

INDEX = "search.js"
WORDS = "words.js"

_STARTS = "var buildbookIndex = "
_HANDS_OVER, _HANDED = "buildbookWords(", ");\n"


def index_as_script(facts: dict[str, Any]) -> str:
    """An index, packed, with what a page needs to ask it."""
    return f"{_STARTS}{_json(facts)};\n"


def read_index(script: str) -> dict[str, Any]:
    """What `index_as_script` wrote, to be unpacked. Raises ValueError for what it did not write."""
    if not script.startswith(_STARTS):
        raise ValueError("no index of past work")
    facts: dict[str, Any] = json.loads(script.removeprefix(_STARTS).rstrip().removesuffix(";"))
    facts["facets"] = [
        facet | {"values": [[name, jobs] for name, _, jobs in facet["values"]]} for facet in facts["facets"]
    ]
    return facts


def words_script(key: str, passages: Iterable[Excerpt]) -> str:
    """The words of one job, handed to the page that asked for them."""
    return f"{_HANDS_OVER}{_json(key)}, {_json(list(map(_trimmed, passages)))}{_HANDED}"


def read_words(script: bytes) -> tuple[Excerpt, ...] | None:
    """The words that `words_script` wrote; None for what it did not write."""
    inside = script.removeprefix(_HANDS_OVER.encode()).removesuffix(_HANDED.encode())
    try:
        key, passages = json.loads(b"[%b]" % inside)
    except (ValueError, RecursionError):
        return None
    if not isinstance(key, str) or not isinstance(passages, list) or not all(map(_is_excerpt, passages)):
        return None
    return tuple(Excerpt(*passage) for passage in passages)


_LEAST = len(Excerpt._fields) - len(Excerpt._field_defaults)


def _trimmed(passage: Excerpt) -> list[str]:
    """What of a passage says something: most have no more than they must."""
    kept = list(passage)
    while len(kept) > _LEAST and not kept[-1]:
        del kept[-1]
    return kept


def _is_excerpt(passage: object) -> bool:
    return (
        isinstance(passage, list)
        and _LEAST <= len(passage) <= len(Excerpt._fields)
        and all(isinstance(text, str) for text in passage)
    )


def _json(facts: object) -> str:
    """Plain ASCII: one sign beyond Latin makes a browser keep the whole script at two bytes a letter."""
    return json.dumps(facts, separators=(",", ":"))

"""`find` as most people type it, read without the parser: to load and make that takes longer than to find."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace


def plainly_asked(typed: list[str]) -> SimpleNamespace | None:
    """What the parser makes of `find WORDS [--in PLACE] [--json]`; None for anything else: it has the word then.

    The options stand after the words.
    """
    if typed[:1] != ["find"]:
        return None
    first = next((at for at, text in enumerate(typed) if text.startswith("-")), len(typed))
    words, options = typed[1:first], typed[first:]
    as_json = options[-1:] == ["--json"]
    place = options[:-1] if as_json else options
    if place and (len(place) != 2 or place[0] != "--in" or not place[1] or place[1].startswith("-")):
        return None
    if not words:
        return None
    return SimpleNamespace(command="find", words=words, place=Path(*place[1:]), json=as_json)

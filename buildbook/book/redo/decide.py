"""Decides whether something must be made again: only where what it is made from has changed, or what was made.

In doubt it is. What it says is meant for the maker: each thing that changed, by its name.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from pathlib import Path

from buildbook import limits
from buildbook.book.redo.inputs import ABOVE, SHELF, THEMES
from buildbook.book.redo.made import Made
from buildbook.book.redo.noted import FILE, MISSING, Noted, content_of, found_at, is_surely_as, shown_name
from buildbook.book.redo.program import program

NEVER_MADE = "no record of an earlier binding is here"
ASKED = "asked to"
OTHER_PROGRAM = "buildbook or one of its libraries is another one"

_NAMED = 5  # things that changed that a line tells of


def what_changed(before: Made, inputs: Sequence[Noted]) -> list[str]:
    """Each input that is not as it was, in words; nothing where all are."""
    if before.program != program():
        return [OTHER_PROGRAM]
    if before.inputs == inputs:
        return []
    was = {one.name: one for one in before.inputs if one.facts.kind != MISSING}
    now = {one.name: one for one in inputs if one.facts.kind != MISSING}
    changes = dict.fromkeys(
        f"{_called(name)} {_how(was.get(name), now.get(name))}"
        for name in sorted(was.keys() | now.keys())
        if _essence(was.get(name)) != _essence(now.get(name))
    )
    return list(changes)


def _essence(noted: Noted | None) -> tuple[str, str] | None:
    """What of a file a page can hang on."""
    return (noted.facts.kind, noted.content) if noted else None


def _how(was: Noted | None, now: Noted | None) -> str:
    return "is new" if was is None else "is gone" if now is None else "changed"


def _called(name: str) -> str:
    """An input as the maker knows it."""
    name = shown_name(name).removesuffix("?")
    for start, where in ((THEMES, "of the themes"), (ABOVE, "around the shelf"), (SHELF, "of the shelf")):
        if name.startswith(start):
            return f"{name.removeprefix(start)} {where}"
    return name.removeprefix("job/").rstrip("/")


def told(changes: Sequence[str]) -> tuple[str, ...]:
    """The first few changes, and how many more there are."""
    more = len(changes) - _NAMED
    return (*changes[:_NAMED], f"{more} more changes") if more > 1 else tuple(changes)


# -- what was made -----------------------------------------------------------------------------------


def outputs_as_noted(book: Path, names: Iterable[tuple[str, str]]) -> tuple[Noted, ...]:
    """Files of a book that were just written, by name and SHA-256, as they lie there."""
    top = os.fspath(book)
    return tuple(Noted(name, found_at(name, f"{top}/{name}").facts, digest) for name, digest in sorted(names))


def what_is_amiss(before: Made, book: Path) -> tuple[dict[str, str], bool]:
    """Each file of a book that is not as it was made, by its name, in words; and whether one had to be read to know."""
    amiss: dict[str, str] = {}
    read = False
    top = os.fspath(book)
    for one in before.outputs:
        found = found_at(one.name, f"{top}/{one.name}")
        is_there = found.facts.kind == FILE  # it may have been gone already when it was noted
        if is_there and is_surely_as(found.facts, one, before.done_ns):
            continue
        read = True
        if (
            not is_there
            or found.facts != one.facts
            or content_of(found, limits.PICTURE_BYTES, top) != one.content
        ):
            gone = found.facts.kind == MISSING
            amiss[one.name] = (
                f"{one.name} of the book is gone" if gone else f"{one.name} of the book was touched"
            )
    return amiss, read

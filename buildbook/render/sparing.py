"""A document without the parts that cannot be set: what one of them costs is itself, not the whole.

In: how a document is set from some of its parts, and the parts. Out: the document of all that can be set, and which
parts were left out, each with why. Only when the whole cannot be set are parts tried: by halves, so that one of a
thousand is found in twenty trials.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from buildbook.render.print.typeset import Typeset, TypesetError

Part = TypeVar("Part")
TRIALS = 60
"""Then what is still under suspicion is left out untried: a booklet takes up to a second to set."""


def sparing(
    set_: Callable[[Sequence[Part]], Typeset], parts: Sequence[Part]
) -> tuple[Typeset, dict[int, str]]:
    """Set all parts that can be set; places and reasons of the others. Raises `TypesetError` where none is at fault."""
    try:
        return set_(parts), {}
    except TypesetError as error:
        whole = error
    set_(())  # raises where the template is at fault
    tried = 1

    def faulty(first: int, last: int, why: str) -> dict[int, str]:
        """Of the parts from first to last, which cannot be set together, those at fault."""
        nonlocal tried
        if last - first == 1:
            return {first: why}
        middle = (first + last) // 2
        found: dict[int, str] = {}
        for start, end in ((first, middle), (middle, last)):
            if tried >= TRIALS:
                return found | dict.fromkeys(range(start, last), why)
            tried += 1
            try:
                set_(parts[start:end])
            except TypesetError as error:
                found |= faulty(start, end, str(error))
        return found or dict.fromkeys(range(first, last), why)  # each half can be set, not both

    bad = faulty(0, len(parts), str(whole))
    try:
        return set_([part for place, part in enumerate(parts) if place not in bad]), bad
    except TypesetError:  # parts that only fail together
        return set_(()), dict.fromkeys(range(len(parts)), str(whole))


__all__ = ["TRIALS", "sparing"]

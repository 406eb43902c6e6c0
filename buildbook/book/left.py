"""What bound jobs leave beside their logs for the pages across jobs, read back; anything else is passed over."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

T = TypeVar("T")


def read_left(path: Path, make: Callable[[Any], T]) -> T | None:
    """One record by what makes it of its JSON; None where there is none that can be read."""
    try:
        return make(json.loads(path.read_text("utf-8")))
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None


def all_left(book: Path, name: str, make: Callable[[Any], T]) -> list[T]:
    """The records of one name of every job of a book, by the name of the job; folders being written have none."""
    found = (
        read_left(path, make) for path in sorted(book.glob(f"jobs/*/{name}")) if path.parent.name[0] != "."
    )
    return [record for record in found if record is not None]

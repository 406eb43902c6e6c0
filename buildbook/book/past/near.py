"""The books in which the jobs of a shelf may be bound."""

from __future__ import annotations

import os
from pathlib import Path

from buildbook.book.place import DEFAULT_BOOK
from buildbook.job.places import is_book


def books_near(folder: Path) -> list[Path]:
    """Where `bind` puts a book, in the shelf, beside it."""
    places = (Path(DEFAULT_BOOK), folder / DEFAULT_BOOK, Path(os.path.abspath(folder)).parent / DEFAULT_BOOK)
    return [place for place in dict.fromkeys(places) if is_book(place)]

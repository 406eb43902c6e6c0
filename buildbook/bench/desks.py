"""Which desks the bench has, by the name that stands in their address."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from buildbook.bench.desk import Desk
from buildbook.bench.sheet import sheet_desk


def desks(folder: Path, book: Path) -> Mapping[str, Desk]:
    """The desks of a folder (a job or a shelf) that is bound into a book."""
    return {"photos": sheet_desk(folder, book)}

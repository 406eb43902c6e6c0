"""The sizes of the new job as its files have them: `new_sizes(resized, …)`."""

from __future__ import annotations

from collections.abc import Mapping

from buildbook.job.begin.sizes import NewSizes
from buildbook.resized.model import Resized


def new_sizes(resized: Resized, files: Mapping[str, str]) -> NewSizes:
    """What changes of job.toml and parts.csv, and the files that are written beside them."""
    changes = (*resized.changes, *resized.openings)
    sized = {part.row: part for part in resized.old.parts}
    new = {part.row: part for part in resized.new.parts}
    return NewSizes(
        overall={one.axis: one.new_m for one in resized.overall},
        parts={(row, one.size.side): one.new_m for one in changes for row in one.rows},
        emptied=frozenset(
            row for row, part in sized.items() if part.mass_kg is not None and new[row].mass_kg is None
        ),
        files=files,
    )

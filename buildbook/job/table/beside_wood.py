"""Rows that say neither a kind nor a size: `Brass knobs`, `Wood glue`, `Bezugsstoff`: fittings, padding and supplies.

In: a row. Out: what its name tells that it is; None for a row that may be wood or a sheet.
"""

from __future__ import annotations

from buildbook.job.table.materials import KnownMaterial, infer_material
from buildbook.job.table.sheet import Row
from buildbook.job.table.sides import SIDES
from buildbook.job.text import shown


def beside_wood(row: Row, name: str, material: str) -> KnownMaterial | None:
    """What a row is by its name where neither a kind nor a size of it is told: hardware, padding or a supply. Where the
    name tells nothing either, and no material does, it is taken for hardware, and told.
    """
    has_size = any(row.text(side) for side in SIDES)
    if (has_size and material) or "material" not in row.known:
        return None
    known = infer_material(name)
    if known and known.kind in ("hardware", "upholstery", "supply"):
        return known
    if has_size or material or not name or not (row.text("qty") or row.text("price")):
        return None
    message = f"{shown(name)} has no material and no size: it is taken for hardware."
    row.warn("kind", message, "Write its material and sizes, or its kind.")
    return KnownMaterial("hardware")

"""How much material is in a part: square, round, or hollow within its wall.

In: a part. Out: m3 of all of its row.
"""

from __future__ import annotations

from buildbook.job.model import Part
from buildbook.trade import rounds, timber


def net_m3(part: Part) -> float | None:
    """None where a side is not known."""
    if not (part.length and part.width and part.thickness):
        return None
    sides = part.length.m, part.width.m, part.thickness.m
    full_m3 = rounds.volume_m3(timber.net_volume_m3(part.qty, *sides), part.round)
    return full_m3 - part.qty * rounds.hollow_m3(*sides, part.wall.m, part.round) if part.wall else full_m3

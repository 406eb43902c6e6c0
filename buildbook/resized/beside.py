"""What stands beside a part in the size of a piece: sides, tops, divisions, by their thicknesses.

In: the parts, a size of the piece, what is left of it beside so many equal parts. Out: what that is made of, how often
the thickness of which part; empty where it does not come out.
"""

from __future__ import annotations

from collections.abc import Sequence

from buildbook.job.model import Part
from buildbook.resized.model import Axis
from buildbook.resized.runs import runs

Less = tuple[tuple[int, str], ...]

_SAME_M = 1e-6


def between_parts(parts: Sequence[Part], axis: Axis, rest_m: float, shares: int) -> Less:
    """Two ends alike, and between so many shares so many divisions less one."""
    across = list(dict.fromkeys(_across(parts, axis)))
    for name, end_m in across:
        if abs(2 * end_m - rest_m) <= _SAME_M and shares == 1:
            return ((2, name),)
        for other, m in across if shares > 1 else ():
            if abs(2 * end_m + (shares - 1) * m - rest_m) <= _SAME_M:
                return (2, name), (shares - 1, other)
    return ()


def _across(parts: Sequence[Part], axis: Axis) -> list[tuple[str, float]]:
    """The parts whose thickness lies in a size of the piece: neither their length nor their width can."""
    return [
        (part.name, part.thickness.m)
        for part in parts
        if part.kind in ("wood", "panel")
        and part.thickness
        and len(found := {*runs(part, "length"), *runs(part, "width")}) == 2
        and axis not in found
    ]

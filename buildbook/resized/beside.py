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

_ENDS = 2


def between_parts(parts: Sequence[Part], axis: Axis, rest_m: float, shares: int, near_m: float) -> Less:
    """Two ends alike, and between so many shares so many divisions less one, within `near_m`. None in the depth: front
    and back are not alike.
    """
    if axis == "depth":
        return ()
    across = [part for part in parts if _lies_across(part, axis)]
    for end in across:
        assert end.thickness
        if end.qty < _ENDS:
            continue
        left_m = rest_m - _ENDS * end.thickness.m
        if shares == 1 and abs(left_m) <= near_m:
            return ((_ENDS, end.name),)
        for other in across if shares > 1 else ():
            if other.thickness and abs(left_m - (shares - 1) * other.thickness.m) <= near_m:
                return (_ENDS, end.name), (shares - 1, other.name)
    return ()


def _lies_across(part: Part, axis: Axis) -> bool:
    """Whether the thickness of a part lies in a size of the piece: neither its length nor its width can."""
    sides = {*runs(part, "length"), *runs(part, "width")}
    return (
        part.kind in ("wood", "panel")
        and part.thickness is not None
        and len(sides) == 2
        and axis not in sides
    )

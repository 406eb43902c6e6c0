"""What stands beside a part in the size of a piece: sides, tops, divisions, by their thicknesses.

In: the parts that lie across a size of the piece, what is left of it beside so many equal parts. Out: what that is made
of, how often the thickness of which part; empty where it does not come out.
"""

from __future__ import annotations

from collections.abc import Sequence

from buildbook.job.model import Part
from buildbook.resized.model import Axis
from buildbook.resized.runs import runs

Less = tuple[tuple[int, str], ...]

_ENDS = 2


def between_parts(across: Sequence[Part], rest_m: float, shares: int, near_m: float) -> Less:
    """Two ends alike, and between so many shares so many divisions less one, within `near_m`."""
    for end in across:
        if end.qty < _ENDS or not end.thickness:
            continue
        left_m = rest_m - _ENDS * end.thickness.m
        if shares == 1 and abs(left_m) <= near_m:
            return ((_ENDS, end.name),)
        for other in across if shares > 1 else ():
            if other.thickness and abs(left_m - (shares - 1) * other.thickness.m) <= near_m:
                return (_ENDS, end.name), (shares - 1, other.name)
    return ()


def lying_across(parts: Sequence[Part], axis: Axis) -> tuple[Part, ...]:
    """The parts whose thickness lies in a size of the piece: neither their length nor their width can. One of each
    thickness, and of those one of which there are two; none in the depth: front and back are not alike.
    """
    found: dict[tuple[float, bool], Part] = {}
    for part in parts if axis != "depth" else ():
        sides = {*runs(part, "length"), *runs(part, "width")}
        if part.kind in ("wood", "panel") and part.thickness and len(sides) == 2 and axis not in sides:
            found.setdefault((round(part.thickness.m, 6), part.qty >= _ENDS), part)
    return tuple(found.values())

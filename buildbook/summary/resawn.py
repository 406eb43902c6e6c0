"""The boards that parts are leaves or layers of: how many of them, and which share of them each row has."""

from __future__ import annotations

from dataclasses import dataclass

from buildbook.folding import folded
from buildbook.job.model import Job, Part, Working
from buildbook.job.parts.resawn import layers_of, leaves_of, metres_of, working_of
from buildbook.trade.records import UsualAllowances
from buildbook.trade.rounding import whole_up

_ALIKE = 5  # decimals of a metre to which sizes are the same


@dataclass(frozen=True)
class SawnBoards:
    """What a row takes of the boards that its leaves are sawn from: `boards` of them, a part of one too. Length and
    width are of a rough board.
    """

    stock: str
    stock_m: float
    boards: float
    length_m: float
    width_m: float


@dataclass(frozen=True)
class _Leaves:
    part: Part
    across: int
    layers: int

    @property
    def count(self) -> int:
        return self.part.qty * self.across * self.layers


def boards_sawn(job: Job, allowed: UsualAllowances) -> dict[int, SawnBoards]:
    """The boards of every resawn or laminated part, by its row. A part wider than the board of a resawing is leaves of
    it side by side; rows of one working and size share their boards, and of a board that is begun the rest is theirs.
    """
    groups: dict[tuple[str, float, float], list[_Leaves]] = {}
    by_title: dict[str, Working] = {}
    for part in job.parts:
        working = working_of(part.working, job) if part.kind == "wood" and part.working else None
        if not working or not part.length or not part.width or not leaves_of(working, job):
            continue
        title = folded(working.title)
        by_title[title] = working
        across = max(1, whole_up(part.width.m / _board_m(working, part.width.m)))
        alike = (title, round(part.length.m, _ALIKE), round(part.width.m, _ALIKE))
        groups.setdefault(alike, []).append(_Leaves(part, across, layers_of(working)))
    out = {}
    for (title, length_m, width_m), rows in groups.items():
        working = by_title[title]
        leaves = sum(row.count for row in rows)
        boards = whole_up(leaves / leaves_of(working, job))
        over_m = width_m + allowed.over_width_m
        board_m = _board_m(working, over_m)
        rough_m = board_m if rows[0].across > 1 else min(board_m, over_m)
        for row in rows:
            out[row.part.row] = SawnBoards(
                stock=working.written.get("thickness", ""),
                stock_m=metres_of(working, "thickness_m"),
                boards=boards * row.count / leaves,
                length_m=length_m + allowed.over_length_m,
                width_m=rough_m,
            )
    return out


def _board_m(working: Working, part_m: float) -> float:
    """How wide the board is; where the working does not say it, as wide as the part takes."""
    return metres_of(working, "width_m") if "width_m" in working.inputs else part_m

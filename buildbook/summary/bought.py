"""What was bought of each wood, by the tallies of the job: what its yield is counted from."""

from __future__ import annotations

import math
from dataclasses import dataclass

from buildbook.job.model import Board, Job, Working
from buildbook.trade import tables, timber


@dataclass(frozen=True)
class Bought:
    """Boards bought of one species: volume at the nominal thickness, and board feet as a tally counts them."""

    m3: float
    bf: float


def tallied(job: Job) -> dict[str, tuple[Board, ...]]:
    """The boards that the tallies of a job count, by species. A tally that names no wood is of the job's only one;
    one that could be of several is of none.
    """
    out: dict[str, tuple[Board, ...]] = {}
    for working in job.workings:
        key = _wood_of(working, job) if working.kind == "tally" else ""
        if key:
            out[key] = (*out.get(key, ()), *_boards(working))
    return out


def bought_of(job: Job) -> dict[str, Bought]:
    """What the tallies of a job say was bought, by species. A tally that names no wood is of the job's only one;
    one that could be of several is of none.
    """
    out: dict[str, Bought] = {}
    for working in job.workings:
        key = _wood_of(working, job) if working.kind == "tally" else ""
        if key:
            before, boards = out.get(key, Bought(0.0, 0.0)), _boards(working)
            m3 = math.fsum(b.thickness_m * b.width_m * b.length_m for b in boards)
            out[key] = Bought(before.m3 + m3, before.bf + tally_bf(boards))
    return out


def tally_bf(boards: tuple[Board, ...]) -> float:
    """Board feet of boards of several thicknesses, each bundle of one thickness tallied by itself."""
    by_stock: dict[float, list[tuple[float, float]]] = {}
    for stock_m, width_m, length_m in boards:
        by_stock.setdefault(stock_m, []).append((length_m, width_m))
    return math.fsum(timber.tally_bf(group, stock) for stock, group in by_stock.items())


def _boards(working: Working) -> tuple[Board, ...]:
    boards = working.inputs["boards"]
    assert isinstance(boards, tuple)
    return boards


def _wood_of(working: Working, job: Job) -> str:
    woods = {part.key for part in job.parts if part.kind == "wood" and part.key}
    named = str(working.inputs.get("wood", ""))
    if not named:
        return next(iter(woods)) if len(woods) == 1 else ""
    return tables.species().key_of(named, job.shop.place)

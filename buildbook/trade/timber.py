"""Solid timber: net and rough volume, nominal stock, board feet, what to buy, hardwood tally.

In: finished sizes in m and the shop's allowances. Out: m3 and board feet (`_bf`).
"""

from __future__ import annotations

from collections.abc import Iterable

from buildbook.trade import tables
from buildbook.trade.records import NominalStock
from buildbook.trade.rounding import GUARD, half_up, whole_down


def net_volume_m3(count: int, length_m: float, width_m: float, thickness_m: float) -> float:
    """Finished volume of parts."""
    return count * length_m * width_m * thickness_m


def rough_volume_m3(
    count: float, length_m: float, width_m: float, stock_m: float, over_length_m: float, over_width_m: float
) -> float:
    """Volume of the rough parts: over length, over width, and as thick as the stock they come out of.

    Source: common practice; the usual allowances are in `tables.allowances`.
    """
    return count * (length_m + over_length_m) * (width_m + over_width_m) * stock_m


def board_feet_bf(volume_m3: float) -> float:
    """A volume in board feet of 144 in3. For stock under 1 in use `rough_board_feet_bf`, which counts it
    as 1 in.
    """
    return volume_m3 / tables.constant("board_foot")


def rough_board_feet_bf(
    count: float, length_m: float, width_m: float, stock_m: float, over_length_m: float, over_width_m: float
) -> float:
    """Board feet of the rough parts by nominal thickness; stock under 1 in counts as 1 in (NHLA rules)."""
    counted_m = max(stock_m, tables.constant("board_foot_least_thickness"))
    return board_feet_bf(rough_volume_m3(count, length_m, width_m, counted_m, over_length_m, over_width_m))


def smallest_stock(thickness_m: float, system: str, clean_up_m: float) -> NominalStock | None:
    """The thinnest nominal stock of a system ("in" or "mm") that leaves the clean-up over the finished
    thickness.

    None when none is thick enough: the part is then glued up or cut from a special order. Source: common
    practice.
    """
    return next(
        (stock for stock in tables.stock(system) if stock.thickness_m - thickness_m >= clean_up_m - GUARD),
        None,
    )


def with_waste(amount: float, waste_pct: float) -> float:
    """What to buy to have an amount left when a share of it (in % of the amount) is lost. Any unit."""
    return amount * (1 + waste_pct / 100)


def surface_measure_ft2(length_m: float, width_m: float) -> int:
    """Surface measure of one rough board: whole feet of length times inches of width, over 12, rounded.

    Length in whole feet, a part foot dropped; width with its fraction; an exact half goes up (graders take
    turns up and down; up is the one that never buys too little). Source: NHLA rules, as retold in a lumber
    glossary.
    """
    foot_m = tables.constant("surface_measure_foot")
    return half_up(whole_down(length_m / foot_m) * width_m / foot_m)


def tally_bf(boards: Iterable[tuple[float, float]], stock_m: float) -> int:
    """Board feet of a bundle of boards (length, width in m) of one nominal thickness: sum of surface
    measures times it.

    Rounded to a whole board foot, a half up; stock under 1 in counts as 1 in. Source: NHLA rules, as retold
    in a glossary.
    """
    return half_up(_tally(boards, stock_m))


def _tally(boards: Iterable[tuple[float, float]], stock_m: float) -> float:
    least_m = tables.constant("board_foot_least_thickness")
    measures = sum(surface_measure_ft2(length_m, width_m) for length_m, width_m in boards)
    return measures * max(stock_m, least_m) / least_m

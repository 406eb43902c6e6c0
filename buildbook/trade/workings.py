"""Workings of the bench: leaves, strips and lengths with kerf, holes at a spacing, dowels, slopes, coats.

In: m, degrees, counts. Out: whole numbers that hold where something fits exactly, and m. Something that
cannot be had is a count of 0, never an error.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from buildbook.trade import tables
from buildbook.trade.records import Ends
from buildbook.trade.rounding import whole_down


@dataclass(frozen=True)
class Resaw:
    """Leaves out of one board, what is left of its thickness, and how wide they are side by side."""

    leaves: int
    left_m: float
    matched_width_m: float


@dataclass(frozen=True)
class Laminate:
    """Layers out of one board, how thick those of one part are together, and the boards that a part takes, a share of
    one too.
    """

    leaves: int
    glued_up_m: float
    boards_each: float


@dataclass(frozen=True)
class Strips:
    """Strips ripped from one board, and what is left of its width."""

    strips: int
    left_m: float


@dataclass(frozen=True)
class Lengths:
    """Pieces out of one stock length, how many lengths the wanted pieces take, the offcut of a full length.

    `lengths` is 0 when a piece is longer than the stock.
    """

    per_length: int
    lengths: int
    offcut_m: float


@dataclass(frozen=True)
class Holes:
    """A field of holes: how many, and how far from the first to the last, centre to centre, both ways."""

    count: int
    span_rows_m: float
    span_columns_m: float


@dataclass(frozen=True)
class Dowels:
    """Dowels along a joint, and the spacing that evens them out (0 for a single one)."""

    count: int
    spacing_m: float


def slices(room_m: float, piece_m: float, kerf_m: float) -> int:
    """How many pieces a room gives with a kerf between each: floor((T + k) / (t + k)); an exact fit
    counts.
    """
    return max(0, whole_down((room_m + kerf_m) / (piece_m + kerf_m)))


def left_over_m(room_m: float, piece_m: float, kerf_m: float, count: int) -> float:
    """What is left of a room after a number of pieces and a kerf between each, as one offcut with its own
    cut not taken.
    """
    return room_m - count * piece_m - max(0, count - 1) * kerf_m


def matched_width_m(width_m: float, leaves: int) -> float:
    """Width of a panel of leaves of one board opened side by side, before its edges are jointed."""
    return leaves * width_m


def resaw(thickness_m: float, width_m: float, leaf_m: float, kerf_m: float, clean_up_m: float = 0.0) -> Resaw:
    """Leaves of a finished thickness out of a board; each cut takes the kerf and what cleans up the sawn
    faces beside it.
    """
    lost_m = kerf_m + clean_up_m
    leaves = slices(thickness_m, leaf_m, lost_m)
    left_m = left_over_m(thickness_m, leaf_m, lost_m, leaves)
    return Resaw(leaves, left_m, matched_width_m(width_m, leaves))


def laminate(
    thickness_m: float, leaf_m: float, layers: int, kerf_m: float, clean_up_m: float = 0.0
) -> Laminate:
    """A part glued up of layers that are sawn out of a board, as for a bent lamination; where the board is as thin as a
    layer it is one leaf.
    """
    leaves = slices(thickness_m, leaf_m, kerf_m + clean_up_m)
    return Laminate(leaves, layers * leaf_m, layers / leaves if leaves else 0.0)


def strips(width_m: float, strip_m: float, kerf_m: float, trim_m: float = 0.0) -> Strips:
    """Strips of a width ripped from a board after its edge was trimmed."""
    count = slices(width_m - trim_m, strip_m, kerf_m)
    return Strips(count, left_over_m(width_m - trim_m, strip_m, kerf_m, count))


def lengths(stock_m: float, piece_m: float, wanted: int, kerf_m: float, trim_m: float = 0.0) -> Lengths:
    """Pieces of one length out of stock lengths, the ends trimmed by `trim_m` together; how many lengths
    all of them take.
    """
    each = slices(stock_m - trim_m, piece_m, kerf_m)
    offcut_m = left_over_m(stock_m - trim_m, piece_m, kerf_m, each)
    return Lengths(each, math.ceil(wanted / each) if each else 0, offcut_m)


def holes(rows: int, columns: int, row_spacing_m: float, column_spacing_m: float) -> Holes:
    """A field of holes: rows times columns, and the spans between the first and the last of each."""
    return Holes(
        count=rows * columns,
        span_rows_m=max(0, rows - 1) * row_spacing_m,
        span_columns_m=max(0, columns - 1) * column_spacing_m,
    )


def fall_m(run_m: float, angle_deg: float) -> float:
    """How far something at an angle rises or falls over a run: run x tan(angle). A hole bored upwards, a
    sloping top.
    """
    return run_m * math.tan(math.radians(angle_deg))


def angle_deg(run_m: float, fall_m: float) -> float:
    """The angle of a fall over a run: `fall_m` turned round."""
    return math.degrees(math.atan2(fall_m, run_m))


def taper_each_m(wide_m: float, narrow_m: float, sides: int) -> float:
    """What a taper takes off each of the tapered sides (one side, or two opposite ones) at the narrow end."""
    return (wide_m - narrow_m) / sides


def coat_count(pieces: int, coats: int, sides: int = 1) -> int:
    """How many times a piece is coated in all: pieces x coats x sides that are coated apart."""
    return pieces * coats * sides


def dowels(joint_m: float, margin_m: float, spacing_m: float) -> Dowels:
    """Dowels along a joint with a margin at each end, no further apart than needed to be at least the
    spacing.

    n = floor((J - 2 e) / s) + 1, evened out over the joint. Source: common practice.
    """
    room_m = joint_m - 2 * margin_m
    if room_m < 0:
        return Dowels(0, 0.0)
    count = whole_down(room_m / spacing_m) + 1
    return Dowels(count, room_m / (count - 1) if count > 1 else 0.0)


def dowel_diameter_m(thickness_m: float) -> Ends:
    """Usual diameters of a dowel in wood of a thickness: one third to one half. Source: common practice,
    recalled.
    """
    low, high = tables.constant("dowel_diameter_low"), tables.constant("dowel_diameter_high")
    return Ends(thickness_m * low, thickness_m * high)


def dowel_depth_m(diameter_m: float) -> Ends:
    """Usual depths of a dowel's hole in each part: 1.5 to 2.5 diameters and room for glue. Common
    practice, recalled.
    """
    low, high = tables.constant("dowel_depth_low"), tables.constant("dowel_depth_high")
    space_m = tables.constant("dowel_glue_space")
    return Ends(diameter_m * low + space_m, diameter_m * high + space_m)

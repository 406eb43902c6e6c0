"""Round parts: rods, turned or bought round, and discs (a round top, the blank of a bowl), against the square around;
and what is turned or carved hollow.

In: sizes in m. Out: m3 and m2. Plain geometry of the right circular cylinder; what is turned to a profile is less.
Hollow, a rod is a tube; a disc and what is square have a floor as thick as the wall, and are open above it.
"""

from __future__ import annotations

import math
from typing import Literal

from buildbook.trade.finish import Faces

Round = Literal["", "rod", "disc"]
"""Empty for what is square; `rod`: width and thickness are the diameter; `disc`: length and width are."""

OF_SQUARE = math.pi / 4
"""What a circle is of the square around it, and a cylinder of its block."""


def volume_m3(block_m3: float, shape: Round) -> float:
    """Volume of what is in the piece, of the block that it is measured by."""
    return block_m3 * OF_SQUARE if shape else block_m3


def hollow_m3(length_m: float, width_m: float, thickness_m: float, wall_m: float, shape: Round) -> float:
    """What is missing within the wall of one part."""
    across_m, deep_m = width_m - 2 * wall_m, thickness_m - wall_m
    if shape:
        return OF_SQUARE * across_m * across_m * (length_m if shape == "rod" else deep_m)
    return (length_m - 2 * wall_m) * across_m * deep_m


def inside_m2(
    length_m: float, width_m: float, thickness_m: float, wall_m: float, shape: Round, faces: Faces
) -> float:
    """What hollowing adds to the finished area of one part; less than nothing where the ends of a tube lose more."""
    across_m, deep_m = width_m - 2 * wall_m, thickness_m - wall_m
    ends_m2 = 0 * across_m * deep_m
    if shape == "rod":
        inner_m2, ends_m2 = math.pi * across_m * length_m, 2 * OF_SQUARE * across_m * across_m
    elif shape == "disc":
        inner_m2 = math.pi * across_m * deep_m  # the floor is as large as what is missing of the face
    else:
        inner_m2 = 2 * (length_m - 2 * wall_m + across_m) * deep_m
    by_faces = {
        "all": inner_m2 - ends_m2,
        "faces": inner_m2,
        "one face": 0 * inner_m2 if shape == "rod" else inner_m2,
        "edges": -ends_m2,
        "none": 0 * inner_m2,
    }
    return by_faces[faces]


def face_m2(square_m2: float, shape: Round) -> float:
    """Area of a face, of the square that it is measured by: of a disc its circle."""
    return square_m2 * OF_SQUARE if shape == "disc" else square_m2


def area_m2(count: int, diameter_m: float, along_m: float, shape: Round, faces: Faces) -> float:
    """Finished area of round parts. The face of a disc is its circle and its edge the rim; the face of a rod is half of
    what runs round, its edges the two ends.
    """
    circles_m2 = 2 * OF_SQUARE * diameter_m * diameter_m
    around_m2 = math.pi * diameter_m * along_m
    both_m2, edges_m2 = (circles_m2, around_m2) if shape == "disc" else (around_m2, circles_m2)
    by_faces = {
        "all": both_m2 + edges_m2,
        "faces": both_m2,
        "one face": both_m2 / 2,
        "edges": edges_m2,
        "none": 0 * both_m2,
    }
    return count * by_faces[faces]

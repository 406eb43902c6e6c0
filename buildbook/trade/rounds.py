"""Round parts: rods, turned or bought round, and discs (a round top, the blank of a bowl), against the square around.

In: sizes in m. Out: m3 and m2. Plain geometry of the right circular cylinder; what is turned hollow or to a profile is
less.
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

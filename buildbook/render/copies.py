"""Which sized copies a photo has, and what they are called.

The name of a copy is made of the content of the photo and of the recipe, so that a copy that exists need not be made
again.
"""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass

RECIPE = "1"  # part of each name: change it when the bytes of a copy would change
LONG_EDGES = (2016, 1008, 504)  # halves of one another, so that a JPEG decoder can shrink for us
SMALL_EDGE = 252  # for lists of many jobs, where what is decoded decides how much memory a page takes


COPY_NAME = re.compile(r"[0-9a-f]{16}-[1-9][0-9]{0,3}\.jpg")
"""What `copies_of` calls its copies: the content's fingerprint and the long edge in pixels."""


@dataclass(frozen=True)
class Copy:
    """One sized copy: its file name and its size in pixels."""

    name: str
    width: int
    height: int


def copies_of(digest: str, width: int, height: int) -> tuple[Copy, ...]:
    """The copies that a photo of this content and upright size has, largest first; never larger than the photo."""
    stem = hashlib.sha256(f"{digest}/{RECIPE}".encode()).hexdigest()[:16]
    long_edge = max(width, height)
    edges = [min(LONG_EDGES[0], long_edge), *(e for e in LONG_EDGES[1:] if e < long_edge)]
    copies = []
    for edge in dict.fromkeys(edges):
        scale = edge / long_edge
        copies.append(Copy(f"{stem}-{edge}.jpg", max(1, round(width * scale)), max(1, round(height * scale))))
    return tuple(copies)


def small_copies_of(digest: str, width: int, height: int) -> tuple[Copy, ...]:
    """The copies for a list, largest first: the smallest of `copies_of` and one of `SMALL_EDGE`. For logs only."""
    smallest = copies_of(digest, width, height)[-1]
    long_edge = max(smallest.width, smallest.height)
    if long_edge <= SMALL_EDGE:
        return (smallest,)
    scale = SMALL_EDGE / long_edge
    name = smallest.name.replace(f"-{long_edge}.", f"-{SMALL_EDGE}.")
    small = Copy(name, max(1, round(smallest.width * scale)), max(1, round(smallest.height * scale)))
    return smallest, small

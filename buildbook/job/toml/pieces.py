"""The numbers of some pieces of a set, read and told: `1-4`, `5, 6`, `1 to 3 and 5`."""

from __future__ import annotations

import re
from collections.abc import Iterable

from buildbook.job.believable import believable
from buildbook.job.text import shown
from buildbook.quantity import QuantityError

_BETWEEN = re.compile(r"\s*(?:[,;+&]|\b(?:and|und)\b)\s*", re.IGNORECASE)
_SPAN = re.compile(
    r"(\d{1,9})(?:\s*(?:[-\u2010-\u2013]|\b(?:to|bis)\b)\s*(\d{1,9}))?", re.IGNORECASE | re.ASCII
)
_HINT = 'Write pieces = "1-4", or pieces = "5, 6".'


def read_pieces(text: str) -> tuple[int, ...]:
    """Numbers of pieces in their order, each once. QuantityError for what is no such list, or names a piece twice."""
    most = int(believable("pieces of a set").most)
    found: list[int] = []
    for item in _BETWEEN.split(text):
        span = _SPAN.fullmatch(item)
        if span is None:
            raise QuantityError(f"{shown(text)} does not say which pieces.", _HINT)
        first, last = int(span[1]), int(span[2] or span[1])
        if last < first:
            raise QuantityError(f"{shown(text)} goes from {first} down to {last}.", _HINT)
        if first < 1 or last > most:
            beyond = first if first < 1 else last
            raise QuantityError(f"{shown(text)}: there is no piece {beyond}.", "Pieces are numbered from 1.")
        found += range(first, last + 1)
    twice = (
        next((piece for piece in found if found.count(piece) > 1), None)
        if len(set(found)) < len(found)
        else None
    )
    if twice is not None:
        raise QuantityError(f"{shown(text)} names piece {twice} twice.", "Name each piece once.")
    return tuple(sorted(found))


def told_pieces(pieces: Iterable[int], dash: str = "-") -> str:
    """`1-4`, `5, 6`, `1, 3-5`: runs of three and more as a span, as the maker writes it or with a dash for print."""
    return ", ".join(str(first) if first == last else f"{first}{dash}{last}" for first, last in runs(pieces))


def runs(pieces: Iterable[int]) -> list[tuple[int, int]]:
    """Numbers as spans of first and last; two in a row stay two, as a reader would write them."""
    out: list[list[int]] = []
    for piece in sorted(pieces):
        if out and piece == out[-1][1] + 1:
            out[-1][1] = piece
        else:
            out.append([piece, piece])
    return [
        span
        for first, last in out
        for span in ([(first, last)] if last != first + 1 else [(first, first), (last, last)])
    ]

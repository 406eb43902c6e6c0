"""When the pieces of a job went: `delivered`, or a [[delivery]] for each day that some of a set went.

In: the top of job.toml and what was read of it. Out: the deliveries; what cannot be is told.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from buildbook.job.model import Delivery
from buildbook.job.toml.file import TomlTable
from buildbook.job.toml.pieces import told_pieces
from buildbook.job.toml.set_keys import DELIVERY
from buildbook.problems import listed


def read_deliveries(top: TomlTable, found: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of a job that its deliveries decide: `deliveries`, and `delivered` where every piece has gone."""
    tables = top.tables("delivery", DELIVERY)
    if not tables:
        return {}
    if "delivered" in found:
        top.error("“delivered” and [[delivery]] both say when it went.", "Keep one of the two.", "delivered")
    quantity = found.get("quantity", 1)
    sure = (
        "quantity" in found or "quantity" not in top.values
    )  # else each piece beyond 1 would be told as well
    days: dict[date, list[int]] = {}
    went: dict[int, date] = {}
    for table in tables:
        read = table.read()
        if "day" not in read or ("pieces" in table.values and "pieces" not in read) or not sure:
            continue
        for piece in _pieces_of(table, read, quantity, alone=len(tables) == 1):
            if piece in went:
                both = f"{went[piece].isoformat()} and {read['day'].isoformat()}"
                said = f"Piece {piece} is in two deliveries, of {both}."
                table.error(said, "Name each piece once.", "pieces")
                continue
            went[piece] = read["day"]
            days.setdefault(read["day"], []).append(piece)
    deliveries = tuple(Delivery(day, tuple(sorted(days[day]))) for day in sorted(days))
    missing = [piece for piece in range(1, quantity + 1) if piece not in went]
    if missing and went:
        _tell_missing(top, missing)
    whole = {"delivered": max(days)} if days and not missing else {}
    return whole if len(deliveries) == 1 and not missing else {"deliveries": deliveries, **whole}


def _pieces_of(table: TomlTable, read: Mapping[str, Any], quantity: int, *, alone: bool) -> Sequence[int]:
    """The pieces of a delivery; all where it is the only one and says nothing."""
    if "pieces" not in read:
        if alone:
            return range(1, quantity + 1)
        table.error("This delivery does not say which pieces went.", 'Write pieces = "1-4".', "pieces")
        return ()
    beyond = [piece for piece in read["pieces"] if piece > quantity]
    if beyond:
        of = f"of {quantity}" if quantity > 1 else "of a job that makes one"
        table.error(
            f"There is no piece {listed(told_pieces(beyond).split(', '), 'or')} {of}.",
            "Put right pieces, or quantity.",
            "pieces",
        )
    return [piece for piece in read["pieces"] if piece <= quantity]


def _tell_missing(top: TomlTable, missing: Sequence[int]) -> None:
    one = len(missing) == 1
    top.warn(
        f"{'Piece' if one else 'Pieces'} {listed(told_pieces(missing).split(', '))} {'is' if one else 'are'} in no"
        f" [[delivery]], so {'it counts' if one else 'they count'} as still in the shop.",
        "Write a [[delivery]] once they go.",
        "delivery",
    )

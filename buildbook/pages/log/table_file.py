"""A table of the maker's that is written out as a file of its own: headings, and cells that are text or figures."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from buildbook.pages.ledger import only

Cell = str | int | Decimal


@dataclass(frozen=True)
class TableFile:
    """A table to write out.

    name     of its file, without what says the format.
    title    what it is called; sheet: the same in short, for a spreadsheet.
    decimal  the decimal mark of figures in text: `,` goes with semicolons between the cells.
    """

    name: str
    title: str
    sheet: str
    headings: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    decimal: str = "."


def table_file(
    called: tuple[str, str, str],
    headings: Sequence[str],
    rows: Iterable[Sequence[Cell]],
    decimal: str,
    *,
    always: Collection[int] = (0,),
) -> TableFile | None:
    """The table of a name, a title and a sheet; None without rows. Columns that hold nothing are left out, those at the
    places `always` not.
    """
    body = [tuple(row) for row in rows]
    if not body:
        return None
    kept = tuple(
        place for place, cells in enumerate(zip(*body, strict=True)) if place in always or set(cells) != {""}
    )
    cells = tuple(tuple(row[place] for place in kept) for row in body)
    return TableFile(*called, only(headings, kept), cells, decimal)

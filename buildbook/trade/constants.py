"""The single figures that the sums rest on. In: data/constants.csv. Out: values in SI, handed on by `tables`."""

from __future__ import annotations

from functools import cache

from buildbook.trade import rows
from buildbook.trade.records import Ends, Sourced
from buildbook.trade.rows import HALLMARK, TableError, TableRow, hallmark


def sourced(row: TableRow, span: Ends | None = None) -> Sourced:
    """The figure of a row that has its value, unit and source."""
    return Sourced(row.number("value", row.text("unit")), row.text("unit"), **hallmark(row), span=span)


@cache
def constants() -> dict[str, Sourced]:
    """All single figures, by key."""
    read = rows.read("constants.csv", ("key", "value", "unit", *HALLMARK))
    found = {row.text("key"): sourced(row) for row in read}
    if len(found) != len(read):
        raise TableError("constants.csv", read[0].line, "a key stands twice")
    return found


def constant(key: str) -> float:
    """The value of a constant in SI (per cent, degrees Celsius, days and months as they are). KeyError if
    there is none.
    """
    return constants()[key].value

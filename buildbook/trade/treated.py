"""The same wood in another state: fumed, steamed, cooked, long buried. What its row does not say is as of the wood that
it is of.

In: data/treated_woods.csv and the woods. Out: records of woods.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from buildbook.trade import rows
from buildbook.trade.records import Ends, Sourced, Species
from buildbook.trade.rows import HALLMARK, TableRow, hallmark

TREATMENTS = ("fumed", "steamed", "thermal", "bog", "brown", "heart")
_MOVES = ("shrink_radial", "shrink_tangential", "shrink_volumetric", "c_radial", "c_tangential")
_WEIGHS = ("sg_basic", "sg_12", "density_12")


def treated_woods(woods: Mapping[str, Species]) -> Iterator[Species]:
    """A record of each row. Raises TableError for one that is of no wood."""
    columns = (
        "key", "name", "of", "treatment", "aliases", "movement", "density", "tannin", "corrodes", "colour_change",
        "fresh_hex", "aged_hex", *HALLMARK,
    )  # fmt: skip
    for row in rows.read("treated_woods.csv", columns):
        row.one_of("treatment", TREATMENTS)
        of = woods[row.one_of("of", tuple(woods))]
        scaled: dict[str, Any] = {
            name: _times(of, name, row, share)
            for names, share in ((_MOVES, row.number("movement")), (_WEIGHS, row.number("density")))
            for name in names
        }
        yield replace(
            of,
            key=row.text("key"),
            name=row.text("name"),
            aliases=row.listed("aliases"),
            taken_for=(),
            **hallmark(row),
            of=of.key,
            movement_share=row.number("movement"),
            tannin=row.yes("tannin"),
            corrodes=row.yes("corrodes"),
            colour_change=row.text("colour_change"),
            fresh_hex=colour(row, "fresh_hex"),
            aged_hex=colour(row, "aged_hex"),
            janka=of.janka if row.number("density") == 1 else None,
            modulus=of.modulus if row.number("density") == 1 else None,
            **scaled,
        )


def _times(of: Species, name: str, row: TableRow, share: float) -> Sourced | None:
    """A figure of the wood, times the share that its row says of it."""
    figure: Sourced | None = getattr(of, name)
    if figure is None or share == 1:
        return figure
    span = Ends(figure.span.low * share, figure.span.high * share) if figure.span else None
    source = f"{share:g} times that of {of.name} ({row.text('source')}): {figure.source}"
    return Sourced(figure.value * share, figure.unit, source, "derived", figure.note, span)


def colour(row: TableRow, column: str) -> str:
    """A colour such as #c58f62."""
    value = row.text(column)
    if len(value) != 7 or value[0] != "#" or not set(value[1:]) <= set("0123456789abcdef"):
        raise row.error(f"{column} is {value!r}, not a colour such as #c58f62")
    return value

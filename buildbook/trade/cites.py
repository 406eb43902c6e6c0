"""Which woods CITES lists, by which annotation, and what that reaches.

In: data/cites.csv, data/cites_notes.csv. Out: a `Listing` by the key of a wood.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cache

from buildbook.trade import rows
from buildbook.trade.rows import HALLMARK

APPENDICES = ("I", "II", "III")
NO_NOTE = "none"


@dataclass(frozen=True)
class Listing:
    """How a wood is listed: `listed` is what the list names, `covers` what of it is under control; `goods`, furniture
    too; `known_to`, the day up to which the list is known here.
    """

    appendix: str
    annotation: str
    listed: str
    in_force: int
    known_to: date
    covers: str
    goods: bool

    @property
    def said(self) -> str:
        """`II (#15), genus Dalbergia, in force 2017`."""
        note = f" ({self.annotation})" if self.annotation != NO_NOTE else ""
        return f"{self.appendix}{note}, {self.listed}, in force {self.in_force}"


@cache
def listings() -> dict[str, Listing]:
    """Every listed wood, by its key. Raises TableError."""
    notes = {
        row.text("annotation"): (row.text("covers"), row.yes("goods"))
        for row in rows.read("cites_notes.csv", ("annotation", "covers", "goods", *HALLMARK))
    }
    columns = ("key", "appendix", "annotation", "listed", "in_force", "known_to", *HALLMARK)
    found = {}
    for row in rows.read("cites.csv", columns):
        note = row.words("annotation") or NO_NOTE
        covers, goods = notes[row.one_of("annotation", tuple(notes)) if row.words("annotation") else note]
        found[row.text("key")] = Listing(
            appendix=row.one_of("appendix", APPENDICES),
            annotation=note,
            listed=row.text("listed"),
            in_force=int(row.number("in_force")),
            known_to=date.fromisoformat(row.text("known_to")),
            covers=covers,
            goods=goods,
        )
    return found

"""Which column a heading means: in any case, in English or German, with a unit beside it."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from buildbook.quantity.units import KINDS, LENGTH_UNITS


@dataclass(frozen=True)
class Column:
    """A column of a table: what a maker may call it, and what is believable in it (data/believable.csv).

    reads  how its cells are read, as the keys of TOML files say it; what is measured, counted or dated has `within`.
    """

    names: str
    reads: str = "text"
    within: str = ""


PARTS: dict[str, Column] = {
    "part": Column("part; part name; name; item; component; piece; description; teil; bauteil; bezeichnung"),
    "qty": Column(
        "qty; quantity; no; nos; no off; number; pcs; pc; pieces; count; off; stück; stueck; stk; anzahl; menge",
        "count",
        "pieces",
    ),
    "kind": Column("kind; type; sort; art; category; kategorie", "choice"),
    "material": Column("material; species; wood; wood species; timber; stuff; holz; holzart; werkstoff"),
    "length": Column("length; l; len; long; länge; laenge; länge l", "length", "size of a part"),
    "width": Column("width; w; wide; breite; b; br", "length", "size of a part"),
    "thickness": Column(
        "thickness; t; th; thk; thick; dicke; stärke; staerke", "length", "thickness of a part"
    ),
    "stock": Column(
        "stock; stock thickness; nominal; nominal thickness; rough thickness; rohdicke; rohstärke",
        "stock",
        "stock thickness",
    ),
    "cut": Column("cut; sawn; grain; schnitt; jahrringe; jahresringe", "choice"),
    "fit": Column("fit; fitted; fixing; passung; befestigung; einbau"),
    "opening": Column("opening; room; gap; öffnung; oeffnung; lichte breite", "length", "size of a part"),
    "faces": Column("faces; surfaces; faces finished; flächen; flaechen; seiten", "choice"),
    "finish": Column("finish; finish key; coating; oberfläche; oberflaeche; lack"),
    "mass": Column("mass; mass each; weight; weight each; gewicht; masse", "mass", "mass of a part"),
    "origin": Column("origin; provenance; source; where from; herkunft"),
    "country": Column("country; country of origin; grown in; land; herkunftsland"),
    "supplier": Column("supplier; vendor; yard; merchant; bought from; lieferant; händler; haendler"),
    "price": Column("price; unit price; cost; unit cost; preis; einzelpreis; stückpreis", "amount", "price"),
    "per": Column("per; price per; unit; einheit; je; pro", "choice"),
    "client": Column("client; for client; for the client; show; kunde; für kunden", "choice"),
    "note": Column(
        "note; notes; remark; remarks; comment; comments; notiz; bemerkung; bemerkungen; anmerkung"
    ),
}
"""Columns of parts.csv and what a maker may call them."""

PRICES: dict[str, Column] = {
    "material": Column(PARTS["material"].names + "; item; what; sheet; hardware; name; artikel"),
    "price": Column(PARTS["price"].names + "; amount; today", "amount", "price"),
    "per": PARTS["per"],
    "date": Column("date; day; as of; priced on; datum; stand; vom", "date", "day of a shop"),
    "supplier": PARTS["supplier"],
}
"""Columns of prices.csv."""

_MASS_UNITS = KINDS["mass"].spellings
_BESIDE = re.compile(
    r"""^(?P<name>.+?)\s*
    (?: [\(\[]\s*(?P<bracket>[^\)\]]*?)\s*[\)\]]
      | ,\s*(?P<comma>\S+)
      | (?:\s+in)?\s+(?P<word>\S+)
      | \s*(?P<sign>["″'′]+)
    )\s*$""",
    re.VERBOSE | re.DOTALL,
)


@dataclass(frozen=True)
class ColumnHeading:
    """What a heading means: a column, and the unit of its bare numbers ("" when it says none)."""

    column: str
    unit: str = ""


class Headings:
    """The columns of one file, found by any of their names."""

    def __init__(self, columns: dict[str, Column]) -> None:
        self.columns = columns
        self._by_name = {
            bare(name): column for column, known in columns.items() for name in known.names.split(";")
        }

    def find(self, text: str) -> ColumnHeading | None:
        """The column that a heading means, or None."""
        if column := self._by_name.get(bare(text)):
            return ColumnHeading(column)
        match = _BESIDE.match(text.strip()[:_LONGEST])
        if not match or not (column := self._by_name.get(bare(match["name"]))):
            return None
        beside = match["bracket"] or match["comma"] or match["word"] or match["sign"] or ""
        unit = _unit(beside)
        return ColumnHeading(column, unit) if unit or match["bracket"] is not None else None

    def is_heading(self, text: str) -> bool:
        return self.find(text) is not None

    @property
    def names(self) -> tuple[str, ...]:
        """All names, for finding the nearest."""
        return tuple(self._by_name)


_LONGEST = 80  # characters of a heading


def _unit(text: str) -> str:
    plain = text.strip().casefold().rstrip(".")
    plain = {"″": '"', "”": '"', "′": "'", "inches": "in"}.get(plain, plain)
    return plain if plain in LENGTH_UNITS or plain in _MASS_UNITS else ""


def bare(text: str) -> str:
    """A heading without capitals, accents, dots and underscores."""
    plain = unicodedata.normalize("NFKD", text[:_LONGEST]).casefold()
    plain = "".join(sign for sign in plain if not unicodedata.combining(sign))
    return " ".join(re.sub(r"[._:#*/-]", " ", plain).split())


PARTS_HEADINGS = Headings(PARTS)
PRICES_HEADINGS = Headings(PRICES)

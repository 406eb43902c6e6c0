"""Which column a heading means: in any case, in English or German, with a unit beside it."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from buildbook.quantity.units import KINDS, LENGTH_UNITS

PARTS: dict[str, str] = {
    "part": "part; part name; name; item; component; piece; description; teil; bauteil; bezeichnung",
    "qty": "qty; quantity; no; nos; no off; number; pcs; pc; pieces; count; off; stück; stueck; stk; anzahl; menge",
    "kind": "kind; type; sort; art; category; kategorie",
    "material": "material; species; wood; wood species; timber; stuff; holz; holzart; werkstoff",
    "length": "length; l; len; long; länge; laenge; länge l",
    "width": "width; w; wide; breite; b; br",
    "thickness": "thickness; t; th; thk; thick; dicke; stärke; staerke",
    "stock": "stock; stock thickness; nominal; nominal thickness; rough thickness; rohdicke; rohstärke",
    "cut": "cut; sawn; grain; schnitt; jahrringe; jahresringe",
    "fit": "fit; fitted; fixing; passung; befestigung; einbau",
    "opening": "opening; room; gap; öffnung; oeffnung; lichte breite",
    "faces": "faces; surfaces; faces finished; flächen; flaechen; seiten",
    "finish": "finish; finish key; coating; oberfläche; oberflaeche; lack",
    "mass": "mass; mass each; weight; weight each; gewicht; masse",
    "origin": "origin; provenance; source; where from; herkunft",
    "country": "country; country of origin; grown in; land; herkunftsland",
    "supplier": "supplier; vendor; yard; merchant; bought from; lieferant; händler; haendler",
    "price": "price; unit price; cost; unit cost; preis; einzelpreis; stückpreis",
    "per": "per; price per; unit; einheit; je; pro",
    "client": "client; for client; for the client; show; kunde; für kunden",
    "note": "note; notes; remark; remarks; comment; comments; notiz; bemerkung; bemerkungen; anmerkung",
}
"""Columns of parts.csv and what a maker may call them."""

PRICES: dict[str, str] = {
    "material": PARTS["material"] + "; item; what; sheet; hardware; name; artikel",
    "price": PARTS["price"] + "; amount; today",
    "per": PARTS["per"],
    "date": "date; day; as of; priced on; datum; stand; vom",
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

    def __init__(self, columns: dict[str, str]) -> None:
        self.columns = tuple(columns)
        self._by_name = {bare(name): column for column, names in columns.items() for name in names.split(";")}

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

"""Which column a heading means: in any case, in English or German, with a unit beside it."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from buildbook.job.model import CUTS, FACES, PART_KINDS, PER
from buildbook.job.toml.key import BOTH, PAGE, STAYS, Key, Leaves
from buildbook.quantity.units import KINDS, LENGTH_UNITS


@dataclass(frozen=True)
class Column(Key):
    """A column of a table: a key, as the keys of TOML files are; and what a maker may call it, its own name included.

    example  a cell as it stands in the file.
    """

    names: str = ""


def _by_name(*columns: Column) -> dict[str, Column]:
    return {column.name: column for column in columns}


PARTS = _by_name(
    Column(
        "part",
        "text",
        "Top",
        "What it is called.",
        BOTH,
        names="part; part name; name; item; component; piece; description; teil; bauteil; bezeichnung; benennung",
    ),
    Column(
        "qty",
        "count",
        "2",
        "How many; 1 where it is empty.",
        BOTH,
        within="pieces",
        names="qty; quantity; no; nos; no off; number; pcs; pc; pieces; count; off; stück; stueck; stk; anzahl;"
        " anz; stückzahl; menge",
    ),
    Column(
        "kind",
        "choice",
        "wood",
        "Sheet goods are `panel`; glue, abrasives and the like are `supply`. Left out, it follows from the material.",
        Leaves("effect", "effect"),
        choices=PART_KINDS,
        names="kind; type; sort; art; category; kategorie; materialart",
    ),
    Column(
        "material",
        "text",
        "European oak",
        "A wood by its common or botanical name, a sheet, a glass, a stone; hardware as you would ask for it.",
        BOTH,
        names="material; species; wood; wood species; timber; stuff; holz; holzart; werkstoff",
    ),
    Column(
        "length",
        "length",
        "1200",
        "Along the grain, finished, over all.",
        Leaves("effect", "effect"),
        within="size of a part",
        names="length; l; len; long; länge; laenge; länge l; fertiglänge; fertigmaß länge",
    ),
    Column(
        "tenons",
        "length",
        "60",
        "The tenons of both ends together. `length` is over all, and the part measures so much less between shoulders;"
        " a length of `600 between shoulders` with tenons of 60 is 660 over all.",
        Leaves("effect", "effect"),
        within="size of a part",
        names="tenons; tenons both ends; both tenons; tongues; zapfen; zapfen beidseitig; beide zapfen; federn",
    ),
    Column(
        "width",
        "length",
        "420",
        "Across the grain, finished.",
        Leaves("yes", "effect"),
        within="size of a part",
        names="width; w; wide; breite; b; br; fertigbreite; fertigmaß breite",
    ),
    Column(
        "thickness",
        "length",
        "22",
        "Finished.",
        Leaves("effect", "yes"),
        within="thickness of a part",
        names="thickness; t; th; thk; thick; dicke; stärke; staerke; d; fertigdicke; fertigmaß dicke",
    ),
    Column(
        "dia",
        "length",
        "22",
        "Of what is round, beside the length of a rod or the thickness of a disc; `ø22` in a side says the same.",
        Leaves("effect", "effect"),
        field="round",
        within="size of a part",
        names="dia; diam; diameter; ø; durchm; durchmesser",
    ),
    Column(
        "wall",
        "length",
        "8",
        "How thick it is left where it is turned or carved hollow: a bowl, a tray, a tube. Counted as straight walls,"
        " and a floor as thick; a rod is open at both ends.",
        Leaves("effect", "effect"),
        within="thickness of a part",
        names="wall; wall thickness; wandung; wandstärke; wandstaerke; wanddicke",
    ),
    Column(
        "stock",
        "stock",
        "5/4",
        "Nominal thickness bought: `5/4`, `27 mm`; of what is glued up with its layers, `3 x 35 mm`."
        " Left out, the thinnest that cleans up.",
        Leaves("no", "effect"),
        within="stock thickness",
        names="stock; stock thickness; nominal; nominal thickness; rough thickness; rough; rough stock;"
        " rohdicke; rohstärke; rohmaß",
    ),
    Column(
        "working",
        "text",
        "Door panels from one board",
        "The title of a `[[worked]]` of kind `resaw` or `laminate` that it comes out of; it takes its share of that"
        " board.",
        Leaves("no", "effect"),
        names="working; resaw; resawn from; sawn from; laminated from; laminate; aufgetrennt aus; auftrennen;"
        " verleimt aus; lamelliert",
    ),
    Column(
        "cut",
        "choice",
        "quarter",
        "How the growth rings stand to the face. Unknown, the larger movement is assumed, and said.",
        PAGE,
        choices=CUTS,
        names="cut; sawn; grain; schnitt; jahrringe; jahresringe",
    ),
    Column(
        "fit",
        "text",
        "floating",
        "How it is held: `floating`, `glued`, `elongated holes` …",
        STAYS,
        names="fit; fitted; fixing; passung; befestigung; einbau",
    ),
    Column(
        "edge",
        "text",
        "polished, corners rounded",
        "What is on the edges, in the cut list: `bead 6`, `lipped 5 oak`. Of a pane the client may read it.",
        PAGE,
        names="edge; edges; edge work; edgework; kante; kanten; kantenbearbeitung",
    ),
    Column(
        "held",
        "text",
        "in beads, on felt",
        "How a pane is held, for whoever replaces it.",
        PAGE,
        names="held; held by; how held; glazing; gehalten; glashalterung; halterung",
    ),
    Column(
        "opening",
        "length",
        "428",
        "The room across the grain that a part has which must move, both grooves included.",
        Leaves("effect", "no"),
        within="size of a part",
        names="opening; room; gap; öffnung; oeffnung; lichte breite",
    ),
    Column(
        "faces",
        "choice",
        "all",
        "What is finished.",
        Leaves("effect", "effect"),
        choices=FACES,
        names="faces; surfaces; faces finished; flächen; flaechen; seiten",
    ),
    Column(
        "finish",
        "text",
        "body",
        "The key of a finish of job.toml.",
        Leaves("effect", "effect"),
        names="finish; finish key; coating; oberfläche; oberflaeche; lack; of; behandlung",
    ),
    Column(
        "mass",
        "mass",
        "85 g",
        "Of one piece; for hardware above all.",
        Leaves("effect", "no"),
        within="mass of a part",
        names="mass; mass each; weight; weight each; gewicht; masse",
    ),
    Column(
        "origin",
        "text",
        "a parkland oak blown down in 2021",
        "Where the material came from, in words for the client.",
        BOTH,
        names="origin; provenance; source; where from; herkunft; ursprung",
    ),
    Column(
        "country",
        "text",
        "GB",
        "Where it grew: an ISO 3166-1 code or a name.",
        PAGE,
        names="country; country of origin; grown in; land; herkunftsland",
    ),
    Column(
        "supplier",
        "text",
        "the yard",
        "Who sold it.",
        STAYS,
        names="supplier; vendor; yard; merchant; bought from; lieferant; händler; haendler; hersteller",
    ),
    Column(
        "price",
        "amount",
        "11.40",
        "What it cost. Left out, prices.csv is asked.",
        Leaves("no", "effect"),
        within="price",
        names="price; unit price; cost; unit cost; preis; einzelpreis; stückpreis; ep;"
        " preis netto; preis €; preis in €; preis eur; preis in eur; preis chf",
    ),
    Column(
        "per",
        "choice",
        "each",
        "What the price is for.",
        Leaves("no", "effect"),
        choices=PER,
        names="per; price per; unit; einheit; je; pro; me; mengeneinheit",
    ),
    Column(
        "client",
        "choice",
        "no",
        "`no` keeps the row off the client's page; supplies are off it unless `yes`.",
        Leaves("effect", "effect"),
        choices=("yes", "no"),
        names="client; for client; for the client; show; kunde; für kunden; für den kunden; für die kundin",
    ),
    Column(
        "note",
        "text",
        "from the wet end of the board",
        "For yourself; so is every column of another name.",
        Leaves("effect", "no"),
        names="note; notes; remark; remarks; comment; comments; notiz; notizen; bemerkung; bemerkungen;"
        " anmerkung; anmerkungen; hinweis; hinweise",
    ),
)
"""Columns of parts.csv and what a maker may call them."""

PRICES = _by_name(
    Column(
        "material",
        "text",
        "European oak",
        "What it is the price of, named as in parts.csv.",
        Leaves("no", "effect"),
        names=f"{PARTS['material'].names}; item; what; sheet; hardware; name; artikel; bezeichnung",
    ),
    Column(
        "price",
        "amount",
        "2120",
        "What one of its unit costs.",
        Leaves("no", "effect"),
        within="price",
        names=f"{PARTS['price'].names}; amount; today",
    ),
    Column(
        "per",
        "choice",
        "m3",
        "The unit that the price is for.",
        Leaves("no", "effect"),
        choices=PER,
        names=PARTS["per"].names,
    ),
    Column(
        "date",
        "date",
        "2026-02-01",
        "The day that the price held; a part takes the newest from the time of its job.",
        Leaves("no", "effect"),
        within="day of a shop",
        names="date; day; as of; priced on; datum; stand; vom; gültig ab",
    ),
    Column("supplier", "text", "the yard", "Who asks it.", STAYS, names=PARTS["supplier"].names),
)
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

    def __init__(self, columns: dict[str, Column], sheets: tuple[str, ...] = ()) -> None:
        """`sheets`: what the sheet of a spreadsheet may be called that is taken before the first, in small letters."""
        self.columns = columns
        self.sheets = sheets
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


PARTS_HEADINGS = Headings(PARTS, ("parts", "teile", "teileliste"))
PRICES_HEADINGS = Headings(PRICES, ("prices", "preise", "preisliste"))

"""What a job is: frozen records, SI floats inside, with the maker's own words kept beside what was measured.

No reading and no computing here. A field marked *private* never leaves the shop; `pages.client` decides what
does.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Literal, NamedTuple

from buildbook.folding import folded
from buildbook.job.adds_model import Add
from buildbook.job.holding_model import Hanging, PlaceLoad
from buildbook.job.log_model import LogEntry
from buildbook.job.photo_model import DrawingFile, Photo, Video
from buildbook.job.quoted import Quoted
from buildbook.job.shop_model import Climate, MadeAt, Shop
from buildbook.problems import Problem
from buildbook.quantity import Length
from buildbook.trade.rounds import Round

PartKind = Literal["wood", "panel", "glass", "stone", "hardware", "upholstery", "supply"]
PART_KINDS: tuple[PartKind, ...] = ("wood", "panel", "glass", "stone", "hardware", "upholstery", "supply")
Cut = Literal["flat", "rift", "quarter"]
CUTS: tuple[Cut, ...] = ("flat", "rift", "quarter")
Faces = Literal["all", "faces", "one face", "edges", "none"]
FACES: tuple[Faces, ...] = ("all", "faces", "one face", "edges", "none")
STANDS = ("floor", "wall", "ceiling", "table")
PARTS_FOR = ("all", "each")
CARDS = ("one", "each")
Wear = Literal["daily", "now and then", "never"]
WEARS: tuple[Wear, ...] = ("daily", "now and then", "never")
PER = ("board_foot", "m3", "m2", "each", "sheet", "l", "kg", "m")


@dataclass(frozen=True)
class Size:
    """Overall sizes as a visitor would measure them; each may be unknown."""

    width: Length | None = None
    depth: Length | None = None
    height: Length | None = None

    @property
    def metres(self) -> tuple[float | None, float | None, float | None]:
        return tuple(side.m if side else None for side in (self.width, self.depth, self.height))  # type: ignore[return-value]


@dataclass(frozen=True)
class Stock:
    """The thickness bought, as written (`5/4`, `27 mm`); of a part that is glued up, of one of its layers."""

    written: str
    thickness_m: float
    layers: int = 1

    @property
    def told(self) -> str:
        """As a maker writes it: `8/4`, `2 × 8/4`."""
        return self.written if self.layers == 1 else f"{self.layers} × {self.written}"


@dataclass(frozen=True)
class Part:
    """A row of the parts file.

    material    as written; `key` is the row of the trade's table that it names (a species for wood, a sheet
                for panel …), empty when the table does not know it.
    name_assumed  why this species was taken for a loose name (`oak`), empty when it was plain.
    stated      the name says which species it is; where it does not (`mahogany`), that of `key` is only reckoned
                with, and no page for a client may say it.
    country     the English name of where it grew, as written when it is not known; `country_code` of ISO
                3166-1.
    round       empty for what is square; of a rod width and thickness are its diameter, of a disc length and width.
    length      over all; `tenons` of both ends together, None where there are none.
    wall        how thick it is left where it is turned or carved hollow.
    working     the title of the resawing or lamination that it comes out of. *private*.
    edge, held  of a pane: how its edges are worked, and how it is held; the edge of anything else is *private*.
    finish      the key of the finish on top; `finish_assumed`: the row names none, and the job has one only.
    opening     the room across the grain that the part has, both grooves included.
    supplier, price, per, note: *private*.
    """

    row: int
    name: str
    qty: int
    kind: PartKind
    material: str
    key: str = ""
    name_assumed: str = ""
    stated: bool = True
    length: Length | None = None
    width: Length | None = None
    thickness: Length | None = None
    round: Round = ""
    tenons: Length | None = None
    wall: Length | None = None
    stock: Stock | None = None
    working: str = ""
    cut: Cut | None = None
    fit: str = ""
    edge: str = ""
    held: str = ""
    opening: Length | None = None
    faces: Faces = "all"
    finish: str = ""
    finish_assumed: bool = False
    mass_kg: float | None = None
    origin: str = ""
    country: str = ""
    country_code: str = ""
    supplier: str = ""
    price: Decimal | None = None
    per: str = ""
    for_client: bool = True
    note: str = ""

    @property
    def between_shoulders_m(self) -> float | None:
        """The length between shoulders; None of a part without tenons."""
        return self.length.m - self.tenons.m if self.length and self.tenons else None

    @property
    def same(self) -> str:
        """What is the same where the material is: the key of the trade's table, else the maker's own word."""
        return self.key or folded(self.material)

    @property
    def said(self) -> str:
        """What a client may be told is the same: as `same`, but by the maker's own word where it states no species."""
        return self.same if self.stated or self.kind != "wood" else folded(self.material)


@dataclass(frozen=True)
class Finish:
    """One finish of the schedule. What the job states overrides the family's figures.

    product, sheen  as the client may read them; batch, note: *private*.
    wear            how it is handled, empty where the job does not say.
    over            the key of the finish that lies beneath it on the same parts, empty for one on bare wood.
    spread_m2_per_l of a coat; of the first one only where `later_m2_per_l` says how far a coat after it goes.
    exterior, food_safe  its maker sells it for outdoors, states that it suits contact with food.
    """

    key: str
    family: str
    product: str = ""
    coats: tuple[date, ...] = ()
    spread_m2_per_l: float | None = None
    voc_g_per_l: float | None = None
    light_use_days: float | None = None
    full_cure_days: float | None = None
    refresh_months: int | None = None
    wear: Wear | Literal[""] = ""
    two_part: bool = False
    food_safe: bool = False
    note: str = ""
    exterior: bool = False
    over: str = ""
    later_m2_per_l: float | None = None
    sheen: str = ""
    batch: str = ""


class Board(NamedTuple):
    """A board of a tally: nominal thickness, width and length."""

    thickness_m: float
    width_m: float
    length_m: float


@dataclass(frozen=True)
class Working:
    """A sum that belongs in the record. `inputs` are SI floats, counts, words or the boards of a tally, by
    the parameters of the sum in `trade.workings`; `written` is what the maker wrote for each key.
    """

    kind: str
    title: str
    inputs: dict[str, float | int | str | tuple[Board, ...]]
    written: dict[str, str]
    note: str = ""


@dataclass(frozen=True)
class Delivery:
    """Pieces of a job that were handed over together, by their numbers from 1; `day` is None for those still here."""

    day: date | None
    pieces: tuple[int, ...]


@dataclass(frozen=True)
class Job:
    """One commission, read whole. `client`, `price` and everything in `entries` but the marked passages is
    *private*.

    quantity   how many like pieces it makes. Sizes, contents, loads, limits, doors, drawers, joints and hanging are
               those of one; price, hours and, as they are read, the counts of `parts` are for all.
    adds       sums of the sizes of one piece that must come out. *private*.
    parts_for  what the counts of parts.csv were written for, empty where it is not said.
    photos     those that are shown; aside: those that the maker put aside, shown nowhere. *private*: videos,
               aside, drawings.
    delivered  the day that the last piece went, None while one is here. deliveries: where they went on several days.
    """

    folder: str
    number: str = ""
    title: str = ""
    piece: str = ""
    units: str = "mm"
    client: str = ""
    begun: date | None = None
    delivered: date | None = None
    quantity: int = 1
    parts_for: str = ""
    cards: str = "one"
    deliveries: tuple[Delivery, ...] = ()
    overall: Size = Size()
    tags: tuple[str, ...] = ()
    joinery: tuple[str, ...] = ()
    stands: str = ""
    contents_kg: float | None = None
    climate: Climate | None = None
    made_at: MadeAt | None = None
    price: Decimal | None = None
    marks: str = ""
    features: tuple[str, ...] = ()
    use: str = ""
    description: str = ""
    fitting: str = ""
    adjusting: str = ""
    limits: tuple[str, ...] = ()
    loads: tuple[PlaceLoad, ...] = ()
    comes_apart: tuple[str, ...] = ()
    may_drill: str = ""
    guarantee: str = ""
    adds: tuple[Add, ...] = ()
    near: tuple[str, ...] = ()
    crosses_border: bool = False
    goes_to_code: str = ""
    food: bool = False
    children: bool = False
    doors: int | None = None
    drawers: int | None = None
    joints: int | None = None
    woods: tuple[str, ...] = ()
    stages: tuple[str, ...] = ()
    includes: tuple[str, ...] = ()
    excludes: tuple[str, ...] = ()
    page: str = ""
    finishes: tuple[Finish, ...] = ()
    hanging: Hanging | None = None
    workings: tuple[Working, ...] = ()
    parts: tuple[Part, ...] = ()
    entries: tuple[LogEntry, ...] = ()
    photos: tuple[Photo, ...] = ()
    lead: str = ""
    client_photos: tuple[str, ...] = ()
    lead_of_job_toml: str = ""
    aside: tuple[Photo, ...] = ()
    videos: tuple[Video, ...] = ()
    drawings: tuple[DrawingFile, ...] = ()
    quoted: Quoted | None = None
    shop: Shop = field(default_factory=Shop)
    problems: tuple[Problem, ...] = field(default=(), compare=False)

    @property
    def key(self) -> str:
        """The name of the job's folders in a book: its folder's name."""
        return self.folder

    @property
    def name(self) -> str:
        """What to call the piece: its title, else its number, else its folder."""
        return self.title or self.number or self.folder

    @property
    def last_day(self) -> date | None:
        """The day that deadlines count from when nothing better is known: delivered, else the last dated
        thing.
        """
        dated = [entry.day for entry in self.entries] + [c for f in self.finishes for c in f.coats]
        dated += [sent.day for sent in self.deliveries if sent.day]
        return self.delivered or max(dated, default=None)

    @property
    def guaranteed(self) -> str:
        """What is guaranteed of the piece, in the maker's words: by the job, else by the shop; empty where neither."""
        return self.guarantee or self.shop.guarantee

    @property
    def handed_over(self) -> bool:
        """Whether a piece has gone, if not all of them."""
        return self.delivered is not None or bool(self.deliveries)

    @property
    def numbers(self) -> range:
        """The numbers of the pieces, from 1."""
        return range(1, self.quantity + 1)

    @property
    def batches(self) -> tuple[Delivery, ...]:
        """The pieces by the day they went, the first day first, those that are still here last; each piece once."""
        if not self.deliveries:
            return (Delivery(self.delivered, tuple(self.numbers)),)
        gone = {piece for sent in self.deliveries for piece in sent.pieces}
        here = tuple(piece for piece in self.numbers if piece not in gone)
        return (*self.deliveries, Delivery(None, here)) if here else self.deliveries

    def piece_number(self, piece: int) -> str:
        """The number of one piece of a set: `2026-022/3`, without a number of the job `3/6`."""
        return f"{self.number}/{piece}" if self.number else f"{piece}/{self.quantity}"

    @property
    def country_code(self) -> str:
        """ISO 3166-1 code of the country where the piece stands: where it goes, else the shop's; empty if not known."""
        return self.goes_to_code or self.shop.country_code

    def finish(self, key: str) -> Finish | None:
        """The finish of a key, None where the schedule has none."""
        return next((finish for finish in self.finishes if finish.key == key), None)

    def layers(self, key: str) -> tuple[Finish, ...]:
        """A finish and all that lies beneath it, the top one first."""
        found: dict[str, Finish] = {}
        while key not in found and (finish := self.finish(key)):
            found[key] = finish
            key = finish.over
        return tuple(found.values())

    def bearing(self, key: str) -> tuple[Part, ...]:
        """The parts that bear a finish, on top or beneath another."""
        over = {finish.key: finish.over for finish in self.finishes if finish.over}
        tops = {key}
        while above := {one for one, beneath in over.items() if beneath in tops} - tops:
            tops |= above
        return tuple(part for part in self.parts if part.finish in tops)

    def is_beneath(self, key: str) -> bool:
        """Whether a finish lies beneath another on every part that bears it."""
        over_it = any(finish.over == key for finish in self.finishes)
        return over_it and not any(part.finish == key for part in self.parts)

    def photo(self, name: str) -> Photo | None:
        return next((photo for photo in self.photos if name in (photo.name, *photo.also)), None)

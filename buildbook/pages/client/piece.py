"""ClientPiece: all that may leave the shop about one piece.

The client's page, card and records are rendered from this record and from nothing else. It has no field for a client's
name, a price, a supplier, hours, a file name or a note that was not marked, so no template can show one. What is added
here leaves the shop: add a field only for what a client is meant to read, and plant a canary beside it in
`tests/test_boundary.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from buildbook.care import Happening
from buildbook.pages.drawn.finish_line import FinishLine
from buildbook.pages.drawn.front import FrontView
from buildbook.pages.drawn.year import Dial, YearOfSeasons
from buildbook.pages.materials import Material, TimberLine
from buildbook.pages.reach import dialled
from buildbook.pages.shared import Contact, Line, Picture

_SECTIONS_ASKED_FOR = (
    "happens", "dangers", "care", "seasons", "renewing", "another", "passing", "more", "maker",
)  # fmt: skip


@dataclass(frozen=True)
class Advice:
    """One instruction, why this piece gets it, and how much hangs on it (`warning`, `caution`, `note`)."""

    key: str
    title: str
    text: str
    why: str
    severity: str
    severity_word: str
    source: str
    manner: str = ""  # of everyday care: `do`, `never`, `with` (what to clean with)


@dataclass(frozen=True)
class AdviceGroup:
    """Instructions for one time of the owner's life with the piece, or one thing that an owner does with it."""

    key: str
    heading: str
    items: tuple[Advice, ...]


@dataclass(frozen=True)
class Short:
    """A caution that stands at the top, with the instruction it leads to."""

    text: str
    key: str
    severity: str
    severity_word: str


@dataclass(frozen=True)
class FirstWeeks:
    """What holds only at first, and until when: it stands after what lasts, since the page is read for decades."""

    heading: str
    shorts: tuple[Short, ...] = ()


@dataclass(frozen=True)
class Moving:
    """How one part follows the seasons. The metre figures are for drawing to scale."""

    part: str
    wood: str
    sentence: str
    width_m: float
    grows_m: float
    shrinks_m: float


@dataclass(frozen=True)
class Seasons:
    """What air and light do to the piece, and what to do about it."""

    sentences: tuple[str, ...] = ()
    moving: tuple[Moving, ...] = ()
    rh_low_pct: float = 0.0
    rh_high_pct: float = 0.0
    advice: tuple[Advice, ...] = ()


@dataclass(frozen=True)
class PutOn:
    """The coats of pieces that went together; `said` names those pieces."""

    pieces: tuple[int, ...]
    said: str
    coats: tuple[date, ...]


@dataclass(frozen=True)
class FinishStory:
    """One finish: what it is, where it is, how to renew it, when it was put on and may be used.

    said     what it is, how often it is renewed and with how much, what to take instead. lines: its days.
    where_folded  how many parts bear it, where they are too many to be read: then `where` stands behind that.
    batches  of a set whose pieces went apart with other coats: those of each delivery.
    """

    title: str
    where: str
    lines: tuple[Line, ...]
    coats: tuple[date, ...] = ()
    light_use_from: date | None = None
    full_cure_from: date | None = None
    full_cure_to: date | None = None
    batches: tuple[PutOn, ...] = ()
    said: tuple[str, ...] = ()
    where_folded: str = ""


@dataclass(frozen=True)
class Fitting:
    """Hardware: what to ask for when one breaks. `qty` of each piece; in words where they have not the same."""

    name: str
    qty: int | str
    ask_for: str


@dataclass(frozen=True)
class Spares:
    """How many kinds of fittings and panes there are, in words, empty where there are none; whom to ask for what no
    shop has.
    """

    fittings: str
    panes: str
    how: str


@dataclass(frozen=True)
class Told:
    """A passage that the maker marked for the client, as Markdown, with the pictures that it shows.

    `pictures` maps what the Markdown calls a picture to the picture; any other picture in it is dropped.
    """

    day: str
    markdown: str
    pictures: tuple[tuple[str, Picture], ...] = ()


@dataclass(frozen=True)
class Due:
    """A day on which something is to be done or looked at. `every_months` repeats it without end; 0 is once.

    What repeats begins on a day that every month has. pieces: those of a set that it is for, where it is not for all.
    """

    key: str
    day: date
    title: str
    text: str
    every_months: int = 0
    pieces: tuple[int, ...] = ()


@dataclass(frozen=True)
class PieceOfSet:
    """One piece of a set: its number, its place in the set (`3/6`), the day it went."""

    place: int
    number: str
    of: str
    delivered: date | None
    delivered_said: str


@dataclass(frozen=True)
class Measures:
    """Figures of one piece for records that a program reads; each is None where it is not known."""

    width_m: float | None = None
    depth_m: float | None = None
    height_m: float | None = None
    mass_kg: float | None = None
    stored_kg_co2: float | None = None


@dataclass(frozen=True)
class ClientPiece:
    """What may leave the shop about one piece, or about a set of like ones. Texts are in the client's language, figures
    in the shop's units.

    dangers    what can hurt somebody, with what matters most before first use; each stands there and nowhere else.
    everyday   care of each week: what to do, what never, what to clean with. care: what comes more seldom, then the
               first weeks. moving: moving it and changing it. another: a matching piece. passing: handing it on.
    numbers    those of a set, from the first to the last; empty for one.
    pieces     those of a set, empty for one; set_said: that it is one. cards_each: each has a card of its own.
    others     what else it is made of, of which there is no more to say.
    loads      a sentence for all that the piece carries, and for each place: with what is not recorded.
    comes_apart, may_drill, guarantee  in the maker's own words: the steps of taking it apart, where a hole may go.
    gloss      the words of the trade that the page uses, and what they mean.
    """

    language: str
    title: str
    number: str
    kind: str
    introduction: str
    for_what: str
    lead: Picture | None
    label: tuple[Line, ...]
    day_one: tuple[Short, ...]
    dangers: tuple[Advice, ...]
    everyday: tuple[AdviceGroup, ...]
    care: tuple[AdviceGroup, ...]
    moving: tuple[AdviceGroup, ...]
    another: tuple[Advice, ...]
    passing: tuple[Advice, ...]
    seasons: Seasons
    finishes: tuple[FinishStory, ...]
    mending: tuple[Advice, ...]
    materials: tuple[Material, ...]
    figures: tuple[Line, ...]
    hardware: tuple[Fitting, ...]
    panes: tuple[Line, ...]
    story: tuple[Told, ...]
    gallery: tuple[Picture, ...]
    record: tuple[Line, ...]
    information: tuple[Line, ...]
    timber_statement: tuple[TimberLine, ...]
    cautions: tuple[Advice, ...]
    contact: Contact
    measures: Measures
    due: tuple[Due, ...]
    wood_colours: tuple[str, str]
    year: YearOfSeasons | None = None
    dial: Dial | None = None
    finish_lines: tuple[FinishLine, ...] = ()
    front: FrontView | None = None
    page_address: str = ""
    dated: date | None = None
    first_weeks: FirstWeeks | None = None
    numbers: str = ""
    pieces: tuple[PieceOfSet, ...] = ()
    set_said: str = ""
    cards_each: bool = False
    happens: tuple[Happening, ...] = ()
    others: str = ""
    loads: tuple[str, ...] = ()
    comes_apart: tuple[str, ...] = ()
    may_drill: str = ""
    guarantee: str = ""
    spares: Spares | None = None
    gloss: tuple[Line, ...] = ()

    @property
    def phone_link(self) -> str:
        """The maker’s telephone as a link; empty where there is none that can be dialled."""
        return dialled(self.contact.phone)

    @property
    def asked(self) -> dict[str, str]:
        """The question of an owner that each section answers, by the key of its words. What is told on under another
        section's question has none.
        """
        first = "story" if self.story else "materials"
        changes = self.may_drill or any(group.key == "changing" for group in self.moving)
        return {
            **{name: name for name in _SECTIONS_ASKED_FOR},
            first: first,
            "moving": "moving" if changes else "moving_only",
            "spares": "spares_glass" if self.panes else "spares",
        }

    @property
    def number_said(self) -> str:
        """The number as a person reads it: of a set, those of its pieces."""
        return self.numbers or self.number

    def pictures(self) -> tuple[Picture, ...]:
        """Every picture that leaves with the piece, each once, the lead first."""
        shown = [self.lead] if self.lead else []
        shown += [picture for told in self.story for _, picture in told.pictures]
        shown += list(self.gallery)
        return tuple({picture.digest: picture for picture in shown}.values())

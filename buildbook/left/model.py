"""What a bound job leaves for the pages across jobs: `JobRecord`, kept beside its log as one file. Private.

entry   how the list of past work shows the job. find: what is searched of it. used: what it used, and who sold it.

The pages across the jobs of a book are made from these records alone, so that binding one job needs no other. Figures
in SI, money as it was paid, names as written; wording is for the pages, but for an entry, whose words are those of its
job. Plain records, written and read by `codec`; with slots, so that one that was read holds every field itself.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Literal, NamedTuple

from buildbook.find.model import FindRecord


@dataclass(frozen=True, kw_only=True, slots=True)
class Cover:
    """The picture of a job in the list, by the digest of its content; the renderer knows the files made from it."""

    digest: str
    width: int
    height: int
    alt: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Entry:
    """How the list shows a job: words and figures ready to be read. Days as ISO 8601, each maybe empty; `pieces` is
    empty for a job that makes one.
    """

    key: str
    title: str
    number: str = ""
    piece: str = ""
    year: str = ""
    begun: str = ""
    delivered: str = ""
    pieces: str = ""
    size: str = ""
    woods: tuple[str, ...] = ()
    tags: tuple[str, ...] = ()
    hours: str = ""
    picture: Cover | None = None


class UnitPrice(NamedTuple):
    """A price and the unit that it is for, a name of `job.model.PER`."""

    price: Decimal
    per: str


class Seller(NamedTuple):
    """Who sold it; `listed` where only prices.csv says so."""

    name: str
    listed: bool


class Remark(NamedTuple):
    """What the maker says of a thing: a sentence of the log with its `day` (ISO 8601), or a note of a part (`of`).
    `at`: the id of where it stands on the page of the log.
    """

    day: str
    of: str
    text: str
    at: str = ""


class Labelled(NamedTuple):
    """A word in capitals in the notes, which may be what is written on a jig, and the sentence that has it."""

    label: str
    said: Remark


@dataclass(frozen=True, kw_only=True, slots=True)
class Use:
    """A thing in one job. `key` is the same wherever it is the same thing; `name` is as the table or the maker has it.

    parts   what it was for, each name once. count: pieces. cost: of what has a price; None where nothing has.
    `cost_whole`: False where some of it has no price.
    """

    key: str
    name: str
    parts: tuple[str, ...] = ()
    count: int = 0
    paid: tuple[UnitPrice, ...] = ()
    cost: Decimal | None = None
    cost_whole: bool = True
    sources: tuple[Seller, ...] = ()
    said: tuple[Remark, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class WoodUse(Use):
    """A wood. Stock is what was bought by the tallies of the job (`tallied`), else what its parts call for.

    key     of the table of species; what the table does not know by the maker's own word.
    """

    net_m3: float = 0.0
    stock_m3: float = 0.0
    stock_bf: float = 0.0
    tallied: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class FinishUsed(Use):
    """A finish: `key` is its family with the product, `name` the product. `coats`: their days."""

    family: str
    family_name: str
    coats: tuple[date, ...] = ()
    area_m2: float = 0.0
    litres: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class HardwareUse(Use):
    """Hardware of one kind and size; `key` is the same for every size."""

    sides_m: tuple[float, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class JigUse(Use):
    """A jig that was made or used. What is not told of it is empty."""

    label: str = ""
    first: str = ""
    pitch: str = ""
    hangs: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class BoughtLine:
    """One thing from one supplier. `wood`, `family`: the keys of its table, for its name in the page's language."""

    kind: str
    name: str
    wood: str = ""
    family: str = ""
    parts: tuple[str, ...] = ()
    count: int = 0
    stock_m3: float = 0.0
    stock_bf: float = 0.0
    tallied: bool = False
    area_m2: float = 0.0
    litres: float | None = None
    paid: tuple[UnitPrice, ...] = ()
    cost: Decimal | None = None
    cost_whole: bool = True
    listed: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class SupplierUse(Use):
    """What one supplier sold for a job."""

    lines: tuple[BoughtLine, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Used:
    """What one job used. `day` is its last one; `currency` that of all its money.

    pieces      how many like ones the job made; everything else is of all of them.
    hours       by stage, in the shop's order. joinery_h: those of the stage of joints. joints: as the job states them.
    materials   what they cost; None where none has a price. unpriced: how many have none.
    labels      words in capitals in the notes, by which a jig of another job is known.
    """

    key: str
    title: str
    number: str = ""
    day: date | None = None
    delivered: bool = False
    pieces: int = 1
    currency: str
    joinery_h: float = 0.0
    joints: int | None = None
    hours: tuple[tuple[str, float], ...] = ()
    materials: Decimal | None = None
    unpriced: int = 0
    woods: tuple[WoodUse, ...] = ()
    finishes: tuple[FinishUsed, ...] = ()
    joinery: tuple[Use, ...] = ()
    hardware: tuple[HardwareUse, ...] = ()
    suppliers: tuple[SupplierUse, ...] = ()
    jigs: tuple[JigUse, ...] = ()
    labels: tuple[Labelled, ...] = ()

    @property
    def year(self) -> str:
        return f"{self.day.year:04}" if self.day else ""

    @property
    def hours_h(self) -> float:
        return math.fsum(hours for _, hours in self.hours)


@dataclass(frozen=True, kw_only=True, slots=True)
class JobRecord:
    """What one bound job leaves. A record of another `schema` is not read: its job is to be bound again."""

    schema: Literal[1] = 1
    entry: Entry
    find: FindRecord
    used: Used

    @property
    def key(self) -> str:
        return self.entry.key

"""What an estimate says: frozen records, the contract between reckoning it and showing it.

`estimate.json` is these records written out (`estimate.as_json`). Hours are hours of one pair of hands; a range holds
four truths of five (80 %), by the shop's own past. Words are keys of the section `estimate` of the words files with
their values (`Said`), so that a page says them in the shop's language. Everything here is *private*: the letter is
made from it by `pages.letter`, which picks what may leave.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from buildbook.job.model import Job
from buildbook.problems import Problem
from buildbook.summary.model import Money, Summary


@dataclass(frozen=True)
class Said:
    """A sentence by its key under `estimate` in the words files, and the values that it asks for (text)."""

    key: str
    values: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Range:
    """What an amount may be: four times in five between `low` and `high`, as often above `median` as below."""

    low: float
    median: float
    high: float


# -- like this one ---------------------------------------------------------------------------------


@dataclass(frozen=True)
class Compared:
    """One trait of two pieces: how alike (0 to 1), what it weighs, and what each has, in words."""

    trait: str
    alike: float
    weight: float
    here: str
    there: str


@dataclass(frozen=True)
class Like:
    """A past job and how like the enquiry a piece of it is, from 0 to 1 (Gower 1971). Hours and price are for all its
    pieces.
    """

    job: str
    title: str
    day: date | None
    likeness: float
    compared: tuple[Compared, ...]
    hours_h: float
    price: Money | None = None
    quantity: int = 1


# -- hours -----------------------------------------------------------------------------------------


@dataclass(frozen=True)
class StageEstimate:
    """The hours of one stage. `hours` is None where no past job tells.

    driver    what the hours were reckoned by (a key of `data/drivers.toml`), `amount` how much of it the enquiry has.
    exponent  hours grow as the driver to this power.
    booked    the share of past jobs that booked this stage where they had its driver; the median counts it.
    from_jobs how many past jobs it was learnt from. said: what it leans on.
    """

    stage: str
    driver: str
    amount: float
    hours: Range | None
    exponent: float = 0.0
    booked: float = 1.0
    from_jobs: int = 0
    said: tuple[Said, ...] = ()


@dataclass(frozen=True)
class SetHours:
    """The hours of a set apart: those of the first piece, with what is done once, and those of all that follow it.

    rate_pct  what a piece takes of one half as far on in the set. from_sets: how many of the shop's own sets that leans
              on; 0 where it is the published rate.
    """

    quantity: int
    first: Range
    following: Range
    rate_pct: float
    from_sets: int


@dataclass(frozen=True)
class HoursEstimate:
    """The hours of the piece, or of all pieces of a set (`of_set` tells the first apart). `total` is None where no past
    job booked hours.

    lean      how the range came about: `past` (calibrated on the shop's own past quotes), `few` (that and a usual
              spread), `usual` (a usual spread alone), `none`. scores: how many past quotes it was calibrated on.
    drift_pct how much slower (+) or faster (-) the shop works a year than the year before; 0 where it cannot be told.
    correction  what the median was multiplied by, for past quotes that were too low or too high.
    rare      stages that few past jobs booked and nothing in the parts tells of; they are not in the sum.
    """

    total: Range | None
    by_stage: tuple[StageEstimate, ...]
    jobs: int = 0
    lean: str = "none"
    scores: int = 0
    drift_pct: float = 0.0
    correction: float = 1.0
    rare: tuple[str, ...] = ()
    of_set: SetHours | None = None


# -- materials -------------------------------------------------------------------------------------


@dataclass(frozen=True)
class MaterialLine:
    """One thing to buy. `amount` is in `unit` (m3, m2, m, l, kg, each, sheet); scaled amounts have a range.

    kind      as in parts.csv, or `finish`. key: of the trade's table. exponent: how it was scaled with size (0: read
              from parts). price, per: what was reckoned with; price_day: the day of that price. cost: None without one.
    """

    kind: str
    name: str
    key: str
    unit: str
    amount: Range
    scaled: bool = False
    exponent: float = 0.0
    from_jobs: int = 0
    price: Decimal | None = None
    per: str = ""
    price_day: date | None = None
    cost: Money | None = None
    said: tuple[Said, ...] = ()


@dataclass(frozen=True)
class MaterialsEstimate:
    """`amount` is the sum of the lines that have a price; low and high from the ranges of scaled lines."""

    lines: tuple[MaterialLine, ...]
    low: Money
    amount: Money
    high: Money
    unpriced: tuple[str, ...] = ()
    waste_pct: float = 0.0
    said: tuple[Said, ...] = ()


# -- price -----------------------------------------------------------------------------------------


@dataclass(frozen=True)
class PriceLine:
    """A step from cost to price: materials, labour, contingency, overhead, margin, rounding, tax."""

    key: str
    low: Money
    median: Money
    high: Money
    pct: float | None = None


@dataclass(frozen=True)
class Share:
    """A payment: `when` is empty for the deposit."""

    when: str
    share_pct: float
    amount: Money


@dataclass(frozen=True)
class PriceEstimate:
    """What to ask, with tax where the shop adds one. `net` is without. The shares are of the median, to the coin."""

    lines: tuple[PriceLine, ...]
    low: Money
    median: Money
    high: Money
    net_low: Money
    net_median: Money
    net_high: Money
    shares: tuple[Share, ...] = ()


# -- how well it would have quoted -----------------------------------------------------------------


@dataclass(frozen=True)
class Tried:
    """A past job, estimated from those before it only, against what it took. Hours.

    mean_h, per_board_foot_h: what the two plain ways would have said; the second None without board feet.
    """

    job: str
    title: str
    day: date | None
    from_jobs: int
    actual_h: float
    hours: Range
    mean_h: float
    per_board_foot_h: float | None

    @property
    def error_pct(self) -> float:
        """How far the median was from the truth, in % of the truth; above zero: too much."""
        return 100 * (self.hours.median / self.actual_h - 1)

    @property
    def in_range(self) -> bool:
        return self.hours.low <= self.actual_h <= self.hours.high


@dataclass(frozen=True)
class Backtest:
    """`in_range_pct` is to be about 80. Figures are None where no job could be tried. could: how many could be, of
    which `tried` are the latest.
    """

    tried: tuple[Tried, ...] = ()
    median_abs_error_pct: float | None = None
    in_range_pct: float | None = None
    mean_hours_error_pct: float | None = None
    per_board_foot_error_pct: float | None = None
    could: int = 0


# -- when the piece could be ready -----------------------------------------------------------------


@dataclass(frozen=True)
class LeadTime:
    """From when it can be begun and, by the hours of a week at the bench, when it would be ready: by the median, and
    by the upper end of the range. None where shop.toml does not tell.
    """

    begin: date | None = None
    ready_median: date | None = None
    ready_high: date | None = None


@dataclass(frozen=True)
class Estimate:
    """An enquiry, reckoned from the shop's past on a day. `enquiry` has prices of that day; `summary` is its own."""

    enquiry: Job
    summary: Summary
    day: date
    hours: HoursEstimate
    materials: MaterialsEstimate
    price: PriceEstimate | None
    like: tuple[Like, ...]
    backtest: Backtest
    lead: LeadTime = LeadTime()
    holds_until: date | None = None
    problems: tuple[Problem, ...] = field(default=())

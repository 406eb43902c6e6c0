"""The figures of a job: frozen records, SI units named in each field, each with what it assumes in words.

`summary.json` is these records written out (`summary.as_json`). No reading, no computing, no wording for pages here.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from buildbook.summary.sag_model import Sag
from buildbook.summary.set_model import BatchDates
from buildbook.summary.sums_model import SumCheck

Assumed = tuple[str, ...]


@dataclass(frozen=True)
class Money:
    amount: Decimal
    currency: str


@dataclass(frozen=True)
class StockLine:
    """Boards of one species and thickness to buy."""

    stock: str
    thickness_m: float
    parts: int
    rough_m3: float
    rough_bf: float
    buy_m3: float
    buy_bf: float


@dataclass(frozen=True)
class SpeciesTimber:
    """One species: how much is in the piece, how much rough stock that takes, how much to buy.

    `cost_whole`: False where some of its parts have no price.
    `bought_m3`, `bought_bf`: what was bought by the tallies of the job; None where there is none.
    """

    key: str
    name: str
    botanical: str
    parts: int
    net_m3: float
    rough_m3: float
    rough_bf: float
    buy_m3: float
    buy_bf: float
    stock: tuple[StockLine, ...]
    cost: Money | None = None
    cost_whole: bool = True
    bought_m3: float | None = None
    bought_bf: float | None = None
    assumed: Assumed = ()


@dataclass(frozen=True)
class Timber:
    species: tuple[SpeciesTimber, ...] = ()
    net_m3: float = 0.0
    rough_m3: float = 0.0
    rough_bf: float = 0.0
    buy_m3: float = 0.0
    buy_bf: float = 0.0
    over_length_m: float = 0.0
    over_width_m: float = 0.0
    waste_pct: float = 0.0
    assumed: Assumed = ()


@dataclass(frozen=True)
class SheetUse:
    """One sheet material of one thickness. `cost_whole`: False where some of its parts have no price."""

    key: str
    name: str
    thickness_m: float
    parts: int
    area_m2: float
    sheets: int
    sheet_length_m: float
    sheet_width_m: float
    cost: Money | None = None
    cost_whole: bool = True
    assumed: Assumed = ()


@dataclass(frozen=True)
class Panels:
    sheets: tuple[SheetUse, ...] = ()
    area_m2: float = 0.0
    waste_pct: float = 0.0


@dataclass(frozen=True)
class PartMass:
    part: str
    row: int
    kg: float


@dataclass(frozen=True)
class Mass:
    """Of all pieces. `loaded_kg` adds what they are said to carry; None when that is not known."""

    wood_kg: float = 0.0
    panels_kg: float = 0.0
    glass_kg: float = 0.0
    stone_kg: float = 0.0
    hardware_kg: float = 0.0
    other_kg: float = 0.0
    total_kg: float = 0.0
    loaded_kg: float | None = None
    parts: tuple[PartMass, ...] = ()
    unknown: tuple[str, ...] = ()
    assumed: Assumed = ()


@dataclass(frozen=True)
class Air:
    """The moisture content that the wood was made at and will live between, and the air behind it."""

    made_mc_pct: float
    low_mc_pct: float
    high_mc_pct: float
    rh_low_pct: float
    rh_high_pct: float
    temperature_c: float
    assumed: Assumed = ()


@dataclass(frozen=True)
class Movement:
    """How much wider and narrower one part gets. `ok` is None where no opening is given."""

    part: str
    row: int
    species: str
    cut: str
    width_m: float
    made_mc_pct: float
    low_mc_pct: float
    high_mc_pct: float
    grows_m: float
    shrinks_m: float
    fit: str = ""
    opening_m: float | None = None
    spare_m: float | None = None
    ok: bool | None = None
    assumed: Assumed = ()


@dataclass(frozen=True)
class FinishUse:
    """One finish of the schedule: how much of it, from when the piece may be used, when to renew it; of a set, the last
    of it.

    batches          the days of pieces that went on different days, where their last coats differ.
    wear             how the surfaces that bear it are handled: `daily`, `now and then`, `never`.
    refresh_months   how often it is renewed at that wear; None where it is not, or only by its look.
    refresh          the first days of renewing, counted from the last coat, none before the handing over.
    over         the key of the finish beneath it; what only lies beneath another has no days of use and renewal.
    spread_m2_per_l, per_coat_l  of the first coat; `later_…` of one after it.
    recoat_low_h, recoat_high_h  how long its family usually waits between coats.
    mending      how well its family can be mended, 1 (poor) to 5 (good).
    """

    key: str
    family: str
    family_name: str
    product: str
    area_m2: float
    coats: int
    spread_m2_per_l: float | None
    per_coat_l: float | None
    volume_l: float | None
    voc_low_kg: float | None
    voc_kg: float | None
    first_coat: date | None
    last_coat: date | None
    light_use_from: date | None
    full_cure_from: date | None
    full_cure_to: date | None
    wear: str = "daily"
    refresh_months: int | None = None
    refresh: tuple[date, ...] = ()
    over: str = ""
    later_m2_per_l: float | None = None
    later_coat_l: float | None = None
    recoat_low_h: float | None = None
    recoat_high_h: float | None = None
    mending: int | None = None
    cost: Money | None = None
    assumed: Assumed = ()
    batches: tuple[BatchDates, ...] = ()


@dataclass(frozen=True)
class Pane:
    part: str
    row: int
    qty: int
    kind: str
    area_m2: float
    thickness_m: float
    kg: float
    safety: tuple[str, ...] = ()  # why the place may call for safety glazing


@dataclass(frozen=True)
class Glass:
    panes: tuple[Pane, ...] = ()
    area_m2: float = 0.0
    kg: float = 0.0


@dataclass(frozen=True)
class HardwareItem:
    """`spec` is what to ask for when one breaks."""

    part: str
    row: int
    qty: int
    spec: str
    metal: str = ""
    kg: float | None = None
    for_client: bool = True
    cost: Money | None = None


@dataclass(frozen=True)
class HangingLoad:
    """What each fixing carries downwards (shear) and outwards (pull), and what the wood of the wall allows of each.

    Of one piece of a set. What is allowed is None where the wall's wood or the fastener is not known;
    `together_use_pct` is of both loads at once, `use_pct` the worst of the three.
    """

    mass_kg: float
    loaded_kg: float
    method: str
    fasteners: int
    shear_each_n: float
    pull_each_n: float
    allowed_shear_n: float | None
    allowed_pull_n: float | None
    shear_use_pct: float | None
    pull_use_pct: float | None
    use_pct: float | None
    together_use_pct: float | None = None
    cautions: tuple[str, ...] = ()
    assumed: Assumed = ()


@dataclass(frozen=True)
class SpeciesCarbon:
    name: str
    stored_kg_co2: float


@dataclass(frozen=True)
class Carbon:
    stored_kg_co2: float = 0.0
    species: tuple[SpeciesCarbon, ...] = ()
    assumed: Assumed = ()


@dataclass(frozen=True)
class StageHours:
    stage: str
    hours_h: float


@dataclass(frozen=True)
class HoursBooked:
    by_stage: tuple[StageHours, ...] = ()
    total_h: float = 0.0


@dataclass(frozen=True)
class CostLine:
    kind: str
    cost: Money


@dataclass(frozen=True)
class Cost:
    """`unpriced` names what no price is known for; then `materials` is what is known."""

    by_kind: tuple[CostLine, ...]
    materials: Money
    labour: Money | None
    total: Money | None
    price: Money | None
    margin_pct: float | None
    earned_per_hour: Money | None
    unpriced: tuple[str, ...] = ()


@dataclass(frozen=True)
class Figure:
    """A named figure of a working: `unit` is m, m2, degree, or empty for a count."""

    name: str
    value: float
    unit: str = ""


@dataclass(frozen=True)
class Worked:
    """A working: what went in and what came out."""

    kind: str
    title: str
    inputs: tuple[Figure, ...]
    results: tuple[Figure, ...]
    note: str = ""


@dataclass(frozen=True)
class StageAgainst:
    """The hours of a stage as estimated and as booked; a range is four truths of five.

    low_h, median_h, high_h: None where it was not estimated. difference_pct: booked over the median. in_range: None
    where there is no range, or while the job is not delivered and no more is booked than the range holds.
    """

    stage: str
    low_h: float | None
    median_h: float | None
    high_h: float | None
    actual_h: float
    difference_pct: float | None = None
    in_range: bool | None = None


@dataclass(frozen=True)
class MoneyAgainst:
    """Money as estimated and as it was; the fields as in `StageAgainst`. `actual` is None where nothing tells."""

    low: Money
    median: Money
    high: Money
    actual: Money | None
    difference_pct: float | None = None
    in_range: bool | None = None


@dataclass(frozen=True)
class QuotedAgainst:
    """The estimate that a job was ordered on against what it took. `delivered`: what was booked is the whole of it."""

    by_stage: tuple[StageAgainst, ...]
    total: StageAgainst
    materials: MoneyAgainst | None
    price: MoneyAgainst | None
    delivered: bool
    assumed: Assumed = ()


@dataclass(frozen=True)
class Summary:
    """Every computed figure of a job, for all its pieces where nothing else is said: `sets.each_of` tells those of one.
    `quoted` is None for a job that holds no estimate.
    """

    timber: Timber
    panels: Panels
    mass: Mass
    air: Air
    movement: tuple[Movement, ...]
    finish: tuple[FinishUse, ...]
    glass: Glass
    hardware: tuple[HardwareItem, ...]
    hanging: HangingLoad | None
    carbon: Carbon
    hours: HoursBooked
    cost: Cost
    worked: tuple[Worked, ...]
    quoted: QuotedAgainst | None = None
    quantity: int = 1
    sums: tuple[SumCheck, ...] = ()
    sag: tuple[Sag, ...] = ()

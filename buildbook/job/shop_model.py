"""What a shop is: frozen records, as `model` has them of a job."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from buildbook.trade.tables import Place

CARD_SIZES = ("A6", "4x6")
LETTER_PAPER = frozenset(["BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE"])
"""Countries whose paper is Letter (Unicode CLDR, paperSize); all others have the sizes of ISO 216."""


VOICES = ("I", "we")
DEFAULT_STAGES = (
    "design",
    "stock",
    "milling",
    "joinery",
    "assembly",
    "hardware",
    "glazing",
    "finishing",
    "fitting",
    "delivery",
)


@dataclass(frozen=True)
class Climate:
    """The air a piece lives in: relative humidity at its lowest and highest, in per cent, and temperature in
    °C.
    """

    rh_low_pct: float
    rh_high_pct: float
    temperature_c: float


@dataclass(frozen=True)
class MadeAt:
    """The state of the wood when it was made: a meter reading, or the air of the workshop."""

    moisture_pct: float | None = None
    rh_pct: float | None = None
    temperature_c: float | None = None


@dataclass(frozen=True)
class Price:
    """A row of prices.csv."""

    material: str
    price: Decimal
    per: str
    day: date | None = None
    supplier: str = ""
    row: int = 0


@dataclass(frozen=True)
class Allowances:
    """What the shop adds between a finished part and what it buys; each None means the trade's table."""

    over_length_m: float | None = None
    over_width_m: float | None = None
    waste_pct: float | None = None
    sheet_waste_pct: float | None = None


@dataclass(frozen=True)
class CardFormat:
    """How the care card is printed: A6 (105 × 148 mm) or 4x6 (inches), with bleed and crop marks or without; and the
    booklet: A5 or half-letter.
    """

    size: str = "A6"
    bleed: bool = False
    booklet: str = "A5"


@dataclass(frozen=True)
class Payment:
    """A payment after the deposit: when it is due, and its share of the price in %."""

    when: str
    share_pct: float


@dataclass(frozen=True)
class Quoting:
    """How the shop quotes. Contingency, overhead and margin are *private*; None is not reckoned.

    contingency_pct, overhead_pct  on materials and labour. margin_pct: of the price. tax_pct: on the price.
    tax_note: a sentence of the letter, such as why no tax is charged. voice: who writes it, one of `VOICES`.
    booked_until  the day until which the bench is taken; week_hours: hours at the bench in a week.
    """

    contingency_pct: float | None = None
    overhead_pct: float | None = None
    margin_pct: float | None = None
    tax_pct: float | None = None
    tax_name: str = ""
    tax_note: str = ""
    voice: str = "I"
    round_to: Decimal | None = None
    deposit_pct: float | None = None
    valid_days: float | None = None
    booked_until: date | None = None
    week_hours: float | None = None
    includes: tuple[str, ...] = ()
    excludes: tuple[str, ...] = ()
    payments: tuple[Payment, ...] = ()


@dataclass(frozen=True)
class Shop:
    """shop.toml. Only name, maker, address, email, phone, web and guarantee may leave the shop."""

    name: str = ""
    maker: str = ""
    address: str = ""
    email: str = ""
    phone: str = ""
    web: str = ""
    guarantee: str = ""
    country: str = ""
    country_code: str = ""
    language: str = "en"
    units: str = "mm"
    both_systems: bool | None = None
    currency: str = "EUR"
    theme: str = "oilstone"
    themes_in_jobs: bool = False
    pages_at: str = ""
    hour_rate: Decimal | None = None
    waste: Allowances = Allowances()
    climate: Climate | None = None
    made_at: MadeAt | None = None
    stages: tuple[str, ...] = DEFAULT_STAGES
    prices: tuple[Price, ...] = ()
    card: CardFormat = CardFormat()
    quoting: Quoting = Quoting()

    @property
    def letter_paper(self) -> bool:
        """Whether its paper is Letter: by its country, by its units where that is not known."""
        return letter_paper(self.country_code, self.units)

    @property
    def place(self) -> Place:
        """Where its names of woods mean what they mean."""
        return Place(self.country_code, self.language)


def letter_paper(country_code: str, units: str) -> bool:
    """Whether paper is Letter in a country; where that is not known, it is where one measures in inches."""
    return country_code in LETTER_PAPER if country_code else units == "in"

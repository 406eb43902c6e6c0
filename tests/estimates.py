"""Estimates built by hand, each from a real enquiry: what the pages of an estimate are tried on.

The figures are invented and plain to check; the enquiry and its summary are read as the tool reads them.
"""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

from buildbook.estimate.model import (
    Backtest,
    Compared,
    Estimate,
    HoursEstimate,
    LeadTime,
    Like,
    MaterialLine,
    MaterialsEstimate,
    PriceEstimate,
    PriceLine,
    Range,
    Share,
    StageEstimate,
    Tried,
)
from buildbook.job import read_job
from buildbook.job.folder import read_shop
from buildbook.job.model import Job
from buildbook.job.shop_model import Payment, Shop
from buildbook.problems import Problem
from buildbook.summary import summarise
from buildbook.summary.model import Money
from tests.conftest import ROOT

SHELF = ROOT / "tests" / "shelf"
ENQUIRIES = ROOT / "tests" / "enquiries"
GERMAN = ROOT / "tests" / "jobs" / "esstisch"
DAY = date(2026, 11, 25)


def shop_of(shelf: Path = SHELF) -> Shop:
    return read_shop(shelf)[0]


def inch_shop() -> Shop:
    """The shop of the shelf, moved to where one buys by the board foot and prints on Letter."""
    shop = shop_of()
    return replace(
        shop, units="in", currency="USD", country="United States", country_code="US", address="12 Tannery Lane\nOld Mills, ME 00000",
        quoting=replace(shop.quoting, tax_pct=5.5, tax_name="sales tax"),
    )  # fmt: skip


def german_shop() -> Shop:
    """The German shop, with the way of quoting of the shelf put into its words."""
    shop = shop_of(GERMAN)
    quoting = replace(
        shop_of().quoting, tax_pct=19.0, tax_name="Mehrwertsteuer",
        includes=("eine Pflegeseite und eine gedruckte Pflegekarte zum Möbel",), excludes=("das Ausbessern von Wand und Boden",),
        payments=(Payment("wenn der Korpus verleimt ist", 40.0), Payment("bei der Lieferung", 30.0)),
    )  # fmt: skip
    return replace(shop, quoting=quoting)


def enquiry(name: str, shop: Shop | None = None) -> Job:
    """An enquiry with the shop of a shelf put on it, as the reckoning does."""
    return replace(read_job(ENQUIRIES / name), shop=shop or shop_of())


def estimate_of(job: Job, likely: int = 6890, low: int = 5980, high: int = 8240) -> Estimate:
    """An estimate of a piece for these amounts, tax included; every field of the records is filled."""
    currency = job.shop.currency
    quoting = job.shop.quoting

    def money(amount: object) -> Money:
        return Money(Decimal(str(amount)), currency)

    def net(amount: int) -> Money:
        whole = Decimal(100) / (100 + Decimal(str(quoting.tax_pct or 0)))
        return money((amount * whole).quantize(Decimal("0.01")))

    shares = [("", quoting.deposit_pct or 0.0), *((p.when, p.share_pct) for p in quoting.payments)]
    price = PriceEstimate(
        lines=(PriceLine("materials", money(410), money(478), money(563)), PriceLine("overhead", money(611), money(702), money(840), 14.0)),
        low=money(low), median=money(likely), high=money(high),
        net_low=net(low), net_median=net(likely), net_high=net(high),
        shares=tuple(Share(when, pct, money((likely * Decimal(str(pct)) / 100).quantize(Decimal("0.01")))) for when, pct in shares if pct),
    )  # fmt: skip
    return Estimate(
        enquiry=job,
        summary=summarise(job),
        day=DAY,
        hours=HoursEstimate(
            Range(71.5, 86.25, 108.0), (StageEstimate("joinery", "joints", 31.0, Range(18.0, 23.5, 31.0), 0.9, 1.0, 9),),
            jobs=10, lean="past", scores=7, drift_pct=-1.5,
        ),
        materials=MaterialsEstimate(
            lines=(MaterialLine("wood", "European ash", "european-ash", "m3", Range(0.12, 0.14, 0.16), price=Decimal("2120"), per="m3", cost=money("296.80")),),
            low=money("410.20"), amount=money("478.35"), high=money("563.90"), waste_pct=25.0,
        ),
        price=price,
        like=(Like("2025-018-record-cabinet", "Record cabinet", date(2026, 1, 9), 0.71, (Compared("piece", 0.5, 2.0, "linen press", "cabinet"),), 34.0),),
        backtest=Backtest((Tried("2024-015-hall-table", "Hall table", date(2024, 10, 2), 5, 34.5, Range(25.0, 33.0, 44.0), 70.0, 52.0),), 14.0, 80.0, 45.0, 33.0),
        lead=LeadTime(date(2027, 2, 15), date(2027, 3, 8), date(2027, 3, 15)),
        holds_until=date(2026, 12, 25),
        problems=(Problem("warning", "parts.csv", "A row has no price.", "Write it into prices.csv."),),
    )  # fmt: skip


def materials_only(estimate: Estimate) -> Estimate:
    """The same of a shop that names no rate: no hours are turned into money."""
    return replace(estimate, price=None)


def of_few_jobs(estimate: Estimate) -> Estimate:
    """The same, but leaning on a usual spread."""
    return replace(estimate, hours=replace(estimate.hours, lean="few", scores=2))

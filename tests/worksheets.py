"""Estimates written by hand, whole and bare, for the tests of the worksheet."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

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
    Said,
    Share,
    StageEstimate,
    Tried,
)
from buildbook.job.model import Job, Part, Size
from buildbook.job.shop_model import Quoting, Shop
from buildbook.problems import Problem
from buildbook.quantity import Length
from buildbook.summary import summarise
from buildbook.summary.model import Money

DAY = date(2026, 11, 20)


def euro(amount):
    return Money(Decimal(str(amount)), "EUR")


def length(metres):
    return Length(metres, f"{metres} m")


def enquiry(language="en", units="mm", **more):
    shop = Shop(
        language=language, units=units, quoting=Quoting(tax_pct=20.0, tax_name="VAT", week_hours=28.0)
    )
    job = Job(
        folder="enquiry-wine-cabinet",
        number="Q-031",
        title="Wine cabinet",
        piece="cabinet",
        client="A. Client",
        units=units,
        overall=Size(length(1.2), length(0.45), length(0.92)),
        woods=("black walnut",),
        joinery=("half-blind dovetail", "floating tenon"),
        tags=("glazed doors",),
        doors=2,
        drawers=3,
        parts=(
            Part(
                2,
                "Top",
                1,
                "wood",
                "black walnut",
                "black-walnut",
                length=length(1.2),
                width=length(0.45),
                thickness=length(0.024),
            ),
        ),
        shop=shop,
    )
    return replace(job, **more)


STAGES = (
    StageEstimate("design", "none", 1.0, Range(2.0, 4.0, 8.1), from_jobs=11),
    StageEstimate("milling", "rough_volume", 0.142, Range(7.2, 10.4, 15.1), 0.82, from_jobs=14),
    StageEstimate("joinery", "joints", 46.0, Range(16.3, 22.8, 31.9), 0.91, from_jobs=14),
    StageEstimate("assembly", "wood_parts", 38.0, Range(5.1, 7.9, 12.2), 0.74, from_jobs=14),
    StageEstimate("glazing", "panes", 2.0, Range(0.0, 1.4, 4.9), 0.85, 0.6, 3, (Said("few_jobs", (("count", "3"),)), Said("booked_share", (("percent", "60"),)))),
    StageEstimate("finishing", "finish_area", 11.6, Range(6.0, 9.2, 14.0), 0.88, from_jobs=13, said=(Said("usual_spread"),)),
    StageEstimate("fitting", "doors_drawers", 5.0, None, said=(Said("never_booked"),)),
)  # fmt: skip

LIKE = (
    Like(
        "2025-018-record-cabinet",
        "Record cabinet",
        date(2025, 10, 2),
        0.81,
        (
            Compared("piece", 1.0, 3.0, "cabinet", "cabinet"),
            Compared("size", 0.9, 2.0, "1200 × 450 × 920 mm", "1200 × 420 × 700 mm"),
            Compared("woods", 0.0, 1.5, "Black walnut", "European oak"),
            Compared(
                "joinery",
                1.0,
                2.0,
                "half-blind dovetail, floating tenon",
                "half-blind dovetail, floating tenon",
            ),
            Compared("panes", 0.0, 0.5, "2", "0"),
            Compared("tags", 0.2, 1.0, "glazed doors", "sliding doors, brass"),
            Compared("drawers", 0.7, 1.0, "3", "2"),
        ),
        63.75,
        euro(4850),
    ),
    Like(
        "2024-003-kitchen-dresser",
        "Kitchen dresser",
        date(2024, 6, 14),
        0.66,
        (
            Compared("piece", 0.5, 3.0, "cabinet", "dresser"),
            Compared("size", 0.7, 2.0, "1200 × 450 × 920 mm", "1800 × 480 × 2100 mm"),
            Compared("joinery", 0.6, 2.0, "half-blind dovetail, floating tenon", "half-blind dovetail"),
        ),
        118.5,
    ),
)


def tried(n, actual, low, median, high, *, title=None, feet=True):
    return Tried(
        f"20{18 + n // 3}-{n:03}-job",
        title
        or ("Hall table", "Glazed bookcase", "Reading chair", "Extending dining table with two leaves")[
            n % 4
        ],
        date(2018 + n // 3, 1 + 4 * (n % 3), 7),
        3 + n,
        actual,
        Range(low, median, high),
        median * 1.4,
        median * 0.7 if feet else None,
    )


TRIED = (
    tried(0, 41.5, 22.0, 36.0, 58.0),
    tried(1, 96.0, 44.0, 66.0, 92.0),
    tried(2, 28.0, 19.0, 27.0, 38.5),
    tried(3, 131.0, 88.0, 122.0, 168.0),
    tried(4, 33.0, 25.0, 35.0, 47.0),
    tried(5, 52.0, 60.0, 81.0, 104.0),
    tried(6, 74.5, 56.0, 73.0, 95.0),
    tried(7, 19.0, 14.0, 18.0, 24.0),
    tried(8, 61.0, 50.0, 64.0, 82.0),
    tried(9, 45.0, 37.0, 48.0, 60.0),
)  # fmt: skip

WALNUT = MaterialLine(
    "wood", "black walnut", "black-walnut", "m3", Range(0.131, 0.142, 0.166), True, 0.8, 3,
    Decimal("2450"), "m3", date(2025, 8, 1), euro("347.90"),
    (Said("price_own"),),
)  # fmt: skip
MATERIALS = MaterialsEstimate(
    (
        WALNUT,
        MaterialLine("panel", "birch plywood, 9 mm", "birch-plywood", "sheet", Range(1, 1, 1), price=Decimal("68.5"), per="sheet", price_day=DAY, cost=euro("68.50")),
        MaterialLine("glass", "float glass", "float", "m2", Range(0.61, 0.61, 0.61), price=Decimal("84"), per="m2", price_day=date(2026, 9, 30), cost=euro("51.24")),
        MaterialLine("hardware", "brass butt hinge 65 mm", "", "each", Range(4, 4, 4), price=Decimal("9.4"), per="each", price_day=date(2023, 1, 10), cost=euro("37.60")),
        MaterialLine("finish", "clear satin hardwax oil", "hardwax-oil", "l", Range(0.52, 0.52, 0.52), price=Decimal("62"), per="l", cost=euro("32.24"), said=(Said("price_undated"),)),
        MaterialLine("hardware", "mortise lock", "", "each", Range(1, 1, 1)),
    ),
    euro("512.40"),
    euro("537.48"),
    euro("596.30"),
    unpriced=("mortise lock",),
    waste_pct=22.0,
)  # fmt: skip
PRICE = PriceEstimate(
    (
        PriceLine("materials", euro("512.40"), euro("537.48"), euro("596.30")),
        PriceLine("labour", euro("2178.00"), euro("2835.00"), euro("3690.00")),
        PriceLine("contingency", euro("134.52"), euro("168.62"), euro("214.32"), 5.0),
        PriceLine("margin", euro("498.51"), euro("624.90"), euro("794.23"), 15.0),
        PriceLine("rounding", euro("6.57"), euro("4.00"), euro("5.15")),
        PriceLine("tax", euro("666.00"), euro("834.00"), euro("1060.00"), 20.0),
    ),
    euro("3996.00"),
    euro("5004.00"),
    euro("6360.00"),
    euro("3330.00"),
    euro("4170.00"),
    euro("5300.00"),
    (
        Share("", 30.0, euro("1501.20")),
        Share("before delivery", 70.0, euro("3502.80")),
    ),
)  # fmt: skip
HOURS = HoursEstimate(Range(48.4, 63.0, 82.0), STAGES, 14, "few", 10, 2.4, 1.08)
BACKTEST = Backtest(TRIED, 8.6, 80.0, 34.1, 27.5)


def estimate(language="en", units="mm", **more):
    """A whole estimate; `more` replaces fields of it."""
    job = more.pop("enquiry", None) or enquiry(language, units)
    made = Estimate(
        enquiry=job,
        summary=summarise(job),
        day=DAY,
        hours=HOURS,
        materials=MATERIALS,
        price=PRICE,
        like=LIKE,
        backtest=BACKTEST,
        lead=LeadTime(date(2027, 2, 1), date(2027, 3, 17), date(2027, 3, 30)),
        holds_until=date(2026, 12, 20),
        problems=(
            Problem("warning", "2023-004-turned-stools/notes.md", "This job books no hours, so nothing was learnt from it.", "Add lines of hours to its notes."),
        ),
    )  # fmt: skip
    return replace(made, **more)


def bare():
    """What is left of an estimate where the shelf tells nothing."""
    nothing = euro(0)
    return estimate(
        enquiry=enquiry(parts=(), woods=(), client="", tags=(), joinery=(), number=""),
        hours=HoursEstimate(None, ()),
        materials=MaterialsEstimate((), nothing, nothing, nothing),
        price=None,
        like=(),
        backtest=Backtest(),
        lead=LeadTime(),
        holds_until=None,
        problems=(),
    )

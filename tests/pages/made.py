"""A writing table made by hand, no folder read: small enough to reckon its figures on paper."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

from buildbook.care import CareItem
from buildbook.care.rules import EVERYDAY
from buildbook.job.log_model import Hours, LogEntry
from buildbook.job.model import Finish, Job, Part, Size, Stock
from buildbook.job.shop_model import Allowances, Shop
from buildbook.quantity import Length

SHOP = Shop(
    name="Shop by the mill",
    maker="A. Maker",
    address="1 Mill Lane\nOldtown",
    email="bench@example.org",
    phone="+44 20 7946 0000",
    web="https://example.org",
    country_code="GB",
    hour_rate=Decimal("40"),
    waste=Allowances(over_length_m=0.0, over_width_m=0.0, waste_pct=25.0),
    stages=("milling", "joinery", "finishing"),
)


def mm(value):
    return Length(value / 1000, f"{value} mm")


def part(row, name, kind="wood", key="white-oak", qty=1, sides=(), stock=0, **more):
    """A row of the parts file; sides and stock in millimetres."""
    sizes = dict(zip(("length", "width", "thickness"), map(mm, sides), strict=False))
    if stock:
        sizes["stock"] = Stock(f"{stock} mm", stock / 1000)
    return Part(row, name, qty, kind, more.pop("material", key), key, **sizes, **more)


# Net: top 1200 x 600 x 20 = 0.0144, legs 4 x 700 x 50 x 50 = 0.0070, rails 2 x 1000 x 80 x 20 = 0.0032 m3 of oak;
# lipping 1000 x 20 x 10 = 0.0002 m3 of walnut. Rough, with nothing over: by the stock instead of the thickness.
TOP = part(2, "Top", sides=(1200, 600, 20), stock=25, cut="quarter", finish="oil", origin="Windfall, 2019",
           country="France", country_code="FR", price=Decimal("2000"), per="m3")  # fmt: skip
LEGS = part(3, "Legs", qty=4, sides=(700, 50, 50), stock=60, cut="flat", finish="oil", origin="Sawmill by the weir",
            country="Germany", country_code="DE", price=Decimal("2000"), per="m3")  # fmt: skip
RAILS = part(4, "Rails", qty=2, sides=(1000, 80, 20), stock=25, cut="quarter", finish="oil", origin="Windfall, 2019",
             country="France", country_code="FR", price=Decimal("2000"), per="m3")  # fmt: skip
LIPPING = part(5, "Lipping", key="black-walnut", sides=(1000, 20, 10), stock=25)
SLATE = part(6, "Inlay", kind="stone", key="", material="welsh slate", origin="Old roof")
HINGES = part(7, "Hinges", kind="hardware", key="", material="brass butt hinge", qty=2, price=Decimal("12.50"), per="each", mass_kg=0.1)  # fmt: skip


def table(**more):
    """The job; `more` are other facts of it."""
    job = Job(
        folder="table",
        number="2026-004",
        title="Writing table",
        piece="table",
        begun=date(2026, 2, 2),
        delivered=date(2026, 5, 4),
        overall=Size(mm(1200), mm(600), mm(740)),
        stages=SHOP.stages,
        finishes=(
            Finish("oil", "hardwax-oil", coats=(date(2026, 4, 1), date(2026, 4, 3)), full_cure_days=21, refresh_months=6),
        ),
        parts=(SLATE, TOP, LEGS, RAILS, LIPPING, HINGES),
        entries=(
            entry(date(2026, 2, 10), "Legs", milling=3.5, joinery=2),
            entry(date(2026, 3, 1), "Frame", joinery=6, finishing=0.5),
        ),
        price=Decimal("1200"),
        shop=SHOP,
    )  # fmt: skip
    return replace(job, **more)


def entry(day, title, body="", **hours):
    return LogEntry(
        day, title, body, hours=tuple(Hours(stage, h) for stage, h in hours.items()), file="notes.md"
    )


def care(key, season="week", severity="note", order=0, **more):
    """An instruction whose words say which it is."""
    said = {
        "title": f"Title of {key}",
        "text": f"Do {key}.",
        "why": f"Why {key}.",
        "short": "",
        "day_one": False,
    }
    fixed = {"audience": "client", "source": "", "basis": "practice"}
    if season in EVERYDAY:
        fixed["manner"] = "do"
    return CareItem(key=key, season=season, severity=severity, order=order, **{**said, **fixed, **more})


def plain(text):
    """A text with plain blanks and hyphens."""
    return text.replace("\u202f", " ").replace("\u00a0", " ").replace("\u2060", "")

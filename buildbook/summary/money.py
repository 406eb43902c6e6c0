"""What a job cost and earned. All money is Decimal and rounded once, here."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from buildbook.folding import folded
from buildbook.job.model import Job, Part
from buildbook.job.shop_model import Price
from buildbook.summary.model import Cost, CostLine, FinishUse, HoursBooked, Money
from buildbook.trade import cost as trade_cost
from buildbook.trade import tables
from buildbook.trade.tables import ANYWHERE, Place


def _listed(job: Job, material: str, key: str) -> list[Price]:
    """The rows of prices.csv that are of a material."""
    wanted = folded(material)
    return [
        price
        for price in job.shop.prices
        if folded(price.material) == wanted or (key and key_of(price.material, job.shop.place) == key)
    ]


def newest_price(job: Job, material: str, key: str = "") -> Price | None:
    """The newest row of prices.csv for a material: what it costs whoever buys it now."""
    rows = _listed(job, material, key)
    return max(rows, key=lambda row: (row.day or date.min, row.row), default=None)


def price_from_list(job: Job, material: str, key: str = "") -> Price | None:
    """The row of prices.csv for a material: the newest of the job's own time, else the oldest after it."""
    rows = _listed(job, material, key)
    day = job.last_day
    before = [row for row in rows if row.day is None or day is None or row.day <= day]
    if before:
        return max(before, key=lambda row: (row.day is not None, row.day or day, row.row))
    return min(rows, key=lambda row: (row.day or day, row.row), default=None)


def key_of(material: str, place: Place = ANYWHERE) -> str:
    """The key of the trade's table that a material is in, by any of its names there; empty when it is in none."""
    if key := tables.species().key_of(material, place):
        return key
    for table in (tables.sheets(), tables.finishes(), tables.glass(), tables.stones()):
        if key := table.key_of(material):
            return key
    return ""


@dataclass
class Purse:
    """Costs by row of the parts file, while a summary is made."""

    currency: str
    by_row: dict[int, tuple[str, Decimal]] = field(default_factory=dict)
    unpriced: dict[str, None] = field(default_factory=dict)

    def pay(self, job: Job, part: Part, quantities: dict[str, float]) -> None:
        """Book a row: its own price, else that of prices.csv, times the quantity in the unit of the price."""
        price, per = part.price, part.per
        if price is None:
            listed = price_from_list(job, part.material, part.key)
            price, per = (listed.price, listed.per) if listed else (None, "")
        if price is None:
            self.unpriced[part.name] = None
        elif per not in quantities:
            self.unpriced[f"{part.name} (a price per {per or 'nothing'} does not fit)"] = None
        else:
            places = tables.currency_places(self.currency)
            self.book(part, trade_cost.line_cost(price, quantities[per], places))

    def book(self, part: Part, amount: Decimal) -> None:
        """Book what a row cost."""
        self.by_row[part.row] = (part.kind, amount)

    def has_all(self, rows: Iterable[int]) -> bool:
        """Whether every one of some rows has a price."""
        return all(row in self.by_row for row in rows)

    def sum_of(self, rows: Iterable[int]) -> Money | None:
        """The cost of some rows; None when none of them has a price."""
        known = [self.by_row[row][1] for row in rows if row in self.by_row]
        return Money(trade_cost.total(known), self.currency) if known else None


def finish_cost(job: Job, product: str, family: str, litres: float | None) -> Money | None:
    """What the finish used cost, from prices.csv by its product's name or its family."""
    listed = (price_from_list(job, product) if product else None) or price_from_list(job, family, family)
    if listed is None or listed.per != "l" or litres is None:
        return None
    places = tables.currency_places(job.shop.currency)
    return Money(trade_cost.line_cost(listed.price, litres, places), job.shop.currency)


def _bought(job: Job, family: str) -> bool:
    """Whether a tin of a finish stands among the supplies with its price."""
    finishes = tables.finishes()
    for part in job.parts:
        words = part.name.split() if part.kind == "supply" and part.price is not None else []
        found = (finishes.find(" ".join(words[:count])) for count in range(len(words), 0, -1))
        if any(one and one.record.key == family for one in found):
            return True
    return False


def cost_of(job: Job, purse: Purse, finishes: tuple[FinishUse, ...], hours: HoursBooked) -> Cost:
    """Materials by kind, labour, total, price, and once it is delivered the margin and what an hour earned."""
    currency = job.shop.currency
    places = tables.currency_places(currency)
    kinds: dict[str, Decimal] = {}
    for kind, amount in purse.by_row.values():
        kinds[kind] = kinds.get(kind, Decimal(0)) + amount
    finish_total = trade_cost.total(use.cost.amount for use in finishes if use.cost)
    if any(use.cost for use in finishes):
        kinds["finish"] = finish_total
    materials = trade_cost.total(kinds.values())
    labour = total = None
    if job.shop.hour_rate is not None and hours.total_h:
        labour = trade_cost.labour_cost(hours.total_h, job.shop.hour_rate, places)
        total = materials + labour
    paid = job.price if job.delivered else None  # before that nothing has been earned
    margin = trade_cost.margin_pct(paid, total) if paid is not None and total is not None else None
    earned = trade_cost.earned_per_hour(paid, materials, hours.total_h, places) if paid is not None else None

    def money(amount: Decimal | None) -> Money | None:
        return None if amount is None else Money(trade_cost.rounded(amount, places), currency)

    unpriced = list(purse.unpriced) + [
        use.product or use.family_name
        for use in finishes
        if use.volume_l and use.last_coat and not use.cost and not _bought(job, use.family)
    ]
    return Cost(
        by_kind=tuple(CostLine(kind, Money(amount, currency)) for kind, amount in kinds.items()),
        materials=Money(materials, currency),
        labour=money(labour),
        total=money(total),
        price=money(job.price),
        margin_pct=float(margin) if margin is not None else None,
        earned_per_hour=money(earned),
        unpriced=tuple(dict.fromkeys(unpriced)),
    )

"""One piece of a set: the figures of the whole shared out evenly."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from buildbook.summary.model import Money, Summary
from buildbook.trade import cost as trade_cost
from buildbook.trade import tables


@dataclass(frozen=True)
class Each:
    """One piece: the job divided by how many it makes, money to the coin. Of a job that makes one piece, the whole.

    What somebody lifts, hangs or loads is one piece: care asks here, never the mass of the whole.
    loaded_kg  with what one piece is said to carry; None when that is not known. price: None where there is none.
    """

    mass_kg: float
    loaded_kg: float | None
    price: Money | None
    hours_h: float
    stored_kg_co2: float


def each_of(summary: Summary) -> Each:
    """One piece of a job; of a job that makes one, the whole."""
    count, mass, price = summary.quantity, summary.mass, summary.cost.price
    return Each(
        mass_kg=mass.total_kg / count,
        loaded_kg=None if mass.loaded_kg is None else mass.loaded_kg / count,
        price=share_of(price, count) if price else None,
        hours_h=summary.hours.total_h / count,
        stored_kg_co2=summary.carbon.stored_kg_co2 / count,
    )


def share_of(money: Money, count: int) -> Money:
    """An amount shared by so many, to the coin of its currency."""
    if count == 1:
        return money
    places = tables.currency_places(money.currency)
    return Money(trade_cost.rounded(money.amount / Decimal(count), places), money.currency)

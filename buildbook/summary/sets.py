"""One piece of a set: the figures of the whole shared out evenly."""

from __future__ import annotations

from decimal import Decimal

from buildbook.summary.model import Money, Summary
from buildbook.summary.set_model import Each
from buildbook.trade import cost as trade_cost
from buildbook.trade import tables


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

"""Cost: price times quantity, hours times rate, margin, what an hour earned. All money is Decimal.

In: Decimal prices, quantities as int, float or Decimal. Out: Decimal, rounded to the smallest coin of the
currency, a half away from zero.
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import ROUND_HALF_UP, Decimal
from typing import Literal, get_args

Per = Literal["board_foot", "m3", "m2", "each", "sheet", "l", "kg", "m"]
PER: tuple[Per, ...] = get_args(Per)
"""What a price may be for; a price per `board_foot` is paid for rough board feet, and so on."""

PLACES = 2
Amount = int | float | Decimal


def exact(amount: Amount) -> Decimal:
    """A quantity as Decimal: a float as it prints, so that 0.1 h is 0.1 h."""
    return amount if isinstance(amount, Decimal) else Decimal(str(amount))


def rounded(amount: Decimal, places: int = PLACES) -> Decimal:
    """Money to so many decimals, a half away from zero."""
    return amount.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)


def line_cost(price: Decimal, quantity: Amount, places: int = PLACES) -> Decimal:
    """Price times the quantity in the unit that the price is for."""
    return rounded(price * exact(quantity), places)


def labour_cost(hours: Amount, rate: Decimal, places: int = PLACES) -> Decimal:
    """Hours times the rate of an hour."""
    return line_cost(rate, hours, places)


def total(amounts: Iterable[Decimal]) -> Decimal:
    """The sum of amounts of one currency."""
    return sum(amounts, Decimal(0))


def margin_pct(price: Decimal, cost: Decimal) -> Decimal | None:
    """What is left of the price after cost, in % of the price to one decimal; None without a price."""
    return rounded(100 * (price - cost) / price, 1) if price else None


def price_for_margin(cost: Decimal, margin_pct: Amount, places: int = PLACES) -> Decimal:
    """The price that leaves a margin (in % of the price, below 100) over the cost: `margin_pct` turned
    round.
    """
    return rounded(cost / (1 - exact(margin_pct) / 100), places)


def earned_per_hour(
    price: Decimal, materials: Decimal, hours: Amount, places: int = PLACES
) -> Decimal | None:
    """What an hour of work earned, materials paid; None without hours."""
    return rounded((price - materials) / exact(hours), places) if hours else None

"""Money: exact sums, a half away from zero, margins on the price."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.trade import cost

money = st.decimals(Decimal("0.01"), Decimal("100000"), places=2)


@pytest.mark.parametrize(
    ("price", "quantity", "places", "amount"),
    [
        ("9.75", 12.4, 2, "120.90"),
        ("0.10", 3, 2, "0.30"),
        ("1.005", 1, 2, "1.01"),
        ("-1.005", 1, 2, "-1.01"),
        ("1250", 0.31, 0, "388"),
        ("14.50", Decimal("0.5"), 2, "7.25"),
    ],
)
def test_price_times_quantity(price: str, quantity, places: int, amount: str) -> None:
    assert str(cost.line_cost(Decimal(price), quantity, places)) == amount


def test_hours_times_rate() -> None:
    assert cost.labour_cost(32.25, Decimal("45")) == Decimal("1451.25")


def test_the_margin_is_a_share_of_the_price() -> None:
    assert cost.margin_pct(Decimal(4850), Decimal(3880)) == Decimal("20.0")
    assert cost.margin_pct(Decimal(100), Decimal(150)) == Decimal("-50.0")
    assert cost.margin_pct(Decimal(0), Decimal(150)) is None


@given(money, st.integers(0, 90))
def test_the_price_for_a_margin_has_that_margin(amount: Decimal, margin: int) -> None:
    price = cost.price_for_margin(amount, margin, places=6)
    assert cost.margin_pct(price, amount) == pytest.approx(Decimal(margin), abs=Decimal("0.1"))


def test_what_an_hour_earned() -> None:
    assert cost.earned_per_hour(Decimal(4850), Decimal("1250.50"), 82.5) == Decimal("43.63")
    assert cost.earned_per_hour(Decimal(4850), Decimal("1250.50"), 0) is None


@given(st.lists(money))
def test_a_total_is_exact(amounts: list[Decimal]) -> None:
    assert cost.total(amounts) * 100 == sum(int(amount * 100) for amount in amounts)

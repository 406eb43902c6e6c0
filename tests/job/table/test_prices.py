"""prices.csv: rows that are whole become prices."""

from datetime import date
from decimal import Decimal

import pytest

from buildbook.job.shop_model import Price
from buildbook.job.table.prices import read_prices
from buildbook.problems import Problems
from tests.job import slips, told


@pytest.mark.parametrize(("text", "lines"), slips("prices"))
def test_a_slip_is_told(text, lines):
    problems = Problems()
    read_prices(text.encode(), problems)
    assert told(problems) == lines


def test_prices_of_a_shop():
    problems = Problems()
    text = """Material;Preis;Einheit;Datum;Lieferant
black cherry;1.250,00;m3;2026-01-02;Yard
hinge;4,20;Stück;2.1.2026;
"""
    assert read_prices(text.encode(), problems) == (
        Price("black cherry", Decimal("1250.00"), "m3", date(2026, 1, 2), "Yard", 2),
        Price("hinge", Decimal("4.20"), "each", date(2026, 1, 2), "", 3),
    )
    assert told(problems) == []

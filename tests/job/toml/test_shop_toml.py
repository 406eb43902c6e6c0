"""shop.toml: what it says becomes the shop; slips are told."""

from decimal import Decimal

import pytest

from buildbook.job.shop_model import Allowances, Climate, MadeAt, Shop
from buildbook.job.toml.shop_toml import read_shop_toml
from buildbook.problems import Problems
from tests.job import slips, told


def read(text):
    problems = Problems()
    return read_shop_toml(text.encode(), problems), problems


@pytest.mark.parametrize(("text", "lines"), slips("shop_toml"))
def test_a_slip_is_told(text, lines):
    assert told(read(text)[1]) == lines


def test_a_whole_shop():
    shop, problems = read("""
        name = "The Workshop"
        maker = "A Maker"
        address = '''
        1 Some Yard
        Sometown'''
        email = "workshop@example.org"
        country = "uk"
        units = "in"
        currency = "GBP"
        hour_rate = 55.50
        stages = ["milling", "joinery"]
        pages_at = "https://example.org/pieces/"
        climate = { rh_low = 35, rh_high = 55, temperature = "20 degC" }
        [made_at]
        rh = 45
        temperature = "18 degC"
        [allowances]
        over_length = 1
        over_width = "0 in"
        waste = 20
    """)
    assert told(problems) == []
    assert (shop.country, shop.country_code, shop.units) == ("United Kingdom", "GB", "in")
    assert (shop.hour_rate, shop.stages) == (Decimal("55.50"), ("milling", "joinery"))
    assert shop.climate == Climate(35, 55, 20)
    assert shop.made_at == MadeAt(rh_pct=45, temperature_c=18)
    assert shop.waste == Allowances(over_length_m=0.0254, over_width_m=0, waste_pct=20)
    assert "Sometown" in shop.address


def test_what_cannot_be_read_leaves_the_usual():
    shop, _ = read('currency = "Euro"\nstages = []\nunits = "furlongs"')
    assert (shop.currency, shop.stages, shop.units) == (Shop().currency, Shop().stages, Shop().units)
    assert read("not toml")[0] == Shop()

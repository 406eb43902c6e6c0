"""What is to be bought: all of it, each thing once, at the newest price that is known."""

import csv
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from buildbook.job import read_job
from buildbook.job.shop_model import Price
from buildbook.pages.log.shopping import shopping, shopping_list
from buildbook.pages.phrases import Phrases
from buildbook.render.beside.table_csv import csv_bytes
from buildbook.summary import summarise
from tests.pages.log.test_parts_again import JOBS
from tests.pages.made import HINGES, SHOP, part, table


def wants(job):
    return shopping(job, summarise(job), Phrases.of(job))


@pytest.mark.parametrize("folder", JOBS, ids=lambda folder: folder.name)
def test_everything_that_a_job_is_made_of_is_bought(folder):
    job = read_job(folder)
    found, summary = wants(job), summarise(job)
    bought = {name for want in found if want.group != "finish" for name in want.parts}
    assert bought == {one.name for one in job.parts}
    for kind in ("glass", "stone", "hardware", "upholstery", "supply"):
        counts = [want.quantity for want in found if want.group == kind]
        assert sum(counts) == sum(one.qty for one in job.parts if one.kind == kind), kind
    unit, whole = (
        ("board_foot", summary.timber.buy_bf) if job.units == "in" else ("m3", summary.timber.buy_m3)
    )
    woods = [float(want.quantity) for want in found if want.group == "wood"]
    assert {want.unit for want in found if want.group == "wood"} <= {unit}
    assert sum(woods) == pytest.approx(whole, abs=len(woods) * (0.05 if unit == "board_foot" else 0.00005))
    assert len({(want.group, want.what, want.size) for want in found}) == len(found)


def test_the_price_is_the_newest_of_the_list_whatever_day_the_job_is_of():
    days = [(date(2025, 1, 7), "10"), (date(2027, 3, 1), "30"), (date(2026, 1, 7), "20"), (None, "5")]
    rows = [
        Price(HINGES.material, Decimal(price), "each", day, "", row)
        for row, (day, price) in enumerate(days, 2)
    ]
    made = table(shop=replace(SHOP, prices=tuple(rows)), delivered=date(2026, 5, 4))
    assert next(want.offer.price for want in wants(made) if want.group == "hardware") == Decimal("30")


def test_a_price_of_the_row_stands_where_no_list_has_one_and_gives_way_to_one():
    hinges = next(want for want in wants(table()) if want.group == "hardware")
    assert (hinges.offer.price, hinges.offer.per, hinges.offer.day) == (Decimal("12.50"), "each", None)
    listed = Price(HINGES.material, Decimal("14"), "each", date(2026, 11, 2), "the counter", 2)
    hinges = next(
        want for want in wants(table(shop=replace(SHOP, prices=(listed,)))) if want.group == "hardware"
    )
    assert (hinges.offer.price, hinges.offer.day, hinges.offer.supplier) == (
        Decimal("14"),
        listed.day,
        "the counter",
    )


def test_what_is_alike_is_bought_at_once():
    more = replace(HINGES, row=8, name="Lid hinges", qty=3)
    hinges = [want for want in wants(table(parts=(HINGES, more))) if want.group == "hardware"]
    assert [(want.quantity, want.parts) for want in hinges] == [(5, ("Hinges", "Lid hinges"))]


def test_a_little_is_not_nothing():
    wood = next(
        want
        for want in wants(table(parts=(part(2, "Plug", sides=(8, 8, 8), stock=13),)))
        if want.group == "wood"
    )
    assert wood.quantity > 0


def test_the_list_as_a_file_runs_nothing_and_is_the_same_each_time():
    made = table(parts=(replace(HINGES, name="=1+1", material="@cmd", supplier="-x"),))
    data = [csv_bytes(shopping_list(made, summarise(made), Phrases.of(made))) for _ in range(2)]
    assert data[0] == data[1]
    rows = list(csv.reader(data[0].decode("utf-8-sig").splitlines()))
    assert "'@cmd" in rows[1][1]
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@"))]


def test_a_job_of_nothing_has_no_list():
    made = table(parts=(), finishes=())
    assert shopping_list(made, summarise(made), Phrases.of(made)) is None

"""Estimate against actual: sums done by hand."""

from datetime import date
from decimal import Decimal

import pytest

from buildbook.job.log_model import Hours, LogEntry
from buildbook.job.model import Job, Part
from buildbook.job.quoted import Quoted, QuotedRange, QuotedStage, QuotedSum
from buildbook.job.shop_model import Shop
from buildbook.summary import summarise
from buildbook.summary.as_json import summary_facts
from buildbook.summary.model import Money


def rng(*figures):
    return QuotedRange(*map(Decimal, figures))


QUOTED = Quoted(
    hours=rng(20, 30, 45),
    by_stage=(
        QuotedStage("Joinery", "joints", rng(8, 10, 14), 9),
        QuotedStage("milling", "rough_volume", rng(5, 8, 12), 9),
        QuotedStage("fitting", "doors_drawers"),
        QuotedStage("finishing", "finish_area", rng(2, 4, 6), 9),
    ),
    materials=QuotedSum(rng(150, 200, 260), "EUR"),
    price=QuotedSum(rng(900, 1200, 1500), "EUR"),
)


def job(**more):
    booked = (Hours("joinery", 15.0), Hours("milling", 6.0), Hours("drawings", 3.0), Hours("fitting", 1.5))
    hinge = Part(2, "Hinge", 2, "hardware", "hinge", price=Decimal("110"), per="each")
    facts = {
        "entries": (LogEntry(date(2026, 1, 5), "", "", hours=booked),),
        "parts": (hinge,),
        "price": Decimal("1500"),
        "delivered": date(2026, 3, 1),
        "quoted": QUOTED,
        "shop": Shop(currency="EUR"),
    }
    return Job(folder="a-job", **{**facts, **more})


def rows(quoted):
    return {
        row.stage: (row.median_h, row.actual_h, row.difference_pct, row.in_range) for row in quoted.by_stage
    }


def test_every_stage_that_was_estimated_or_booked_is_compared():
    """Joinery: 15 h for 10 is 50 % more and above 14; milling: 6 h for 8 is 25 % less, within 5 to 12."""
    assert rows(summarise(job()).quoted) == {
        "milling": (8, 6.0, pytest.approx(-25), True),
        "Joinery": (10, 15.0, pytest.approx(50), False),
        "finishing": (4, 0.0, pytest.approx(-100), False),
        "fitting": (None, 1.5, None, None),
        "drawings": (None, 3.0, None, None),
    }


def test_stages_stand_in_the_order_of_the_shop_others_after_them():
    assert list(rows(summarise(job()).quoted)) == ["milling", "Joinery", "finishing", "fitting", "drawings"]


def test_the_whole_and_the_money():
    """25.5 h for 30 is 15 % less; 220 for 200 is 10 % more; 1500 for 1200 is 25 % more and still in the range."""
    quoted = summarise(job()).quoted
    assert (quoted.total.actual_h, quoted.total.difference_pct, quoted.total.in_range) == (
        25.5,
        pytest.approx(-15),
        True,
    )
    assert quoted.materials.actual == Money(Decimal("220.00"), "EUR")
    assert (quoted.materials.difference_pct, quoted.materials.in_range) == (pytest.approx(10), True)
    assert (quoted.price.difference_pct, quoted.price.in_range) == (pytest.approx(25), True)


def test_while_the_job_goes_on_only_what_is_already_over_is_judged():
    quoted = summarise(job(delivered=None)).quoted
    assert not quoted.delivered
    found = rows(quoted)
    assert found["milling"] == (8, 6.0, None, None)
    assert found["finishing"] == (4, 0.0, None, None)
    assert found["Joinery"] == (10, 15.0, pytest.approx(50), False)
    assert (quoted.total.difference_pct, quoted.total.in_range) == (None, None)


def test_money_of_another_currency_is_not_compared():
    price = summarise(job(shop=Shop(currency="GBP"))).quoted.price
    assert (price.actual, price.difference_pct, price.in_range) == (
        Money(Decimal("1500.00"), "GBP"),
        None,
        None,
    )


def test_an_estimate_of_nothing_is_compared_with_nothing():
    quoted = summarise(job(quoted=Quoted(hours=rng(0, 0, 0)))).quoted
    assert (quoted.total.difference_pct, quoted.total.in_range) == (None, False)
    assert (quoted.materials, quoted.price) == (None, None)
    assert summarise(job(quoted=None)).quoted is None


def test_what_has_no_price_is_said_beside_the_materials():
    lock = Part(3, "Lock", 1, "hardware", "lock")
    hinge = Part(2, "Hinge", 2, "hardware", "hinge", price=Decimal("110"), per="each")
    assert "Lock" in summarise(job(parts=(hinge, lock))).quoted.assumed[0]


def test_it_is_written_out_in_summary_json():
    facts = summary_facts("a-job", summarise(job()), (), ())["quoted"]
    assert facts["by_stage"][1] == {
        "stage": "Joinery", "low_h": 8, "median_h": 10, "high_h": 14, "actual_h": 15, "difference_pct": 50, "in_range": False,
    }  # fmt: skip
    assert facts["price"]["median"] == {"amount": 1200, "currency": "EUR"}
    assert summary_facts("a-job", summarise(job(quoted=None)), (), ())["quoted"] is None

"""Prices of the past on a day: which one is taken, how it is carried, and that none comes from the future."""

import math
from datetime import date, timedelta
from decimal import Decimal
from itertools import combinations
from statistics import median

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.estimate.money.prices import (
    DayPrice,
    PriceSought,
    converted,
    growth,
    history_of,
    paid_by,
    price_on,
    wanted_of,
)
from buildbook.estimate.rules import price_rules
from buildbook.job.log_model import LogEntry
from buildbook.job.model import Job, Part
from buildbook.job.shop_model import Price
from buildbook.quantity import Length
from buildbook.words import Words

WORDS = Words("en")
ASH = PriceSought("European ash", "european-ash", "wood")
DAY = date(2026, 6, 1)
FOUR_YEARS = timedelta(days=1461)

days = st.dates(date(1990, 1, 1), date(2030, 1, 1))
prices = st.decimals(Decimal("0.5"), Decimal("9000"), places=2)


def ash(amount, day, per="m3"):
    return Price("European ash", Decimal(amount), per, day)


def keys(found):
    return [said.key for said in found.said]


def mm(amount):
    return Length(amount / 1000, f"{amount} mm")


def row(**facts):
    facts = {"row": 2, "name": "Hinge", "qty": 1, "kind": "hardware", "material": "brass butt hinge"} | facts
    return Part(**facts)


def done(day, *parts):
    return Job("done", parts=parts, entries=(LogEntry(day, "", ""),))


def test_median_slope_of_the_worked_example():
    """P. K. Sen (1968), section 6: seven points, the median of their 21 slopes is 4."""
    at, value = (1, 2, 3, 4, 10, 12, 18), (9, 15, 19, 20, 45, 55, 78)
    points = {
        date(1900, 1, 1) + a * FOUR_YEARS: Decimal(repr(math.exp(v / 100)))
        for a, v in zip(at, value, strict=True)
    }
    found = growth(points)
    assert math.log1p(found.pct / 100) == pytest.approx(4 / 100 / 4)
    assert (found.first, found.last) == (min(points), max(points))


@given(st.dictionaries(days, prices, min_size=2, max_size=8))
def test_growth_is_the_median_of_all_slopes_within_what_is_believed(points):
    found = growth(points)
    span = max(points) - min(points)
    if span < timedelta(days=365):
        assert found is None
        return
    slopes = [
        math.log(points[b] / points[a]) * 365.25 / (b - a).days for a, b in combinations(sorted(points), 2)
    ]
    rate, most = math.exp(median(slopes)) - 1, price_rules().most_pct / 100
    assert found.limited == (rate > most or 1 / (1 + rate) - 1 > most)
    if not found.limited:
        assert found.pct == pytest.approx(100 * rate)
    assert 1 / (1 + most) - 1e-9 <= 1 + found.pct / 100 <= 1 + most + 1e-9


@given(
    st.floats(-0.15, 0.19),
    st.lists(st.integers(0, 3000), min_size=2, max_size=6, unique=True),
    st.integers(91, 2000),
)
def test_a_price_that_grew_steadily_is_carried_exactly(rate, offsets, later):
    if max(offsets) - min(offsets) < 366:
        offsets = [*offsets, max(offsets) + 366]
    start = date(2000, 1, 1)

    def worth(offset):
        return 1000 * (1 + rate) ** (offset / 365.25)

    rows = [ash(repr(worth(offset)), start + timedelta(days=offset)) for offset in offsets]
    found = price_on(history_of(rows, ()), ASH, start + timedelta(days=max(offsets) + later), WORDS)
    assert float(found.price) == pytest.approx(worth(max(offsets) + later), abs=0.006)
    assert keys(found) == ["price_old", "price_carried"]


@given(
    st.lists(st.tuples(prices, days, st.sampled_from(["m3", "board_foot"])), max_size=8),
    st.lists(st.tuples(prices, days, st.sampled_from(["m3", "board_foot"])), max_size=8),
    days,
)
def test_nothing_later_than_the_day_is_ever_used(rows, more, day):
    rows = [ash(price, on, per) for price, on, per in rows]
    future = [ash(price, max(on, day + timedelta(days=1)), per) for price, on, per in more]
    found = price_on(history_of([*rows, *future], ()), ASH, day, WORDS)
    assert found == price_on(history_of([row for row in rows if row.day <= day], ()), ASH, day, WORDS)
    assert found is None or found.day <= day


def test_board_foot_and_cubic_metre():
    """NIST SP 811 (2008) B.8: board foot 2.359 737 E-03 m3. At 1000 a m3 a board foot costs 2.359 737."""
    assert converted(Decimal(1000), "m3", "board_foot") == Decimal("2.359737216")
    assert float(converted(Decimal("13.20"), "board_foot", "m3")) == pytest.approx(
        13.20 / 2.359737e-3, rel=1e-6
    )
    with pytest.raises(ValueError, match="m2"):
        converted(Decimal(1), "m2", "m3")


@given(prices)
def test_turned_there_and_back_a_price_is_the_same(price):
    back = converted(converted(price, "board_foot", "m3"), "m3", "board_foot")
    assert back == pytest.approx(price, rel=Decimal("1e-25"))


def test_prices_by_board_foot_and_by_cubic_metre_tell_one_growth():
    rows = [
        ash("1000", date(2020, 1, 1)),
        ash("2.6", date(2021, 1, 1), "board_foot"),
    ]
    found = price_on(history_of(rows, ()), ASH, date(2022, 1, 1), WORDS)
    assert found.per == "board_foot"
    assert found.price == (Decimal("2.6") ** 2 / Decimal("2.359737216")).quantize(Decimal("0.01"))


@pytest.mark.parametrize(
    ("rows", "price", "said"),
    [
        ([ash("1500", DAY - timedelta(days=90))], "1500", []),
        ([ash("1500", DAY - timedelta(days=91))], "1500", ["price_old", "price_left"]),
        ([ash("1400", date(2025, 8, 1)), ash("1500", date(2026, 1, 5))], "1500", ["price_old", "price_left"]),
        ([ash("100", date(2023, 6, 1)), ash("1500", date(2025, 6, 1))], "1799.78", ["price_old", "price_carried_limited"]),
        ([ash("1500", None)], "1500", ["price_undated"]),
        ([ash("1500", None), ash("1300", date(2026, 5, 1))], "1300", []),
        ([ash("1500", date(2026, 5, 1)), ash("1300", date(2026, 5, 1))], "1300", []),
    ],
    ids=["fresh", "old", "too short a past", "too fast", "undated", "dated first", "later row of a day"],
)  # fmt: skip
def test_which_price_is_taken_and_what_is_said(rows, price, said):
    found = price_on(history_of(rows, ()), ASH, DAY, WORDS)
    assert (str(found.price), keys(found)) == (price, said)
    for sentence in found.said:
        assert WORDS.text(f"estimate.said.{sentence.key}", **dict(sentence.values))


def test_what_is_said_of_an_old_price():
    rows = [ash("1000", date(2024, 1, 1)), ash("1100", date(2025, 1, 1))]
    old, carried = price_on(history_of(rows, ()), ASH, date(2026, 1, 1), Words("de")).said
    assert dict(old.values) == {"days": "365", "day": "1.\u00a0Januar 2025"}
    assert dict(carried.values)["rate"] == "10,0\u202f%"


def test_what_past_jobs_paid_counts_and_the_list_goes_first_on_a_day():
    on = date(2026, 5, 1)
    board = row(kind="wood", material="ash, European", key="european-ash", price=Decimal(1700), per="m3")
    history = history_of([ash("1500", date(2026, 4, 1))], paid_by(done(on, board)))
    assert price_on(history, ASH, DAY, WORDS).price == 1700
    history = history_of([ash("1500", on)], paid_by(done(on, board)))
    assert price_on(history, ASH, DAY, WORDS).price == 1500


def test_the_size_tells_hinges_and_thicknesses_apart():
    large, small = (
        row(price=Decimal(p), per="each", length=mm(n), width=mm(40)) for p, n in ((15, 89), (9, 63))
    )
    history = history_of(
        [], [*paid_by(done(date(2026, 4, 1), large)), *paid_by(done(date(2026, 5, 1), small))]
    )

    def of(length, kind="hardware"):
        return price_on(history, PriceSought("brass butt hinge", "", kind, (length, 0.04, None)), DAY, WORDS)

    assert of(0.089) == DayPrice(Decimal(15), "each", date(2026, 4, 1))
    assert (of(0.076).price, keys(of(0.076))) == (9, ["price_other_size"])
    assert of(0.089, "glass") is None

    thin = row(
        kind="panel",
        material="birch plywood",
        key="birch-plywood",
        thickness=mm(4),
        price=Decimal(23),
        per="sheet",
    )
    listed = Price("birch plywood", Decimal(70), "sheet", date(2026, 1, 1))
    wanted = PriceSought("birch plywood", "birch-plywood", "panel", (1.0, 0.5, 0.018))
    assert (
        price_on(
            history_of([listed], paid_by(done(date(2026, 5, 1), thin))), wanted, date(2026, 3, 1), WORDS
        ).price
        == 70
    )
    assert (
        price_on(history_of([listed], paid_by(done(date(2026, 5, 1), thin))), wanted, DAY, WORDS).price == 70
    )


def test_a_made_board_each_is_no_price_of_another():
    board = row(
        kind="wood",
        material="European ash",
        key="european-ash",
        length=mm(900),
        width=mm(90),
        thickness=mm(20),
        price=Decimal(24),
        per="each",
    )
    history = history_of([], paid_by(done(date(2026, 5, 1), board)))
    assert (
        price_on(history, PriceSought("European ash", "european-ash", "wood", (0.8, 0.09, 0.02)), DAY, WORDS)
        is None
    )


def test_brass_things_are_not_one_thing():
    """The key of hardware is its metal, which says nothing of its price."""
    knob = row(name="Knob", material="brass knob", key="brass", price=Decimal(7), per="each")
    history = history_of([], paid_by(done(date(2026, 5, 1), knob)))
    assert price_on(history, wanted_of(row(material="brass hinge", key="brass")), DAY, WORDS) is None
    assert price_on(history, wanted_of(knob), DAY, WORDS).price == 7


def test_growth_goes_by_the_list_where_a_job_paid_another_price_on_the_day():
    on = date(2024, 1, 1)
    board = row(kind="wood", material="European ash", key="european-ash", price=Decimal(1500), per="m3")
    history = history_of([ash("1000", on), ash("1100", date(2025, 1, 1))], paid_by(done(on, board)))
    assert price_on(history, ASH, date(2026, 1, 1), WORDS).price == Decimal(
        f"{1100 * 1.1 ** (365 / 366):.2f}"
    )


def test_a_coin_is_that_of_the_currency():
    rows = [ash("100000", date(2024, 1, 1)), ash("103456", date(2025, 1, 1))]  # 366 days apart, then 516 more
    assert (
        str(price_on(history_of(rows, ()), ASH, DAY, WORDS, places=0).price)
        == f"{103456 * 1.03456 ** (516 / 366):.0f}"
    )

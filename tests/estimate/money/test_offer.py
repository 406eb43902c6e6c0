"""From cost to price, by hand and by what must always hold; payments, currencies, when it is ready."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from buildbook.estimate.model import HoursEstimate, LeadTime, MaterialsEstimate, Range
from buildbook.estimate.money.offer import currencies, lead, payments, price
from buildbook.estimate.past import past_job
from buildbook.job.model import Job
from buildbook.job.shop_model import Payment, Quoting, Shop
from buildbook.summary.model import Money
from buildbook.trade import tables

ROUND = Quoting(
    contingency_pct=5, overhead_pct=12, margin_pct=15, tax_pct=20, round_to=Decimal(10), deposit_pct=30,
    payments=(Payment("before delivery", 40), Payment("when it stands", 30)),
)  # fmt: skip


def spent(low, median, high, currency="EUR"):
    return MaterialsEstimate((), *(Money(Decimal(amount), currency) for amount in (low, median, high)))


def worked(low, median, high):
    return HoursEstimate(Range(low, median, high), ())


def column(found, end="median"):
    return {line.key: getattr(line, end).amount for line in found.lines}


def test_a_price_by_hand():
    """800 of materials (700 to 900) and 60 h (50 to 75) at 50: the half-widths are 100 and 500 down, 100 and 750 up."""
    found = price(spent("700", "800", "900"), worked(50, 60, 75), Shop(hour_rate=Decimal(50), quoting=ROUND))
    assert column(found) == {
        "materials": Decimal("800"),
        "labour": Decimal("3000"),
        "contingency": Decimal("190"),  # 5 % of 3800
        "overhead": Decimal("456"),  # 12 % of 3800
        "margin": Decimal("784.59"),  # 4446 / 0.85 = 5230.59
        "rounding": Decimal("2.74"),  # 5230.59 x 1.2 = 6276.71, up to 6280, which is 5233.33 without tax
        "tax": Decimal("1046.67"),
    }
    assert (found.net_median.amount, found.median.amount) == (Decimal("5233.33"), 6280)
    # sqrt(100^2 + 500^2) = 509.90, of which 19.61 are of materials; 3290.10 x 1.17 / 0.85 = 4528.73
    assert column(found, "low")["materials"] == Decimal("780.39")
    assert column(found, "low")["labour"] == Decimal("2509.71")
    assert (found.net_low.amount, found.low.amount) == (Decimal("4533.33"), 5440)
    # sqrt(100^2 + 750^2) = 756.64; 4556.64 x 1.17 / 0.85 = 6272.08
    assert (found.net_high.amount, found.high.amount) == (6275, 7530)
    assert [(share.when, str(share.amount.amount)) for share in found.shares] == [
        ("", "1884.00"),
        ("before delivery", "2512.00"),
        ("when it stands", "1884.00"),
    ]


def test_what_shop_toml_leaves_out_has_no_line():
    found = price(spent("5", "5", "5"), worked(2, 2, 2), Shop(hour_rate=Decimal("10.10")))
    assert column(found) == {"materials": 5, "labour": Decimal("20.20")}
    assert found.low == found.median == found.high == found.net_median == Money(Decimal("25.20"), "EUR")
    assert found.shares == ()
    assert price(spent("5", "5", "5"), worked(2, 2, 2), Shop()) is None
    assert price(spent("5", "5", "5"), HoursEstimate(None, ()), Shop(hour_rate=Decimal(10))) is None


pcts = st.none() | st.floats(0, 60).map(lambda pct: round(pct, 2))
quotings = st.builds(
    Quoting,
    contingency_pct=pcts,
    overhead_pct=pcts,
    margin_pct=pcts,
    tax_pct=pcts,
    round_to=st.none() | st.sampled_from([Decimal("0.05"), Decimal(1), Decimal(10), Decimal(250)]),
)
codes = st.sampled_from(["EUR", "JPY", "KWD"])
widths = st.tuples(*[st.integers(0, 10**6)] * 3)
hours = st.tuples(st.integers(0, 400), st.integers(0, 4000), st.integers(0, 400))


def coins(numbers, code):
    places = tables.currency_places(code)
    low, more, most = (Decimal(number).scaleb(-places) for number in numbers)
    return spent(low, low + more, low + more + most, code)


def range_of(numbers):
    low, more, most = (number / 10 for number in numbers)
    return worked(low, low + more, low + more + most)


@example((0, 0, 22), (0, 0, 1), Quoting(contingency_pct=1.0, overhead_pct=2.0, margin_pct=0.0), "EUR")
@given(widths, hours, quotings, codes)
def test_lines_add_up_and_the_ends_keep_their_order(numbers, work, quoting, code):
    shop = Shop(hour_rate=Decimal("47.35"), currency=code, quoting=quoting)
    materials, estimated = coins(numbers, code), range_of(work)
    found = price(materials, estimated, shop)
    smallest = -tables.currency_places(code)
    for end in ("low", "median", "high"):
        lines = column(found, end)
        assert sum(lines.values()) == getattr(found, end).amount
        assert (
            sum(amount for key, amount in lines.items() if key != "tax")
            == getattr(found, f"net_{end}").amount
        )
        assert all(amount >= 0 for key, amount in lines.items() if key != "labour")
        assert all(amount.as_tuple().exponent >= smallest for amount in lines.values())
        if quoting.round_to and quoting.round_to.as_tuple().exponent >= smallest:
            assert getattr(found, end).amount % quoting.round_to == 0
    assert materials.low.amount <= found.net_low.amount <= found.net_median.amount <= found.net_high.amount
    least, most = (
        price(replace(materials, amount=m), worked(h, h, h), shop)
        for m, h in ((materials.low, estimated.total.low), (materials.high, estimated.total.high))
    )
    coin = Decimal(1).scaleb(smallest)
    if not quoting.round_to:  # two errors seldom come together: no wider than both at their ends
        assert least.net_median.amount - 3 * coin <= found.net_low.amount
        assert found.net_high.amount <= most.net_median.amount + 3 * coin


@given(widths, hours, quotings, st.integers(0, 5), st.integers(1, 500))
def test_the_price_never_falls_when_something_takes_more(numbers, work, quoting, which, more):
    shop = Shop(hour_rate=Decimal("47.35"), quoting=quoting)

    def asked(materials, hours):
        return price(coins(materials, "EUR"), range_of(hours), shop)

    raised = [list(numbers), list(work)]
    raised[which // 3][which % 3] += more
    before, after = asked(numbers, work), asked(*raised)
    for end in ("median", "high"):
        assert getattr(before, end).amount <= getattr(after, end).amount
    if which % 3 == 0:  # the whole range moves
        assert before.low.amount <= after.low.amount


@given(st.integers(0, 10**7), st.lists(st.integers(1, 100), min_size=1, max_size=6), codes)
def test_payments_sum_to_the_price(amount, parts, code):
    places = tables.currency_places(code)
    asked = Money(Decimal(amount).scaleb(-places), code)
    whole = [round(100 * part / sum(parts), 2) for part in parts]
    whole[-1] = round(100 - sum(whole[:-1]), 2)
    if whole[-1] <= 0:
        return
    first, *rest = whole
    shares = payments(
        asked, Quoting(deposit_pct=first, payments=tuple(Payment(f"{n}", p) for n, p in enumerate(rest)))
    )
    assert sum(share.amount.amount for share in shares) == asked.amount
    for share in shares:
        exact = asked.amount * Decimal(str(share.share_pct)) / 100
        assert abs(share.amount.amount - exact) <= Decimal(1).scaleb(-places)


def test_thirds_are_a_whole_and_half_is_not():
    thirds = Quoting(deposit_pct=33.3, payments=(Payment("b", 33.3), Payment("c", 33.3)))
    assert sum(s.amount.amount for s in payments(Money(Decimal(1000), "EUR"), thirds)) == 1000
    assert [s.amount.amount for s in payments(Money(Decimal(1000), "EUR"), Quoting(deposit_pct=50))] == [500]


@pytest.mark.parametrize(("code", "places"), [("EUR", 2), ("JPY", 0), ("KWD", 3), ("CLF", 4), ("XYZ", 2)])
def test_coins_by_iso_4217(code, places):
    assert tables.currency_places(code) == places


def test_currencies_are_not_mixed():
    jobs = [
        past_job(Job(name, shop=Shop(currency=code)))
        for name, code in (("c", "EUR"), ("b", "GBP"), ("a", "EUR"))
    ]
    enquiry = Job("new", shop=Shop(currency="EUR"))
    (problem,) = currencies(enquiry, jobs)
    assert problem.severity == "error"
    assert "EUR: a, c and new; GBP: b" in problem.message
    assert currencies(enquiry, [jobs[0], jobs[2]]) == ()


def test_when_it_could_be_ready():
    told = Shop(quoting=Quoting(booked_until=date(2027, 2, 1), week_hours=28))
    hours = worked(40, 56, 61)
    assert lead(hours, told, date(2026, 12, 1)) == LeadTime(
        date(2027, 2, 1), date(2027, 2, 15), date(2027, 2, 17)
    )
    assert lead(hours, told, date(2027, 3, 1)).begin == date(2027, 3, 1)
    assert lead(hours, Shop(), date(2026, 12, 1)) == LeadTime()
    no_week = replace(told, quoting=replace(told.quoting, week_hours=None))
    assert lead(hours, no_week, date(2026, 12, 1)) == LeadTime(date(2027, 2, 1))

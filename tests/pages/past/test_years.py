"""Figures by year: each job in the year of its last day, nothing guessed, no sum of two currencies."""

from datetime import date
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from buildbook.job.shop_model import Shop
from buildbook.left.model import Used, WoodUse
from buildbook.pages.past.across import newest_first
from buildbook.pages.past.years import years_page

SHOP = Shop(name="A shop", units="in")


def one(key, day, **more):
    return Used(
        key=key,
        title=more.pop("title", key),
        day=date.fromisoformat(day) if day else None,
        currency=more.pop("currency", "EUR"),
        **more,
    )


def oak(net=0.0, stock=0.0, tallied=False, key="european-oak", name="European oak", bf=0.0):
    return WoodUse(
        key=key, name=name, net_m3=net, stock_m3=stock, stock_bf=bf or stock * 400, tallied=tallied
    )


def page_of(*records, stale=None, shop=SHOP):
    return years_page(newest_first(records, stale or {}), shop)


def section(page, key):
    return next(found for found in page.sections if found.key == key)


def cells(found):
    """Every figure of a section's tables by thing and year."""
    return {
        (name, year): cell
        for table in found.tables
        for name, row in (*table.rows, *table.totals)
        for year, cell in zip(table.years, row, strict=True)
        if cell
    }


def bars(found):
    return {
        (strip.label, year): bar.words
        for strip in found.chart.strips
        for year, bar in zip(found.chart.years, strip.bars, strict=True)
        if bar.value is not None
    }


def test_a_year_without_a_job_stands_there_too():
    page = page_of(one("a", "2020-03-01", delivered=True), one("b", "2023-03-01", delivered=True))
    jobs = section(page, "delivered")
    assert jobs.chart.years == ("2020", "2021", "2022", "2023")
    assert cells(jobs) == {
        ("delivered", "2020"): "1", ("delivered", "2023"): "1", ("delivered", "Total"): "2",
    }  # fmt: skip


def test_a_slip_of_centuries_does_not_make_a_page_of_empty_years():
    page = page_of(one("a", "0202-03-01", delivered=True), one("b", "2023-03-01", delivered=True))
    assert section(page, "delivered").chart.years == ("0202", "2023")


def test_a_job_that_is_not_delivered_is_counted_apart_and_one_without_a_date_in_no_year():
    page = page_of(
        one("a", "2022-01-01", delivered=True), one("b", "2022-05-01"), one("c", "", title="A box"),
        one("d", "", title="A chest"),
    )  # fmt: skip
    assert cells(section(page, "delivered")) == {
        ("delivered", "2022"): "1", ("not delivered", "2022"): "1", ("Total", "2022"): "2",
    }  # fmt: skip
    assert page.undated_said == "2 jobs have no date and are counted in no year:"
    assert sorted(job.title for job in page.undated) == ["A box", "A chest"]
    assert section(page, "delivered").chart.sentence == "One job delivered in all; most in 2022: 1."


def test_timber_and_its_yield_are_of_the_tally_and_what_has_none_is_named():
    page = page_of(
        one("a", "2022-01-01", woods=(oak(0.02, 0.05, True, bf=21.0), oak(0.01, 0.02, key="iroko", name="Iroko"))),
        one("b", "2022-02-01", woods=(oak(0.03, 0.05, True, bf=22.0),)),
        one("c", "2023-02-01", woods=(oak(0.09, 0.1, bf=43.0),)),
    )  # fmt: skip
    assert cells(section(page, "timber")) == {
        ("European oak", "2022"): "43", ("European oak", "2023"): "43", ("European oak", "Total"): "86",
        ("Iroko", "2022"): "8.0", ("Iroko", "Total"): "8.0",
        ("Total", "2022"): "51", ("Total", "2023"): "43", ("Total", "Total"): "94",
    }  # fmt: skip
    found = section(page, "yield")
    half = "50\u202f%"  # (0.02 + 0.03) / (0.05 + 0.05)
    assert cells(found) == {("European oak", "2022"): half, ("European oak", "Total"): half}
    assert found.remarks[-1] == (
        "Counted for 2 of 4 times that a job used a wood."
        " Without a tally, and so without a yield: European oak (1) and Iroko (1)."
    )


def test_a_yield_over_all_is_of_all_volumes_and_no_mean_of_shares():
    page = page_of(
        one("a", "2022-01-01", woods=(oak(0.09, 0.1, True),)),
        one("b", "2023-01-01", woods=(oak(0.1, 0.9, True),)),
    )
    assert cells(section(page, "yield"))["European oak", "Total"] == "19\u202f%"


def test_without_a_tally_the_yield_says_what_to_add():
    found = section(page_of(one("a", "2022-01-01", woods=(oak(0.01, 0.02),))), "yield")
    assert found.chart is None
    assert "tally" in found.empty


def test_metric_shops_have_cubic_metres_with_board_feet_below():
    found = section(
        page_of(one("a", "2022-01-01", woods=(oak(0.01, 0.0526, bf=22.3),)), shop=Shop()), "timber"
    )
    assert found.unit == "m³"
    assert cells(found) == {("European oak", "2022"): "0.053", ("in board feet", "2022"): "22.3"}
    tiny = section(page_of(one("a", "2022-01-01", woods=(oak(0.0001, 0.0002),)), shop=Shop()), "timber")
    assert bars(tiny) == {("European oak", "2022"): "<\u202f0.001"}


def test_hours_stand_in_the_order_of_the_shops_stages_others_after_them():
    page = page_of(
        one("a", "2022-01-01", hours=(("zzz", 1.0), ("joinery", 12.25), ("design", 2.5))),
        one("b", "2023-01-01", hours=(("joinery", 3.0), ("aaa", 0.5))),
    )
    found = section(page, "hours")
    assert [strip.label for strip in found.chart.strips] == ["design", "joinery", "aaa", "zzz"]
    assert cells(found)["joinery", "2022"] == "12"
    assert cells(found)["joinery", "Total"] == "15"
    assert found.chart.sentence == (
        "19.25\u202fh in all; most in 2022, 15.75\u202fh. The longest stage is joinery: 15.25\u202fh, 79\u202f% of all."
    )


def test_each_currency_has_a_picture_and_a_table_of_its_own():
    page = page_of(
        one("a", "2022-01-01", materials=Decimal("100.40"), unpriced=2),
        one("b", "2022-01-01", materials=Decimal("50.20")),
        one("c", "2023-01-01", materials=Decimal("80"), currency="GBP"),
    )
    euro, pound = section(page, "cost-eur"), section(page, "cost-gbp")
    assert euro.chart.sentence == "At least €150.60 in all; most in 2022, €150.60."
    assert pound.chart.sentence == "£80.00 in all; most in 2023, £80.00."
    assert cells(euro) == {("Materials", "2022"): "151", ("Materials", "Total"): "151"}
    assert euro.remarks[-1] == "In one job something has no price and is not counted."
    assert len(pound.remarks) == 1


def test_jobs_of_an_older_binding_are_named():
    page = page_of(one("a", "2022-01-01", title="A box"), stale={"a": "why"})
    assert page.remarks == ("Not bound again, so that these figures are those of before: A box.",)


def test_a_book_without_a_date_says_what_to_add():
    page = page_of(one("a", ""))
    assert page.sections == ()
    assert page.said.startswith("No job has a date yet.")


@given(
    st.lists(
        st.tuples(st.integers(1990, 2040), st.sampled_from(["milling", "joinery"]), st.integers(1, 40)),
        min_size=1,
        max_size=30,
    )
)
def test_every_figure_of_a_picture_stands_in_the_tables_and_adds_up(booked):
    page = page_of(
        *(one(f"j{n}", f"{year}-05-01", hours=((stage, float(hours)),)) for n, (year, stage, hours) in enumerate(booked))
    )  # fmt: skip
    found = section(page, "hours")
    told = cells(found)
    assert bars(found).items() <= told.items()
    assert all(len(table.years) <= 13 for table in found.tables)
    for stage in {stage for _, stage, _ in booked}:
        hours = sum(h for _, s, h in booked if s == stage)
        one_year = len({year for year, _, _ in booked}) == 1
        shown = told[stage, str(booked[0][0]) if one_year else "Total"]
        assert float(shown.replace("\u202f", "")) == hours

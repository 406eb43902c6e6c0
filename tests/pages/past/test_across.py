"""The pages across jobs as models: every row on the page it belongs to, none anywhere else, the newest first."""

import random
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job.log_model import Mark
from buildbook.job.shop_model import Shop
from buildbook.left.model import (
    BoughtLine,
    FinishUsed,
    HardwareUse,
    Remark,
    SupplierUse,
    UnitPrice,
    Use,
    Used,
    WoodUse,
)
from buildbook.left.uses import used_of
from buildbook.pages.past import across
from buildbook.pages.past.across import Anchors, SaidOf, across_pages, newest_first
from buildbook.summary import summarise
from buildbook.trade import tables
from tests.make_shelf import job_of, made_jobs

JOBS = 60
SHOP = Shop(name="A shop")


@pytest.fixture(scope="module")
def jobs():
    made = [job_of(made) for made in made_jobs(JOBS, seed=3, words=(80, 200))]
    return [
        with_jig(job, f"strip number {place % 9}; on the nail, marked STRIP{place % 9}")
        for place, job in enumerate(made)
    ]


def with_jig(job, text):
    """The job with a jig on its first day, as its notes would have it."""
    first, *others = job.entries
    told = replace(first, body=f"{first.body}\n\nJig: {text}", marks=(*first.marks, Mark("jig", text)))
    return replace(job, entries=(told, *others))


@pytest.fixture(scope="module")
def records(jobs):
    return [used_of(job, summarise(job)) for job in jobs]


def pages(records, stale=None, without=0, shop=SHOP):
    return across_pages(newest_first(records, stale or {}, without), shop)


def things(page):
    return [thing for group in page.groups for thing in group.things]


def on_page(page):
    """The pairs of a thing's name and a job that a page shows, in full or in the short list, counted."""
    pairs = []
    for group in page.groups:
        for thing in group.things:
            shown = [row.job.key for row in thing.rows if row.job] + [older.job.key for older in thing.older]
            assert len(shown) == thing.count
            pairs += [(f"{group.name}/{thing.name}".strip("/").casefold(), key) for key in shown]
    return sorted(pairs)


def expected(jobs):
    """The same pairs by page, from the jobs themselves."""
    out = {kind: set() for kind in across.KINDS}
    for job in jobs:
        for part in job.parts:
            if part.kind == "wood":
                out["woods"].add((tables.species()[part.key].name.casefold(), job.key))
            if part.kind == "hardware":
                out["hardware"].add((part.material.casefold(), job.key))
            if part.supplier:
                out["suppliers"].add((part.supplier.casefold(), job.key))
        for finish in job.finishes:
            family = tables.finishes()[finish.family].name
            out["finishes"].add((f"{family}/{finish.product}".casefold(), job.key))
        for joint in job.joinery:
            out["joinery"].add((joint.casefold(), job.key))
        out["jigs"] |= {
            (mark.text.split(";")[0], job.key) for e in job.entries for mark in e.marks if mark.key == "jig"
        }
    return {kind: sorted(pairs) for kind, pairs in out.items()}


def one(key, day="2026-01-01", **more):
    return Used(
        key=key,
        title=more.pop("title", key),
        day=date.fromisoformat(day) if day else None,
        currency=more.pop("currency", "EUR"),
        **more,
    )


def oak(cost=None, **more):
    return WoodUse(
        key="european-oak", name="European oak", cost=None if cost is None else Decimal(cost), **more
    )


# -- where things stand ----------------------------------------------------------------------------


def test_every_row_of_every_job_is_on_the_page_it_belongs_to_and_on_no_other(jobs, records):
    found = {kind: on_page(page) for kind, page in pages(records).items()}
    assert found == expected(jobs)
    assert min(map(len, found.values())) > JOBS / 2


def test_order_of_reading_makes_no_difference(records):
    mixed = list(records)
    random.Random(5).shuffle(mixed)
    assert pages(mixed) == pages(records)


def test_the_newest_job_of_a_thing_is_first(records):
    for page in pages(records).values():
        for thing in things(page):
            days = [row.job.day for row in thing.rows if row.job] + [older.job.day for older in thing.older]
            assert days == sorted(days, reverse=True)


def test_things_stand_in_the_order_of_the_alphabet_whatever_their_capitals():
    named = [
        one(str(n), joinery=(Use(key=name, name=name),)) for n, name in enumerate(["zink", "Dado", "ärm"])
    ]
    assert [thing.name for thing in things(pages(named)["joinery"])] == ["Ärm", "Dado", "Zink"]


def test_a_job_that_uses_a_thing_in_two_sizes_is_one_job_with_two_rows_and_its_notes_once():
    said = (Remark("2026-01-01", "", "The hinge binds.", "day-2026-01-01-p1"),)
    sizes = tuple(
        HardwareUse(key="hinge", name="hinge", count=n, sides_m=(n / 100,), said=said, cost=Decimal(n))
        for n in (3, 5)
    )
    (thing,) = things(pages([one("a", hardware=sizes)])["hardware"])
    assert (thing.count, thing.counted) == (1, "one job")
    assert [bool(row.job) for row in thing.rows] == [True, False]
    assert [row.said for row in thing.rows] == [
        (),
        (SaidOf("day-2026-01-01-p1", "2026-01-01", "", "The hinge binds."),),
    ]
    columns = [column.key for column in pages([one("a", hardware=sizes)])["hardware"].columns]
    assert thing.totals[columns.index("qty")] == "8"
    assert thing.totals[columns.index("cost")] == "€8.00"


def test_days_are_those_of_the_language():
    use = HardwareUse(
        key="hinge", name="Band", count=1, said=(Remark("2026-02-23", "", "Klemmt.", "day-2026-02-23-p2"),)
    )
    german = replace(SHOP, language="de")
    (thing,) = things(pages([one("a", day="2026-03-02", hardware=(use,))], shop=german)["hardware"])
    assert thing.rows[0].job.day == "02.03.2026"
    assert thing.rows[0].said == (SaidOf("day-2026-02-23-p2", "23.02.2026", "", "Klemmt."),)


@given(st.lists(st.text(max_size=12), max_size=12))
def test_places_on_a_page_have_different_names_that_an_address_takes(names):
    anchors = Anchors()
    given_ = [anchors.of(name) for name in names]
    assert len(set(given_)) == len(names)
    assert all(anchor and anchor.replace("-", "").isalnum() and anchor.isascii() for anchor in given_)


# -- figures ---------------------------------------------------------------------------------------


def test_money_of_two_currencies_is_never_added():
    records = [
        one("a", currency="EUR", woods=(oak("10.50"),)),
        one("b", currency="EUR", woods=(oak("4"),)),
        one("c", currency="GBP", woods=(oak("7"),)),
        one("d", currency="JPY", woods=(oak("900"),)),
        one("e", currency="GBP", woods=(oak(),)),
    ]
    page = pages(records)["woods"]
    costs = [column.key for column in page.columns].index("cost")
    (thing,) = things(page)
    assert thing.totals[costs] == "€14.50; at least £7.00; 900\u202fJPY"
    assert sorted(row.cells[costs] for row in thing.rows) == ["", "900\u202fJPY", "£7.00", "€10.50", "€4.00"]


def test_stock_without_a_tally_is_about_and_a_sum_with_one_of_them_too():
    records = [
        one("a", woods=(oak(net_m3=0.01, stock_m3=0.02, stock_bf=8.5, tallied=True),)),
        one("b", woods=(oak(net_m3=0.01, stock_m3=0.03, stock_bf=12.7),)),
    ]
    for units, shown in (
        ("mm", ["0.0200\u202fm³", "≈\u202f0.0300\u202fm³", "≈\u202f0.0500\u202fm³"]),
        ("in", ["8.5\u202fbd ft", "≈\u202f12.7\u202fbd ft", "≈\u202f21.2\u202fbd ft"]),
    ):
        page = pages(records, shop=replace(SHOP, units=units))["woods"]
        place = [column.key for column in page.columns].index("stock")
        (thing,) = things(page)
        assert [*(row.cells[place] for row in thing.rows), thing.totals[place]] == shown


def test_a_net_volume_in_board_feet_is_144_cubic_inches_each():
    record = one("a", woods=(oak(net_m3=144 * 0.0254**3 * 7),))
    page = pages([record], shop=replace(SHOP, units="in"))["woods"]
    assert things(page)[0].rows[0].cells == ("7.0\u202fbd ft",)


@pytest.mark.parametrize(
    ("coats", "shown"),
    [
        ((), ""),
        (("2026-01-01",), ""),
        (("2026-01-03", "2026-01-01"), "2 days"),
        (("2026-02-27", "2026-02-28", "2026-03-04"), "1 to 4 days"),
        (("2026-01-01", "2026-01-02"), "one day"),
        (("2026-01-01", "2026-01-01"), "same day"),
    ],
)
def test_the_days_from_coat_to_coat(coats, shown):
    use = FinishUsed(
        key="oil/x",
        name="x",
        family="hardwax-oil",
        family_name="hardwax oil",
        coats=tuple(map(date.fromisoformat, coats)),
        area_m2=1,
    )
    page = pages([one("a", finishes=(use,))])["finishes"]
    row = dict(zip([c.key for c in page.columns], things(page)[0].rows[0].cells, strict=True))
    assert row.get("between", "") == shown
    assert row.get("coats", "") == (str(len(coats)) if coats else "")


def test_what_a_supplier_sold_stands_a_line_a_thing_in_the_measure_it_is_sold_by():
    lines = (
        BoughtLine(
            kind="wood", name="European oak", wood="european-oak", stock_m3=0.1, tallied=True, cost=Decimal(9)
        ),
        BoughtLine(kind="panel", name="MDF", area_m2=2.5, count=4, paid=(UnitPrice(Decimal(40), "sheet"),)),
        BoughtLine(
            kind="glass", name="leaded glass", area_m2=1.0, count=2, paid=(UnitPrice(Decimal(40), "each"),)
        ),
        BoughtLine(kind="finish", name="oil", litres=0.5, listed=True),
        BoughtLine(kind="hardware", name="hinge", count=6),
    )
    page = pages([one("a", suppliers=(SupplierUse(key="x", name="x", lines=lines),))])["suppliers"]
    columns = [column.key for column in page.columns]
    rows = [dict(zip(columns, row.cells, strict=True)) for row in things(page)[0].rows]
    assert [(row["what"], row["amount"]) for row in rows] == [
        ("European oak", "0.1000\u202fm³"), ("MDF", "2.50\u202fm²"), ("Leaded glass", "2 pieces"),
        ("(Oil)", "0.50\u202fl"), ("Hinge", "6 pieces"),
    ]  # fmt: skip
    assert rows[1]["price"] == "€40.00\u202f/\u202fsheet"


# -- many ------------------------------------------------------------------------------------------


def many(count, things_of=lambda n: "european-oak"):
    return [
        one(f"job-{n:03}", f"20{n // 12:02}-{n % 12 + 1:02}-01", woods=(WoodUse(key=things_of(n), name=things_of(n), stock_m3=0.1, cost=Decimal(n)),))
        for n in range(count)
    ]  # fmt: skip


def test_the_newest_stand_in_full_and_older_ones_in_a_list():
    (thing,) = things(pages(many(100))["woods"])
    assert len(thing.rows) == across.FULL_OF_A_THING
    assert [row.job.key for row in thing.rows] == [f"job-{n:03}" for n in range(99, 69, -1)]
    assert [older.job.key for older in thing.older] == [f"job-{n:03}" for n in range(69, -1, -1)]
    assert thing.older[0].words == "≈\u202f0.1000\u202fm³ · €69.00"
    assert thing.older_said == "70 more jobs:"
    assert "€4,950.00" in "".join(thing.totals).replace(
        "\u202f", ","
    )  # 0 + 1 + … + 99: of all, not of those in full


def test_a_page_of_very_many_things_has_the_newest_in_full(monkeypatch):
    monkeypatch.setattr(across, "FULL_OF_A_PAGE", 40)
    page = pages(many(100, lambda n: f"wood {n % 50}"))["woods"]
    rows = [row.job.key for thing in things(page) for row in thing.rows]
    assert sorted(rows) == [f"job-{n:03}" for n in range(60, 100)]
    assert len(on_page(page)) == 100


# -- what is said ----------------------------------------------------------------------------------


def test_a_job_whose_last_binding_failed_is_marked_on_every_page(records):
    bad = records[7]
    for page in pages(records, {bad.key: "Not bound again"}).values():
        refs = [row.job for thing in things(page) for row in thing.rows if row.job]
        refs += [older.job for thing in things(page) for older in thing.older]
        assert {ref.mark for ref in refs if ref.key == bad.key} <= {"Not bound again"}
        assert {ref.mark for ref in refs if ref.key != bad.key} == {""}


def test_jobs_that_have_left_no_record_are_said(records):
    for page in pages(records, without=3).values():
        assert page.remarks[-1].startswith("3 jobs of this book were bound before")
    assert not any(
        "before these pages" in remark for page in pages(records).values() for remark in page.remarks
    )


def test_a_book_without_anything_says_what_to_add():
    for kind, page in pages([one("a")]).items():
        assert page.groups == ()
        assert page.said.endswith(".")
        assert {"woods": "parts.csv", "finishes": "[[finish]]", "joinery": "joinery"}.get(
            kind, ""
        ) in page.said


def test_german_pages_name_woods_and_finishes_in_german(records):
    german = pages(records, shop=replace(SHOP, language="de"))
    names = {thing.name for thing in things(german["woods"])}
    assert "Europäische Eiche" in names
    assert german["woods"].title == "Hölzer"
    assert german["woods"].said.endswith("jeweils der neueste Auftrag zuerst.")

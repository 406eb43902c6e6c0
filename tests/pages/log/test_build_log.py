"""The build log as a model: its days, its hours, and tables whose totals are the sums of their rows."""

import re
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

import pytest

from buildbook.job.holding_model import Fastener, Hanging, Wall
from buildbook.job.log_model import Passage, Picture
from buildbook.job.model import Photo
from buildbook.pages.log.build_log import build_log
from buildbook.pages.phrases import Phrases
from buildbook.problems import Problem
from buildbook.summary import summarise
from tests.pages.made import HINGES, LEGS, TOP, care, entry, part, plain, table

INCH_M = 0.0254


def log_of(job=None, items=()):
    job = job or table()
    return build_log(
        job, summarise(job), tuple(items), Phrases.of(job), lead=None, wood_colours=("#000000", "#ffffff")
    )


def ledger(key, job=None):
    return next(table for table in log_of(job).tables if table.key == key)


def figure(text):
    return float(re.search(r"[\d.]+", re.sub("[,€]", "", plain(text)))[0])


def test_hours_are_in_the_order_of_the_shop_and_add_up():
    log = log_of()
    assert [(bar.stage, plain(bar.hours)) for bar in log.stages] == [
        ("milling", "3.5 h"),
        ("joinery", "8 h"),
        ("finishing", "0.5 h"),
    ]
    assert plain(log.total_hours) == "12 h"
    assert [bar.share for bar in log.stages] == pytest.approx([3.5 / 8, 1, 0.5 / 8])
    assert log_of(table(entries=())).stages == ()


def photo(name, taken, digest):
    return Photo(name, Path(name), 60, 40, taken, digest)


def test_days_are_in_order_with_each_photo_once_at_its_day():
    shown = Picture("photos/joint.jpg", "The joint", False, 3, "photos/joint.jpg")
    notes = (
        entry(date(2026, 3, 1), "Morning", joinery=2),
        replace(entry(date(2026, 3, 1), "Evening"), for_client=(Passage("Words", 2),), line=7),
        replace(entry(date(2026, 3, 5), "Later"), pictures=(shown,)),
    )
    photos = (
        photo("photos/joint.jpg", datetime(2026, 3, 1, 9), "joint"),
        photo("photos/b.jpg", datetime(2026, 3, 1, 17, 30), "b"),
        photo("photos/a.jpg", datetime(2026, 3, 1, 8, 5), "a"),
        photo("photos/alone.jpg", datetime(2026, 3, 3, 12), "alone"),
        photo("photos/undated.jpg", None, "undated"),
    )
    log = log_of(table(entries=notes, photos=photos))
    told = [(day.iso, day.title, [p.digest for p in day.strip], [p.digest for _, p in day.pictures]) for day in log.days]  # fmt: skip
    assert told == [
        ("2026-03-01", "Morning", ["a", "b"], []),
        ("2026-03-01", "Evening", [], []),
        ("2026-03-03", "", ["alone"], []),
        ("2026-03-05", "Later", [], ["joint"]),
        ("", "", ["undated"], []),
    ]
    assert [day.told_client for day in log.days] == [False, True, False, False, False]
    assert [day.source for day in log.days] == ["notes.md", "notes.md:7", "", "notes.md", ""]
    assert log.days[0].strip[0].caption == "a.jpg 08:05"
    assert sorted(picture.digest for picture in log.pictures()) == ["a", "alone", "b", "joint", "undated"]


def test_the_tables_come_as_a_maker_looks_for_them_and_none_is_empty():
    log = log_of()
    assert [one.key for one in log.tables] == ["cut_list", "stock", "hardware", "finishes", "movement", "cost", "masses"]  # fmt: skip
    for one in log.tables:
        assert one.rows
        assert {len(row) for row in one.rows} == {len(one.columns)} == {len(one.numeric)}
        assert not one.totals or len(one.totals) == len(one.columns)
        for place in range(1, len(one.columns)):
            assert any(row[place] for row in one.rows)
    assert log_of(table(parts=(), finishes=(), entries=())).tables == ()


def test_stock_to_buy_is_the_rough_volume_by_thickness_and_a_quarter_more():
    # rough oak: 25 mm 1200 x 600 + 2 x 1000 x 80, 60 mm 4 x 700 x 50; walnut 25 mm 1000 x 20; waste 25 %.
    # A board foot is 144 cubic inches, and a board under an inch is paid as one of an inch (NHLA).
    boards = ((0.88, 0.025), (0.14, 0.060), (0.02, 0.025))  # m2, thickness in m
    rough_m3 = [area * thick for area, thick in boards]
    rough_bf = [area * max(thick, INCH_M) / (144 * INCH_M**3) for area, thick in boards]
    stock = ledger("stock")
    assert [(row[0], plain(row[1]), row[2]) for row in stock.rows] == [
        ("White oak", "25 mm", "3"),
        ("", "60 mm", "4"),
        ("Black walnut", "25 mm", "1"),
    ]
    for row, m3, bf in zip(stock.rows, rough_m3, rough_bf, strict=True):
        per_m3 = 1e6 if "cm" in row[3] else 1
        assert figure(row[3]) == pytest.approx(m3 * per_m3, abs=6e-5 * max(1, per_m3 / 1e4))
        assert figure(row[4]) == pytest.approx(bf, abs=0.051)
        assert figure(row[6]) == pytest.approx(bf * 1.25, abs=0.051)
    wanted = (sum(rough_m3), sum(rough_bf), sum(rough_m3) * 1.25, sum(rough_bf) * 1.25)
    for total, sum_of, room in zip(stock.totals[3:7], wanted, (6e-5, 0.051, 6e-5, 0.051), strict=True):
        assert figure(total) == pytest.approx(sum_of, abs=room)


def test_cost_adds_up_to_what_an_hour_earned():
    # oak 0.0304 m3 rough, 0.038 bought at 2000; hinges 2 x 12.50; 12 h at 40; price 1200
    told = {label: plain(value) for label, value in ledger("cost").rows}
    amounts = {label: figure(value) for label, value in told.items()}
    wood, hinges, materials, labour, total, price, margin, earned = amounts.values()
    assert (wood, hinges, labour, price) == (76.0, 25.0, 480.0, 1200.0)
    assert (materials, total) == (101.0, 581.0)
    assert margin == pytest.approx((1200 - 581) / 1200 * 100, abs=0.05)
    assert earned == pytest.approx((1200 - 101) / 12, abs=0.01)


def test_nothing_is_earned_before_it_is_delivered_and_what_has_no_price_is_named():
    cost = ledger("cost", table(delivered=None))
    assert len(cost.rows) == 6
    assert any("Lipping" in note or "walnut" in note for note in cost.notes)


def test_masses_add_up_to_the_total():
    masses = ledger("masses")
    assert figure(masses.totals[1]) == pytest.approx(sum(figure(row[1]) for row in masses.rows), abs=0.06)
    assert {"Top", "Legs", "Hinges"} <= {row[0] for row in masses.rows}
    assert figure(next(row[1] for row in masses.rows if row[0] == "Hinges")) == pytest.approx(0.2)


def test_a_row_kept_from_the_client_is_in_every_table_of_the_makers():
    hidden = tuple(replace(one, for_client=False) for one in table().parts)
    ours, theirs = log_of(table()).tables, log_of(table(parts=hidden)).tables
    assert [(one.key, one.rows) for one in ours] == [(one.key, one.rows) for one in theirs]


def test_the_cut_list_is_what_stands_in_the_parts_file():
    cut = ledger("cut_list", table(parts=(TOP, LEGS, HINGES, part(9, "Glue", "supply", ""))))
    assert [row[:6] for row in cut.rows] == [
        ("Top", "1", "white-oak", "1200", "600", "20"),
        ("Legs", "4", "white-oak", "700", "50", "50"),
    ]


def test_what_is_wrong_and_what_a_maker_must_know_is_told():
    job = table(
        problems=(Problem("warning", "parts.csv", "Odd.", "Look.", row=3),), price=None, delivered=None
    )
    items = (care("rags", "now", "warning", audience="maker"), care("both", audience="both"), care("theirs"))
    log = log_of(job, items)
    assert [(listed.where[0].words, listed.text) for listed in log.problems] == [("parts.csv, row 3", "Odd.")]
    assert [one.text for table in log.tables for row in table.below for one in row] == ["Odd. Look."]
    assert [notice.title for notice in log.cautions] == ["Title of rags", "Title of both"]
    facts = {line.label: plain(line.value) for line in log.facts}
    assert facts["Delivered"] == "not yet"
    assert "Price" not in facts
    assert {line.label: plain(line.value) for line in log_of().facts}["Price"] == "€1,200.00"


def test_a_hanging_piece_is_told_in_pounds_in_an_inch_shop_and_by_its_worst_load():
    screws = Fastener("wood screw", 0.190 * INCH_M, 3 * INCH_M, 2 * INCH_M, 2)
    hung = table(hanging=Hanging("cleat", screws, Wall("studs", 0.42), 0.5), stands="wall")
    worst = summarise(hung).hanging
    metric, inch = ledger("hanging", hung), ledger("hanging", replace(hung, units="in"))
    shear = plain(metric.rows[2][1])
    assert shear.endswith(" N")
    assert plain(inch.rows[2][1]) == f"{worst.shear_each_n / 4.4482216:,.0f} lbf ({shear})"
    assert metric.rows[-1][1].startswith(f"{worst.use_pct:.0f}")
    assert worst.use_pct >= max(worst.shear_use_pct, worst.pull_use_pct)
    assert "plaster" in " ".join(metric.notes)

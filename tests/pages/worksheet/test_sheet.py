"""The worksheet of an estimate: every figure with what it leans on, nothing told as nought that is not known."""

import re
from dataclasses import fields, is_dataclass, replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.estimate.likeness.traits import DRIVERS
from buildbook.estimate.model import Backtest, HoursEstimate, LeadTime, Range, StageEstimate
from buildbook.estimate.settings import likeness_rules
from buildbook.pages.drawn.ranges import RangeRow as Row
from buildbook.pages.drawn.ranges import about, low_to_high, range_chart, signed, span
from buildbook.pages.phrases import Phrases
from buildbook.pages.worksheet.money import age
from buildbook.pages.worksheet.sheet import worksheet_of
from buildbook.quantity import Style
from buildbook.words import languages
from tests import worksheets as made

STYLE = Style()


def plain(text):
    """Without spaces that do not break."""
    return text.replace("\u202f", " ").replace("\u00a0", " ")


def column(table, heading):
    place = table.columns.index(heading)
    return [plain(row[place]) for row in table.rows]


def sheet(**more):
    return worksheet_of(made.estimate(**more))


# -- the answer --------------------------------------------------------------------------------------


def test_the_answer_is_a_range_in_every_line():
    answers = [(a.label, plain(a.low), plain(a.middle), plain(a.high)) for a in sheet().answers]
    assert answers == [
        ("Hours", "48 h", "63 h", "82 h"),
        ("Price with tax", "€3,996", "€5,004", "€6,360"),
        ("Before tax", "€3,330", "€4,170", "€5,300"),
        ("Could be ready", "", "17 March 2027", "30 March 2027"),
    ]


def test_it_says_what_it_leans_on():
    def leaning(lean, jobs, scores):
        hours = replace(made.HOURS, lean=lean, jobs=jobs, scores=scores)
        return " ".join(sheet(hours=hours).leans)

    assert "leans on 31 past jobs; the range is calibrated on 24 past quotes" in leaning("past", 31, 24)
    assert "Only one past quote could be tried" in leaning("few", 4, 1)
    assert "leans on one past job. None could be tried" in leaning("usual", 1, 0)


def test_what_cannot_be_told_is_a_sentence_that_says_what_it_takes():
    bare = worksheet_of(made.bare())
    assert (bare.answers, bare.tables, bare.hours_chart, bare.tested_chart) == ((), (), None, None)
    said = " ".join(bare.leans + bare.tested)
    for needed in ("lines of hours", "hour_rate in shop.toml", "jobs with hours and dates"):
        assert needed in said
    assert "week_hours" in " ".join(sheet(lead=LeadTime(date(2027, 2, 1))).leans)


# -- like this one -----------------------------------------------------------------------------------


def test_a_past_job_is_told_by_the_traits_that_weigh_most_on_either_side():
    """Alike times weight: piece 3, joinery 2, size 1.8 (drawers 0.7); apart: wood 1.5, tags 0.8, panes 0.5."""
    like = sheet().like[0]
    assert like.alike == (
        "Same kind of piece: cabinet",
        "Same joinery: half-blind dovetail, floating tenon",
        "Like size: 1200 × 420 × 700 mm; here 1200 × 450 × 920 mm",
    )
    assert [reason.split(":")[0] for reason in like.differs] == ["Other wood", "Other tags", "Other panes"]
    assert (plain(like.likeness), plain(like.hours), like.price, like.folder) == ("81 % alike", "63.8 h", "€4,850", "2025-018-record-cabinet")  # fmt: skip


def test_a_long_shelf_is_cut_and_said():
    many = tuple(replace(made.LIKE[0], job=f"job-{n}") for n in range(9))
    long = sheet(like=many)
    assert [job.folder for job in long.like] == [f"job-{n}" for n in range(6)]
    assert long.like_more == "3 more past jobs are less like it."


@pytest.mark.parametrize("language", languages())
def test_every_trait_and_driver_has_its_words(language):
    has = Phrases.of(made.enquiry(language)).words.has
    assert all(has(f"estimate.trait.{trait.name}") for trait in likeness_rules().traits)
    assert all(has(f"estimate.driver.{driver}") for driver in DRIVERS)


# -- hours -------------------------------------------------------------------------------------------


def test_hours_stand_with_their_driver_and_the_jobs_they_come_from():
    table = sheet().hours
    joinery = [plain(cell) for cell in table.rows[2]]
    assert joinery == ["joinery", "16 h", "23 h", "32 h", "Joints", "46", "0.91", "14", ""]
    assert [plain(cell) for cell in table.totals] == ["Total", "48 h", "63 h", "82 h", "", "", "", "14", ""]
    assert "60 % of the time" in plain(table.rows[4][-1])
    assert any("raised by 8 %" in plain(note) for note in table.notes)
    assert any("slower, by 2.4 % a year" in plain(note) for note in table.notes)


def test_a_stage_that_nobody_can_tell_is_a_sentence_and_no_nought():
    told = sheet()
    assert "fitting" not in [row[0] for row in told.hours.rows]
    assert "fitting" not in [row.label for row in told.hours_chart.rows]
    assert told.untold == (
        "Not in the total: fitting. No past job of yours tells how long this takes. It is not in the sum: add it by hand.",
    )


def test_drivers_are_in_the_units_of_the_shop():
    """0.142 m3 is 60.2 board feet (0.002359737 m3 each: NIST SP 811, B.8)."""
    inches = worksheet_of(made.estimate(units="in"))
    assert column(inches.hours, "How much")[1] == "60.2 bd ft"
    assert column(inches.materials, "How much")[0] == "60.2 bd ft (55.5–70.3)"


@given(st.lists(st.floats(0, 500), min_size=3, max_size=3).map(sorted))
def test_a_range_is_told_as_finely_as_its_middle(hours):
    low, middle, high = hours
    places = {
        len(figure.partition(".")[2])
        for figure in span(low, middle, high, STYLE)[:-2].split("–")
        if figure != "0"
    }
    assert len(places) <= 1
    assert low_to_high(low, middle, high, STYLE)[1] == about(middle, STYLE)


@pytest.mark.parametrize(("pct", "said"), [(12.4, "+12 %"), (-7.6, "−8 %"), (0.2, "0 %"), (-0.2, "0 %")])
def test_a_difference_has_its_sign(pct, said):
    assert plain(signed(pct, STYLE)) == said


# -- materials and price -----------------------------------------------------------------------------


def test_materials_say_amount_price_and_how_old_it_is():
    table = sheet().materials
    assert [plain(cell) for cell in table.rows[0][:-1]] == [
        "Black walnut", "0.1420 m³ (0.1310–0.1660)", "€347.90", "€2,450.00", "m³", "2025-08-01", "16 months",
    ]  # fmt: skip
    assert table.rows[0][-1].startswith("Scaled with the size from 3 past jobs, exponent 0.80. ")
    assert column(table, "How much")[1:] == ["one sheet", "0.61 m²", "4", "0.52 l", "1"]
    assert column(table, "Age") == ["16 months", "today’s", "51 days", "4 years", "", ""]
    assert column(table, "Priced on")[4:] == ["no date", ""]
    assert column(table, "Cost")[-1] == "–"
    assert table.totals[2] == "at least €537.48"  # the last line has no price
    assert [plain(note) for note in table.notes] == [
        "With the ranges of what was scaled: €512.40 to €596.30.",
        "Not in the sum, for want of a price: mortise lock.",
        "The amounts to buy hold 22 % of waste.",
    ]


@given(st.integers(0, 20_000))
def test_the_age_of_a_price_is_never_far_off(days):
    said = age(days, Phrases.of(made.enquiry()))
    count = 1 if said.startswith("one") else int(re.match(r"\d*", said)[0] or 0)
    unit = next(
        (length for name, length in (("day", 1), ("month", 30.4375), ("year", 365.25)) if name in said), 0
    )
    assert abs(count * unit - days) <= max(unit / 2, 0)


def test_the_steps_lead_to_the_price_with_what_stands_before_tax():
    table = sheet().price
    assert [row[0] for row in table.rows][-3:] == ["Rounding", "Price before tax", "VAT"]
    assert table.totals[3] == "at least €5,004.00"
    untaxed = replace(
        made.PRICE,
        lines=made.PRICE.lines[:-1],
        net_low=made.PRICE.low,
        net_median=made.PRICE.median,
        net_high=made.PRICE.high,
    )
    assert [a.label for a in sheet(price=untaxed).answers][1:3] == ["Price", "Could be ready"]


# -- how well it would have quoted -------------------------------------------------------------------


def test_the_backtest_is_told_in_figures_first():
    said = plain(" ".join(sheet().tested))
    for figure in (
        "10 in all",
        "median miss was 9 %",
        "held 8 of 10, 80 %; 80 % is wanted",
        "34 % (the mean",
        "28 % (hours a board",
    ):
        assert figure in said


def test_of_a_long_past_it_is_said_how_many_were_tried():
    few, many = (
        Backtest(made.TRIED, 8.6, 80.0, 34.1, could=10),
        Backtest(made.TRIED, 8.6, 80.0, 34.1, could=412),
    )
    assert "10 in all" in sheet(backtest=few).tested[0]
    assert sheet(backtest=many).tested[0].startswith("The last 10 of 412 past jobs were each estimated")


def test_every_job_is_drawn_in_order_of_time_and_misses_are_told_in_words():
    shuffled = Backtest((*made.TRIED[5:], *made.TRIED[:5]), 8.6, 80.0, 34.1)
    told = sheet(backtest=shuffled)
    rows = told.tested_chart.rows
    assert [row.actual_h for row in rows] == [tried.actual_h for tried in made.TRIED]
    assert [(plain(row.words), row.missed) for row in rows if row.missed] == [
        ("96 h, above", True),
        ("52 h, below", True),
    ]
    assert column(told.tested_table, "Range").count("held") == 8
    assert column(told.tested_table, "Missed by")[5] == "+56 %"  # 81 h for 52 h
    assert "board foot" not in " ".join(told.tested)


def test_of_a_long_past_the_latest_jobs_are_drawn_and_all_are_in_the_table():
    many = tuple(
        replace(made.TRIED[0], job=f"job-{n:03}", day=date(2015, 1, 1) + timedelta(n)) for n in range(80)
    )
    told = sheet(backtest=Backtest(many, 10.0, 80.0, 20.0))
    assert len(told.tested_chart.rows) == 30
    assert "the latest 30 of 80" in told.tested_chart.sentence
    assert len(told.tested_table.rows) == 80


# -- the axis ----------------------------------------------------------------------------------------


@given(st.lists(st.floats(0.01, 5000), min_size=1, max_size=8), st.booleans())
def test_an_axis_holds_every_figure_and_has_few_round_ticks(hours, ratios):
    phrases = Phrases.of(made.enquiry())
    rows = [Row("a", "", h / 2, h, h * 2) for h in hours]
    chart = range_chart(rows, phrases, title="t", sentence="s", ratios=ratios)
    at = [tick.hours_h for tick in chart.ticks]
    assert chart.start_h <= max(min(hours) / 2, 0.1)
    assert chart.end_h >= 2 * max(hours)
    assert chart.end_h <= max(2 * max(hours), 0.2)
    assert at == sorted(set(at))
    assert 2 <= len(at) <= 7
    assert all(chart.start_h - 1e-6 <= tick <= chart.end_h + 1e-6 for tick in at)


def test_nothing_is_drawn_of_nothing():
    phrases = Phrases.of(made.enquiry())
    assert range_chart([], phrases, title="t", sentence="s") is None
    assert range_chart([Row("a", "", 0.0, 0.0, 0.0)], phrases, title="t", sentence="s") is None
    only = HoursEstimate(None, (StageEstimate("fitting", "joints", 3.0, None),))
    assert worksheet_of(made.estimate(hours=only)).hours_chart is None


# -- the whole ---------------------------------------------------------------------------------------


def texts(value):
    if is_dataclass(value):
        for field in fields(value):
            yield from texts(getattr(value, field.name))
    elif isinstance(value, tuple):
        for item in value:
            yield from texts(item)
    elif isinstance(value, str):
        yield value


@pytest.mark.parametrize("language", languages())
def test_no_text_is_left_with_a_name_or_a_bare_key_in_it(language):
    for text in texts(worksheet_of(made.estimate(language))):
        assert not re.search(r"[{}]|worksheet\.|estimate\.[a-z]", text), text


def test_hours_that_are_not_sure_are_never_shown_finer_than_they_are_known():
    hours = HoursEstimate(Range(40.123, 52.678, 70.444), (), 9, "past", 25)
    assert [plain(cell) for cell in (sheet(hours=hours).answers[0].middle,)] == ["53 h"]


def test_a_stage_that_few_booked_is_named_as_not_counted():
    told = made.estimate()
    rare = replace(told, hours=replace(told.hours, rare=("veneering", "gilding")))
    assert any("veneering and gilding" in note for note in worksheet_of(rare).hours.notes)
    assert not any("Not counted" in note for note in worksheet_of(told).hours.notes)

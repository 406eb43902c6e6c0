"""Estimate against actual in the build log: a verdict in words, every stage drawn and in the table."""

import json
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from buildbook.job.log_model import Hours, LogEntry
from buildbook.job.quoted import read_quoted
from buildbook.job.shop_model import Shop
from buildbook.pages.log.against import against_of
from buildbook.pages.phrases import Phrases
from buildbook.problems import Problems
from buildbook.summary import summarise
from tests import worksheets as made
from tests.job.test_quoted import WHOLE

QUOTED = read_quoted(
    json.dumps(WHOLE).encode(), Problems()
)  # joinery 16–23–32 h, 63 h (48–82) in all, €5,004


def against(*hours, delivered=date(2026, 4, 1), quoted=QUOTED, price=Decimal("7000"), shop=None):
    booked = LogEntry(date(2026, 3, 1), "", "", hours=tuple(Hours(stage, h) for stage, h in hours))
    job = replace(
        made.enquiry(),
        entries=(booked,),
        delivered=delivered,
        quoted=quoted,
        price=price,
        shop=shop or Shop(),
    )
    return against_of(summarise(job), Phrases.of(job))


def plain(text):
    return text.replace("\u202f", " ").replace("\u2060", "")


@pytest.mark.parametrize(
    ("hours", "delivered", "said"),
    [
        (63.5, True, "It took 63.5 h, within the range of the estimate: 48–63–82 h."),
        (
            94.5,
            True,
            "It took 94.5 h, 50 % more than the middle of the estimate and more than its range: 48–63–82 h.",
        ),
        (
            42,
            True,
            "It took 42 h, 33 % less than the middle of the estimate and less than its range: 48–63–82 h.",
        ),
        (20, False, "So far 20 h are booked. The estimate was 48–63–82 h."),
        (90, False, "So far 90 h are booked, more than the range of the estimate: 48–63–82 h."),
    ],
)
def test_the_verdict_is_a_sentence(hours, delivered, said):
    told = against(("joinery", hours), delivered=date(2026, 4, 1) if delivered else None)
    assert plain(told.sentence) == said


def test_each_stage_is_a_row_estimated_or_not():
    told = against(("joinery", 40.0), ("drawings", 2.5))
    assert [[plain(cell) for cell in row] for row in told.hours.rows] == [
        ["joinery", "16 h", "23 h", "32 h", "40 h", "+75 %", "took more"],
        ["fitting", "", "", "", "nothing booked", "", "not estimated"],
        ["drawings", "", "", "", "2.5 h", "", "not estimated"],
    ]
    assert [(row.label, row.actual_h, row.missed) for row in told.chart.rows] == [("joinery", 40.0, True), ("drawings", 2.5, False)]  # fmt: skip


def test_what_goes_on_has_no_verdict_by_stage_and_no_mark_where_nothing_is_booked():
    told = against(("drawings", 2.5), delivered=None)
    assert told.hours.rows[0][-1] == ""
    assert told.chart.rows[0].actual_h is None


def test_money_stands_beside_what_it_was():
    """7000 for 5004 is 40 % more, above 6360."""
    (row,) = [row for row in against().money.rows if row[0] == "Price"]
    assert [plain(cell) for cell in row] == [
        "Price",
        "€3,996",
        "€5,004",
        "€6,360",
        "€7,000",
        "+40 %",
        "took more",
    ]
    other = against(shop=Shop(currency="CHF")).money
    assert other.notes[-1] == "Other currencies are not compared."
    assert plain(other.rows[1][4]) == "7,000 CHF"


def test_nothing_is_said_where_nothing_was_estimated():
    assert against(quoted=None) is None
    bare = read_quoted(b'{"schema": 1}', Problems())
    told = against(("joinery", 3.0), quoted=bare)
    assert plain(told.sentence) == "The estimate told no hours of the whole; 3 h are booked."
    assert told.money is None

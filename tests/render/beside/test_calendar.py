"""care.ics, read back by two libraries that had no part in writing it."""

from collections import Counter
from datetime import date, datetime
from itertools import pairwise

import pytest
import vobject

from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from buildbook.render.beside.calendar import care_calendar
from tests.conftest import SAMPLE


@pytest.fixture(scope="module")
def piece():
    return pages_of(read_job(SAMPLE))[0]


def unfolded(content):
    """Content lines as RFC 5545 3.1 has them: CRLF, and a blank after a line break continues the line."""
    text = content.decode("utf-8")
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))
    assert "\n" not in text.replace("\r\n", "")
    return text.replace("\r\n ", "").split("\r\n")


def test_every_date_of_the_piece_is_an_event(piece):
    lines = unfolded(care_calendar(piece))
    assert lines[0] == "BEGIN:VCALENDAR"
    starts = sorted(line.partition(":")[2] for line in lines if line.startswith("DTSTART"))
    assert starts == sorted(due.day.strftime("%Y%m%d") for due in piece.due)
    assert len(starts) >= 7


def test_names_of_events_are_their_own_and_stay(piece):
    names = [line for line in unfolded(care_calendar(piece)) if line.startswith("UID:")]
    assert len(set(names)) == len(names) == len(piece.due)
    assert care_calendar(piece) == care_calendar(piece)


def test_a_second_library_reads_it(piece):
    calendar = vobject.readOne(care_calendar(piece).decode())
    events = calendar.contents["vevent"]
    assert {e.dtstart.value for e in events} == {due.day for due in piece.due}
    assert all(e.description.value for e in events)


# -- thirty years of a calendar, read by vobject and dateutil, which had no part in writing it -----------------------------

YEARS = 30
DELIVERED = date(2026, 7, 31)  # a day that few months have
SHOP_TOML = 'name = "Shop"\nmaker = "A. Maker"\ncountry = "{country}"\n'
CHEST_TOML = """
title = "Tall cabinet"
number = "1"
piece = "cabinet"
delivered = 2026-07-31
overall = { width = "900", depth = "450", height = "1900" }
stands = "floor"
doors = 2
[[finish]]
key = "body"
family = "hardwax-oil"
coats = [2026-07-30]
wear = "now and then"
"""
CHEST_CSV = (
    "part,kind,material,length,width,thickness,finish\n"
    "Side,wood,oak,1800,400,20,body\n"
    "Glass shelf,glass,toughened,800,400,6,\n"
    "Hinge,hardware,mild steel,50,30,2,\n"
)
BENCH_TOML = """
title = "Garden bench"
number = "2"
piece = "bench"
delivered = 2026-07-31
use = "Outdoors, in the garden"
[[finish]]
key = "body"
family = "oil-varnish-blend"
coats = [2026-06-01]
"""
BENCH_CSV = "part,kind,material,length,width,thickness,finish\nSlat,wood,iroko,1500,60,22,body\n"


def occurrences(content, start=DELIVERED, years=YEARS):
    """Every day of each event over the years, by the words of the event; those that repeat beyond any end too."""
    found = {}
    for event in vobject.readOne(content.decode()).vevent_list:
        rules = event.getrruleset(addRDate=True)
        first, last = datetime(start.year, 1, 1), datetime(start.year + years, start.month, start.day)
        one = event.dtstart.value
        days = [day.date() for day in rules.between(first, last, inc=True)] if rules else [one]
        said = f"{event.summary.value}\n{event.description.value}"
        assert said not in found
        found[said] = days
    return found


def of(found, words):
    (days,) = (days for said, days in found.items() if words in said)
    return days


def calendar_of(make_job, country, toml, table):
    folder = make_job(
        **{"job.toml": toml, "parts.csv": table, "shop.toml": SHOP_TOML.format(country=country)}
    )
    return care_calendar(pages_of(read_job(folder))[0])


@pytest.mark.parametrize("country", ["DE", "NZ"])
def test_a_cabinet_is_called_for_as_often_as_it_should_be_for_thirty_years(make_job, country):
    found = occurrences(calendar_of(make_job, country, CHEST_TOML, CHEST_CSV))
    assert of(found, "On the first day: Fix it to the wall") == [DELIVERED]
    assert of(found, "may now be used with care") == [date(2026, 8, 1)]
    for words in ("Try the wall strap", "Load the glass shelf", "tighten its hinges"):
        days = of(found, words)
        assert len(days) == YEARS, words
        assert {day.month for day in days} == {7}
    halves = of(found, "Iron: keep it dry")
    assert len(halves) == 2 * YEARS
    assert set(Counter(day.month for day in halves).values()) == {YEARS}
    renewed = of(found, "wants renewing")  # every 48 months at the longest, from the last coat
    assert renewed == [date(year, 7, 28) for year in range(2030, 2057, 4)]


@pytest.mark.parametrize(
    ("country", "spring", "autumn"), [("DE", {3, 4, 5}, {9, 10, 11}), ("NZ", {9, 10, 11}, {3, 4, 5})]
)
def test_spring_work_is_in_spring_and_autumn_work_in_autumn_in_both_halves_of_the_world(
    make_job, country, spring, autumn
):
    """Seasons as meteorologists count them: March to May is spring in Berlin and autumn in Auckland."""
    found = occurrences(calendar_of(make_job, country, BENCH_TOML, BENCH_CSV))
    for name, months in (("In spring", spring), ("In autumn", autumn)):
        days = of(found, name)
        assert len(days) in (YEARS, YEARS - 1)
        assert {day.month for day in days} <= months
        assert all(later.year - day.year == 1 for day, later in pairwise(days))
    assert len(of(found, "wants renewing")) == YEARS  # out in the weather: each year


def test_nothing_that_repeats_ends(make_job):
    for toml, table in ((CHEST_TOML, CHEST_CSV), (BENCH_TOML, BENCH_CSV)):
        content = calendar_of(make_job, "DE", toml, table)
        rules = [line for line in unfolded(content) if line.startswith("RRULE:")]
        assert rules
        assert not [rule for rule in rules if "COUNT" in rule or "UNTIL" in rule]
        later = occurrences(content, date(2126, 7, 31), 2)
        assert sum(map(len, later.values())) >= 4

"""care.ics, read back by two libraries that had no part in writing it."""

from datetime import date

import pytest
from dateutil.rrule import rrulestr

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


def test_the_look_over_comes_back_every_year(piece):
    lines = unfolded(care_calendar(piece))
    rules = [line.removeprefix("RRULE:") for line in lines if line.startswith("RRULE:")]
    assert rules
    days = list(rrulestr(rules[0], dtstart=__import__("datetime").datetime(2027, 4, 17)))
    assert [d.date() for d in days[:3]] == [date(2027, 4, 17), date(2028, 4, 17), date(2029, 4, 17)]


def test_a_second_library_reads_it(piece):
    import vobject

    calendar = vobject.readOne(care_calendar(piece).decode())
    events = calendar.contents["vevent"]
    assert {e.dtstart.value for e in events} == {due.day for due in piece.due}
    assert all(e.description.value for e in events)

"""The dates to look after a piece, as an iCalendar file (RFC 5545) that any calendar reads.

Each event keeps its UID from binding to binding, so that importing twice does not double.
"""

from __future__ import annotations

import uuid
from datetime import UTC, date, datetime, time

from icalendar import Calendar, Event, vText

from buildbook.pages.client.piece import ClientPiece, Due
from buildbook.trade.days import MONTHS_OF_YEAR, days_after

_NO_DAY = date(2000, 1, 1)  # DTSTAMP is required; without any date there is no event that shows it


def care_calendar(piece: ClientPiece) -> bytes:
    """The calendar of a piece; empty of events when nothing is dated."""
    calendar = Calendar()
    calendar.add("prodid", f"-//buildbook//care//{piece.language.upper()}")
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add(
        "x-wr-calname", vText(piece.title)
    )  # of a name that it does not know the library escapes nothing
    for due in piece.due:
        calendar.add_component(_event(due, piece))
    return bytes(calendar.to_ical())


def uid(piece: ClientPiece, due: Due) -> str:
    """A name for the event that stays the same: made of shop, number, title and what is due."""
    said = "/".join((piece.contact.name, piece.number, piece.title, due.key))
    return str(uuid.uuid5(uuid.NAMESPACE_URL, f"urn:buildbook:{said}"))


def _event(due: Due, piece: ClientPiece) -> Event:
    event = Event()
    event.add("uid", uid(piece, due))
    event.add(
        "dtstamp", datetime.combine(piece.dated or _NO_DAY, time(), UTC)
    )  # never the clock: same in, same out
    event.add("dtstart", due.day)
    if end := days_after(due.day, 1):  # without one a day's event ends with its day (RFC 5545, 3.6.1)
        event.add("dtend", end)
    event.add("summary", f"{piece.title}: {due.title}" if piece.title else due.title)
    event.add("description", due.text)
    event.add("transp", "TRANSPARENT")
    event.add("categories", [piece.kind] if piece.kind else [])
    if piece.page_address:
        event.add("url", piece.page_address)
    if due.every_months:
        event.add("rrule", _rule(due.every_months))
    return event


def _rule(every_months: int) -> dict[str, object]:
    """Without an end: nobody is told when a calendar stops calling. Each day is one that every month has."""
    if every_months % MONTHS_OF_YEAR == 0:
        return {"freq": "yearly", "interval": every_months // MONTHS_OF_YEAR}
    return {"freq": "monthly", "interval": every_months}

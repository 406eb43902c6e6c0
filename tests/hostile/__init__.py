"""What a maker may write and no page should break on: values beyond belief, and signs that steer what shows them.

`written` is the oracle: every file of a book, read by programs that had no part in writing it.
"""

import json
from html.parser import HTMLParser

import icalendar
import pypdf
import vobject

from buildbook.book.bind import bind
from tests.conftest import every_file

_NO_XML = {chr(sign) for sign in (*range(0x20), 0xFFFE, 0xFFFF)} - {"\t", "\n", "\r"}
"""Characters that XML 1.0 (2.2) has no place for, nor has HTML."""

WHOLE = """
number = "2026-014"
title = "Record cabinet"
piece = "cabinet"
begun = 2026-02-16
delivered = 2026-04-11
page = "https://example.org/14/"
"""
PARTS = "part,qty,material,length,width,thickness,finish\nSide,2,European oak,700,400,19,body\n"
NOTES = "## 2026-03-02 Sides\n\nHours: joinery 2\n\nCut.\n\n### For the client\n\nMade by hand.\n"


class Tags(HTMLParser):
    """The elements of a page by their names."""

    def __init__(self):
        super().__init__()
        self.found = set()

    def handle_starttag(self, tag, attrs):
        assert not [name for name, _ in attrs if name.startswith("on")], attrs
        assert not [value for _, value in attrs if (value or "").strip().lower().startswith("javascript:")], (
            attrs
        )
        self.found.add(tag)


def whole_book(book):
    """Every file of a book opened by another program: calendars by two, JSON, PDF, markup. The calendars' events."""
    events = []
    for name, content in every_file(book).items():
        if name.endswith(".ics"):
            events += calendar(content)
        elif name.endswith((".json", ".jsonld")):
            json.loads(content)
        elif name.endswith(".pdf"):
            assert pypdf.PdfReader(book / name).pages
        elif name.endswith(".html"):
            text = content.decode("utf-8")
            assert not _NO_XML & set(text), name
            page = Tags()
            page.feed(text)
            assert "body" in page.found
            assert not name.startswith("handover/") or "script" not in page.found, name
    return events


def calendar(content):
    """The events of a calendar, if it is one: two readers agree, and its lines are those of RFC 5545, 3.1."""
    text = content.decode("utf-8")
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))
    bare = text.replace("\r\n", "")
    assert not {sign for sign in bare if sign < " " and sign != "\t"} | ({"\x7f"} & set(bare))
    events = icalendar.Calendar.from_ical(content).walk("VEVENT")
    again = vobject.readOne(text).contents.get("vevent", [])
    assert [str(e["summary"]) for e in events] == [e.summary.value for e in again]
    assert [e["dtstart"].dt for e in events] == [e.dtstart.value for e in again]
    return events


def bound(folder, book):
    """What became of one job; a fault of ours fails the test here, with its traceback."""
    result = bind(folder, book)
    for job in result.jobs:
        assert not job.fault, job.fault
    whole_book(book)
    return result

"""Notes as they are scribbled: a line begins with its day, and hours stand at the end of a sentence."""

from dataclasses import replace
from datetime import date

import pytest

from buildbook.job.notes.entries import Known, read_notes
from buildbook.job.notes.pictures import Names
from buildbook.problems import Problems

AMERICAN = Known(date(2026, 8, 31), ("joinery", "finishing"), Names(()), month_first=True)
BRITISH = replace(AMERICAN, begun=date(2026, 10, 6), month_first=False, day_first=True)
GERMAN = Known(date(2026, 9, 7), ("Verbindungen", "Oberfläche"), Names(()), points=True)


def read(text, known):
    problems = Problems()
    entries = read_notes([("notes.md", text.encode())], known, problems)
    return entries, [str(problem) for problem in problems]


@pytest.mark.parametrize(
    ("known", "line", "day", "left"),
    [
        (AMERICAN, "9/14", date(2026, 9, 14), ""),
        (AMERICAN, "8/31/26", date(2026, 8, 31), ""),
        (AMERICAN, "Tue 9/8 - mortises", date(2026, 9, 8), "mortises"),
        (AMERICAN, "9/8 - 9/9", date(2026, 9, 8), ""),
        (AMERICAN, "Sept 14: dovetails", date(2026, 9, 14), "dovetails"),
        (BRITISH, "Tues 6 Oct 26: picked up iroko", date(2026, 10, 6), "picked up iroko"),
        (BRITISH, "13/10/2026 hung", date(2026, 10, 13), "hung"),
        (BRITISH, "7/10", date(2026, 10, 7), ""),
        (GERMAN, "Mo 7.9.2026", date(2026, 9, 7), ""),
        (GERMAN, "11.9. Verleimt", date(2026, 9, 11), "Verleimt"),
        (GERMAN, "15.9. 1. Auftrag", date(2026, 9, 15), "1. Auftrag"),
    ],
)
def test_a_line_opens_a_day(known, line, day, left):
    entries, told = read(f"{line}\nThen this.\n", known)
    assert [(entry.day, entry.body) for entry in entries] == [(day, f"{left}\nThen this.".strip("\n"))]
    assert told == []


def test_a_day_of_the_month_alone_follows_the_day_above_it():
    entries, _ = read("30 Sept: cut\n\n1st: glued\n\n8th: fitted\n", BRITISH)
    assert [entry.day for entry in entries] == [date(2026, 9, 30), date(2026, 10, 1), date(2026, 10, 8)]


@pytest.mark.parametrize(
    "line",
    [
        "3/4 walnut for the sides",
        "9/16 in from the edge",
        "12 may be too few",
        "1/2 ply",
        "8 mm groove",
        "1.5",
    ],
)
def test_a_size_opens_no_day(line):
    entries, _ = read(f"9/2\nMilled.\n\n{line}\n", AMERICAN)
    assert [entry.day for entry in entries] == [date(2026, 9, 2)]


def test_the_middle_of_a_sentence_opens_no_day():
    entries, _ = read("9/2\nTo be done by\n9/14 or so.\n", AMERICAN)
    assert len(entries) == 1


def test_lines_open_no_day_where_headings_do():
    entries, _ = read("## 2026-09-02 Milled\n\n9/14 is when they want it.\n", AMERICAN)
    assert [entry.day for entry in entries] == [date(2026, 9, 2)]


def test_days_that_may_be_either_way_round_are_asked_about_once():
    unknown = replace(AMERICAN, month_first=False)
    _, told = read("9/2\nMilled.\n\n9/3\nGlued.\n", unknown)
    assert len(told) == 1
    assert "which is the month" in told[0]


def test_each_line_of_a_paragraph_that_begins_with_a_day_is_one():
    entries, _ = read("9/24 First coat. 1 hr\n9/26 Second coat. 1.5 hr\n", AMERICAN)
    assert [(entry.day.day, entry.total_hours) for entry in entries] == [(24, 1), (26, 1.5)]


def test_what_is_for_the_client_ends_where_the_next_day_begins():
    entries, _ = read("9/2\n\n### For the client\n\nOne tree.\n\n9/3\nSecret.\n", AMERICAN)
    assert [passage.markdown for entry in entries for passage in entry.for_client] == ["One tree."]


@pytest.mark.parametrize(
    ("line", "hours"),
    [
        ("Stickered it all. 4 1/2 hrs.", 4.5),
        ("Top is 30-1/8 before trimming. 3 hrs.", 3),
        ("Gewässert. 3 h", 3),
        ("2. Auftrag, 1 h", 1),
        ("Pegged. 4 hrs. The brace goes up from the hinge.", 4),
        ("Left in clamps, 3 hrs", 0),
        ("In clamps. 3 hrs", 0),
        ("Clamps on 2 hours, shop was warm.", 0),
    ],
)
def test_a_sentence_of_nothing_but_hours_books_them(line, hours):
    entries, _ = read(f"9/2\n{line}\n", AMERICAN)
    assert sum(entry.total_hours for entry in entries) == hours
    assert line in entries[0].body


@pytest.mark.parametrize(
    "said",
    [
        "Half a day.",
        "3 hours with the drive.",
        "5hrs two of us",
        "Dovetails 6 hrs, fitting 2 hrs",
        "ein halber Tag",
        "3rd coat 3/4 hr",
    ],
)
def test_what_may_be_hours_in_a_sentence_is_pointed_at(said):
    _, told = read(f"9/2\nFitted the drawers. {said}\n", AMERICAN)
    assert any("may be hours" in one for one in told)


def test_hours_that_a_sentence_books_do_not_leave():
    entries, _ = read("9/2\n\n### For the client\n\nOne tree. 3 hrs.\n", AMERICAN)
    assert [passage.markdown for entry in entries for passage in entry.for_client] == ["One tree."]


def test_a_line_over_the_first_day_is_its_title():
    entries, told = read("Bench for the hall\n\n9/2\nMilled.\n\n9/3\nGlued.\n", AMERICAN)
    assert [(entry.title, entry.body) for entry in entries] == [
        ("Bench for the hall", "Milled."),
        ("", "Glued."),
    ]
    assert told == []

"""By which words a joint is told, and on which days it is cut."""

from datetime import date

import pytest

from buildbook.find.index import build
from buildbook.find.joints import joint_spans, joints, joints_in, told_in
from buildbook.find.names import CALLED, called_now
from buildbook.find.passage import why
from buildbook.find.query import ask, parse
from buildbook.job.log_model import Hours, LogEntry
from buildbook.job.model import Job
from buildbook.job.notes.marks import words_of_marks
from buildbook.job.notes.places import with_ids
from tests.make_shelf import searched


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("Sliding dovetails for the divisions", {"sliding-dovetail"}),
        ("the corners are dovetailed", {"dovetail"}),
        ("lapped dovetails, and through dovetails behind", {"half-blind-dovetail", "through-dovetail"}),
        ("Twin tenons; singles, tenoned, elsewhere", {"twin-tenon", "mortise-and-tenon"}),
        ("a bridle joint at each corner", {"bridle"}),
        ("open mortise and tenon", {"bridle"}),
        ("loose tenons of beech", {"loose-tenon"}),
        ("Schlitz und Zapfen", {"bridle"}),
        ("Zapfen 40 lang", {"mortise-and-tenon"}),
        ("Gratnut 14 breit", {"sliding-dovetail"}),
        ("Schwalbenschwanzzinken, vier", {"dovetail"}),
        ("halbverdeckte Zinken", {"half-blind-dovetail"}),
        ("Nut und Feder", {"tongue-and-groove"}),
        ("the tailor's drawers and a detailed sketch", set()),
        ("the lap of her skirt, a nutmeg, a Grateful letter", set()),
    ],
)
def test_a_joint_is_told_by_the_words_of_its_row(text, keys):
    assert joints_in(text) == keys


def test_where_a_joint_is_named_is_told_in_the_text():
    text = "Two sliding dovetails, then a tenon."
    assert [text[start:end] for start, end, _ in joint_spans(text)] == ["sliding dovetails", "tenon"]


def test_every_kind_is_a_kind_of_a_joint_and_no_two_are_told_alike():
    known = joints()
    assert {joint.kind_of for joint in known.values()} - {""} <= known.keys()
    told = [words for joint in known.values() for words in joint.told]
    assert len(set(told)) == len(told)
    assert not known.keys() & words_of_marks().keys() - {"joint"}


def test_the_words_by_which_they_are_asked_for_are_those_of_the_tables():
    """Else run `python -m buildbook.find.names`."""
    assert CALLED.read_text("utf-8") == called_now()


DAYS = (
    LogEntry(
        date(2026, 3, 2),
        "Carcase",
        "Sliding dovetails, 14 mm.\n\nSetting: fence 46.",
        hours=(Hours("joinery", 5),),
    ),
    LogEntry(
        date(2026, 3, 9), "Glued", "No glue in the dovetails, which slide.", hours=(Hours("assembly", 5),)
    ),
    LogEntry(date(2026, 3, 16), "Doors", "Joint: Schlitz und Zapfen, 8 dick."),
    LogEntry(
        date(2026, 3, 23), "Joints", "Told her that a joint is a bridle for the wood, and tenons are mortal."
    ),
)
JOB = Job(folder="a-job", title="Cabinet", entries=DAYS, joinery=("sliding dovetail", "bridle joint"))
ONE = searched(JOB)


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("sliding dovetail", "day-2026-03-02-p1"),
        ("Gratverbindung", "day-2026-03-02-p1"),
        ("dovetail setting", "day-2026-03-02-setting-1"),
        ("bridle joint", "day-2026-03-16-joint-1"),
        ("Schlitz und Zapfen", "day-2026-03-16-joint-1"),
        ("mortise and tenon", "day-2026-03-16-joint-1"),
        ("glue dovetails", "day-2026-03-09-p1"),
    ],
)
def test_the_day_on_which_it_was_cut_comes_before_one_that_shares_a_word(text, at):
    query = parse(text)
    assert why(ONE.passages, query, ask(build([ONE.record]), query))[0].at == at


def test_a_day_of_no_joinery_cuts_nothing():
    assert {one.day for one in told_in(with_ids(DAYS)) if one.cuts} == {"2026-03-02", "2026-03-16"}

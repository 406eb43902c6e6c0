"""What the matching piece will lack is asked, the worst first, three at a time, and no more once it is told."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from buildbook.job import read_job
from buildbook.job.lacks.matching import lacks_for_a_match
from buildbook.job.log_model import LogEntry, Mark, Picture
from buildbook.job.model import Job, Part
from buildbook.job.photo_model import Photo
from buildbook.problems import Problems
from buildbook.words.told import told
from tests.conftest import SAMPLE

HINGE = Part(2, "Door hinge", 4, "hardware", "brass butt hinge")
KNOB = Part(3, "Knob", 2, "hardware", "brass knob, turned")
SCREW = Part(4, "Screw", 32, "hardware", "steel screw")
GLUE = Part(5, "Glue", 1, "supply", "PVA wood glue")
JOINTS = ("half-blind dovetail", "sliding dovetail", "haunched mortise and tenon")
TOLD = (
    "joint: half-blind dovetail 14 long, lap 6",
    "joint: sliding dovetail 14 x 7, 1 in 8",
    "joint: tenon 30 x 8, haunch 12",
    "at: hinge 56 from ends",
    "at: Knob 212 up",
    "glue: open 10 min, 3 h in six bars",
)


def job(*marks, pictures=(), **fields):
    """A job with one dated note of these marks, each as `key: text`."""
    read = tuple(Mark(*mark.split(": ", 1)) for mark in marks)
    entry = LogEntry(date(2026, 3, 3), "Joints", "", marks=read, pictures=pictures)
    given = {"joinery": JOINTS, "parts": (HINGE, KNOB, SCREW, GLUE)} | fields
    return Job("a", entries=(entry,), **given)


def asked(job):
    return [problem.message for problem in lacks_for_a_match(job)]


def test_what_cannot_be_cut_is_asked_first_then_places_then_bars():
    joints, places, bars = asked(job())
    assert all(f"“{joint}”" in joints for joint in JOINTS)
    assert "“Door hinge” and “Knob”" in places
    assert "Screw" not in places
    assert "“PVA wood glue”" in bars


def test_no_more_than_three_at_a_time():
    file = Picture("photos/20260303_102233.jpg", "20260303_102233", for_client=False, line=3)
    assert len(asked(job(pictures=(file,)))) == 3
    (caption,) = asked(job(*TOLD, pictures=(file,)))
    assert "“20260303_102233”" in caption
    shown = replace(file, caption="Tails cut")
    assert asked(job(*TOLD, pictures=(shown,))) == []


@pytest.mark.parametrize(
    ("caption", "name", "asks"),
    [
        ("Tails cut", "photos/20260303_102233.jpg", True),
        ("In the room", "photos/IMG_0001.jpg", True),
        (
            "Back from the glazier’s, seen from the front",
            "photos/IMG_0001.jpg",
            False,
        ),  # says the word: not asked
        ("The underside, before the feet", "photos/IMG_0001.jpg", False),
        ("", "photos/back_of_carcase.jpg", False),
        ("", "photos/Rückseite/1.jpg", False),
        ("Die Rückwand, noch ohne Öl", "photos/IMG_0001.jpg", False),
        ("Backsaw and chisels", "photos/IMG_0001.jpg", True),
    ],
)
def test_a_picture_of_the_back_is_asked_for(caption, name, asks):
    photo = Photo(name, Path(name), 400, 300, None, "0" * 64, caption=caption)
    found = asked(job(*TOLD, photos=(photo,)))
    assert any("the back or the underside" in message for message in found) == asks


def test_without_pictures_none_of_the_back_is_asked_for():
    assert asked(job(*TOLD)) == []


@pytest.mark.parametrize(
    ("left_out", "word"),
    [
        (TOLD[0], "half-blind dovetail"),
        (TOLD[1], "sliding dovetail"),
        (TOLD[2], "mortise"),
        (TOLD[3], "Door hinge"),
        (TOLD[4], "Knob"),
        (TOLD[5], "PVA"),
    ],
)
def test_one_line_that_is_not_written_is_one_question(left_out, word):
    assert asked(job(*TOLD)) == []
    (question,) = asked(job(*(mark for mark in TOLD if mark != left_out)))
    assert word in question


@pytest.mark.parametrize(
    "empty", ["joint: the sliding dovetail went in tight", "at: Knob where it looked right"]
)
def test_a_line_without_a_figure_answers_nothing(empty):
    assert asked(job(*(mark for mark in TOLD if mark[:9] != empty[:9] and "sliding" not in mark), empty))


def test_a_job_that_has_no_notes_yet_is_asked_nothing():
    assert asked(replace(job(), entries=())) == []


def test_the_sample_lacks_none_of_it_and_without_its_marks_all():
    sample = read_job(SAMPLE, pictures=False)
    assert asked(sample) == []
    bare = replace(sample, entries=tuple(replace(entry, marks=()) for entry in sample.entries))
    assert len(asked(bare)) == 3


@pytest.mark.parametrize(
    ("language", "begins"),
    [
        ("en", ["Figures of these joints", "Places of these fittings", "The bars of the glue-up"]),
        ("de", ["Für diese Verbindungen", "Ohne Angabe, wo sie sitzen", "Wie viele Zwingen"]),
    ],
)
def test_it_is_shown_in_that_order_in_both_languages(language, begins):
    problems = Problems()
    problems.extend(told(problem, language) for problem in lacks_for_a_match(job()))
    shown = [problem.message for problem in problems.ordered()]
    assert [message[: len(words)] for message, words in zip(shown, begins, strict=True)] == begins

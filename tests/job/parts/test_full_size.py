"""Which marked lines are drawn in full size, and what is asked of those that do not say enough: never is one guessed."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from buildbook import limits
from buildbook.job.log_model import LogEntry, Mark
from buildbook.job.model import Job, Part
from buildbook.job.parts.full_size import shapes, unclear
from buildbook.job.photo_model import Photo
from buildbook.job.shop_model import Shop
from buildbook.quantity import Length

PAPER = Photo("photos/IMG_2041.jpg", Path("x"), 2400, 1800, None, "digest")


def part(row, name, *sides):
    named = zip(("length", "width", "thickness"), sides, strict=False)
    return Part(row, name, 1, "wood", "ash", **{key: Length(mm / 1000, str(mm)) for key, mm in named})


PARTS = (
    part(2, "Leg", 250, 45, 45),
    part(3, "Top", 1600, 450, 27),
    part(4, "Back leg", 800, 60, 40),
    part(5, "Apron"),
)


def job(*lines, units="mm"):
    marks = tuple(Mark(*line.split(": ", 1), number) for number, line in enumerate(lines, 3))
    entry = LogEntry(date(2026, 3, 18), "Legs", "", file="notes.md", marks=marks)
    return replace(Job(folder="table"), parts=PARTS, entries=(entry,), photos=(PAPER,), units=units)


DRAWN = {
    # line: name, width and height in mm, corners that must be there (mm)
    "taper: Leg 45 to 28, from 60 below the top to the foot, the two inner faces.": ("Leg", 45, 250, [(45, 60), (28, 250)]),
    "taper: Leg, 45 to 28 over the last 190, both sides": ("Leg", 45, 250, [(45, 60), (36.5, 250), (8.5, 250)]),
    "taper: Leg 45 > 28, one face": ("Leg", 45, 250, [(45, 0), (28, 250)]),
    "taper: Back leg 60 to 30, from 100 from the top to 50 above the foot, inside": ("Back leg", 60, 800, [(60, 100), (30, 750)]),
    "taper: Leg 45 auf 28, ab 60 unter dem oberen Ende bis 20 über dem Fuß, beidseitig": ("Leg", 45, 250, [(45, 60), (36.5, 230)]),
    "template: leg profile, IMG_2041.jpg, 10 mm squares, 24 across": ("leg profile", 240, 180, []),
    "template: leg profile, img_2041.JPG, squares of 10, 18 down": ("leg profile", 240, 180, []),
    "template: IMG_2041.jpg, 1/2 in squares, 24 across, 18 down": ("", 304.8, 228.6, []),
    "template: Profil, IMG_2041.jpg, Karos 5 mm, 24,5 breit": ("Profil", 122.5, 91.875, []),
    "template: apron, bow 600 long, rise 40": ("apron", 600, 40, [(0, 40), (600, 40)]),
    "template: Zarge, Bogen 600 lang, Stich 40": ("Zarge", 600, 40, [(0, 40), (600, 40)]),
    "template: back post, offsets 0 x 40, 100 x 52, 300 x 60": ("back post", 60, 300, [(40, 0), (52, 100), (60, 300), (0, 300)]),
}  # fmt: skip

NOT_DRAWN = (
    "template: on the wall behind the lathe, marked OUDE",
    "taper: two passes on the jig, 3 mm each",
    "joint: tenon 45 to 28, one face",
)

ASKED = {
    "taper: 45 to 28, one face": "names no part of parts.csv",
    "taper: Leg and Top, 45 to 28, one face": "names “Leg” and “Top”",
    "taper: Apron 45 to 28, one face": "How long “Apron” is",
    "taper: Leg 45 to 28": "on one face or on two",
    "taper: Leg 45 to 28, all four faces, the inner ones first": "on one face or on two",
    "taper: Leg 50 to 28, one face": "neither the width nor the thickness of “Leg”",
    "taper: Leg 45 to 28, from 60 below the apron, one face": "What 60 of the taper is measured from",
    "taper: Leg 45 to 28, from 300 below the top, one face": "are no taper of “Leg”",
    "taper: Leg 45 to 60, one face": "are no taper of “Leg”",
    "template: leg profile, IMG_2041.jpg, 10 mm squares": "How many squares go across",
    "template: leg profile, IMG_2041.jpg, 24 across": "How large the squares",
    "template: leg profile, IMG_2041.jpg": "How large the squares",
    "template: IMG_2041.jpg, 10 mm squares, 24 across, 24 down": "not taken square on",
    "template: IMG_9.jpg, 10 mm squares, 24 across": "not a photo of this job",
    "template: IMG_2041.jpg, 200 mm squares, 24 across": "More than 2.5 m",
    "template: apron, bow 600 long": "length and its rise",
    "template: apron, bow 600 long, rise 400": "half of its length",
    "template: post, offsets 0 x 40, 100 x 52": "three points or more",
}


@pytest.mark.parametrize("line", DRAWN)
def test_a_line_that_says_enough_is_drawn(line):
    (shape,) = shapes(job(line))
    name, width, height, corners = DRAWN[line]
    assert shape.name == name
    assert (shape.width_m * 1000, shape.height_m * 1000) == pytest.approx((width, height))
    for x, y in corners:
        assert any((a * 1000, b * 1000) == pytest.approx((x, y)) for a, b in shape.outline), (x, y)
    assert unclear(job(line)) == []


@pytest.mark.parametrize("line", NOT_DRAWN)
def test_a_line_that_only_tells_is_neither_drawn_nor_asked(line):
    assert shapes(job(line)) == ()
    assert unclear(job(line)) == []


@pytest.mark.parametrize("line", ASKED)
def test_what_is_not_plain_is_asked_and_not_guessed(line):
    assert shapes(job("setting: 3 tpi", line)) == ()
    (problem,) = unclear(job("setting: 3 tpi", line))
    assert ASKED[line] in problem.message
    assert problem.place == "notes.md, line 4"
    assert problem.hint


def test_inches_are_inches():
    (shape,) = shapes(job("taper: Back leg 60 mm to 1 1/8, from 4 below the top, one face", units="in"))
    assert (shape.outline[1], shape.outline[2]) == (
        pytest.approx((0.060, 0.1016)),
        pytest.approx((0.028575, 0.8)),
    )


def test_a_german_shop_groups_thousands_with_points():
    german = replace(job("template: Zarge, Bogen 1.200 lang, Stich 62,5"), shop=Shop(language="de"))
    (shape,) = shapes(german)
    assert (shape.width_m, shape.height_m) == pytest.approx((1.2, 0.0625))


def test_a_picture_may_stand_in_the_line():
    line = Mark("template", "leg profile, 10 mm squares, 24 across", 3, ("photos/IMG_2041.jpg",))
    entry = LogEntry(date(2026, 3, 18), "Legs", "", file="notes.md", marks=(line,))
    (shape,) = shapes(replace(job(), entries=(entry,)))
    assert shape.picture is PAPER


def test_of_very_many_the_rest_is_told():
    lines = ["taper: Leg 45 to 28, one face"] * (limits.FULL_SIZE + 2)
    assert len(shapes(job(*lines))) == limits.FULL_SIZE
    assert len(unclear(job(*lines))) == 2

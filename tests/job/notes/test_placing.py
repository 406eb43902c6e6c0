"""On which part a line sets a thing, and from where its figures count: as a maker would read it, and no further."""

from __future__ import annotations

import pytest

from buildbook.job.notes.placing import placements

DRAWN = [
    "Top",
    "Side",
    "Division",
    "Top rail",
    "Leg",
    "Door",
    "Door stile",
    "Drawer front",
    "Drawer side",
    "Back",
]
DRAWN += ["Höhenfries", "Seite", "Platte", "Tür"]
OTHERS = ["Door hinge", "Knob", "Lock", "Shelf pin", "Screw", "Schloss"]

READ = {
    "hinge on Door 56 from ends; knob 212 up": ["Door|hinge|56 ends", "Door|knob|212 bottom"],
    "Door: hinge 56 from ends, knob 212 up": ["Door|hinge|56 ends", "Door|knob|212 bottom"],
    "Door hinge 56 from ends, let in 2, pilot 2.5": ["Door|Door hinge|56 ends"],
    "Door hinge 56 from the ends of the Door stile": ["Door stile|Door hinge|56 ends"],
    "Lock 480 from the bottom (Door)": ["Door|Lock|480 bottom"],
    "knob on the Door stile 230 up, 27.5 in": ["Door stile|knob|230 bottom 27.5 in"],
    "Knob on a Drawer front in the middle, 76 up": ["Drawer front|Knob|76 bottom|middle"],
    "Knob on the Drawer front 95 up; Lock 20 down from the top in the middle": [
        "Drawer front|Knob|95 bottom", "Drawer front|Lock|20 top|middle",
    ],
    "runner on the Division 2, 155.5 and 309 up from the bottom, 20 back from the front": [
        "Division|runner|2 bottom 155.5 bottom 309 bottom 20 front",
    ],
    "slab 589 from the left end, 73 from the front edge of the Top; recess 422 x 304, 22 deep": [
        "Top|slab|589 left 73 front",
    ],
    "Rail mortise 40 up on the Leg": ["Leg|Rail mortise|40 bottom"],
    "Scharnier am Höhenfries 120 von oben und unten; Schloss 820 von unten": [
        "Höhenfries|Scharnier|120 heights", "Höhenfries|Schloss|820 bottom",
    ],
    "Knopf an der Tür 212 hoch, 30 von der Vorderkante der Tür": ["Tür|Knopf|212 bottom 30 front"],
    "Nut in der Seite 8 von der Hinterkante": ["Seite|Nut|8 back"],
    "Klammer 90 von beiden Enden, Platte": ["Platte|Klammer|90 ends"],
}  # fmt: skip
NOT_READ = [
    "hinge 56 from ends",  # on which part?
    "Leg 56.5 in from the ends of the carcase, 18 from its front and back",  # the leg is what is placed
    "Division 503 from the inside of each side, flush in front",
    "Knob 230 up on the gate",  # no such part
    "catch in the Top rail, 30 from the Division",  # counted from another part
    "Shelf pin, first hole 150 up, 50 from the front of the bay",
    "Top overhang 16.5 at the ends, 20 in front",
    "Lock 60 from the end of the Door",  # which end?
    "recess in the Top 422 x 304, 22 deep",
    "plate in the top edge of the Door, 11 from the hinge",
    "groove in the Side, stopped 10 from the front",  # how far it goes, not where it is
    "hinge flush, 2 off, on the Door",
]


def said(text: str) -> list[str]:
    return [
        "|".join(
            [one.part, one.thing, " ".join(f"{d.m * 1000:g} {d.start}" for d in one.distances)]
            + ["middle"] * one.middle
        )
        for one in placements(text, "at", "mm", DRAWN, OTHERS)
    ]


@pytest.mark.parametrize("text", READ)
def test_a_line_that_says_where_is_read(text: str) -> None:
    assert said(text) == READ[text]


@pytest.mark.parametrize("text", NOT_READ)
def test_what_does_not_say_where_is_left_to_its_words(text: str) -> None:
    assert said(text) == []


def test_a_figure_of_another_thing_is_no_place() -> None:
    assert said("Knob 25, 212 up on the Door") == ["Door|Knob|212 bottom"]
    assert said("the top edge: hinge on the Door 40 from the top") == ["Door|hinge|40 top"]


def test_parts_that_are_named_like_a_side_are_told_from_it() -> None:
    assert said("cleat on the Back 30 from the back edge") == ["Back|cleat|30 back"]
    assert said("cleat in the back, 30 from the top") == []

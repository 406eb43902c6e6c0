"""Parts with their places, read back from the picture: each dimension is as long as its figure says at the scale of the
outline, no figure or name lies over another, no line goes through one, and nothing is drawn that no line says.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.render.drawing import drawing

from . import models
from .geometry import DESCENT, LABEL, NS, Box, box, read, view_box, words
from .models import mm, part, parts_with_places, set_out_of

AT_MOST_OFF = 0.035  # coordinates to a hundredth, and figures to a tenth of a millimetre at these scales


@dataclass
class Drawn:
    """A picture taken apart, with no help of what drew it. `scale`: units a metre, from the outline's height."""

    root: object
    scale: float
    left: float
    right: float
    top: float
    low: float
    breaks: list[float]
    along: list[tuple[float, float, str]]
    across: list[tuple[float, float, str]]
    texts: list[tuple[Box, str]]
    extensions: list[Box]
    leaders: list[Box]


def taken_apart(model) -> Drawn:
    root = read(drawing(model, "it"))
    paths = [e for e in root.iter(NS + "path") if "face" in e.get("class").split()]
    faces = [box(e) for e in paths]
    tenons = [box(e) for e in root.iter(NS + "path") if "tenon" in e.get("class").split()]
    top, low = min(f.y1 for f in faces), max(f.y2 for f in faces)
    on_face = [*faces, *(t for t in tenons if t.y1 < low)]
    groups = {"of-along": [], "of-across": []}
    extensions = []
    for group in root.iter(NS + "g"):
        lines = [box(e) for e in group.findall(NS + "line")]
        figure = words(group.find(NS + "text"))
        kind = group.get("class")
        one, other = (b.x1 for b in lines[:2]) if kind == "of-along" else (b.y1 for b in lines[:2])
        groups[kind].append((*sorted((one, other)), figure))
        extensions += lines[:2]
    breaks = sorted(
        {
            round((box(e).x1 + box(e).x2) / 2, 2)
            for e in root.iter(NS + "path")
            if "break" in e.get("class").split() and box(e).y1 < low
        }
    )
    return Drawn(
        root,
        (low - top) / model.width_m,
        min(b.x1 for b in on_face),
        max(b.x2 for b in on_face),
        top,
        low,
        breaks,
        groups["of-along"],
        groups["of-across"],
        [(lettered(e), words(e)) for e in root.iter(NS + "text")],
        extensions,
        [box(e) for e in root.iter(NS + "line") if "leader" in e.get("class").split()],
    )


def lettered(element) -> Box:
    """The room of lettering; figures have nothing below their line."""
    found = box(element)
    if element.get("class") != "figure":
        return found
    if element.get("transform"):
        return Box(found.x1, found.y1, found.x2 - DESCENT * LABEL, found.y2)
    return Box(found.x1, found.y1, found.x2, found.y2 - DESCENT * LABEL)


def metres(figure: str) -> float:
    return float(figure.removeprefix("ø").replace("\u202f", "")) / 1000


@settings(deadline=None, max_examples=150)
@given(parts_with_places())
def test_every_dimension_is_as_long_as_its_figure_says(made):
    of, notes = made
    for model in set_out_of([of], *notes):
        drawn = taken_apart(model)
        off = AT_MOST_OFF + drawn.scale * 0.00006
        coarse = 0.021 / (
            drawn.low - drawn.top
        )  # how well the scale is known from coordinates to a hundredth
        for start, end, figure in drawn.along:
            if drawn.breaks and start < drawn.breaks[0] and end > drawn.breaks[-1]:
                assert end - start < metres(figure) * drawn.scale  # a piece is left out
            else:
                assert end - start == pytest.approx(
                    metres(figure) * drawn.scale, abs=off + (end - start) * coarse
                ), figure
        for start, end, figure in drawn.across:
            if start < drawn.low:  # of the face, not of the edge below it
                taper = model.taper_figures[0] == figure
                assert end - start == pytest.approx(metres(figure) * drawn.scale, abs=off + 0.8 * taper), (
                    figure
                )
        if not drawn.breaks:
            whole = drawn.right - drawn.left
            assert whole == pytest.approx(of.length.m * drawn.scale, abs=off + whole * coarse)


@settings(deadline=None, max_examples=150)
@given(parts_with_places(), st.sampled_from(["mm", "in"]))
def test_no_lettering_lies_over_another_and_no_line_goes_through_it(made, units):
    of, notes = made
    for model in set_out_of([of], *notes, units=units):
        drawn = taken_apart(model)
        page = view_box(drawn.root)
        for place, (one, said) in enumerate(drawn.texts):
            assert one.inside(page, 0.5), said
            for other, its in drawn.texts[place + 1 :]:
                assert not one.meets(other), (said, its)
            for at in (*drawn.extensions, *drawn.leaders):
                thin = Box(at.x1 - 0.05, at.y1 - 0.05, at.x2 + 0.05, at.y2 + 0.05)
                assert not thin.meets(one), (said, at)


@settings(deadline=None, max_examples=150)
@given(parts_with_places())
def test_a_place_that_is_drawn_is_where_its_line_says_and_no_other_is(made):
    of, notes = made
    for model in set_out_of([of], *notes):
        for mark in model.marks:
            label = mark.label.replace(" × ", " x ")
            told = next(text for key, text in notes if label in text and key == "at")
            plain = told.replace("6 x 6", "").replace(",", " ")
            figures = {float(word) / 1000 for word in plain.split() if word[0].isdigit()}
            for at, whole in ((mark.along_m, of.length.m), (mark.across_m, of.width.m)):
                if at is not None:
                    reach = {*figures, *(whole - one for one in figures), whole / 2}
                    assert min(abs(at - one) for one in reach) < 0.0001, told
        for line in model.lines:
            assert line.anchor.startswith("day-")


def one(of, *notes, **more):
    (found,) = set_out_of([of], *notes, **more)
    return found


def test_a_rail_with_tenons_shows_its_shoulders():
    rail = part("Long rail", (0.45, 0.055, 0.022), tenons=models.length(0.06))
    told = one(rail, ("joint", "haunched tenon 30 x 8, 35 wide, haunch 12, 11 deep, Long rail > Leg"))
    drawn = taken_apart(told)
    assert {figure for _, _, figure in drawn.along} == {"30", "390", "450"}
    tenons = [box(e) for e in drawn.root.iter(NS + "path") if "tenon" in e.get("class").split()]
    sizes = [(round(t.wide / drawn.scale * 1000), round(t.tall / drawn.scale * 1000)) for t in tenons]
    assert sorted(sizes) == [(30, 8), (30, 8), (30, 35), (30, 35)]
    haunches = [box(e) for e in drawn.root.iter(NS + "path") if "haunch" in e.get("class").split()]
    assert [(round(h.wide / drawn.scale * 1000), round(h.tall / drawn.scale * 1000)) for h in haunches] == [
        (11, 12)
    ] * 2
    assert all(h.y1 == pytest.approx(drawn.top, abs=0.02) for h in haunches)
    assert told.remark == ""
    assert "390 between shoulders" in told.described


def test_tenons_that_no_line_gives_are_drawn_alike_and_that_is_said():
    rail = part("Rail", (0.45, 0.055, 0.022), tenons=models.length(0.06))
    told = one(rail)
    assert {figure for _, _, figure in taken_apart(told).along} == {"390", "450"}
    assert "alike" in told.remark


def test_one_tenon_as_long_as_both_stands_at_one_end():
    division = part("Division", (0.47, 0.41, 0.02), tenons=models.length(0.007))
    told = one(division, ("joint", "sliding dovetail 14 x 7, 1 in 8, Division > Carcase bottom"))
    assert [tenon.length_m for tenon in told.tenons] == [0.007, 0.0]


def test_a_taper_goes_from_its_size_to_its_size_over_its_length():
    leg = part("Leg", (0.7, 0.034, 0.034))
    told = one(leg, ("taper", "Leg from 34 to 22 over 400, the two inner faces"))
    drawn = taken_apart(told)
    assert {figure for _, _, figure in drawn.along} == {"400", "700"}
    assert {"22", "34"} <= {figure for _, _, figure in drawn.across}
    narrow = next(end - start for start, end, figure in drawn.across if figure == "22")
    assert narrow == pytest.approx(0.022 * drawn.scale, abs=0.03)
    assert one(leg, ("taper", "Leg 34 to 22 over 400")).remark.startswith(
        "The line does not say on which sides"
    )


@pytest.mark.parametrize(
    "text",
    [
        "Leg from 34 to 22",
        "Leg 30 to 22 over 400",
        "Leg 34 to 40 over 400",
        "Leg 22 over 400",
        "Leg 34 to 22 over 900",
    ],
)
def test_a_taper_that_does_not_tell_enough_stays_in_words(text):
    told = one(part("Leg", (0.7, 0.034, 0.034)), ("taper", text))
    assert told.taper is None
    assert [line.drawn for line in told.lines] == [False]


def test_up_is_up_by_how_a_part_lies():
    stile = one(part("Stile", (0.8, 0.06, 0.02)), ("at", "knob on the Stile 30 up"))
    rail = one(part("Rail", (0.8, 0.06, 0.02)), ("at", "knob on the Rail 30 up"))
    assert (stile.marks[0].along_m, stile.marks[0].across_m) == (0.03, None)
    assert (rail.marks[0].along_m, rail.marks[0].across_m) == (None, 0.03)
    assert (stile.right, rail.lower) == ("top", "bottom")


def test_a_side_stands_in_a_cabinet_and_lies_in_a_box():
    side, line = part("Side", (0.3, 0.08, 0.009)), ("at", "groove in the Side 6 up")
    assert one(side, line, height=0.9).marks[0].along_m == 0.006
    assert one(side, line, height=0.1).marks[0].across_m == 0.006
    assert one(side, line, height=None).marks == ()  # nobody says which


def test_what_is_not_on_the_face_or_off_the_part_stays_in_words():
    for text in (
        "catch in the Rail 11 from the front",
        "knob on the Rail 900 from the left end",
        "knob on the Rail 30 in",
    ):
        told = one(part("Rail", (0.8, 0.07, 0.02)), ("at", text))
        assert (told.marks, told.dimensions[2:], [line.drawn for line in told.lines]) == ((), (), [False])


def test_a_long_part_is_broken_where_nothing_is():
    stretcher = part("Stretcher", (2.6, 0.035, 0.02), tenons=models.length(0.04))
    drawn = taken_apart(
        one(stretcher, ("at", "hinge on the Stretcher 100 from ends, pin 200 from the left end"))
    )
    assert len(drawn.breaks) == 2
    first, second = drawn.breaks
    for start, end, figure in drawn.along:
        assert not first < start < second, figure
        assert not first < end < second, figure
    assert drawn.low - drawn.top >= 19.9


def test_german_words_and_figures():
    (told,) = set_out_of(
        [part("Höhenfries", (1.6, 0.0705, 0.022))],
        ("at", "Scharnier am Höhenfries 120,5 von oben und unten; Schloss 820 hoch"),
        language="de",
        height=1.8,
    )
    assert {d.figure for d in told.dimensions} == {"120,5", "820", "1600", "70,5"}
    assert told.right == "oben"
    assert "Scharnier: 120,5 von oben und unten" in told.described


def test_inches_stand_as_a_shop_writes_them():
    rail = part("Rail", (0.4445, 0.0635, 0.0222), tenons=models.length(0.05715))
    told = one(rail, ("joint", "tenon 1 1/8 x 3/8, Rail > Leg"), units="in")
    assert {d.figure for d in told.dimensions} == {"17½", "15¼", "1⅛", "2½"}
    assert told.tenons[0].thickness_m == pytest.approx(0.375 * 0.0254)
    assert mm(0.0045) == "4.5"

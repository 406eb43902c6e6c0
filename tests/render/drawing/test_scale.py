"""Drawn lengths are to real ones as the scale says; what is lettered stands clear."""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.render.drawing import drawing
from buildbook.render.drawing.dial import CENTRE, RADIUS
from buildbook.render.drawing.finish_line import place_of
from buildbook.render.drawing.ranges import axis_of
from buildbook.render.drawing.year import height_of

from . import models
from .geometry import NS, box, of, read, shapes

HUNDREDTH = 0.021  # coordinates are written to a hundredth, and a length is two of them


def close(drawn, real):
    return drawn == pytest.approx(real, abs=HUNDREDTH)


# -- the front ------------------------------------------------------------------------------------


@settings(deadline=None)
@given(models.sizes)
def test_front_and_side_are_to_one_scale(size):
    wide, deep, high = size
    views = of(read(drawing(models.front(size), "it")), "rect", "visible")
    real = [(wide, high)] + ([(deep, high)] if deep else [])
    drawn = [(view.wide, view.tall) for view in views]
    pairs = [pair for two in zip(real, drawn, strict=True) for pair in zip(*two, strict=True)]
    scale = max(pairs)[1] / max(pairs)[0]
    for side_m, side in pairs:
        assert close(side, side_m * scale)


def test_the_chair_is_to_the_scale_of_the_piece():
    root = read(drawing(models.front(stands="floor"), "it"))
    piece = of(root, "rect", "visible")[0]
    chair = of(root, "path", "beside")
    seat_to_floor = chair[0].tall
    assert seat_to_floor / piece.tall == pytest.approx(0.450 / 0.780, abs=0.002)
    assert max(leg.y2 for leg in chair) - min(leg.y1 for leg in chair) == pytest.approx(
        piece.tall * 850 / 780, abs=0.05
    )


def test_what_hangs_has_no_ground_but_a_wall_behind_it():
    hung, standing = (read(drawing(models.front(stands=stands), "it")) for stands in ("wall", "floor"))
    side = of(hung, "rect", "visible")[1]
    wall = of(hung, "line", "ground")
    assert [(line.wide, line.x1) for line in wall] == [(0, side.x2)]
    assert len(of(hung, "line", "thin")) > 8  # the hatching
    assert all(line.tall == 0 for line in of(standing, "line", "ground"))
    assert len(of(standing, "line", "ground")) == 3


# -- the year -------------------------------------------------------------------------------------


@settings(deadline=None)
@given(st.floats(10, 49), st.floats(51, 90), st.floats(4, 18))
def test_the_line_of_a_year_is_as_high_as_the_part_is_wide(low, high, made):
    year = models.year(low, high, made)
    root = read(drawing(year, "it"))
    widest, narrowest = (dot.y1 + dot.tall / 2 for dot in of(root, "circle"))
    level = of(root, "line", "made")[0].y1
    drawn = dict(
        zip(
            (year.months[7].width_m, year.months[1].width_m, year.made_m),
            (widest, narrowest, level),
            strict=True,
        )
    )
    shown_m, high = max(drawn) - min(drawn), max(drawn.values()) - min(drawn.values())
    for width_m, y in drawn.items():
        assert (y - min(drawn.values())) / high == pytest.approx(
            (max(drawn) - width_m) / shown_m, abs=HUNDREDTH / high
        )


@settings(deadline=None)
@given(st.floats(10, 49), st.floats(51, 90), st.floats(4, 18), models.units)
def test_the_widths_of_a_year_stand_clear_of_each_other(low, high, made, units):
    letters = of(read(drawing(models.year(low, high, made, units=units), "it")), "text")
    assert [(a, b) for n, a in enumerate(letters) for b in letters[n + 1 :] if a.meets(b)] == []


def test_the_dots_stand_in_the_wettest_and_the_driest_month():
    north, south = (of(read(drawing(models.year(country=code), "it")), "circle") for code in ("GB", "NZ"))
    month = 340 / 12
    assert [int(dot.x1 / month) for dot in north] == [7, 1]  # August and February
    assert [int(dot.x1 / month) for dot in south] == [1, 7]


def test_a_part_that_is_as_wide_as_when_made_is_drawn_on_its_line():
    year = models.year()
    assert close(of(read(drawing(year, "it")), "line", "made")[0].y1, height_of(year, year.made_m))


# -- a finish in time -----------------------------------------------------------------------------


@settings(deadline=None)
@given(st.lists(models.coat_days, min_size=1, max_size=3))
def test_days_are_to_scale_for_all_finishes_of_a_piece(coats):
    lines = models.lines(*coats)
    starts = [(place_of(line, min(line.coats)), min(line.coats)) for line in lines]
    starts += [(place_of(line, line.hard_to), line.hard_to) for line in lines]
    day = place_of(lines[0], lines[0].first_day + timedelta(1)) - place_of(lines[0], lines[0].first_day)
    for x, when in starts:
        assert x - starts[0][0] == pytest.approx((when - starts[0][1]).days * day)


@settings(deadline=None)
@given(st.lists(models.coat_days, min_size=1, max_size=3))
def test_dates_stand_clear_of_each_other_and_of_leaders(coats):
    for line in models.lines(*coats):
        root = read(drawing(line, "it"))
        letters = of(root, "text")
        assert [(a, b) for n, a in enumerate(letters) for b in letters[n + 1 :] if a.meets(b)] == []
        assert [
            (a, b)
            for a in letters
            for b in of(root, "line", "leader")
            if a.x1 < b.x1 < a.x2 and b.y1 < a.y1 < b.y2
        ] == []


def test_each_coat_is_a_dot_on_its_day():
    days = tuple(date(2026, 3, day) for day in (2, 4, 9))
    (line,) = models.lines(days)
    dots = of(read(drawing(line, "it")), "circle", "coat")
    assert [dot.x1 + dot.wide / 2 for dot in dots] == pytest.approx(
        [place_of(line, day) for day in days], abs=0.01
    )


# -- the dial -------------------------------------------------------------------------------------


@settings(deadline=None)
@given(models.humidities)
def test_the_words_of_a_dial_stand_clear_of_its_rim_and_of_each_other(air):
    root = read(drawing(models.face(*air), "it"))
    letters = of(root, "text")
    outside = letters[-5:-1]
    assert not any(a.meets(b) for a in outside[:2] for b in outside[2:])
    for letter in outside:
        near_x = min(max(CENTRE[0], letter.x1), letter.x2)
        near_y = min(max(CENTRE[1], letter.y1), letter.y2)
        assert (near_x - CENTRE[0]) ** 2 + (near_y - CENTRE[1]) ** 2 > RADIUS**2


def test_pointers_stand_at_the_clients_air():
    pointers = of(read(drawing(models.face(25, 75), "it")), "polygon", "pointer")
    middles = [pointer.x1 + pointer.wide / 2 - CENTRE[0] for pointer in pointers]
    assert middles[0] == pytest.approx(-middles[1], abs=HUNDREDTH)
    assert middles[1] == pytest.approx((RADIUS + 4.5) * 0.7071, abs=1.5)  # 75 %: half a right angle


# -- ranges of hours ------------------------------------------------------------------------------


def hours_at(chart, x):
    """The hours that a place on the axis stands for."""
    left, right = axis_of(chart)
    share = (x - left) / (right - left)
    if chart.ratios:
        return chart.start_h * (chart.end_h / chart.start_h) ** share
    return chart.start_h + share * (chart.end_h - chart.start_h)


@settings(deadline=None)
@given(st.lists(models.range_rows, min_size=1, max_size=6))
def test_bars_are_as_long_as_the_hours(rows):
    chart = models.ranges(*((label, hours, None) for label, hours, _ in rows))
    if chart is None:
        return
    root = read(drawing(chart, "it"))
    left, right = axis_of(chart)
    step = HUNDREDTH * chart.end_h / (right - left)
    for bar, middle, row in zip(
        of(root, "polygon", "range"), of(root, "line", "middle"), chart.rows, strict=True
    ):
        drawn = [hours_at(chart, x) for x in (bar.x1, middle.x1, bar.x2)]
        assert drawn == pytest.approx([row.low_h, row.median_h, row.high_h], abs=step)


@pytest.mark.parametrize("ratios", [False, True])
def test_a_truth_is_a_dot_in_its_range_and_a_lozenge_outside(ratios):
    chart = models.ranges(
        ("held", (8, 12, 19), 15.0), ("over", (8, 12, 19), 40.0), ("under", (8, 12, 19), 3.0), ratios=ratios
    )
    root = read(drawing(chart, "it"))
    marks = of(root, "circle", "truth") + of(root, "polygon", "missed")
    assert [hours_at(chart, mark.x1 + mark.wide / 2) for mark in marks] == pytest.approx(
        [15, 40, 3], rel=0.01
    )
    assert [hours_at(chart, line.x1) for line in of(root, "line", "range")] == pytest.approx(
        [8, 8, 8], rel=0.01
    )
    held, over = of(root, "circle", "truth")[0], of(root, "polygon", "missed")[0]
    assert over.wide > held.wide
    loud = [
        e
        for e in shapes(root)
        if "figure" in e.get("class", "").split() and "quiet" not in e.get("class").split()
    ]
    assert len(loud) == 2


def test_on_an_axis_of_ratios_twice_is_as_far_everywhere():
    chart = models.ranges(("a", (10, 20, 40), None), ("b", (100, 200, 400), None), ratios=True)
    bars = of(read(drawing(chart, "it")), "polygon", "range")
    assert close(bars[0].wide, bars[1].wide)


@settings(deadline=None)
@given(st.lists(models.range_rows, min_size=1, max_size=6), st.booleans())
def test_the_lettering_of_ranges_stands_clear(rows, ratios):
    chart = models.ranges(*rows, ratios=ratios)
    if chart is None:
        return
    root = read(drawing(chart, "it"))
    letters = of(root, "text")
    assert [(a, b) for n, a in enumerate(letters) for b in letters[n + 1 :] if a.meets(b)] == []
    left, right = axis_of(chart)
    names = [box(e) for e in shapes(root) if "name" in e.get("class", "").split()]
    figures = [box(e) for e in shapes(root) if "figure" in e.get("class", "").split()]
    assert all(name.x2 < left for name in names)
    assert all(figure.x1 > right for figure in figures)


# -- the cut list ---------------------------------------------------------------------------------


@settings(deadline=None)
@given(st.lists(models.part_sizes, min_size=1, max_size=5))
def test_all_parts_and_the_bar_are_to_one_scale(sizes):
    outlines, bar = models.sheet(*(models.part(size=size) for size in sizes))
    scale = 288 / max(max(length, width / 0.75) for length, width, _ in sizes)
    for outline, (length, width, thickness) in zip(outlines, sizes, strict=True):
        faces = of(read(drawing(outline, "it")), "rect")
        assert close(faces[0].wide, max(length * scale, 0.8))
        assert close(faces[0].tall, max(width * scale, 0.8))
        assert len(faces) == (2 if thickness else 1)
        if thickness:
            assert close(faces[1].tall, max(thickness * scale, 0.8))
    assert close(of(read(drawing(bar, "it")), "line", "visible")[0].wide, bar.length_m * scale)


def test_the_arrow_of_the_grain_runs_along_the_length_and_glass_has_none():
    outlines, _ = models.sheet(models.part(), models.part("Pane", kind="glass", key="float"))
    wood, glass = (read(drawing(outline, "it")) for outline in outlines)
    assert of(wood, "line", "grain")[0].tall == 0
    assert of(glass, "line", "grain") == []


def test_lines_of_technical_drawing_keep_their_weight_at_any_scale():
    root = read(drawing(models.front(), "it"))
    strokes = [e for e in shapes(root) if e.tag in (NS + "line", NS + "rect")]
    assert {e.get("vector-effect") for e in strokes} == {"non-scaling-stroke"}
    assert all(box(e) for e in strokes)

"""What holds for every drawing: nothing outside, a text alternative, escaped text, two widths of line."""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.render.drawing import drawing

from . import models
from .geometry import NS, box, lettering, read, shapes, view_box, words

HOSTILE = 'Top <b>&amp; "Side"</b>'
LINE_WIDTH = 1.0  # half of the widest line, rounded up


def everything():
    outlines, bar = models.sheet(models.part(HOSTILE), models.part("Back", kind="panel", key="birch-ply"))
    return {
        "year": models.year(name=HOSTILE),
        "dial": models.face(),
        "finish": models.lines((date(2026, 3, 1), date(2026, 3, 3)))[0],
        "front": models.front(stands="floor"),
        "part": outlines[0],
        "bar": bar,
        "ranges": models.ranges((HOSTILE, (2, 4, 9), None), ("fitting", (1, 2, 3), 5.0), title=HOSTILE),
        "bars": models.bars((HOSTILE, (1, None, 0)), ("iroko", (0.25, 3, 2)), title=HOSTILE),
    }


def assert_inside(svg):
    root = read(svg)
    page = view_box(root)
    assert [words(e) or e.attrib for e in shapes(root) if not box(e).inside(page, LINE_WIDTH)] == []


@settings(deadline=None)
@given(models.sizes, models.stands, models.units)
def test_a_front_stays_in_its_frame(size, stands, units):
    assert_inside(drawing(models.front(size, stands=stands, units=units), "front"))


@settings(deadline=None)
@given(st.floats(5, 49), st.floats(51, 95), st.floats(4, 18), models.units)
def test_a_year_stays_in_its_frame(low, high, made, units):
    assert_inside(drawing(models.year(low, high, made, units=units), "year"))


@settings(deadline=None)
@given(models.humidities)
def test_a_dial_stays_in_its_frame(air):
    assert_inside(drawing(models.face(*air), "dial"))


@settings(deadline=None)
@given(st.lists(models.coat_days, min_size=1, max_size=3))
def test_a_finish_stays_in_its_frame(coats):
    for line in models.lines(*coats):
        assert_inside(drawing(line, "line"))


@settings(deadline=None)
@given(st.lists(models.part_sizes, min_size=1, max_size=4), models.units)
def test_parts_stay_in_their_frames(sizes, units):
    outlines, bar = models.sheet(*(models.part(size=size) for size in sizes), units=units)
    for model in (*outlines, bar):
        assert_inside(drawing(model, "part"))


@settings(deadline=None)
@given(st.lists(models.range_rows, min_size=1, max_size=6), st.booleans())
def test_ranges_stay_in_their_frame(rows, ratios):
    if (chart := models.ranges(*rows, ratios=ratios)) is not None:
        assert_inside(drawing(chart, "ranges"))


@pytest.mark.parametrize("name", everything())
def test_every_drawing_has_a_title_and_a_description_by_its_name(name):
    model = everything()[name]
    root = read(drawing(model, "some-name"))
    title, described = root.find(NS + "title"), root.find(NS + "desc")
    assert root.get("role") == "img"
    assert (
        root.get("aria-labelledby")
        == f"{title.get('id')} {described.get('id')}"
        == "some-name-title some-name-desc"
    )
    assert len(words(title)) > 2
    assert len(words(described)) > 2
    assert words(title) != words(described)


@settings(deadline=None)
@given(models.bar_rows, st.integers(1, 40), st.booleans())
def test_bars_stay_in_their_frame(rows, years, to_top):
    rows = [(label, (values * years)[:years]) for label, values in rows]
    assert_inside(drawing(models.bars(*rows, to_top="100 %" if to_top else ""), "bars"))


@pytest.mark.parametrize("name", ["year", "part", "ranges", "bars"])
def test_text_is_escaped(name):
    root = read(drawing(everything()[name], "it"))
    assert HOSTILE in words(root.find(NS + "title"))
    assert root.find(f".//{NS}b") is None


def test_a_drawing_brings_no_colour_of_its_own_and_no_script():
    for model in everything().values():
        svg = drawing(model, "it")
        colours = {e.get(key) for e in read(svg).iter() for key in ("fill", "stroke")}
        assert colours <= {None, "none", "currentColor"}
        assert "style=" not in svg
        assert "<script" not in svg


def test_outlines_are_twice_as_heavy_as_dimensions():
    """ISO 128-2: wide and narrow lines are as 2 to 1."""
    weights = {
        e.get("class").split()[0]: float(e.get("stroke-width"))
        for e in shapes(read(drawing(models.front(), "it")))
        if e.get("stroke-width")
    }
    assert weights["visible"] == 2 * weights["dimension"]


def test_lettering_is_that_of_the_models():
    """Numbers are worded by the shop's style, not by a drawing."""
    front = models.front((1.5906, 0.47, 0.8446), units="in", stands="floor")
    assert lettering(read(drawing(front, "it")))[:3] == ["62⅝", "33¼", "from the front"]
    year = models.year(units="in")
    assert {year.months[1].width, year.months[7].width, year.made} <= set(
        lettering(read(drawing(year, "it")))
    )


def test_what_has_no_drawing_is_refused():
    with pytest.raises(TypeError, match="date has no drawing"):
        drawing(date(2026, 1, 1), "it")

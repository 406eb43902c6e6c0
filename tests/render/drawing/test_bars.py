"""Bars by year: as high as their figures, each where its year is, lettered where there is room."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.render.drawing import drawing
from buildbook.render.drawing.bars import FULL, MOST, name_lines
from buildbook.render.drawing.svg import text_width

from . import models
from .geometry import lettering, of, read


def drawn(*rows, **more):
    return read(drawing(models.bars(*rows, **more), "it"))


@settings(deadline=None)
@given(st.lists(st.integers(1, 500), min_size=1, max_size=16), st.lists(st.integers(1, 500), min_size=16))
def test_heights_are_as_the_figures_over_all_strips(one, other):
    other = other[: len(one)]
    bars = of(drawn(("one", one), ("other", other)), "polygon", "bar")
    highest = max(one + other)
    for bar, value in zip(bars, one + other, strict=True):
        assert bar.tall == pytest.approx(FULL * value / highest, abs=0.02)


def test_a_year_without_a_figure_has_no_bar_and_no_word_and_nothing_is_lettered_nought():
    root = drawn(("one", (3, None, 0, 2)))
    assert len(of(root, "polygon", "bar")) == 2
    assert lettering(root) == ["one", "3", "0", "2", "2004", "2003", "2002", "2001", "m³"]


def test_years_stand_from_left_to_right_each_under_its_bar():
    root = drawn(("one", (3, 4, 5)))
    bars = of(root, "polygon", "bar")
    years = of(root, "text", "quiet")[:3][::-1]
    for bar, year in zip(bars, years, strict=True):
        assert (bar.x1 + bar.x2) / 2 == pytest.approx((year.x1 + year.x2) / 2, abs=0.02)
    assert [bar.x1 for bar in bars] == sorted(bar.x1 for bar in bars)


@pytest.mark.parametrize("years", [1, 6, 16, 30, 60])
def test_lettering_never_meets_other_lettering(years):
    values = [(n * 7919 % 1000) + 0.5 for n in range(years)]
    root = drawn(("European walnut (the dark one)", values), ("iroko", values[::-1]), to_top="100 %")
    boxes = of(root, "text")
    for place, one in enumerate(boxes):
        assert not any(one.meets(other) for other in boxes[place + 1 :])


def test_many_years_are_lettered_at_the_highest_bar_and_stay_on_a_sheet():
    values = [n % 10 + 100 for n in range(50)]
    root = drawn(("one", values))
    figures = [words for words in lettering(root) if words.isdigit() and len(words) == 3]
    assert set(figures) == {"109"}
    assert float(root.get("viewBox").split()[2]) < MOST + 200


def test_the_full_height_is_lettered_where_it_means_something():
    root = drawn(("one", (0.5,)), to_top="100 %")
    assert "100 %" in lettering(root)
    (bar,) = of(root, "polygon", "bar")
    (full,) = of(root, "line", "grid")
    assert bar.y2 - full.y1 == pytest.approx(2 * bar.tall, abs=0.05)


@given(st.text(st.characters(exclude_categories=["C"]), min_size=1, max_size=80))
def test_a_name_takes_two_lines_at_most(name):
    lines = name_lines(name)
    assert 1 <= len(lines) <= 2
    assert all(text_width(line) <= 116 for line in lines)
    assert name_lines("Sycamore (European maple)") == ["Sycamore", "(European maple)"]

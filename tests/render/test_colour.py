"""Contrast is WCAG's, and every wood of the table becomes a legible accent by day and by night."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.render.colour import LINE_CONTRAST, TEXT_CONTRAST, accent, contrast, luminance
from buildbook.render.html.theme import load_theme, theme_names
from buildbook.trade import tables

COLOURS = st.integers(0, 0xFFFFFF).map(lambda n: f"#{n:06x}")


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        # WCAG 2.2: black on white is 21:1 by definition
        ("#000000", "#ffffff", 21.0),
        # #767676 on white, 4.54:1, is the usual example of a grey that just passes (W3C, Understanding SC 1.4.3; recalled)
        ("#767676", "#ffffff", 4.54),
        ("#ff0000", "#ffffff", 4.0),  # pure red on white: recalled as 3.998
    ],
)
def test_contrast_is_that_of_wcag(one, other, ratio):
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)
    assert contrast(other, one) == contrast(one, other)


def test_luminance_runs_from_black_to_white():
    assert luminance("#000000") == 0
    assert luminance("#ffffff") == pytest.approx(1)


@pytest.mark.parametrize("name", theme_names())
def test_every_wood_is_legible_on_the_paper_of_every_theme(name):
    for ground in load_theme(name).paper:
        for wood in tables.species():
            for colour in (wood.fresh_hex, wood.aged_hex):
                made = accent(colour, ground)
                assert contrast(made.text, ground) >= TEXT_CONTRAST, (wood.key, ground)
                assert contrast(made.line, ground) >= LINE_CONTRAST, (wood.key, ground)


@given(COLOURS, st.sampled_from(["#faf7f1", "#1d1915", "#ffffff", "#000000"]))
def test_any_colour_becomes_legible(colour, ground):
    assert contrast(accent(colour, ground).text, ground) >= TEXT_CONTRAST

"""Sizes as makers type them on the command line."""

from contextlib import suppress

import pytest

from buildbook.job.adds_model import PartSize
from buildbook.quantity import QuantityError
from buildbook.resized.wanted import read_sizes

W, D, H = (PartSize("", side) for side in ("width", "depth", "height"))


@pytest.mark.parametrize(
    ("texts", "units", "read"),
    [
        (["width 1800"], "mm", {W: 1.8}),
        (["width 72in, depth 450"], "mm", {W: 72 * 0.0254, D: 0.45}),
        (["width=1800"], "mm", {W: 1.8}),
        (["width 1800", "height 2000"], "mm", {W: 1.8, H: 2.0}),
        (["Breite 1800"], "mm", {W: 1.8}),
        (["Breite 1800,5, Tiefe 450"], "mm", {W: 1.8005, D: 0.45}),
        (["Breite: 1800,5; Höhe = 72,5 cm"], "mm", {W: 1.8005, H: 0.725}),
        (["width 72 1/2, depth 15 ½"], "in", {W: 72.5 * 0.0254, D: 15.5 * 0.0254}),
        (["width 6' 2 1/2\""], "in", {W: 74.5 * 0.0254}),
        (["OVERALL WIDTH 1.8 m"], "mm", {W: 1.8}),
        (["width 1700", "width 1800"], "mm", {W: 1.8}),
        (["width 1800, Drawer front length 478"], "mm", {W: 1.8, PartSize("Drawer front", "length"): 0.478}),
        (["width 1590, Back, upper width 1513"], "mm", {W: 1.59, PartSize("Back, upper", "width"): 1.513}),
        (["Shelf 2 length 800"], "mm", {PartSize("Shelf 2", "length"): 0.8}),
        (["Door rail between shoulders 490"], "mm", {PartSize("Door rail", "between shoulders"): 0.49}),
        (["Längszarge Länge 2040"], "mm", {PartSize("Längszarge", "length"): 2.04}),
    ],
)
def test_sizes_are_read(texts, units, read):
    found = read_sizes(texts, units)
    assert found.keys() == read.keys()
    assert all(found[size] == pytest.approx(m) for size, m in read.items())


@pytest.mark.parametrize(
    "text", ["", "wide", "1800", "length 1800", "width", "width 18 ell", "width -5", "width 3/4x", "big 1800"]
)
def test_what_is_no_size_is_told(text):
    with pytest.raises(QuantityError) as told:
        read_sizes([text], "mm")
    assert told.value.message
    assert told.value.hint


@pytest.mark.parametrize("text", ["=", ",,,", "width 1,2,3", "width ½½", ";;", "width 1e9", "\0", "x" * 5000])
def test_nothing_that_is_typed_ends_in_a_traceback(text):
    with suppress(QuantityError):
        read_sizes([text], "mm")

"""Figures of marked lines, as they are written at a bench. Common practice, no source; inches are exact by definition."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job.notes.measures import LENGTHS, NoteFigure, joined, measures, parts_named

IN = 0.0254


def _said(
    text: str, mark: str, unit: str = "mm", comma: bool = False
) -> list[tuple[str, str, tuple[float, ...]]]:
    return [
        (one.kind, one.name, tuple(round(value, 7) for value in one.values))
        for one in measures(text, mark, unit, decimal_comma=comma)
    ]


@pytest.mark.parametrize(
    ("mark", "text", "come_to"),
    [
        ("joint", "tenon 34 x 8, haunch 12, Division > Bottom",
         [("length", "tenon", (0.034, 0.008)), ("length", "haunch", (0.012,))]),
        ("joint", "4 tails, slope 1:7, lap 5",
         [("count", "", (4,)), ("slope", "slope", (1, 7)), ("length", "lap", (0.005,))]),
        ("joint", "3 dowels 8 x 40, 12 off the end",
         [("count", "", (3,)), ("length", "", (0.008, 0.04)), ("length", "", (0.012,))]),
        ("at", "hinge 56 from ends; knob 212 up, 30 in",
         [("length", "hinge", (0.056,)), ("length", "knob", (0.212,)), ("length", "", (0.03,))]),
        ("gap", "door 1.5; drawer 1 side, 2 top",
         [("length", "door", (0.0015,)), ("length", "drawer", (0.001,)), ("length", "", (0.002,))]),
        ("taper", "45 to 28 over 200; 2.5°",
         [("length", "", (0.045,)), ("length", "to", (0.028,)), ("length", "over", (0.2,)), ("angle", "", (2.5,))]),
        ("edge", "round R3, chamfer 2 x 45°",
         [("radius", "round", (0.003,)), ("length", "chamfer", (0.002,)), ("angle", "", (45,))]),
        ("glue", "hide glue, open 10 min, 12 h, six bars; order: bottom, sides",
         [("time", "open", (10,)), ("time", "", (12,)), ("count", "", (6,))]),
        ("board", "3 and 5, the top", [("number", "", (3,)), ("number", "and", (5,))]),
        ("board", "No. 4, 2.1 m x 240 mm came out", [("number", "", (4,)), ("length", "", (2.1, 0.24))]),
        ("jig", "shelf pins, first 96, pitch 32, hangs on nail 3",
         [("length", "first", (0.096,)), ("length", "pitch", (0.032,)), ("number", "hangs on nail", (3,))]),
        ("changed", "came 12.5 not 12", [("length", "came", (0.0125,)), ("length", "not", (0.012,))]),
        ("setting", "gauge at 12.2, slope 1 in 7", [("length", "gauge at", (0.0122,)), ("slope", "slope", (1, 7))]),
        ("setting", "mortiser 9 mm, 27 deep", [("length", "mortiser", (0.009,)), ("length", "", (0.027,))]),
        ("setting", "3 tpi blade, 16 °C, 50 %, 180 grit, P240, 3000 rpm, speed 4",
         [("teeth", "", (3,)), ("temperature", "", (16,)), ("percent", "", (50,)), ("grit", "", (180,)),
          ("grit", "", (240,)), ("speed", "", (3000,)), ("number", "speed", (4,))]),
        ("setting", "curve of 1,200 radius, drill Ø5, 26 m² to the litre",
         [("length", "curve of", (1.2,)), ("round", "drill", (0.005,)), ("volume", "", (26,))]),
        ("at", "M8 bolt 40 from the end, on 2026-03-02, the 11th", [("length", "M8 bolt", (0.04,))]),
    ],
)  # fmt: skip
def test_millimetres(mark: str, text: str, come_to: list[object]) -> None:
    assert _said(text, mark) == come_to


@pytest.mark.parametrize(
    ("mark", "text", "come_to"),
    [
        ("joint", "tenon 1 1/4 x 3/8, haunch 1/2, 11°",
         [("length", "tenon", (1.25 * IN, 0.375 * IN)), ("length", "haunch", (0.5 * IN,)), ("angle", "", (11,))]),
        ("at", "hinge 2 1/4 from ends, 5 in up, 7' 3 1/2\" high",
         [("length", "hinge", (2.25 * IN,)), ("length", "", (5 * IN,)), ("length", "", (87.5 * IN,))]),
        ("joint", "dado ¾\" wide, ⅜ deep, 1 in 8", [("length", "dado", (0.75 * IN,)), ("length", "", (0.375 * IN,)), ("slope", "", (1, 8))]),
        ("gap", "door 1/16, reveal 19 mm", [("length", "door", (IN / 16,)), ("length", "reveal", (0.019,))]),
        ("setting", "3/4 in cutter, 1-1/4 in deep", [("length", "", (0.75 * IN,)), ("length", "", (1.25 * IN,))]),
    ],
)  # fmt: skip
def test_inches(mark: str, text: str, come_to: list[tuple[str, str, tuple[float, ...]]]) -> None:
    wanted = [
        (kind, name, tuple(round(float(value), 7) for value in values)) for kind, name, values in come_to
    ]
    assert _said(text, mark, "in") == wanted


@pytest.mark.parametrize(
    ("mark", "text", "come_to"),
    [
        ("joint", "Zapfen 34 x 8, Nut 12,5 tief, 1:7, 4 Schwalben",
         [("length", "Zapfen", (0.034, 0.008)), ("length", "Nut", (0.0125,)), ("slope", "", (1, 7)), ("count", "", (4,))]),
        ("at", "Band 56 von den Enden; Knopf Ø22, 1.212 hoch",
         [("length", "Band", (0.056,)), ("round", "Knopf", (0.022,)), ("length", "", (1.212,))]),
        ("glue", "Knochenleim, offen 10 Minuten, sechs Zwingen, zwölf Stunden",
         [("time", "offen", (10,)), ("count", "", (6,)), ("time", "", (12,))]),
        ("setting", "Streichmaß auf 12,2, Körnung 180, 45 Grad",
         [("length", "Streichmaß auf", (0.0122,)), ("grit", "", (180,)), ("angle", "", (45,))]),
    ],
)  # fmt: skip
def test_german(mark: str, text: str, come_to: list[object]) -> None:
    assert _said(text, mark, comma=True) == come_to


def test_an_angle_is_no_fraction() -> None:
    (only,) = measures("rake 11°", "setting", "in")
    assert (only.kind, only.values, only.words) == ("angle", (11.0,), "11°")


def test_parts_are_named_by_their_whole_name() -> None:
    names = ["Door", "Door stile", "Door rail", "Division", "Bottom"]
    assert parts_named("tenon on door stiles and the Door rail", names) == ("Door stile", "Door rail")
    assert parts_named("the doors hang free", names) == ("Door",)
    assert parts_named("indoors", names) == ()
    assert joined("tenon 34 x 8, haunch 12, Division > bottom", names) == ("Division", "Bottom")
    assert joined("Leg -> stand rail, 30 deep", names) == ("Leg", "stand rail")
    assert joined("tenon 34 x 8", names) is None
    assert joined("> ", names) is None


@given(
    st.text(alphabet=st.sampled_from("0123456789 .,/½x×°'\"mcinRøgh:;>-–%tenon\n"), max_size=60),
    st.sampled_from(["joint", "at", "setting", "board"]),
    st.sampled_from(["mm", "in"]),
    st.booleans(),
)
def test_any_text_is_read(text: str, mark: str, unit: str, comma: bool) -> None:
    """No text raises; figures stand in the text in their order, do not overlap, and hold what is written there."""
    found: tuple[NoteFigure, ...] = measures(text, mark, unit, decimal_comma=comma)
    ends = 0
    for one in found:
        assert ends <= one.start < one.end <= len(text)
        assert one.words == text[one.start : one.end].strip()
        assert one.values
        assert all(value >= 0 for value in one.values)
        assert (one.kind in LENGTHS) == one.is_length
        ends = one.end

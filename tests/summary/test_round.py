"""Round stock: round in what is in the piece, square in what is bought. Figures worked by hand from plain geometry."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job.model import Finish, Job, Part
from buildbook.job.table.parts import read_parts
from buildbook.problems import Problems
from buildbook.summary import summarise
from buildbook.summary.finish import area_m2

SIDES = {"length": "1000", "width": "22", "thickness": "22"}


def parts_of(units="mm", separator=",", **cells):
    """The parts of a table of one row of oak, and what was told of it."""
    row = {"part": "Spindle", "material": "European oak"} | cells
    problems = Problems()
    lines = (
        separator.join(row),
        separator.join('"{}"'.format(cell.replace('"', '""')) for cell in row.values()),
    )
    return read_parts("\n".join(lines).encode(), units, problems), [
        f"{p.field}: {p.message}" for p in problems
    ]


def summed(*parts, **of_job):
    return summarise(Job("a-job", parts=parts, **of_job))


# -- what makers write ---------------------------------------------------------------------------

ROD_22 = [
    {"length": "1000", "width": "dia 22", "thickness": ""},
    {"length": "1000", "width": "ø22", "thickness": ""},
    {"length": "1000", "width": "Ø 22 mm", "thickness": "Ø 22 mm"},
    {"length": "1000", "width": "22 dia", "thickness": "22"},
    {"length": "1000", "width": "22 mm dia.", "thickness": "22"},
    {"length": "1000", "width": "", "thickness": "diam. 22"},
    {"length": "1000", "width": "22", "thickness": "⌀22"},
    {"length": "1000", "width": "Durchm. 22", "thickness": ""},
    {"length": "1000", "width": "Durchmesser 22 mm", "thickness": ""},
    {"length": "1000", "width": "2.2 cm Ø", "thickness": ""},
    {"length": "1000", "dia": "22"},
    {"length": "1000", "Ø": "22 mm"},
    {"length": "1000", "Durchmesser (cm)": "2.2"},
    {"length": "1000", "width": "22", "thickness": "22", "diameter": "22"},
    {"length": "1000", "width": "", "thickness": "", "Durchm.": "ø 22"},
]


@pytest.mark.parametrize("cells", ROD_22, ids=str)
def test_a_rod_however_it_is_written(cells):
    (part,), told = parts_of(**cells)
    assert told == []
    assert (part.round, part.width.m, part.thickness.m, part.length.m) == ("rod", 0.022, 0.022, 1.0)


@pytest.mark.parametrize(
    "cells",
    [
        {"length": "Ø 300", "width": "", "thickness": "80"},
        {"length": "", "width": "dia 300", "thickness": "80"},
        {"length": "300", "width": "ø300", "thickness": "80"},
        {"length": "", "width": "", "thickness": "80", "dia": "300"},
        {"thickness": "80", "dia": "300"},
    ],
    ids=str,
)
def test_a_disc_however_it_is_written(cells):
    """A bowl's blank, a round top: a diameter, and a thickness across it."""
    (part,), told = parts_of(**cells)
    assert told == []
    assert (part.round, part.length.m, part.width.m, part.thickness.m) == ("disc", 0.3, 0.3, 0.08)


def test_a_diameter_in_inches():
    (part,), told = parts_of("in", length="36", width='dia 7/8"', thickness="")
    assert (part.round, told) == ("rod", [])
    assert part.width.m == pytest.approx(0.022225)


@pytest.mark.parametrize(
    ("cells", "field", "said"),
    [
        ({"length": "900", "width": "ø22", "thickness": "30"}, "width", "30"),
        ({"length": "900", "width": "ø22", "thickness": "ø30"}, "thickness", "22"),
        ({"length": "900", "width": "ø22", "thickness": "", "dia": "23"}, "dia", "22"),
        ({"length": "", "width": "900", "thickness": "", "dia": "22"}, "dia", "900"),
        ({"length": "900", "width": "ø", "thickness": "22"}, "width", "ø"),
        ({"length": "", "width": "ø22", "thickness": ""}, "length", "no length"),
    ],
    ids=str,
)
def test_what_cannot_be_round_is_asked_about(cells, field, said):
    _, told = parts_of(**cells)
    assert any(line.startswith(f"{field}:") and said in line for line in told), told


def test_what_is_not_marked_is_square():
    (part,), told = parts_of(**SIDES)
    assert (part.round, told) == ("", [])


# -- what is in the piece ------------------------------------------------------------------------


def test_a_spindle_by_hand():
    """22 mm over a metre: V = pi/4 x 0.022^2 x 1 = 380.13 cm3; A = pi x 0.022 x 1 + 2 x 3.8013 cm2 = 0.069875 m2.

    Square it would be 484 cm3. Bought it is square: (1000 + 25) x (22 + 6) x 27 mm.
    """
    rod, square = (parts_of(**cells)[0][0] for cells in ({**SIDES, "width": "ø22", "thickness": ""}, SIDES))
    one, other = summed(rod), summed(square)
    assert one.timber.net_m3 == pytest.approx(380.1327e-6, rel=1e-6)
    assert other.timber.net_m3 == pytest.approx(484e-6, rel=1e-9)
    assert one.mass.total_kg == pytest.approx(other.mass.total_kg * 0.7853982, rel=1e-6)
    assert one.carbon.stored_kg_co2 == pytest.approx(other.carbon.stored_kg_co2 * 0.7853982, rel=1e-6)
    assert area_m2([rod]) == pytest.approx(0.0698753, rel=1e-5)
    assert (one.timber.rough_m3, one.timber.buy_bf) == (other.timber.rough_m3, other.timber.buy_bf)


def test_a_bowl_by_hand():
    """300 mm across and 80 mm high: V = pi/4 x 0.3^2 x 0.08 = 5654.87 cm3; faces 2 x 0.0706858 m2, rim 0.0753982 m2."""
    (bowl,), _ = parts_of(length="", width="ø300", thickness="80")
    found = summed(bowl)
    assert found.timber.species[0].net_m3 == pytest.approx(5654.867e-6, rel=1e-6)
    assert area_m2([bowl]) == pytest.approx(0.2167699, rel=1e-6)
    assert found.timber.rough_m3 > 0.3 * 0.3 * 0.08
    assert any("round" in said for said in found.mass.assumed)


@pytest.mark.parametrize(
    ("faces", "disc", "rod"),
    [
        ("faces", 2 * math.pi * 0.15**2, math.pi * 0.022),
        ("one face", math.pi * 0.15**2, math.pi * 0.022 / 2),
        ("edges", math.pi * 0.3 * 0.08, 2 * math.pi * 0.011**2),
        ("none", 0, 0),
    ],
)
def test_faces_of_what_is_round(faces, disc, rod):
    (bowl,), _ = parts_of(length="", width="ø300", thickness="80", faces=faces)
    (spindle,), _ = parts_of(length="1000", width="ø22", thickness="", faces=faces)
    assert area_m2([bowl]) == pytest.approx(disc)
    assert area_m2([spindle]) == pytest.approx(rod)


def test_a_round_pane_weighs_round_and_is_bought_square():
    """A disc of 6 mm glass, 800 across: 0.502655 m2 x 15 kg/m2 = 7.5398 kg; cut out of 0.64 m2."""
    (pane,), told = parts_of(
        kind="glass",
        material="toughened glass",
        length="ø800",
        width="",
        thickness="6",
        price="100",
        per="m2",
    )
    assert told == []
    found = summed(pane)
    assert found.glass.kg == pytest.approx(7.5398, rel=1e-4)
    assert found.mass.glass_kg == pytest.approx(found.glass.kg)
    assert float(found.cost.materials.amount) == 64


SIZE = st.integers(5, 400)


@given(across=SIZE, along=st.integers(10, 3000), kind=st.sampled_from(["rod", "disc"]))
def test_a_round_part_never_weighs_more_than_its_square_and_never_more_is_in_it_than_is_bought(
    across, along, kind
):
    round_cells = (
        {"length": str(along), "width": f"ø{across}", "thickness": ""}
        if kind == "rod"
        else {"length": f"ø{along}", "width": "", "thickness": str(across)}
    )
    square_cells = (
        {"length": str(along), "width": str(across), "thickness": str(across)}
        if kind == "rod"
        else {"length": str(along), "width": str(along), "thickness": str(across)}
    )
    (one,), _ = parts_of(**round_cells, finish="a")
    (square,), _ = parts_of(**square_cells, finish="a")
    oil = {"finishes": (Finish("a", "hardwax-oil"),)}
    a, b = summed(one, **oil), summed(square, **oil)
    assert a.mass.total_kg < b.mass.total_kg
    assert a.finish[0].area_m2 < b.finish[0].area_m2
    assert a.timber.net_m3 < a.timber.rough_m3 <= a.timber.buy_m3
    assert (a.timber.rough_m3, a.timber.buy_bf) == (b.timber.rough_m3, b.timber.buy_bf)


def test_the_cut_list_says_the_diameter():
    from buildbook.pages.drawn.outlines import outlines
    from buildbook.pages.phrases import Phrases
    from buildbook.quantity import Style
    from buildbook.words import Words

    (rod,), _ = parts_of(length="1000", width="ø22", thickness="")
    (bowl,), _ = parts_of(length="", width="ø300", thickness="80")
    (group,) = outlines(Job("a-job", parts=(rod, bowl)), Phrases(Words("en"), Style()))
    assert [part.size.replace("\u202f", " ") for part in group.parts] == ["ø 22 × 1000 mm", "ø 300 × 80 mm"]
    assert isinstance(rod, Part)

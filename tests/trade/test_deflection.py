"""Deflection of boards, against what is integrated step by step from the bending moment, and against tables of beams."""

import itertools

import pytest

from buildbook.trade import deflection, tables

STEPS = 4000


def integrated(load_n, span, stiffness, load, ends):
    """The sag in the middle by integrating M / EI twice: nothing here knows the coefficients that are tested."""
    step = span / STEPS
    at = [n * step for n in range(STEPS + 1)]
    if load == "even":
        moment = [load_n / span * x * (span - x) / 2 for x in at]
    else:
        moment = [load_n / 2 * min(x, span - x) for x in at]
    if (
        ends == "fixed"
    ):  # the moment at the ends holds the slope there at none: its mean over the span is none
        mean = sum((a + b) / 2 for a, b in itertools.pairwise(moment)) / STEPS
        moment = [one - mean for one in moment]
    slope, sink = [0.0], [0.0]
    for a, b in itertools.pairwise(moment):
        slope.append(slope[-1] + (a + b) / 2 * step / stiffness)
    for a, b in itertools.pairwise(slope):
        sink.append(sink[-1] + (a + b) / 2 * step)
    tilt = sink[-1] / span  # both ends at one height
    return abs(sink[STEPS // 2] - tilt * span / 2)


@pytest.mark.parametrize("ends", ["free", "fixed"])
@pytest.mark.parametrize("load", ["even", "middle"])
def test_against_the_bending_moment(load, ends):
    modulus, moment = 10.3e9, deflection.second_moment_m4(0.25, 0.02)
    found = deflection.deflection_m(340.0, 0.9, modulus, moment, load=load, ends=ends)
    assert found == pytest.approx(integrated(340.0, 0.9, modulus * moment, load, ends), rel=1e-5)


PUBLISHED = [
    # AISC Manual, Table 3-23, cases 1, 7, 15 and 16: the divisors of w l^4 and P l^3
    ("even", "free", 384 / 5), ("middle", "free", 48), ("even", "fixed", 384), ("middle", "fixed", 192),
]  # fmt: skip


@pytest.mark.parametrize(("load", "ends", "divisor"), PUBLISHED)
def test_the_divisors_of_the_steel_manual(load, ends, divisor):
    """By its formulas, in its units: 100 lbf on 36 in of 11 1/4 x 3/4 in of black cherry, 1.49 million psi."""
    inertia = 11.25 * 0.75**3 / 12
    inches = 100 * 36**3 / (divisor * 1.49e6 * inertia)
    found = deflection.deflection_m(
        100 * 4.4482216152605,
        36 * 0.0254,
        1.49e6 * 6894.757293168362,
        deflection.second_moment_m4(11.25 * 0.0254, 0.75 * 0.0254),
        load=load,
        ends=ends,
    )
    assert found / 0.0254 == pytest.approx(inches, rel=1e-9)


def test_by_hand_a_metre_of_oak_under_books():
    """I = 250 x 20^3 / 12 = 166 667 mm4; 5 x 350 x 1000^3 / (384 x 10 100 x 166 667) = 2.707 mm, and 1.6 times that in
    years = 4.33 mm, 1/231 of the span.
    """
    moment = deflection.second_moment_m4(0.25, 0.02)
    assert moment * 1e12 == pytest.approx(166_667, abs=1)
    first = deflection.deflection_m(350, 1.0, tables.species()["european-oak"].modulus.value, moment)
    assert first * 1000 == pytest.approx(2.707, abs=0.001)
    assert deflection.lasting_m(first, tables.constant("creep_wood")) * 1000 == pytest.approx(
        4.331, abs=0.002
    )


def test_laws_that_every_maker_knows():
    """Half the span sags an eighth under the same load; twice the thickness sags an eighth."""

    def sag(span, thickness):
        return deflection.deflection_m(300, span, 1e10, deflection.second_moment_m4(0.25, thickness))

    assert sag(1.2, 0.02) == pytest.approx(8 * sag(0.6, 0.02))
    assert sag(1.2, 0.02) == pytest.approx(8 * sag(1.2, 0.04))


# million psi, from printed tables of the Wood Handbook (as repeated in public)
PRINTED_PSI = {
    "black-cherry": 1.49, "black-walnut": 1.68, "white-oak": 1.78, "sugar-maple": 1.83, "yellow-poplar": 1.58,
    "white-ash": 1.74, "american-beech": 1.72, "yellow-birch": 2.01, "red-alder": 1.38, "longleaf-pine": 1.98,
    "shagbark-hickory": 2.16, "basswood": 1.46, "butternut": 1.18, "american-elm": 1.34, "black-locust": 2.05,
}  # fmt: skip


@pytest.mark.parametrize(("key", "psi"), PRINTED_PSI.items())
def test_the_metric_figures_are_those_of_the_other_table(key, psi):
    """The Wood Handbook prints both; the metric one is rounded to 100 N/mm2."""
    assert tables.species()[key].modulus.value == pytest.approx(psi * 1e6 * 6894.757, abs=0.6e8)


def test_a_sheet_is_less_stiff_than_wood_and_creeps_more():
    sheets = tables.sheet_stiffness()
    oak = tables.species()["european-oak"].modulus.value
    assert all(sheet.modulus_pa < oak for sheet in sheets.values())
    assert all(sheet.creep > tables.constant("creep_wood") for sheet in sheets.values())
    assert sheets["particleboard"].modulus_pa < sheets["mdf"].modulus_pa < sheets["birch-plywood"].modulus_pa

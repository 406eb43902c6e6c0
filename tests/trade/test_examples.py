"""Every worked example of the reference equations comes out, published ones and ones computed apart.

Source of each figure: `tests/data/reference/formula_examples.csv`, column source.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from buildbook.trade import (
    carbon,
    finish,
    glass,
    hanging,
    mass,
    moisture,
    movement,
    tables,
    timber,
    woods,
    workings,
)

from .reference import (
    BOARD_FOOT_M3,
    FOOT,
    INCH,
    MIL,
    MM,
    POUND,
    POUND_FORCE,
    PSI,
    US_GALLON_L,
    celsius,
    rows,
)

SPECIES = tables.species()
CHERRY = movement.Rates(0.00248, 7.1, 30.0, ())


def board_feet(thickness_in: float, width_in: float, length_in: float) -> float:
    return timber.rough_board_feet_bf(1, length_in * INCH, width_in * INCH, thickness_in * INCH, 0, 0)


def by_coefficient(width: float, coefficient: float, start: float, end: float) -> float:
    return movement.change_by_coefficient_m(width, coefficient, start, end)


def by_shrinkage_mm(width_mm: float, shrinkage: float, start: float, end: float) -> float:
    return movement.change_by_shrinkage_m(width_mm * MM, shrinkage, start, end, 30.0) / MM


def emc_f(fahrenheit: float, rh: float) -> float:
    return moisture.equilibrium_mc_pct(celsius(fahrenheit), rh)


def glass_kg(area_m2: float, thickness_mm: float) -> float:
    return glass.pane_kg(area_m2, thickness_mm * MM)


def lateral_lbf(root_in: float, bending_psi: float, sg: float) -> float:
    """Side member 3/4 in, ten nominal diameters in the wall: the limits that depend on them use this
    penetration.
    """
    nominal_in = {0.113: 0.138, 0.131: 0.164, 0.152: 0.190, 0.171: 0.216}[root_in]
    main = 10 * nominal_in * INCH
    each = hanging.allowed_shear_n(root_in * INCH, bending_psi * PSI, 0.75 * INCH, main, sg, sg)
    return each / POUND_FORCE


def lateral_cases() -> dict[str, Callable[[], float]]:
    screws = {"6": (0.113, 100_000), "8": (0.131, 90_000), "10": (0.152, 80_000), "12": (0.171, 80_000)}
    return {
        f"F12-{gauge}-{sg}": lambda root=root, bending=bending, sg=sg: lateral_lbf(root, bending, sg / 100)
        for gauge, (root, bending) in screws.items()
        for sg in (67, 55, 50, 42)
    }


CASES: dict[str, Callable[[], float]] = {
    "F1a": lambda: board_feet(1, 9, 96),
    "F1b": lambda: board_feet(1.5, 9, 96),
    "F1c": lambda: board_feet(1, 6, 96),
    "F1d": lambda: tables.constant("board_foot"),
    "F2b": lambda: timber.tally_bf(
        [(9 * FOOT, 7.5 * INCH), (10 * FOOT, 6.25 * INCH), (12 * FOOT, 8 * INCH)], 1.25 * INCH
    ),
    "F4a": lambda: by_coefficient(232, 0.00245, 8, 11),
    "F4b": lambda: by_coefficient(9.15, 0.00245, 8, 11),
    "F4c": lambda: by_coefficient(5, 0.00129, 6, 9),
    "F4d": lambda: movement.movement(SPECIES["white-oak"], "flat", 0.6, 6, 6, 10).grows_m / MM,
    "F4e": lambda: movement.movement(SPECIES["white-oak"], "quarter", 0.6, 6, 6, 10).grows_m / MM,
    "F5a": lambda: by_shrinkage_mm(232, 7.0, 8, 11),
    "F5b": lambda: by_shrinkage_mm(300, 8.6, 18, 8),
    "F5c": lambda: by_shrinkage_mm(100, 11.9, 30, 0),
    "F6a": lambda: woods.coefficient_from_shrinkage(SPECIES["black-cherry"].shrink_tangential.value, 30),
    "F6b": lambda: woods.coefficient_from_shrinkage(SPECIES["black-walnut"].shrink_radial.value, 30),
    "F6c": lambda: woods.coefficient_from_shrinkage(SPECIES["sugar-maple"].shrink_tangential.value, 30),
    "F6d": lambda: woods.coefficient_from_shrinkage(SPECIES["american-beech"].shrink_tangential.value, 30),
    "F6e": lambda: woods.coefficient_from_shrinkage(9.2, 30),
    "F6f": lambda: woods.coefficient_from_shrinkage(4.4, 22),
    "F7a": lambda: emc_f(70, 30),
    "F7b": lambda: emc_f(70, 50),
    "F7c": lambda: emc_f(70, 65),
    "F7d": lambda: emc_f(40, 80),
    "F7e": lambda: emc_f(90, 20),
    "F7f": lambda: moisture.equilibrium_mc_pct(20, 50),
    "F8a": lambda: mass.density_kg_m3(0.40, 12),
    "F8b": lambda: mass.density_kg_m3(0.63, 12),
    "F8c": lambda: mass.specific_gravity(0.47, 12),
    "F8d": lambda: mass.specific_gravity(0.38, 12),
    "F8e": lambda: mass.mass_at_kg(40.0, 12, 8),
    "F9a": lambda: carbon.stored_in_volume_kg_co2(1.0, 441, 12),
    "F9b": lambda: carbon.stored_kg_co2(32.0, 12),
    "F9c": lambda: carbon.stored_in_volume_kg_co2(1.0, 800, 0, wood_share=0.9),
    "F9d": lambda: carbon.stored_in_volume_kg_co2(2.5 * 0.018, 650, 10, wood_share=0.95),
    "F10a": lambda: glass_kg(glass.pane_area_m2(1.7, 0.5), 12),
    "F10-4mm": lambda: glass_kg(1.0, 4),
    "F10-6mm": lambda: glass_kg(1.0, 6),
    "F10-10mm": lambda: glass_kg(1.0, 10),
    "F10-19mm": lambda: glass_kg(1.0, 19),
    "F11c": lambda: hanging.allowed_pull_n("wood screw", 0.45, 0.190 * INCH, INCH) / POUND_FORCE,
    "F11d": lambda: hanging.allowed_pull_n("lag screw", 0.50, 0.25 * INCH, INCH) / POUND_FORCE,
    "F11f": lambda: hanging.allowed_pull_n("wood screw", 0.63, 0.164 * INCH, 1.25 * INCH) / POUND_FORCE,
    **lateral_cases(),
    "F13a": lambda: finish.volume_l(4.2, 3, 11),
    "F13b": lambda: 400 * FOOT**2 / US_GALLON_L,
    "F13c": lambda: 500 * FOOT**2 / US_GALLON_L,
    "F13d": lambda: finish.spread_m2_per_l(0.2587, MIL) / FOOT**2 * US_GALLON_L,
    "F14a": lambda: finish.voc_kg(0.50, 0.56436) * 1000,
    "F14b": lambda: 4.71 * POUND * 1000 / US_GALLON_L,
    "F15a": lambda: workings.resaw(50 * MM, 0.2, 6 * MM, 2.4 * MM).leaves,
    "F15b": lambda: workings.resaw(44.45 * MM, 0.2, 3 * MM, 1.2 * MM).leaves,
    "F15c": lambda: workings.resaw(26.4 * MM, 0.2, 12 * MM, 2.4 * MM).leaves,
    "F16a": lambda: workings.lengths(2.4, 0.43, 5, 3.2 * MM, 20 * MM).per_length,
    "F16b": lambda: workings.lengths(2.4, 0.43, 17, 3.2 * MM, 20 * MM).lengths,
    "F17a": lambda: workings.dowels(0.3, 0.03, 0.06).count,
    "F18a": lambda: movement.change_m(0.35, CHERRY, 8, 11) / 2 / MM,
    "F18b": lambda: -movement.change_m(0.35, CHERRY, 8, 6) / 2 / MM,
}


def test_every_example_of_the_reference_file_is_a_case() -> None:
    assert {row["id"] for row in rows("formula_examples.csv")} == set(CASES)


@pytest.mark.parametrize("row", rows("formula_examples.csv"), ids=lambda row: row["id"])
def test_the_example_comes_out(row: dict[str, str]) -> None:
    assert CASES[row["id"]]() == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]), rel=0)


def test_one_board_foot_is_144_cubic_inches() -> None:
    """NIST SP 811 (2008) B.8: board foot 2.359 737 E-03 m3."""
    assert timber.board_feet_bf(BOARD_FOOT_M3) == pytest.approx(1, rel=1e-12)
    assert tables.constant("board_foot") == pytest.approx(2.359737e-3, rel=1e-6)

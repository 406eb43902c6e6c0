"""The sums are arithmetic: fed with quantities instead of floats, each gives the dimension that its name
promises.

The constants of the tables are handed out as quantities too, in the SI unit of their row. A function that is
no plain arithmetic is listed as exempt, with the reason.
"""

from __future__ import annotations

import dataclasses
import inspect
from collections.abc import Callable
from typing import Any

import pint
import pytest

from buildbook.trade import (
    carbon,
    days,
    finish,
    glass,
    hanging,
    hardware,
    mass,
    moisture,
    movement,
    rounding,
    rounds,
    rows,
    sheets,
    shrink,
    tables,
    timber,
    woods,
    workings,
)
from buildbook.trade.records import Ends, SheetSize
from buildbook.trade.sheets import SheetPart

UNITS = pint.UnitRegistry(cache_folder=None)
M, M2, M3, KG, N, L = (UNITS(name) for name in ("m", "m**2", "m**3", "kg", "N", "l"))
MM = M / 1000
DENSITY = KG / M3
PA = N / M2
SPREAD = M2 / L

DIMENSIONS = {
    "_kg_m3": DENSITY,
    "_kg_co2": KG,
    "_m2_per_l": SPREAD,
    "_m3": M3,
    "_m2": M2,
    "_m": M,
    "_kg": KG,
    "_n": N,
    "_l": L,
    "_pa": PA,
}
"""What the end of a name promises; any other name promises a plain number (counts, per cent, board feet,
degrees).
"""

CHERRY = tables.species()["black-cherry"]
RATES = movement.Rates(0.00248, 7.1, 30.0, ())
SHEET = SheetSize("s", "s", 2.44 * M, 1.22 * M, "mm", "s", "read")
PARTS = [SheetPart("a", 3, 0.7 * M, 0.4 * M), SheetPart("b", 1, 1.5 * M, 0.7 * M)]

CASES: dict[Callable[..., Any], tuple[Any, ...]] = {
    timber.net_volume_m3: (2, M, M, M),
    timber.rough_volume_m3: (2, M, M, M, MM, MM),
    timber.board_feet_bf: (M3,),
    timber.rough_board_feet_bf: (2, M, M, 18 * MM, MM, MM),
    timber.with_waste: (3.0, 20.0),
    timber.surface_measure_ft2: (3 * M, 0.2 * M),
    timber.tally_bf: ([(3 * M, 0.2 * M)], 27 * MM),
    sheets.area_m2: (3, M, M),
    sheets.per_sheet: (0.7 * M, 0.4 * M, 2.44 * M, 1.22 * M, 3 * MM),
    sheets.sheets_needed: (PARTS, SHEET, 15.0, 3 * MM),
    mass.specific_gravity: (0.5, 8.0),
    mass.sg_basic_from: (0.5, 8.0),
    mass.density_kg_m3: (0.5, 8.0),
    mass.specific_gravity_from_density: (560 * DENSITY, 12.0),
    mass.density_at_kg_m3: (0.5, 8.0),
    mass.wood_kg: (M3, 0.5, 8.0),
    mass.mass_kg: (M3, 700 * DENSITY),
    mass.mass_at_kg: (KG, 12.0, 8.0),
    mass.ovendry_kg: (KG, 12.0),
    woods.coefficient_from_shrinkage: (7.1, 30.0),
    woods.shrinkage_from_coefficient: (0.00248, 30.0),
    movement.change_by_coefficient_m: (M, 0.00248, 6.0, 10.0),
    movement.change_by_shrinkage_m: (M, 7.1, 18.0, 8.0, 30.0),
    movement.change_m: (M, RATES, 8.0, 16.0),
    movement.movement: (CHERRY, "flat", M, 8.0, 6.0, 11.0),
    movement.widths_m: (M, RATES, 8.0, [6.0, 11.0]),
    movement.spare_m: (M, M, MM),
    finish.part_area_m2: (2, M, M, MM, "all"),
    finish.per_coat_l: (M2, 11 * SPREAD),
    finish.volume_l: (M2, 3, 11 * SPREAD),
    finish.volume_of_coats_l: (M2, 3, 11 * SPREAD, 18 * SPREAD),
    finish.voc_kg: (L, KG / L),
    finish.voc_range_kg: (L, Ends(0 * KG / L, KG / L)),
    glass.pane_area_m2: (M, M),
    glass.pane_kg: (M2, MM),
    rounds.volume_m3: (M3, "rod"),
    rounds.face_m2: (M2, "disc"),
    rounds.area_m2: (2, 22 * MM, M, "rod", "all"),
    rounds.hollow_m3: (300 * MM, 300 * MM, 80 * MM, 10 * MM, "disc"),
    rounds.inside_m2: (300 * MM, 300 * MM, 80 * MM, 10 * MM, "disc", "all"),
    hardware.total_kg: (4, KG),
    hanging.weight_n: (KG,),
    hanging.shear_each_n: (KG, 6),
    hanging.pull_each_n: (KG, M, M, 6),
    hanging.load: (KG, M, M, 6),
    hanging.allowed_pull_n: ("lag screw", 0.5, MM, M),
    hanging.use_pct: (N, 2 * N),
    hanging.use_together_pct: (N, N, 2 * N, 3 * N),
    hanging.thread_in_wall_m: ("lag screw", 80 * MM, 6 * MM, 50 * MM),
    hanging.allowed_shear_at_depth_n: (5 * MM, 3.3 * MM, 6e8 * PA, 19 * MM, 42 * MM, 0.5, 0.42),
    hanging.dowel_bearing_pa: (0.5,),
    hanging.reduction_term: (5 * MM,),
    hanging.allowed_shear_n: (3.3 * MM, 6e8 * PA, 19 * MM, 42 * MM, 0.5, 0.42),
    carbon.carbon_kg: (KG, 12.0),
    carbon.stored_kg_co2: (KG, 12.0),
    carbon.stored_in_volume_kg_co2: (M3, 650 * DENSITY, 10.0, 0.95),
    workings.slices: (M, 100 * MM, 3 * MM),
    workings.left_over_m: (M, 100 * MM, 3 * MM, 4),
    workings.matched_width_m: (M, 2),
    workings.laminate: (50 * MM, 3 * MM, 7, 3 * MM, MM),
    workings.resaw: (50 * MM, 200 * MM, 6 * MM, 2 * MM, MM),
    workings.strips: (200 * MM, 40 * MM, 3 * MM, 5 * MM),
    workings.lengths: (M, 100 * MM, 17, 3 * MM, 5 * MM),
    workings.holes: (12, 4, 50 * MM, 50 * MM),
    workings.fall_m: (M, 5.0),
    workings.taper_each_m: (50 * MM, 30 * MM, 2),
    workings.coat_count: (48, 3),
    workings.dowel_diameter_m: (M,),
    workings.dowel_depth_m: (M,),
    rounding.whole_down: (M / MM,),
    rounding.whole_up: (M / MM,),
    rounding.half_up: (M / MM,),
}

EXEMPT: dict[Callable[..., Any], str] = {
    timber.smallest_stock: "picks a row of a table",
    sheets.choose_size: "picks a row of a table",
    hardware.screw_in_shear: "picks a row of a table",
    woods.sg_12: "picks a figure of a wood",
    woods.sg_basic: "picks a figure of a wood",
    woods.density_12: "picks a figure of a wood",
    woods.fibre_saturation: "picks a figure of a wood",
    woods.coefficient: "picks a figure of a wood",
    woods.shrinkage: "picks a figure of a wood",
    movement.rates: "picks figures of a wood",
    movement.form: "compares plain percentages",
    movement.opening_check: "`spare_m` with a comparison that has a length as guard",
    moisture.equilibrium_mc_pct: "empirical fit of plain numbers; tested against its printed table instead",
    moisture.out_of_range: "words",
    finish.spread_m2_per_l: "turns m3 into litres, which are counted as a plain number; tested by F13",
    days.add_months: "dates",
    finish.refresh_dates: "dates",
    finish.coats_too_near: "dates",
    days.days_after: "dates",
    days.repeatable: "dates",
    days.half_a_year_on: "months",
    days.next_first_of: "dates",
    finish.schedule: "dates",
    finish.stated: "days and months",
    glass.calls_for_safety_glazing: "words",
    hardware.together: "counts",
    hanging.is_short: "yes or no",
    workings.angle_deg: "an arctangent takes plain numbers",
    workings.dowels: "a single dowel has the spacing 0, a plain number",
}


def si_unit(unit: str) -> str:
    """The SI unit that goes with `rows.factor`: `lbf/in^1.75` is in `(N)**1*(m)**-1.75`."""
    si = {name: si for name, (si, _) in rows.units().items()}
    return "*".join(f"({si[name].replace('^', '**')})**{power}" for name, power in rows.terms(unit))


def quantity_of(key: str) -> Any:
    """A constant of the tables as a quantity of the SI unit of its row."""
    constant = tables.constants()[key]
    unit = si_unit(constant.unit)
    for plain in ("pct", "degC"):
        unit = unit.replace(f"({plain})", "(1)")
    return UNITS.Quantity(constant.value, UNITS.parse_units(unit.replace("(1)", "dimensionless")))


def promised(name: str) -> Any:
    ending = max((end for end in DIMENSIONS if name.endswith(end)), key=len, default=None)
    return DIMENSIONS[ending] if ending else UNITS.Quantity(1)


def figures(name: str, result: Any) -> list[tuple[str, Any]]:
    """The figures of a result: of a record by the names of its fields, of a tuple or a range by the
    function's name.
    """
    if isinstance(result, Ends):
        return [(name, result.low), (name, result.high)]
    if dataclasses.is_dataclass(result):
        return [(field.name, getattr(result, field.name)) for field in dataclasses.fields(result)]
    return [(name, each) for each in result] if isinstance(result, tuple) else [(name, result)]


@pytest.mark.parametrize("function", CASES, ids=lambda function: f"{function.__module__}.{function.__name__}")
def test_the_result_has_the_dimension_of_its_name(function, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tables, "constant", quantity_of)
    found = figures(function.__name__, function(*CASES[function]))
    numbers = [(name, figure) for name, figure in found if isinstance(figure, int | float | pint.Quantity)]
    assert numbers
    for name, figure in numbers:
        assert UNITS.Quantity(figure).dimensionality == promised(name).dimensionality, name


def test_every_function_of_trade_has_a_twin_or_a_reason() -> None:
    modules = (
        carbon, days, finish, glass, hanging, hardware, mass, moisture, movement, rounding, rounds, sheets, shrink, timber, woods,
        workings,
    )  # fmt: skip
    public = {
        function
        for module in modules
        for name, function in inspect.getmembers(module, inspect.isfunction)
        if function.__module__ == module.__name__ and not name.startswith("_")
    }
    assert public == set(CASES) | set(EXEMPT)
    assert set(CASES) & set(EXEMPT) == set()
    assert all(EXEMPT.values())


def test_a_wrong_sum_would_be_seen() -> None:
    """The check itself: an area is not what a name ending in _m promises."""
    assert UNITS.Quantity(M * M).dimensionality != promised("width_m").dimensionality
    assert promised("stored_kg_co2").dimensionality == KG.dimensionality
    assert promised("count").dimensionless

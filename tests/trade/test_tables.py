"""The reference tables load whole; every row has a source, and the figures agree with printed ones."""

from __future__ import annotations

import csv
from importlib import resources

import pytest

from buildbook.signs import keys
from buildbook.trade import tables
from buildbook.trade.cites import listings
from buildbook.trade.records import BASES, Sourced

from .reference import INCH, rows

DATA = resources.files("buildbook.trade").joinpath("data")
FILES = sorted(file.name for file in DATA.iterdir() if file.name.endswith(".csv"))
NAMED = (
    tables.species,
    tables.sheets,
    tables.glass,
    tables.stones,
    tables.metals,
    tables.finishes,
    tables.wall_woods,
    tables.climates,
)


@pytest.mark.parametrize("file", FILES)
def test_every_row_of_every_table_has_a_source_and_a_basis(file: str) -> None:
    lines = DATA.joinpath(file).read_text(encoding="utf-8").splitlines()
    read = list(csv.DictReader(line for line in lines if not line.startswith("# ")))
    assert read
    assert [row for row in read if not row["source"].strip() or row["basis"] not in BASES] == []


def test_every_file_is_told_in_the_readme() -> None:
    told = DATA.joinpath("README.md").read_text(encoding="utf-8")
    assert [file for file in FILES if file not in told] == []


@pytest.mark.parametrize("table", NAMED, ids=lambda table: table.__name__)
def test_every_record_is_found_by_each_of_its_own_names(table) -> None:
    for record in table():
        for name in (record.key, record.name, record.name.upper(), *record.aliases):
            assert table().find(name).record is record, name


@pytest.mark.parametrize("table", NAMED, ids=lambda table: table.__name__)
def test_a_loose_name_is_told_as_an_assumption(table) -> None:
    for record in table():
        for name in record.taken_for:
            found = table().find(name)
            assert found.record is record
            assert name in found.assumed
            assert record.name in found.assumed


def test_each_wood_has_a_density_and_two_colours() -> None:
    woods = tuple(tables.species())
    assert len(woods) >= 115
    assert all(wood.sg_12 or wood.density_12 or wood.sg_basic for wood in woods)
    assert all(wood.fresh_hex != wood.aged_hex for wood in woods)


@pytest.mark.parametrize("row", rows("table_13_5.csv"), ids=lambda row: f"{row['key']}-{row['property']}")
def test_the_coefficients_are_those_of_table_13_5(row: dict[str, str]) -> None:
    """USDA Wood Handbook FPL-GTR-190 (2010) Table 13-5."""
    figure = getattr(tables.species()[row["key"]], row["property"])
    printed = figure.span.low if figure.span else figure.value
    assert (printed, figure.basis) == (float(row["coefficient"]), "read")
    assert figure.value >= printed


@pytest.mark.parametrize("row", rows("wood_figures.csv"), ids=lambda row: f"{row['key']}-{row['property']}")
def test_the_figures_are_those_that_were_read(row: dict[str, str]) -> None:
    """The source of each stands in its row; where tables differ, it is within what we say they print, or rounds to it."""
    figure = getattr(tables.species()[row["key"]], row["property"])
    low, high = (figure.span.low, figure.span.high) if figure.span else (figure.value, figure.value)
    assert low * 0.99 <= float(row["value"]) <= high * 1.01
    assert figure.basis in ("read", "derived")


def test_most_figures_of_the_woods_were_read_in_a_text() -> None:
    figures = [getattr(wood, name) for wood in tables.species() for name in tables.FIGURES]
    bases = [figure.basis for figure in figures if figure]
    assert bases.count("read") / len(bases) > 0.75


def test_the_figures_of_a_wood_carry_their_source() -> None:
    cherry = tables.species()["black-cherry"]
    assert cherry.c_tangential == Sourced(
        0.00248, "1/pct", "USDA Wood Handbook FPL-GTR-190 (2010) Table 13-5", "read"
    )
    assert all(isinstance(getattr(cherry, name), Sourced | None) for name in tables.FIGURES)


def test_the_cites_woods_are_those_of_the_lists_up_to_2025() -> None:
    listed = {wood.key for wood in tables.species() if wood.cites}
    assert listed == {
        "honduras-mahogany", "african-mahogany", "spanish-cedar", "african-padauk", "ipe", "indian-rosewood",
        "cocobolo", "bubinga", "afrormosia", "afzelia", "cumaru", "african-blackwood", "brazilian-rosewood",
        "cuban-mahogany", "kingwood", "brazilian-tulipwood", "lignum-vitae",
    }  # fmt: skip


def test_a_note_of_the_list_says_whether_it_reaches_furniture() -> None:
    """Annotations #5, #6 and #17 reach timber and sheets only; #2, #15 and none of appendix I finished goods too."""
    goods = {key for key, listing in listings().items() if listing.goods}
    assert goods == {
        "indian-rosewood", "cocobolo", "bubinga", "african-blackwood", "brazilian-rosewood", "kingwood",
        "brazilian-tulipwood", "lignum-vitae",
    }  # fmt: skip
    timber_only = {listing.annotation for listing in listings().values() if not listing.goods}
    assert timber_only == keys("cites-timber-note")


def test_surfaced_hardwood_is_that_of_the_grading_rules() -> None:
    """NHLA rules, standard surfaced thickness: 4/4 gives 13/16 in, 8/4 gives 1 3/4 in."""
    surfaced = {stock.name: stock.surfaced_m for stock in tables.stock("in")}
    assert surfaced["4/4"] == pytest.approx(13 / 16 * INCH)
    assert surfaced["8/4"] == pytest.approx(1.75 * INCH)


def test_stock_runs_from_thin_to_thick() -> None:
    for system in tables.SYSTEMS:
        thicknesses = [stock.thickness_m for stock in tables.stock(system)]
        assert thicknesses == sorted(set(thicknesses))
        assert all(
            stock.surfaced_m is None or stock.surfaced_m < stock.thickness_m for stock in tables.stock(system)
        )


def test_the_allowances_are_those_of_the_trade() -> None:
    """Common practice: 25 mm or 1 in over length, 6 mm or 1/4 in over width, 3 mm clean-up, 20 % waste."""
    inch, metric = tables.allowances("in"), tables.allowances("mm")
    assert (inch.over_length_m, inch.over_width_m) == (INCH, INCH / 4)
    assert (metric.over_length_m, metric.over_width_m) == (0.025, 0.006)
    assert (inch.clean_up_m, metric.clean_up_m) == (0.003, 0.003)
    assert (inch.waste_pct, metric.waste_pct) == (20, 20)


def test_rags_of_drying_oils_heat_up() -> None:
    hot = {family.key for family in tables.finishes() if family.rags_heat}
    assert hot == {
        "oil-varnish-blend", "pure-tung-oil", "boiled-linseed-oil", "raw-linseed-oil", "walnut-oil", "hemp-oil",
        "hardwax-oil", "two-part-hardwax-oil", "exterior-oil", "wiping-varnish", "oil-polyurethane", "spar-varnish",
        "linseed-paint", "oil-paint", "oil-stain", "exterior-stain",
    }  # fmt: skip


def test_the_default_rooms_are_the_household_band() -> None:
    """Common museum and trade practice: 35 to 55 % relative humidity."""
    default = tables.climates()["default"]
    assert (default.rh_low_pct, default.rh_high_pct, default.temperature_c) == (35, 55, 20)

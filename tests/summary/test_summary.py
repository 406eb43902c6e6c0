"""Figures of whole jobs, against published examples where there are any, and sums done by hand beside the rest."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job.holding_model import Fastener, Hanging, Wall
from buildbook.job.log_model import Hours, LogEntry
from buildbook.job.model import Finish, Job, Part, Size, Stock, Working
from buildbook.job.shop_model import Allowances, Climate, MadeAt, Price, Shop
from buildbook.quantity import Length
from buildbook.summary import summarise
from buildbook.summary.model import Money

IN = 0.0254
NOTHING_ADDED = Allowances(0.0, 0.0, 0.0, 0.0)


def length(m):
    return Length(m, f"{m} m")


def part(
    name="Part", *, row=2, qty=1, kind="wood", key="white-oak", size=(1.0, 0.1, 0.02), stock=None, **more
):
    sides = dict(zip(("length", "width", "thickness"), map(length, size), strict=False))
    bought = Stock("stock", stock) if stock else None
    return Part(row, name, qty, kind, more.pop("material", key), key, stock=bought, **sides, **more)


def job(*parts, **more):
    return Job(folder="a-job", parts=parts, **more)


def test_board_feet_of_a_published_example():
    """A board of 1 x 9 x 96 in holds 6 board feet (a woodworking association's page on board feet)."""
    board = part(size=(96 * IN, 9 * IN, 0.75 * IN), stock=1 * IN, qty=2)
    timber = summarise(job(board, units="in", shop=Shop(waste=NOTHING_ADDED))).timber
    assert timber.rough_bf == pytest.approx(12)
    assert timber.buy_bf == pytest.approx(12)
    assert timber.net_m3 == pytest.approx(12 * 0.75 * 0.002359737, rel=1e-6)  # 1 board foot: NIST SP 811, B.8


def test_allowances_of_the_design_are_added():
    """(1000 + 25) x (100 + 6) x 27 mm, a fifth more to buy: common practice."""
    timber = summarise(job(part(stock=0.027, qty=3))).timber
    assert timber.rough_m3 == pytest.approx(3 * 1.025 * 0.106 * 0.027)
    assert timber.buy_m3 == pytest.approx(timber.rough_m3 * 1.2)
    assert "assumed" in " ".join(timber.assumed)


@given(
    st.lists(
        st.tuples(st.floats(0.02, 4), st.floats(0.01, 1), st.floats(0.003, 0.09), st.integers(1, 40)),
        min_size=1,
        max_size=6,
    )
)
def test_net_is_at_most_rough_is_at_most_buy(sizes):
    parts = [part(row=2 + n, size=s[:3], qty=s[3]) for n, s in enumerate(sizes)]
    for units in ("mm", "in"):
        timber = summarise(job(*parts, units=units)).timber
        assert timber.net_m3 <= timber.rough_m3 <= timber.buy_m3
        assert timber.rough_bf <= timber.buy_bf


def test_movement_of_a_white_oak_top():
    """600 mm from 6 to 10 % moisture: 8.76 mm flat-sawn, 4.32 mm quarter-sawn (Wood Handbook eq. 13-2, Table 13-5)."""
    rooms = Climate(29.0, 54.4, 21.1)  # 6.0 and 10.0 % at 70 °F, Table 4-2 between its cells
    top = part("Top", size=(1.0, 0.6, 0.02), cut="flat")
    leaf = part("Leaf", row=3, size=(1.0, 0.6, 0.02), cut="quarter", opening=length(0.604))
    rows = summarise(job(top, leaf, climate=rooms, made_at=MadeAt(moisture_pct=6.0))).movement
    assert rows[0].high_mc_pct == pytest.approx(10.0, abs=0.08)
    assert rows[0].grows_m * 1000 == pytest.approx(8.76, abs=0.2)
    assert rows[1].grows_m * 1000 == pytest.approx(4.32, abs=0.1)
    assert rows[1].ok is False
    assert rows[1].spare_m * 1000 == pytest.approx(4 - 4.32, abs=0.1)


def test_narrow_parts_and_sheets_do_not_move():
    narrow = part(size=(1.0, 0.075, 0.02))
    sheet = part(kind="panel", key="birch-plywood", row=3, size=(1.0, 0.6, 0.009))
    assert summarise(job(narrow, sheet)).movement == ()


def test_mass_of_each_kind():
    """Sugar maple at 12 %: 705 kg/m3 (species sheets); glass 2.5 kg per m2 and mm (EN 572-1)."""
    maple = part(key="sugar-maple", size=(1.0, 1.0, 0.1))
    pane = part("Pane", row=3, kind="glass", key="float", size=(1.7, 0.5, 0.012))
    knob = part("Knob", row=4, kind="hardware", key="", size=(), qty=4, mass_kg=0.05)
    mass = summarise(job(maple, pane, knob, made_at=MadeAt(moisture_pct=12.0), contents_kg=10.0)).mass
    assert mass.wood_kg == pytest.approx(70.5, abs=0.2)
    assert mass.glass_kg == pytest.approx(25.5)  # 1.7 x 0.5 m x 12 mm: a glass supplier's worked example
    assert mass.hardware_kg == pytest.approx(0.2)
    assert mass.loaded_kg == pytest.approx(mass.total_kg + 10)


def test_carbon_of_wood():
    """32 kg of oak at 12 %: 52.38 kg of carbon dioxide (EN 16449: 44/12 x 0.5 x ovendry mass)."""
    summary = summarise(job(part(size=(1.0, 1.0, 0.05)), made_at=MadeAt(moisture_pct=12.0)))
    assert summary.carbon.stored_kg_co2 / summary.mass.wood_kg == pytest.approx(52.38 / 32, rel=1e-4)


def test_finish_of_the_schedule():
    """4.2 m2, 3 coats, 11 m2/l: 1.145 l (V = A n / s)."""
    boards = part(size=(2.0, 1.05, 0.02), faces="faces", finish="oil")
    oil = Finish(
        "oil", "hardwax-oil", coats=(date(2026, 1, 30), date(2026, 1, 31), date(2026, 1, 29)), spread_m2_per_l=11.0, voc_g_per_l=500.0,
        light_use_days=2.0, full_cure_days=14.0, refresh_months=1,
    )  # fmt: skip
    use = summarise(job(boards, finishes=(oil,))).finish[0]
    assert use.area_m2 == pytest.approx(4.2)
    assert use.volume_l == pytest.approx(1.145, abs=0.001)
    assert use.voc_kg == pytest.approx(1.1454 * 0.5, abs=0.001)
    assert (use.last_coat, use.light_use_from) == (date(2026, 1, 31), date(2026, 2, 2))
    assert use.full_cure_from == use.full_cure_to == date(2026, 2, 14)
    assert use.refresh == (date(2026, 2, 28), date(2026, 3, 31), date(2026, 4, 30))


def test_hanging_against_the_allowable_withdrawal():
    """NDS: 2850 G^2 D per inch; G 0.45, D 0.190 in gives 109 lbf/in (an engineering reference page); 1 1/2 in."""
    screws = Hanging(
        "cleat",
        Fastener("wood screw", 0.190 * IN, 3 * IN, 1.5 * IN, 4),
        Wall("studs", 0.45),
        pull_height_m=0.5,
    )
    piece = part(key="", kind="hardware", size=(), mass_kg=20.0)
    load = summarise(
        job(
            piece,
            hanging=screws,
            stands="wall",
            contents_kg=20.0,
            overall=Size(depth=length(0.3), height=length(0.7)),
        )
    ).hanging
    assert load.allowed_pull_n / 4.4482216 == pytest.approx(1.5 * 109.65, abs=0.1)
    assert load.shear_each_n == pytest.approx(40 * 9.80665 / 4)
    assert load.pull_each_n == pytest.approx(40 * 9.80665 * 0.15 / 0.5 / 4)
    assert load.pull_use_pct == pytest.approx(100 * load.pull_each_n / load.allowed_pull_n)
    assert load.shear_use_pct == pytest.approx(100 * load.shear_each_n / load.allowed_shear_n)
    assert load.use_pct == max(load.pull_use_pct, load.shear_use_pct, load.together_use_pct)
    assert load.cautions


def test_what_the_sums_leave_out_is_said_whatever_the_wall():
    for wall in (Wall("studs", 0.42), Wall("brick")):
        screws = Hanging("cleat", Fastener("wood screw", 0.005, 0.07, 0.045, 4), wall, pull_height_m=0.5)
        piece = part(key="", kind="hardware", size=(), mass_kg=20.0)
        load = summarise(job(piece, hanging=screws, overall=Size(depth=length(0.3)))).hanging
        said = " ".join(load.cautions)
        for left_out in ("plaster", "edges", "the wall itself", "joins the cleat"):
            assert left_out in said


@pytest.mark.parametrize(("kind", "in_wall_m"), [("wood screw", 0.029), ("lag screw", 0.019)])
def test_a_fixing_that_is_too_short_counts_for_nothing(kind, in_wall_m):
    screws = Hanging("cleat", Fastener(kind, 0.005, 0.07, in_wall_m, 4), Wall("studs", 0.42), 0.5)
    piece = part(key="", kind="hardware", size=(), mass_kg=20.0)
    load = summarise(job(piece, hanging=screws, overall=Size(depth=length(0.3)))).hanging
    assert (load.allowed_pull_n, load.allowed_shear_n, load.use_pct) == (None, None, None)
    assert any("does not count" in caution for caution in load.cautions)


def test_a_screw_that_is_all_in_the_wall_holds_by_its_thread():
    """60 mm, all of it in the wall: 40 mm of thread."""
    screws = Hanging("cleat", Fastener("wood screw", 0.005, 0.06, 0.06, 4), Wall("studs", 0.42), 0.5)
    piece = part(key="", kind="hardware", size=(), mass_kg=20.0)
    load = summarise(job(piece, hanging=screws, overall=Size(depth=length(0.3)))).hanging
    assert load.allowed_pull_n == pytest.approx(2850 * 6894.757 * 0.42**2 * 0.005 * 0.040, rel=1e-5)
    assert any("two thirds" in said for said in load.assumed)


@pytest.mark.parametrize(("sg", "lbf"), [(0.67, 153.0), (0.55, 122.0), (0.5, 107.0), (0.42, 83.0)])
def test_shear_of_a_number_10_screw_is_that_of_the_yield_limits(sg, lbf):
    """NDS (AWC) yield limits for a No. 10 wood screw, side member 3/4 in, worked by hand: formula_examples.csv, F12."""
    screws = Hanging(
        "cleat",
        Fastener("wood screw", 0.190 * IN, 0.75 * IN + 1.9 * IN, 1.9 * IN, 4),
        Wall("studs", sg),
        pull_height_m=0.5,
    )
    piece = part(key="", kind="hardware", size=(), mass_kg=20.0)
    load = summarise(job(piece, hanging=screws, stands="wall", overall=Size(depth=length(0.3)))).hanging
    assert load.allowed_shear_n / 4.4482216 == pytest.approx(lbf, abs=0.5)


@pytest.mark.parametrize(
    ("kind", "diameter_in", "length_in"),
    [("lag screw", 0.25, 3), ("wood screw", 0.10, 3), ("wood screw", 0.19, 1.5)],
)
def test_a_fixing_whose_shear_no_table_covers_is_told(kind, diameter_in, length_in):
    screws = Hanging(
        "cleat",
        Fastener(kind, diameter_in * IN, length_in * IN, 1.5 * IN, 4),
        Wall("studs", 0.42),
        pull_height_m=0.5,
    )
    piece = part(key="", kind="hardware", size=(), mass_kg=20.0)
    load = summarise(job(piece, hanging=screws, stands="wall", overall=Size(depth=length(0.3)))).hanging
    assert load.allowed_shear_n is None
    assert load.use_pct == load.pull_use_pct
    assert any("downward load was not held against" in caution for caution in load.cautions)


def test_a_wall_that_no_table_covers_is_said_not_guessed():
    anchors = Hanging("battens", Fastener("cavity anchor", 0.006, 0.06, 0.012, 4), Wall("plasterboard"), 0.5)
    piece = part(key="", kind="hardware", size=(), mass_kg=20.0)
    load = summarise(job(piece, hanging=anchors, overall=Size(depth=length(0.3)))).hanging
    assert load.allowed_pull_n is None
    assert load.use_pct is None
    assert any("anchors" in caution for caution in load.cautions)


def test_hours_cost_and_what_an_hour_earned():
    entries = (
        LogEntry(date(2026, 1, 5), "", "", hours=(Hours("joinery", 6.0), Hours("milling", 2.0))),
        LogEntry(date(2026, 1, 6), "", "", hours=(Hours("joinery", 2.0),)),
    )
    oak = part(stock=0.027, price=Decimal("1000"), per="m3")
    hinge = part("Hinge", row=3, qty=2, kind="hardware", key="", size=(), price=Decimal("9.40"), per="each")
    shop = Shop(currency="EUR", hour_rate=Decimal("50"), waste=NOTHING_ADDED)
    summary = summarise(
        job(oak, hinge, entries=entries, shop=shop, price=Decimal("1000"), delivered=date(2026, 2, 1))
    )
    assert [(s.stage, s.hours_h) for s in summary.hours.by_stage] == [("milling", 2.0), ("joinery", 8.0)]
    assert summary.cost.materials == Money(Decimal("21.50"), "EUR")  # 0.0027 m3 at 1000, and 2 x 9.40
    assert summary.cost.labour == Money(Decimal("500.00"), "EUR")
    assert summary.cost.margin_pct == pytest.approx(47.9, abs=0.05)  # (1000 - 521.50) / 1000
    assert summary.cost.earned_per_hour == Money(Decimal("97.85"), "EUR")  # (1000 - 21.50) / 10


def test_a_price_comes_from_the_list_of_the_jobs_own_time():
    prices = (
        Price("white oak", Decimal("900"), "m3", date(2025, 1, 1), row=2),
        Price("white oak", Decimal("1000"), "m3", date(2026, 1, 1), row=3),
        Price("white oak", Decimal("2000"), "m3", date(2027, 1, 1), row=4),
    )
    oak = part(size=(1.0, 1.0, 0.1), stock=0.1)
    glue = part("Glue", row=3, kind="supply", key="", size=(), material="glue")
    summary = summarise(
        job(oak, glue, delivered=date(2026, 6, 1), shop=Shop(prices=prices, waste=NOTHING_ADDED))
    )
    assert summary.cost.materials.amount == Decimal("100.00")
    assert summary.cost.unpriced == ("Glue",)


def test_sheets_are_bought_whole():
    """Two parts of 2000 x 1000 mm cannot share a sheet of 2440 x 1220 mm, whatever the area says."""
    sides = part(
        kind="panel", key="birch-plywood", qty=2, size=(2.0, 1.0, 0.018), price=Decimal("80"), per="sheet"
    )
    summary = summarise(job(sides))
    assert summary.panels.sheets[0].sheets == 2
    assert summary.cost.materials.amount == Decimal("160.00")


@pytest.mark.parametrize(
    ("kind", "inputs", "results"),
    [
        # common practice: 36 in dowels, pegs of 1 1/4 in, a kerf of 1/8 in
        (
            "lengths",
            {"stock_m": 36 * IN, "piece_m": 1.25 * IN, "kerf_m": IN / 8, "wanted": 48},
            {"lengths": 2, "per_length": 26},
        ),
        # common practice: four columns by twelve rows at 2 in are 48 holes, 22 in from first to last
        (
            "holes",
            {"rows": 12, "columns": 4, "spacing_m": 2 * IN},
            {"count": 48, "span_rows": 22 * IN, "span_columns": 6 * IN},
        ),
        # common practice: a 7 in board, re-sawn and opened, makes a 14 in matched panel
        (
            "resaw",
            {"thickness_m": IN, "width_m": 7 * IN, "leaf_m": 0.4 * IN, "kerf_m": IN / 8},
            {"leaves": 2, "matched_width": 14 * IN},
        ),
        # common practice: a hole bored at 5° rises its depth x tan 5°
        ("fall", {"run_m": 2 * IN, "angle_deg": 5.0}, {"fall": 2 * IN * 0.0874886635}),
        ("coat count", {"pieces": 14, "finish": "oil", "sides": 2}, {"coatings": 84}),
    ],
)
def test_workings_of_the_bench(kind, inputs, results):
    oil = Finish("oil", "hardwax-oil", coats=(date(2026, 1, 1), date(2026, 1, 2), date(2026, 1, 3)))
    worked = summarise(job(finishes=(oil,), workings=(Working(kind, "", inputs, {}),))).worked[0]
    got = {figure.name: figure.value for figure in worked.results}
    assert {name: got[name] for name in results} == pytest.approx(results)


def test_an_empty_job_has_figures_of_nothing():
    summary = summarise(job())
    assert (summary.timber.net_m3, summary.mass.total_kg, summary.hours.total_h) == (0, 0, 0)
    assert summary.hanging is None


def test_nothing_is_earned_on_a_piece_that_is_not_delivered():
    entries = (LogEntry(date(2026, 1, 5), "", "", hours=(Hours("joinery", 6.0),)),)
    shop = Shop(currency="EUR", hour_rate=Decimal("50"))
    cost = summarise(job(entries=entries, shop=shop, price=Decimal("1000"))).cost
    assert cost.labour == Money(Decimal("300.00"), "EUR")
    assert (cost.margin_pct, cost.earned_per_hour) == (None, None)


def test_a_veneer_moves_with_what_it_is_glued_to():
    assert summarise(job(part("Veneer", size=(0.6, 0.3, 0.0008), fit="glued"))).movement == ()

"""What the wood of a job cost: by its tally, by one price for the same stock, by the board that leaves are sawn from.
Sums worked by hand.
"""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job import read_job
from buildbook.job.log_model import Hours, LogEntry
from buildbook.job.model import Board, Job, Working
from buildbook.job.shop_model import Allowances, Price, Shop
from buildbook.job.table.parts import read_parts
from buildbook.pages.log.tables import tables_of
from buildbook.pages.phrases import Phrases
from buildbook.problems import Problems
from buildbook.summary import summarise
from buildbook.summary.timber import rough_parts
from tests.trade.reference import FOOT, INCH

EXACT = Allowances(over_length_m=0.0, over_width_m=0.0, waste_pct=0.0)
HEAD = "part,qty,material,length,width,thickness,stock,price,per,working"


def job_of(*rows, workings=(), prices=(), units="in", waste=EXACT):
    problems = Problems()
    parts = read_parts("\n".join((HEAD, *rows)).encode(), units, problems)
    assert not problems.errors, list(map(str, problems))
    return Job(
        "a-job",
        units=units,
        parts=parts,
        workings=workings,
        shop=Shop(units=units, prices=prices, waste=waste),
    )


def tally(*boards, wood=""):
    """A tally of boards of thickness and width in inches and length in feet."""
    measured = tuple(Board(t * INCH, w * INCH, n * FOOT) for t, w, n in boards)
    return Working("tally", "", {"boards": measured} | ({"wood": wood} if wood else {}), {})


def cost_of(job):
    return summarise(job).cost


# -- the tally -----------------------------------------------------------------------------------


def test_wood_costs_what_the_tally_says_was_bought():
    """Two boards of 4/4, 6 in x 8 ft: surface measure 4 each, 8 bd ft at 10.00 are 80.00; the parts alone would be 2 bd ft."""
    job = job_of("Side,2,white oak,24,6,3/4,4/4,10.00,bf,", workings=(tally((1, 6, 8), (1, 6, 8)),))
    assert cost_of(job).materials.amount == Decimal("80.00")
    assert cost_of(job_of("Side,2,white oak,24,6,3/4,4/4,10.00,bf,")).materials.amount == Decimal("20.00")
    assert summarise(job).timber.species[0].cost.amount == Decimal("80.00")


def test_a_tally_is_paid_by_volume_where_the_price_is_for_that():
    """6 in x 8 ft x 1 in twice: 2 x 0.009438948 m3 at 4000 are 75.51."""
    job = job_of("Side,2,white oak,24,6,3/4,4/4,4000,m3,", workings=(tally((1, 6, 8), (1, 6, 8)),))
    assert cost_of(job).materials.amount == Decimal("75.51")


def test_each_thickness_of_a_tally_has_its_own_price():
    """8 bd ft of 4/4 at 10 and 8 of 8/4 at 15: 200; each row bears what its own boards cost."""
    job = job_of(
        "Side,2,white oak,24,6,3/4,4/4,10,bf,",
        "Leg,4,white oak,24,2,1 3/4,8/4,15,bf,",
        workings=(tally((1, 6, 8), (1, 6, 8), (2, 6, 8)),),
    )
    assert cost_of(job).materials.amount == Decimal(200)


def test_a_part_thicker_than_any_board_of_the_tally_is_paid_by_itself():
    """The leg is 24 x 2 x 2 in, 2/3 bd ft, four of them 2.667 at 15: 40.00, beside 80.00 of the tally."""
    job = job_of(
        "Side,2,white oak,24,6,3/4,4/4,10,bf,",
        "Leg,4,white oak,24,2,1 3/4,8/4,15,bf,",
        workings=(tally((1, 6, 8), (1, 6, 8)),),
    )
    assert cost_of(job).materials.amount == Decimal("120.00")


def test_a_blank_bought_by_the_piece_takes_no_share_of_the_tally():
    job = job_of(
        "Side,2,white oak,24,6,3/4,4/4,10,bf,",
        "Knob,2,white oak,2,1,1,4/4,3.50,each,",
        workings=(tally((1, 6, 8)),),
    )
    assert cost_of(job).materials.amount == Decimal("47.00")


def test_a_tally_without_a_price_leaves_its_parts_unpriced():
    cost = cost_of(job_of("Side,2,white oak,24,6,3/4,4/4,,,", workings=(tally((1, 6, 8)),)))
    assert (cost.materials.amount, cost.unpriced) == (Decimal(0), ("Side",))


def test_a_tally_takes_the_price_of_the_list():
    job = job_of(
        "Side,2,white oak,24,6,3/4,4/4,,,",
        workings=(tally((1, 6, 8)),),
        prices=(Price("white oak", Decimal(9), "board_foot"),),
    )
    assert cost_of(job).materials.amount == Decimal("36.00")


WIDTH, LENGTH = st.integers(4, 14), st.integers(2, 16)


@given(
    boards=st.lists(st.tuples(st.sampled_from([1, 1.25, 2]), WIDTH, LENGTH), min_size=1, max_size=6),
    rows=st.lists(
        st.tuples(st.integers(1, 9), st.integers(3, 60), st.integers(1, 9)), min_size=1, max_size=5
    ),
    price=st.decimals(1, 99, places=2),
)
def test_whatever_is_shared_out_adds_up_to_what_was_bought(boards, rows, price):
    lines = [f"Part {n},{q},white oak,{a},{b},3/4,4/4,{price},bf," for n, (q, a, b) in enumerate(rows)]
    found = summarise(job_of(*lines, workings=(tally(*boards),)))
    (oak,) = found.timber.species
    by_stock = {}
    for t, w, n in boards:
        by_stock.setdefault(t, []).append(int(n * w / 12 + 0.5))
    wanted = sum((price * int(sum(m) * t + 0.5) for t, m in by_stock.items()), Decimal(0))
    assert found.cost.materials.amount == wanted == oak.cost.amount
    assert found.cost.unpriced == ()


# -- one price -----------------------------------------------------------------------------------


def test_one_price_serves_the_same_wood_and_stock():
    """1 bd ft each; the third is of other stock and has no price."""
    job = job_of(
        "Side,1,white oak,24,6,3/4,4/4,10,bf,",
        "Back,1,White Oak,24,6,3/4,4/4,,,",
        "Leg,1,white oak,24,6,1 3/4,8/4,,,",
    )
    assert (cost_of(job).materials.amount, cost_of(job).unpriced) == (Decimal("20.00"), ("Leg",))


def test_a_price_of_the_job_comes_before_the_list():
    job = job_of(
        "Side,1,white oak,24,6,3/4,4/4,10,bf,",
        "Back,1,white oak,24,6,3/4,4/4,,,",
        prices=(Price("white oak", Decimal(99), "board_foot"),),
    )
    assert cost_of(job).materials.amount == Decimal("20.00")


def test_two_prices_of_one_stock_serve_only_their_own_rows():
    job = job_of(
        "Side,1,white oak,24,6,3/4,4/4,10,bf,",
        "Back,1,white oak,24,6,3/4,4/4,12,bf,",
        "Top,1,white oak,24,6,3/4,4/4,,,",
    )
    assert (cost_of(job).materials.amount, cost_of(job).unpriced) == (Decimal("22.00"), ("Top",))


def test_a_price_for_one_piece_serves_no_other():
    job = job_of("Knob,1,white oak,2,1,1,8/4,3,each,", "Bead,1,white oak,2,1,1,8/4,,,")
    assert cost_of(job).unpriced == ("Bead",)


def test_one_price_serves_the_same_sheet():
    rows = ("Back,1,birch plywood,600,400,12,,80,sheet,", "Bottom,1,birch plywood,600,400,12,,,,")
    assert cost_of(job_of(*rows, units="mm")).unpriced == ()
    assert cost_of(job_of(*rows, units="mm")).materials.amount == Decimal("80.00")


# -- leaves out of one board ---------------------------------------------------------------------


def resaw(title="Panels", thickness=2.0, width=7.0, leaf=0.25, kerf=0.125, clean=0.0):
    given = {"thickness_m": thickness, "width_m": width, "leaf_m": leaf, "kerf_m": kerf, "clean_up_m": clean}
    return Working("resaw", title, {k: v * INCH for k, v in given.items()}, {"thickness": "8/4"})


def test_a_resawn_part_takes_its_stock_from_its_working():
    """8/4 into leaves of 1/4 with a kerf of 1/8: (2 + 1/8) / (3/8) = 5 whole leaves. Five leaves 24 x 6 are one board of
    24 x 6 x 2 in: 2 bd ft. Without the working five parts of 4/4 would be 5.
    """
    job = job_of("Panel,5,white oak,24,6,1/4,,10,bf,Panels", workings=(resaw(),))
    (part,) = rough_parts(job)
    assert (part.stock, part.stock_m) == ("8/4", pytest.approx(2 * INCH))
    assert part.rough_bf == pytest.approx(2.0)
    assert cost_of(job).materials.amount == Decimal("20.00")


def test_a_board_more_where_the_leaves_do_not_go_round():
    (part,) = rough_parts(job_of("Panel,6,white oak,24,6,1/4,,,,Panels", workings=(resaw(),)))
    assert part.rough_bf == pytest.approx(4.0)


def test_rows_of_one_size_share_their_boards():
    """Two leaves and three are one board of five."""
    rows = ("Left,2,white oak,24,6,1/4,,,,Panels", "Right,3,white oak,24,6,1/4,,,,panels")
    left, right = rough_parts(job_of(*rows, workings=(resaw(),)))
    assert (left.rough_bf, right.rough_bf) == (pytest.approx(0.8), pytest.approx(1.2))


def test_a_part_wider_than_the_board_is_of_leaves_side_by_side():
    """14 in out of a board of 7: two leaves each; two panels are four leaves of one board 24 x 7 x 2: 2.333 bd ft."""
    (part,) = rough_parts(job_of("Panel,2,white oak,24,14,1/4,,,,Panels", workings=(resaw(),)))
    assert part.rough_bf == pytest.approx(7 / 3)


@given(
    qty=st.integers(1, 40),
    width=st.integers(2, 40),
    leaf=st.integers(1, 16),
    kerf=st.integers(1, 4),
    clean=st.integers(0, 2),
)
def test_more_is_never_in_the_piece_than_is_bought(qty, width, leaf, kerf, clean):
    working = resaw(leaf=leaf / 16, kerf=kerf / 16, clean=clean / 16)
    job = job_of(f"Panel,{qty},white oak,24,{width},{leaf}/16,,,,Panels", workings=(working,))
    (part,) = rough_parts(job)
    assert part.net_m3 <= part.rough_m3 * (1 + 1e-9)
    assert part.rough_m3 <= part.buy_m3


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("Panel,5,white oak,600,150,6,,,,Panel", "is no resaw"),
        ("Panel,5,white oak,600,150,9,,,,Panels", "thicker than a leaf"),
        ("Panel,5,white oak,600,150,6,27 mm,,,Panels", "27 mm"),
        ("Panel,5,white oak,600,150,6,,,,Whole", "no leaf"),
    ],
)
def test_what_does_not_go_with_its_working_is_told(tmp_path, row, said):
    (tmp_path / "parts.csv").write_text(f"{HEAD}\n{row}\n")
    (tmp_path / "job.toml").write_text(
        '[[worked]]\nkind = "resaw"\ntitle = "Panels"\nthickness = "52 mm"\nwidth = "180 mm"\nleaf = "6 mm"\n'
        '[[worked]]\nkind = "resaw"\ntitle = "Whole"\nthickness = "52 mm"\nwidth = "180 mm"\nleaf = "60 mm"\n'
    )
    told = [problem for problem in read_job(tmp_path).problems if problem.severity == "error"]
    assert len(told) == 1
    assert said in told[0].message
    assert (told[0].row, told[0].field) == (2, "working")


# -- what has no price ---------------------------------------------------------------------------


def test_a_total_that_lacks_a_price_says_so_wherever_it_stands():
    priced, bare = "Side,1,white oak,24,6,3/4,4/4,10,bf,", "Leg,1,white oak,24,6,1 3/4,8/4,,,"

    def ledgers(*rows):
        job = job_of(*rows)
        entries = (LogEntry(date(2026, 3, 2), "Day", "", hours=(Hours("joinery", 2.0),)),)
        shop = replace(job.shop, hour_rate=Decimal(50))
        job = replace(job, shop=shop, entries=entries, price=Decimal(500), delivered=date(2026, 4, 1))
        return {table.key: table for table in tables_of(job, summarise(job), Phrases.of(job))}

    whole, lacks = ledgers(priced), ledgers(priced, bare)
    assert not any("at least" in cell or "at most" in cell for row in whole["cost"].rows for cell in row)
    said = dict(row[:2] for row in lacks["cost"].rows)
    assert said["Materials"] == "at least €10.00"
    assert said["Total"] == "at least €110.00"
    assert said["Margin"].startswith("at most 78.0")
    assert said["Earned an hour"] == "at most €245.00"
    assert (said["Labour"], said["Price"]) == ("€100.00", "€500.00")
    assert lacks["stock"].rows[0][-1] == "at least €10.00"

"""Both pieces reckoned alike: at the newest prices of the list, hours by what each stage goes with."""

from decimal import Decimal

import pytest

from buildbook.job import read_job
from buildbook.resized.again import resize
from buildbook.resized.figures import alike, figures_of
from buildbook.resized.wanted import read_sizes
from tests.conftest import ROOT

PARTS = """part,qty,kind,material,length,width,thickness,stock,price,per
Top,1,wood,European oak,1000,400,27,32 mm,1000,m3
Back,1,panel,MDF,1000,500,6,,30,sheet
Pane,1,glass,float glass,1000,300,4,,40,each
Hinge,2,hardware,brass hinge,60,30,2,,9.50,each
"""
PRICES = "material,price,per,date\nEuropean oak,2000,m3,2024-01-01\nEuropean oak,3000,m3,2026-01-01\nMDF,44,sheet,2020-05-01\n"
NOTES = "## 2023-02-01 Work\n\nHours: milling 4, design 2, mystery 1\n"


@pytest.fixture
def both(make_job):
    past = make_job(
        "past",
        **{
            "job.toml": 'units = "mm"\ndelivered = 2023-03-01\nprice = 900\noverall = { width = "1000", depth = "400" }\n',
            "parts.csv": PARTS,
            "notes.md": NOTES,
        },
    )
    (past.parent / "shop.toml").write_text('currency = "EUR"\n', "utf-8")
    (past.parent / "prices.csv").write_text(PRICES, "utf-8")
    job = read_job(past)
    resized = resize(alike(job, job.shop), read_sizes(["width 1500"], "mm"))
    return job, resized, figures_of(resized, job)


def test_the_newest_prices_of_the_list_count_for_both(both):
    _, _, figures = both
    for summary, length in ((figures.old, 1.0), (figures.new, 1.5)):
        timber = summary.timber
        oak = Decimal(str(round(timber.buy_m3 * 3000, 2)))
        assert summary.cost.materials.amount == pytest.approx(
            oak + 44 + 19, abs=Decimal("0.02")
        )  # hinges as then
        # a board of 32 mm, so much longer and wider as the shop cuts over, and its waste
        over = (
            (length + timber.over_length_m)
            * (0.4 + timber.over_width_m)
            * 0.032
            * (1 + timber.waste_pct / 100)
        )
        assert timber.buy_m3 == pytest.approx(over)


def test_what_is_bought_to_size_has_no_price_at_another(both):
    *_, figures = both
    assert figures.new.cost.unpriced == figures.old.cost.unpriced == ("Pane",)
    assert figures.then == ("Hinge",)


def test_hours_go_with_what_their_stage_goes_with(both):
    *_, figures = both
    hours = {one.stage: one for one in figures.hours}
    ratio = figures.new.timber.rough_m3 / figures.old.timber.rough_m3
    assert (hours["milling"].driver, hours["milling"].new_h) == ("rough_volume", pytest.approx(4 * ratio))
    assert (hours["design"].new_h, hours["mystery"].new_h, hours["mystery"].driver) == (2, 1, "")


def test_no_price_of_the_client_and_no_tally_of_the_past_is_reckoned_with():
    job = read_job(ROOT / "tests" / "shelf" / "2024-015-hall-table", pictures=False)
    assert any(one.kind == "tally" for one in job.workings)
    again = alike(job, job.shop)
    assert (again.price, again.client, again.quoted, again.climate, again.made_at) == (
        None,
        "",
        None,
        None,
        None,
    )
    assert all(one.kind != "tally" for one in again.workings)


def test_a_set_is_told_for_one(make_job):
    text = "part,qty,kind,material,length,width,thickness\nTop,2,wood,European oak,1000,400,27\n"
    past = make_job(
        "past",
        **{
            "job.toml": 'units = "mm"\nquantity = 2\nparts_for = "all"\noverall = { width = "1000" }\n',
            "parts.csv": text,
        },
    )
    job = read_job(past)
    figures = figures_of(resize(alike(job, job.shop), read_sizes(["width 2000"], "mm")), job)
    assert figures.each_kg[0] == pytest.approx(figures.old.mass.total_kg / 2)
    assert figures.each_kg[1] == pytest.approx(2 * figures.each_kg[0])

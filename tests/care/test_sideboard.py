"""A whole piece: exactly the instructions that it calls for, in their order."""

from collections import Counter
from datetime import date
from itertools import chain

import pytest

from buildbook.care import choose
from buildbook.care.rules import SEASONS
from buildbook.job import read_job
from buildbook.job.shop_model import Climate
from buildbook.pages.client.handover import client_piece
from buildbook.pages.phrases import Phrases
from buildbook.summary import summarise
from buildbook.summary.model import Air, Mass
from tests.care.pieces import (
    WORDS,
    coated,
    finished,
    hardware,
    moving,
    pane,
    panel,
    piece,
    size,
    stone,
    use_of,
    wood,
)
from tests.conftest import SAMPLE

MOST_AT_A_TIME = {
    "now": 3, "week": 9, "month": 2, "year": 6, "seasons": 5, "moving": 5, "changing": 4, "another": 2, "passing": 4,
    "mend": 8, "caution": 9,
}  # fmt: skip
"""What a tired person can take in at once, for a large piece of several materials."""

OIL = coated("hardwax-oil", product="clear satin hardwax oil")


@pytest.fixture(scope="module")
def sideboard():
    """Oak and walnut, 780 mm high, 54 kg, for a room with dry winters."""
    made = piece(
        wood("european-oak", "Carcass", finish="body", origin="estate tree, felled in 2021"),
        wood("black-walnut", "Door panel", finish="body"),
        wood("european-oak", "Drawer side", finish="body"),
        panel("Back"),
        pane("Glass shelf", "toughened"),
        stone("slate", "Slate slab"),
        hardware("neodymium magnet", "Door catch"),
        hardware("unlacquered brass", "Knob"),
        hardware("stainless steel", "Hinge screws"),
        finishes=[OIL],
        piece="sideboard",
        title="Sideboard",
        stands="floor",
        drawers=3,
        doors=2,
        overall=size(1600, 450, 780),
        delivered=date(2026, 4, 11),
        climate=Climate(30, 55, 20),
        use="indoors, at home",
    )
    return made.figured(
        mass=Mass(total_kg=54.0),
        air=Air(8, 6, 10, 30, 55, 20),
        finish=(use_of(OIL, full_cure_to=date(2026, 4, 17)),),
        movement=(moving(2, "Carcass", grows_m=0.0022, shrinks_m=0.0019),),
    )


def test_it_gets_exactly_these_in_this_order(sideboard):
    assert [item.key for item in sideboard.care if item.severity == "warning"] == [
        "oily-rags", "tip-over", "magnets-children", "wood-dust",
    ]  # fmt: skip
    assert [item.key for item in sideboard.care if item.severity == "caution"] == [
        "tip-fixing-year", "glass-broken", "sanding-dust-fire", "solvent-vapour", "stone-weight",
        "heavy-lift", "glass-shelf-load", "tip-drawers", "no-television", "magnets-implants", "candle-heat",
    ]  # fmt: skip
    assert [item.key for item in sideboard.care if item.severity == "note"] == [
        "cure-before-use", "clean-hardwax-oil", "plasticiser-marks", "water-fair", "ammonia-silicone",
        "tannin-wood", "floor-wet", "stone-slate", "glass-clean", "brass-unlacquered", "year-oiled",
        "hinge-screws", "drawer-wax", "rh-band", "air-dry", "sticking", "radiator", "sun-patches",
        "renew-hardwax-oil", "irritant-dust", "moving-out",
        "moving-glass", "storage", "fix-wall", "drill-case", "alter", "another", "maker-gone", "hand-on",
        "keep-invoice", "genuine-unmarked", "end", "baby", "formaldehyde-panels", "hurt", "salvage-claims",
    ]  # fmt: skip
    severities = [item.severity for item in sideboard.care]
    assert severities == sorted(severities, key=["warning", "caution", "note"].index)
    assert [item.order for item in sideboard.care] == list(range(len(sideboard.care)))


def test_these_stand_short_at_the_top(sideboard):
    assert [item.short for item in sideboard.care if item.day_one] == [
        "Fix it to the wall before use, so that it cannot tip.",
        "Small magnets: if one comes loose, keep it from children and call the maker.",
        "Load the glass shelf lightly, and never if an edge is chipped.",
        "Keep pacemakers and other implants 15\u202fcm (6\u202fin) away from the magnets.",
        "Go gently until the finish is hard: the clear satin hardwax oil until 17\u00a0April 2026.",
    ]


@pytest.mark.parametrize(
    ("key", "why"),
    [
        ("oily-rags", "Heat builds up in rags wet with the clear satin hardwax oil."),
        ("tannin-wood", "There is much tannin in the European oak and the black walnut."),
        ("tip-over", "It stands free, 780\u202fmm high and about 54\u202fkg (119\u202flb)."),
        ("brass-unlacquered", "Nothing covers the brass."),
        ("stone-weight", "Flat, the slate slab can crack under its own weight."),
        ("air-dry", "Your rooms are expected to fall to 30\u202f% humidity."),
        ("moving-out", "Left loose, the drawers, the doors and the shelves would slide, swing or fall."),
        ("rh-band", "Its widest part, the carcass, moves about 4.1\u202fmm over your year."),
        ("sun-patches", "Light changes the colour of the European oak and the black walnut,"),
    ],
)
def test_each_says_why_this_piece_gets_it(sideboard, key, why):
    assert why in sideboard.item(key).why


def test_what_only_the_maker_needs_is_marked(sideboard):
    assert {item.key for item in sideboard.care if not item.for_client} == {
        "glass-broken", "wood-dust", "irritant-dust", "sanding-dust-fire", "salvage-claims",
    }  # fmt: skip


def test_a_whole_job_gets_no_more_than_an_owner_can_use():
    job = read_job(SAMPLE)
    read = [item for item in choose(job, summarise(job), WORDS) if item.for_client]
    assert len(read) <= 53
    times = Counter(item.season for item in read)
    assert set(times) == set(SEASONS) - {"half-year"}
    assert all(times[season] <= most for season, most in MOST_AT_A_TIME.items())
    assert {item.key for item in read if item.severity == "warning"} == {
        "oily-rags", "tip-over", "magnets-children",
    }  # fmt: skip


def test_every_instruction_of_a_whole_job_has_one_place_on_the_page():
    job = read_job(SAMPLE)
    summary = summarise(job)
    care = choose(job, summary, WORDS)
    page = client_piece(job, summary, care, Phrases.of(job))
    groups = {group.key: group.items for group in (*page.everyday, *page.care, *page.moving)}
    assert list(groups) == ["do", "never", "with", "month", "year", "now", "moving", "changing"]
    shown = [*chain(*groups.values()), *page.seasons.advice, *page.mending, *page.dangers, *page.cautions]
    shown += [*page.another, *page.passing]
    assert sorted(item.key for item in shown) == sorted(item.key for item in care if item.for_client)
    assert "heat-sources" in {item.key for item in page.seasons.advice}
    assert "heavy-lift" in {item.key for item in groups["moving"]}


def test_a_plain_oiled_bench_gets_little():
    bench = finished("hardwax-oil", piece="bench", stands="floor", overall=size(1400, 350, 450), mass_kg=18)
    read = [item for item in bench.care if item.for_client]
    assert len(read) <= 29
    assert [item.key for item in read if item.severity == "warning"] == ["oily-rags"]

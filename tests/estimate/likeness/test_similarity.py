"""Likeness: Gower's coefficient worked by hand from its definition, and what must hold of it."""

import math
from pathlib import Path

import pytest

from buildbook.estimate.likeness.in_work import LikeInWork
from buildbook.estimate.likeness.similarity import compare, likeness, ranges_of
from buildbook.estimate.likeness.traits import Traits, drivers_of, piece_of, traits_of
from buildbook.estimate.settings import likeness_rules
from buildbook.job import find_jobs, read_job
from buildbook.summary import summarise
from buildbook.words import Words

SHELF = Path(__file__).parents[2] / "shelf"
NONE = {t.name: None for t in likeness_rules().traits} | {
    "size": (None, None, None), "woods": {}, "joinery": frozenset(), "finish": frozenset(), "tags": frozenset(),
    "doors": 0.0, "drawers": 0.0,
}  # fmt: skip


def piece(**values):
    return Traits(NONE | values, dict.fromkeys(NONE, ""))


def like(here, there, others=()):
    return likeness(compare(here, there, ranges_of([here, there, *others])))


@pytest.fixture(scope="module")
def shelf():
    jobs = [(job, summarise(job)) for job in map(read_job, find_jobs(SHELF))]
    return {job.key: (job, summary, traits_of(piece_of(job, summary), Words("en"))) for job, summary in jobs}


def test_by_hand():
    """S = sum of w * s over sum of w of what can be compared (Gower 1971, eq. 1 and 5). Weights of likeness.toml: piece
    3, size 2, woods 1.5, joinery 2, doors 1. Sizes by logarithm over the range of the shelf, here 1 m to 4 m.
    """
    here = piece(
        piece="table", size=(1.0, None, None), woods={"ash": 1.0}, joinery=frozenset({"mortise", "tenon"})
    )
    there = piece(
        piece="desk",
        size=(2.0, None, None),
        woods={"ash": 0.25, "oak": 0.75},
        joinery=frozenset({"tenon", "dovetail"}),
        doors=1.0,
    )
    other = piece(size=(4.0, None, None), doors=3.0)
    size = 1 - math.log(2) / math.log(4)
    doors = 1 - math.log(2) / math.log(4)
    wanted = (3 * 0.5 + 2 * size + 1.5 * 0.25 + 2 * (1 / 3) + 1 * doors) / (3 + 2 + 1.5 + 2 + 1)
    assert like(here, there, [other]) == pytest.approx(wanted)


def test_what_both_lack_does_not_count():
    """Gower's delta is 0 where a trait is lacking in both: two pieces without doors are not alike for that."""
    compared = compare(piece(piece="table"), piece(piece="table"), ranges_of([piece()]))
    assert [item.trait for item in compared] == ["piece"]


def test_a_piece_is_wholly_like_itself_and_nothing_is_more(shelf):
    every = [traits for _, _, traits in shelf.values()]
    ranges = ranges_of(every)
    for here in every:
        for there in every:
            alike = likeness(compare(here, there, ranges))
            assert 0 <= alike <= 1
            assert (alike == pytest.approx(1)) == (here is there)


@pytest.mark.parametrize(
    ("key", "likest"),
    [
        ("2024-015-hall-table", "2025-002-extending-table"),
        ("2022-006-glazed-bookcase", "2024-003-kitchen-dresser"),
        ("2022-021-garden-bench", "2023-017-reading-chair"),
    ],
)
def test_on_the_shelf_a_maker_would_agree(shelf, key, likest):
    every = {name: traits for name, (_, _, traits) in shelf.items()}
    ranges = ranges_of(every.values())
    order = sorted(
        (name for name in every if name != key),
        key=lambda name: -likeness(compare(every[key], every[name], ranges)),
    )
    assert likest in order[:2], order


def test_pieces_by_name_and_family():
    def kind(here, there):
        return like(piece(piece=here), piece(piece=there))

    assert kind("table", "table") == 1
    assert kind("hall bench", "garden bench") == pytest.approx(likeness_rules().same_head)
    assert kind("esstisch", "tisch") == pytest.approx(likeness_rules().same_head)
    assert kind("cupboard", "dresser") == pytest.approx(likeness_rules().family_alike)
    assert kind("kommode", "chest of drawers") == pytest.approx(likeness_rules().same_head)
    assert kind("tv stand", "anrichte") == pytest.approx(likeness_rules().family_alike)
    assert kind("chair", "bookcase") == kind("stand", "tv stand of sorts") == 0


def test_more_parts_change_nothing_of_how_hours_are_weighed(shelf):
    """What parts.csv gives must not move the weights of past jobs: else more parts might take less."""
    from_parts = {"size", "woods", "parts", "panes", "doors", "drawers"}
    assert {trait.name for trait in likeness_rules().traits if trait.hours}.isdisjoint(from_parts)
    _job, _summary, traits = shelf["2024-003-kitchen-dresser"]
    assert 0 < LikeInWork([shelf["2021-019-tool-cupboard"][2]]).to(traits)[0] < 1


def test_drivers_are_counted_from_the_parts(shelf):
    """Counted by hand from parts.csv of the dresser."""
    job, summary, _ = shelf["2024-003-kitchen-dresser"]
    drivers = drivers_of(job, summary)
    assert drivers["wood_parts"] == sum(p.qty for p in job.parts if p.kind in ("wood", "panel")) == 56
    assert drivers["doors_drawers"] == 5
    assert drivers["hardware"] == 4 + 2 + 3 + 1  # bolts are not counted
    assert drivers["panes"] == 0
    assert drivers["finish_area"] == pytest.approx(sum(f.area_m2 * f.coats for f in summary.finish))

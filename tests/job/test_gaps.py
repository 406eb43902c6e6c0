"""What the record of the piece lacks is named once, with what the page would gain."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from buildbook.job.gaps import WANTED, record_gaps
from buildbook.job.holding_model import PlaceLoad
from buildbook.job.model import Finish, Job, Part, Photo, Size
from buildbook.job.shop_model import Shop
from buildbook.quantity import Length

WHOLE = Job(
    folder="a-job",
    number="1",
    title="Table",
    piece="table",
    delivered=date(2026, 4, 11),
    overall=Size(*(Length(1, "1 m") for _ in range(3))),
    joinery=("dovetail",),
    marks="branded",
    features=("one board",),
    description="A table.",
    use="indoors",
    fitting="four feet",
    limits=("no more than 50 kg",),
    guarantee="two years",
    finishes=(Finish("body", "soap"), Finish("top", "shellac", product="blonde shellac", sheen="silk")),
    parts=(Part(2, "Top", 1, "wood", "oak"),),
    photos=(Photo("photos/a.jpg", Path("a.jpg"), 1, 1, None, "x", "The front"),),
    lead="photos/a.jpg",
    shop=Shop(name="The Workshop", address="1 Some Yard", email="workshop@example.org"),
)


def test_a_whole_record_lacks_nothing():
    assert record_gaps(WHOLE) == []


def test_an_empty_record_lacks_everything_that_is_asked_for():
    gaps = record_gaps(Job(folder="a-job"))
    not_asked = {"adjusting", "loads", "may_drill"}  # of a piece without doors, drawers and shelves
    assert len(gaps) == len(WANTED) - len(not_asked) - 1  # and of no finish what stands on its tin
    assert not not_asked & {gap.field for gap in gaps}
    assert {gap.severity for gap in gaps} == {"warning"}


def test_a_gap_says_who_asks_and_what_the_page_gains():
    assert [str(gap) for gap in record_gaps(replace(WHOLE, marks=""))] == [
        "job.toml, marks: The record lacks how it is marked (number, name, postal and electronic address)"
        " (Object ID; Regulation (EU) 2023/988, article 9)."
        " With it the piece can be known as this one, and who made it."
    ]
    assert [str(gap) for gap in record_gaps(replace(WHOLE, shop=Shop(name="The Workshop")))] == [
        "shop.toml, address: The record lacks a postal address (Regulation (EU) 2023/988, article 9)."
        " With it the client knows where to write.",
        "shop.toml, email: The record lacks an electronic address (Regulation (EU) 2023/988, article 9)."
        " With it the client knows where to ask.",
    ]


def test_doors_ask_how_they_are_adjusted():
    assert [gap.field for gap in record_gaps(replace(WHOLE, doors=2))] == ["adjusting"]


def test_sizes_are_all_three_or_lacking():
    assert [gap.field for gap in record_gaps(replace(WHOLE, overall=Size(Length(1, "1 m"))))] == ["overall"]


def test_what_is_no_furniture_is_not_asked_for_what_furniture_must_say():
    asked = {
        kind: {problem.field for problem in record_gaps(Job("a-job", piece=kind))}
        for kind in ("bowl", "chair", "thing")
    }
    assert asked["chair"] - asked["bowl"] == {"fitting", "limits"}
    assert {"fitting", "limits"} <= asked["thing"]


@pytest.mark.parametrize(
    ("facts", "asked"),
    [
        ({"piece": "sideboard", "drawers": 3}, {"loads", "may_drill"}),
        ({"piece": "bookcase"}, {"loads", "may_drill"}),
        ({"piece": "bookcase", "loads": (PlaceLoad(12, "on each shelf"),), "may_drill": "the back"}, set()),
        ({"piece": "table", "drawers": 0}, set()),
        ({"piece": "bowl"}, set()),
    ],
)
def test_what_holds_things_is_asked_what_it_carries_and_where_it_may_be_drilled(facts, asked):
    fields = {gap.field for gap in record_gaps(replace(WHOLE, adjusting="the hinges turn", **facts))}
    assert fields == asked


@pytest.mark.parametrize(
    ("finish", "asked"),
    [
        (Finish("body", "hardwax-oil"), True),
        (Finish("body", "hardwax-oil", product="clear oil"), True),
        (Finish("body", "hardwax-oil", product="clear oil", sheen="matt"), False),
        (Finish("body", "unfinished"), False),
    ],
)
def test_a_finish_is_asked_for_what_stands_on_its_tin(finish, asked):
    gaps = record_gaps(replace(WHOLE, finishes=(finish,)))
    assert [gap.field for gap in gaps] == (["finish"] if asked else [])

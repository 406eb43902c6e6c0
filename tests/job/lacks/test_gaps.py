"""What the record of the piece lacks is named once, with what the page would gain."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from buildbook.job.holding_model import PlaceLoad
from buildbook.job.lacks.gaps import asked_by, record_gaps, wanted
from buildbook.job.model import Finish, Job, Part, Photo, Size
from buildbook.job.shop_model import Shop
from buildbook.quantity import Length
from buildbook.words.told import sentence
from tests.words.test_told import english_in

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
    parts=(Part(2, "Top", 1, "wood", "oak", origin="a fallen tree"),),
    photos=(Photo("photos/a.jpg", Path("a.jpg"), 1, 1, None, "x", "The front"),),
    lead="photos/a.jpg",
    shop=Shop(name="The Workshop", address="1 Some Yard", email="workshop@example.org"),
)


def keys(job):
    return [gap.key for gap in record_gaps(job).missing]


def test_a_whole_record_lacks_nothing():
    ready = record_gaps(WHOLE)
    assert ready.missing == ()
    assert ready.there == ready.of > 20


def test_an_empty_record_lacks_everything_that_is_asked_for():
    ready = record_gaps(Job(folder="a-job"))
    not_asked = {"adjusting", "loads", "may-drill"}  # of a piece without doors, drawers and shelves
    not_asked |= {"tin", "origin", "caption"}  # and of no finish, no wood and no picture
    assert {gap.key for gap in ready.missing} == {one.key for one in wanted()} - not_asked
    assert (ready.there, ready.of) == (0, len(ready.missing))


def test_the_weightiest_comes_first():
    """In the order that a maker would see to them: what the law asks for, then safety, then what is good to have."""
    found = keys(Job(folder="a-job", parts=(Part(2, "Top", 1, "wood", "cherry"),)))
    assert found[0] == "title"
    order = ["address", "number", "use", "limits", "origin", "description", "guarantee", "features"]
    assert [key for key in found if key in order] == order


def test_a_gap_says_what_the_page_goes_without_and_who_asks():
    assert [str(gap) for gap in record_gaps(replace(WHOLE, marks="")).missing] == [
        "no word on how it is marked (number, name, postal and electronic address): nobody will find out by the"
        " piece who made it [job.toml, marks; product safety law: name, address and number; the checklist by which"
        " a lost piece is known, Object ID]"
    ]
    assert [str(gap) for gap in record_gaps(replace(WHOLE, shop=Shop(name="The Workshop"))).missing] == [
        "no postal address: the client will not know where to write [shop.toml, address; product safety law: name,"
        " address and number]",
        "no electronic address: the client will not know where to ask [shop.toml, email; product safety law: name,"
        " address and number]",
    ]


@pytest.mark.parametrize(
    ("piece", "standard"),
    [
        ("table", " (EN 12521, tables)"),
        ("chair", " (EN 12520, seating)"),
        ("chest", " (EN 14749, storage)"),
        ("bed", ""),  # has standards of its own, as what stands outdoors or is made for children
        ("garden table", ""),
        ("high chair", ""),
        ("thing", ""),
    ],
)
def test_a_standard_is_named_by_what_it_asks(piece, standard):
    said = {
        gap.asked_by
        for gap in record_gaps(replace(WHOLE, piece=piece, title="A piece", use="")).missing
        if gap.key == "use"
    }
    assert said == {f"the furniture standards’ information for use{standard}"}


def test_each_wood_is_asked_once_where_it_came_from():
    parts = (
        Part(2, "Top", 1, "wood", "cherry", key="black-cherry"),
        Part(3, "Leg", 4, "wood", "American cherry", key="black-cherry"),
        Part(4, "Rail", 4, "wood", "ash", key="european-ash"),
        Part(5, "Stretcher", 1, "wood", "ash", key="european-ash", origin="a hedgerow"),
        Part(6, "Back", 1, "wood", "pine", country="Finland"),
        Part(7, "Jig", 1, "wood", "poplar", for_client=False),
        Part(8, "Hinge", 2, "hardware", "brass"),
    )
    ready = record_gaps(replace(WHOLE, parts=parts))
    assert [f"{gap.missing}: {gap.without}" for gap in ready.missing] == [
        "no origin for the cherry: the page will not say where it came from"
    ]
    assert ready.of == record_gaps(WHOLE).of + 2


def test_of_very_many_woods_the_rest_is_counted():
    parts = tuple(Part(row, "Strip", 1, "wood", f"wood {row}") for row in range(2, 502))
    ready = record_gaps(replace(WHOLE, parts=parts))
    assert len(ready.missing) == 13
    assert ready.missing[-1].missing == "no origin for the 488 other woods"
    assert ready.there + len(ready.missing) == ready.of


def test_doors_ask_how_they_are_adjusted():
    assert keys(replace(WHOLE, doors=2)) == ["adjusting"]


def test_sizes_are_all_three_or_lacking():
    assert keys(replace(WHOLE, overall=Size(Length(1, "1 m")))) == ["overall"]


def test_what_is_no_furniture_is_not_asked_for_what_furniture_must_say():
    asked = {kind: set(keys(Job("a-job", piece=kind))) for kind in ("bowl", "chair", "thing")}
    assert asked["chair"] - asked["bowl"] == {"fitting", "limits"}
    assert {"fitting", "limits"} <= asked["thing"]


@pytest.mark.parametrize(
    ("facts", "asked"),
    [
        ({"piece": "sideboard", "drawers": 3}, {"loads", "may-drill"}),
        ({"piece": "bookcase"}, {"loads", "may-drill"}),
        ({"piece": "bookcase", "loads": (PlaceLoad(12, "on each shelf"),), "may_drill": "the back"}, set()),
        ({"piece": "table", "drawers": 0}, set()),
        ({"piece": "bowl"}, set()),
    ],
)
def test_what_holds_things_is_asked_what_it_carries_and_where_it_may_be_drilled(facts, asked):
    assert set(keys(replace(WHOLE, adjusting="the hinges turn", **facts))) == asked


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
    assert keys(replace(WHOLE, finishes=(finish,))) == (["tin"] if asked else [])


SENTENCES = sorted(
    {text.replace("{1}", "“Wort”") for one in wanted() for text in (one.missing, one.without)}
    | set(asked_by().values())
    | {"12 other woods", "7 other pictures"}
)


@pytest.mark.parametrize("text", SENTENCES)
def test_german_has_every_sentence_of_the_tables(text):
    german = sentence(text, "de")
    assert german != text
    assert english_in(german) == []


def test_the_tables_fit_one_another():
    by = {one.asked_by for one in wanted()}
    assert by == {key.partition(".")[0] for key in asked_by()}
    assert len({one.worth for one in wanted()}) == len(wanted())
    assert all(1 <= one.worth <= 100 for one in wanted())

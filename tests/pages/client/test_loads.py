"""What an owner reads of loads: in all, each place, and plainly what is not recorded; nothing invented."""

from dataclasses import replace

import pytest

from buildbook.job.holding_model import PlaceLoad
from buildbook.job.model import Job
from buildbook.pages.client.loads import loads
from buildbook.pages.phrases import Phrases
from buildbook.words import Words
from tests.pages.made import plain

DRAWER, SHELF = PlaceLoad(15, "in each drawer"), PlaceLoad(10, "on the glass shelf")


def said(language="en", **facts):
    job = Job(folder="a-job", **facts)
    return [plain(line) for line in loads(job, replace(Phrases.of(job), words=Words(language)))]


def test_all_and_each_place_in_the_makers_order():
    assert said(piece="sideboard", drawers=3, contents_kg=60, loads=(DRAWER, SHELF)) == [
        "Load it with up to 60 kg in all, spread evenly.",
        "Up to 15 kg in each drawer.",
        "Up to 10 kg on the glass shelf.",
    ]


@pytest.mark.parametrize(
    ("facts", "untold"),
    [
        ({"piece": "chest of drawers", "drawers": 2}, "a drawer"),
        ({"piece": "sideboard", "drawers": 2, "loads": (SHELF,)}, "a drawer"),
        ({"piece": "bookcase", "drawers": 2}, "a drawer or a shelf"),
        ({"piece": "bookcase"}, "a shelf"),
    ],
)
def test_a_drawer_or_a_shelf_without_a_figure_is_said_to_have_none(facts, untold):
    assert said(**facts)[-1] == f"No figure is recorded for {untold}: ask the maker."


def test_what_stands_among_the_limits_is_a_figure_too():
    assert said(piece="chest of drawers", drawers=2, limits=("8 kg in each drawer",)) == []


def test_a_piece_without_either_has_nothing_to_say():
    assert said(piece="bowl") == []
    assert said(piece="table", contents_kg=None) == []


def test_a_seat_carries_people_and_each_of_a_set_its_own():
    assert said(piece="chair", contents_kg=110, quantity=6) == ["Each is built to carry up to 110 kg."]
    assert said("de", piece="Bett", contents_kg=280) == ["Gebaut für bis zu 280 kg."]


def test_an_inch_shop_reads_pounds():
    assert said(piece="sideboard", drawers=0, units="in", loads=(PlaceLoad(14.97, "on the flap"),)) == [
        "Up to 33 lb on the flap."
    ]

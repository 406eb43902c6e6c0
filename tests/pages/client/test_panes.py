"""The glass of a piece as its owner reads it: what each pane is, whether it breaks safely, what must replace it."""

from dataclasses import replace

import pytest

from buildbook.job.model import Job, Size
from buildbook.pages.client.panes import panes
from buildbook.pages.phrases import Phrases
from buildbook.summary import summarise
from buildbook.words import Words
from tests.pages.made import mm, part

SHARP = "This is not safety glass: it breaks into sharp pieces."


def shown(row, piece="display cabinet", language="en", **job):
    made = Job(folder="a-job", piece=piece, parts=(row,), **job)
    return panes(made, summarise(made), replace(Phrases.of(made), words=Words(language)))


def pane(name="Side pane", key="float", sides=(500, 300, 4), **more):
    return part(2, name, kind="glass", key=key, sides=sides, **more)


def test_a_pane_is_named_with_kind_and_size_its_edges_and_how_it_is_held():
    row = pane(
        "Glass shelf",
        "toughened",
        (486, 350, 6),
        material="toughened glass",
        edge="polished",
        held="on four brass pins",
    )
    (line,) = shown(row)
    assert line.label == "Glass shelf"
    assert line.value == "Toughened glass, 486 × 350 × 6\u202fmm"
    assert line.note.startswith("Edges: polished. Held: on four brass pins. It carries a load:")


def test_several_panes_are_one_line():
    assert shown(pane(qty=2))[0].label == "Side pane (2)"


def test_what_breaks_sharp_is_said_in_plain_words_and_what_breaks_safely_is_not_blamed():
    assert SHARP in shown(pane())[0].note
    assert SHARP not in shown(pane(key="laminated"))[0].note
    assert "scharfe Stücke" in shown(pane(), language="de")[0].note


@pytest.mark.parametrize(
    ("row", "job", "wanted"),
    [
        (pane(), {}, "Replace it with the same kind, no thinner"),
        (pane("Door pane"), {}, "should be safety glass"),
        (pane("Top"), {"piece": "coffee table"}, "should be safety glass"),
        (pane(), {"overall": Size(mm(900), mm(400), mm(900)), "stands": "floor"}, "should be safety glass"),
        (
            pane(),
            {"overall": Size(mm(900), mm(400), mm(2000)), "stands": "floor"},
            "the same kind, no thinner",
        ),
        (pane("Door pane", "toughened"), {}, "with the mark in the glass"),
        (pane("Shelf"), {}, "no weaker kind"),
        (pane("Door light", "leaded"), {}, "works in lead"),
        (pane("Door pane", "acrylic"), {}, "the same plastic"),
        (pane("Mirror", "safety-mirror"), {}, "for its mark to say"),
        (pane("Door pane", "", material="some old pane"), {}, "was not recorded"),
    ],
)
def test_what_must_come_in_its_place_follows_from_where_it_is(row, job, wanted):
    assert wanted in shown(row, **job)[0].note


def test_a_row_that_stays_in_is_not_listed_and_nothing_is_said_to_meet_a_rule():
    assert shown(pane(for_client=False)) == ()
    for key in ("float", "toughened", "laminated", "mirror", "wired"):
        assert "complies" not in shown(pane(key=key))[0].note

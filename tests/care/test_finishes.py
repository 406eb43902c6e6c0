"""Several finishes on one piece: each instruction once, and it says which surfaces it is for."""

from dataclasses import replace
from datetime import date

import pytest

from tests.care.cases import LINED
from tests.care.pieces import coated, finished, piece, use_of, wood

TWO = piece(
    wood(name="Top", finish="a"),
    wood(name="Drawer front", finish="b"),
    finishes=[coated("hardwax-oil", "a", product="clear satin hardwax oil"), coated("shellac", "b")],
)


def test_one_finish_is_not_named_before_its_instruction():
    assert finished("shellac").item("clean-shellac-lacquer").text.startswith("Dust with a soft, dry cloth")


def test_each_of_two_finishes_has_its_own_instruction_and_surfaces():
    assert TWO.item("clean-hardwax-oil").text.startswith("On the clear satin hardwax oil: Dust with")
    assert TWO.item("clean-shellac-lacquer").text.startswith("On the shellac: Dust with")


def test_what_holds_for_both_is_said_once_for_all():
    sprays = [item for item in TWO.care if item.key == "ammonia-silicone"]
    assert len(sprays) == 1
    assert sprays[0].text.startswith("Use no spray")
    assert not sprays[0].text.startswith("On ")


def test_two_finishes_that_share_an_instruction_share_its_sentence():
    three = TWO.but(
        parts=(*TWO.job.parts, replace(TWO.job.parts[0], row=9, name="Rail", finish="c")),
        finishes=(*TWO.job.finishes, coated("french-polish", "c")),
    )
    shared = [item for item in three.care if item.key == "alcohol-shellac"]
    assert len(shared) == 1
    assert shared[0].text.startswith("On the shellac and the french polish: Blot")


def test_two_finishes_of_one_name_are_told_apart_by_their_parts():
    made = TWO.but(finishes=(coated("shellac", "a"), coated("shellac", "b")))
    text = made.item("clean-shellac-lacquer").text
    assert text.startswith("Dust with")
    assert made.item("alcohol-shellac").why.endswith("the shellac (top) and the shellac (drawer front).")


INSIDE = {
    "clean-shellac-lacquer",
    "water-weak",
    "heat-weak",
    "alcohol-shellac",
    "year-film",
    "renew-shellac",
}


def test_a_finish_that_is_only_inside_is_not_where_cups_go():
    desk = LINED.but(piece="desk")
    assert not INSIDE & desk.keys
    outside_too = desk.but(parts=(*LINED.job.parts, wood(name="Front", finish="b")))
    assert outside_too.keys & INSIDE == INSIDE
    assert LINED.facts.named("finish.inside", public=True) == ("shellac",)
    assert LINED.facts.named("finish.any", public=True) == ("hardwax oil",)


def test_what_is_inside_gets_one_instruction_that_says_where():
    item = LINED.item("inside-finish")
    assert (item.title, item.season) == ("Inside the drawers: only dust it dry", "year")
    assert "the shellac" in item.why
    lined = LINED.but(parts=(*LINED.job.parts, wood(name="Carcase back", finish="b")))
    assert lined.item("inside-finish").title == "On the inner surfaces: only dust it dry"


def test_what_is_dangerous_in_a_finish_is_told_wherever_the_finish_is():
    sprayed = piece(wood(name="Drawer side", finish="a"), finishes=[coated("nitrocellulose-lacquer", "a")])
    for danger in ("solvent-vapour-shop", "lacquer-overspray"):
        assert danger in sprayed.keys
    assert "shellac" in LINED.item("solvent-vapour-shop").why


def test_what_is_for_all_outside_does_not_name_its_finish():
    assert LINED.item("clean-hardwax-oil").text.startswith("Dust with")


def test_two_finishes_of_one_name_are_told_apart_without_their_keys():
    coats = [coated("shellac", "secret-a"), coated("shellac", "secret-b"), coated("soap", "c")]
    text = piece(wood(), finishes=coats).item("clean-shellac-lacquer").text
    assert text.startswith("On the shellac, no. 1 and the shellac, no. 2: ")


def test_surfaces_are_left_out_where_they_are_many_or_not_for_the_client():
    parts = [wood(name=name, finish="a") for name in ("leg", "rail", "apron", "stretcher")]
    hidden = wood(name="hidden", finish="b", for_client=False)
    coats = [coated("soap", "a"), coated("soap", "b"), coated("shellac", "c")]
    made = piece(*parts, hidden, finishes=coats)
    assert made.item("soap-wash").text.startswith("On the soap finish, no. 1 and the soap finish, no. 2: ")


def test_each_finish_says_until_when_it_hardens():
    uses = (
        use_of(TWO.job.finishes[0], full_cure_to=date(2026, 7, 1)),
        use_of(TWO.job.finishes[1], full_cure_to=date(2026, 6, 30)),
    )
    assert TWO.figured(finish=uses).item("cure-before-use").short == (
        "Go gently until the finish is hard: the clear satin hardwax oil until 1\u00a0July 2026"
        " and the shellac until 30\u00a0June 2026."
    )


@pytest.mark.parametrize(
    ("figures", "said"),
    [
        (
            {},
            "It is in use every day: look at it every 3 months, first around April\u00a02027, and renew it if it looks dry or worn.",
        ),
        (
            {"wear": "now and then", "refresh_months": 12},
            "It is handled only now and then: look at it every year, first around April\u00a02027, and renew it if it looks dry or worn.",
        ),
        (
            {"refresh_months": 18},
            "every 18 months, first around April\u00a02027, and renew it if it looks dry or worn.",
        ),
        ({"refresh": (), "refresh_months": 24}, "every 2 years, and renew it if it looks dry or worn."),
        ({"refresh": (), "refresh_months": 1}, "every month, and renew it if it looks dry or worn."),
        ({"refresh_months": None}, "There is no fixed time for it: go by the look of it."),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_renewing_says_how_often_and_when_first(figures, said):
    usual = {"refresh": (date(2027, 4, 1), date(2028, 4, 1)), "refresh_months": 3}
    made = finished("paste-wax")
    made = made.figured(finish=(use_of(made.job.finishes[0], **{**usual, **figures}),))
    assert made.item("renew-wax").why.endswith(said)


def test_only_what_is_handled_is_renewed():
    """A frame that nobody touches keeps its wax; where one of two finishes wears, only that one is named."""
    still = finished("paste-wax")
    still = still.but(finishes=(replace(still.job.finishes[0], wear="never"),))
    assert "renew-wax" not in still.keys
    assert "clean-wax" in still.keys
    coats = (
        coated("shellac", "a", product="blonde shellac"),
        coated("shellac", "b", product="button shellac", wear="never"),
    )
    two = TWO.but(finishes=coats)
    assert two.item("renew-shellac").text.startswith("On the blonde shellac: ")
    assert two.item("renew-shellac").finishes == ("blonde shellac",)


def test_the_inside_is_renewed_only_where_the_maker_says_that_it_wears():
    assert "renew-shellac" not in LINED.keys
    oil, polish = LINED.job.finishes
    cutlery = LINED.but(finishes=(oil, replace(polish, wear="daily")))
    assert "renew-shellac" in cutlery.keys
    assert "inside-finish" not in cutlery.keys

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
    "mend-polish",
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
    assert (item.title, item.season) == ("Inside the drawers", "year")
    assert "the shellac" in item.why
    lined = LINED.but(parts=(*LINED.job.parts, wood(name="Carcase back", finish="b")))
    assert lined.item("inside-finish").title == "On the inner surfaces"


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
        ({"refresh_high_months": 36}, "every 1 to 3 years, first around April\u00a02027."),
        ({"refresh_high_months": 12}, "every year, first around April\u00a02027."),
        ({"refresh_high_months": 18}, "every 12 to 18 months, first around April\u00a02027."),
        ({"refresh": (), "refresh_low_months": 24, "refresh_high_months": 24}, "every 2 years."),
        ({"refresh": (), "refresh_low_months": 6, "refresh_high_months": 6}, "every 6 months."),
        ({"refresh": (), "refresh_low_months": 1, "refresh_high_months": 1}, "every month."),
        ({"refresh_low_months": None}, "How soon it wears depends on its use."),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_renewing_says_how_often_and_when_first(figures, said):
    usual = {"refresh": (date(2027, 4, 1), date(2028, 4, 1)), "refresh_low_months": 12}
    made = finished("paste-wax")
    made = made.figured(finish=(use_of(made.job.finishes[0], **{**usual, **figures}),))
    assert made.item("renew-wax").why.endswith(said)

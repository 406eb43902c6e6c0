"""How far the shelves of a job sag, which of its parts are shelves, and what each carries."""

import pytest

from buildbook.job.holding_model import PlaceLoad
from buildbook.job.model import Job, Part
from buildbook.quantity import Length
from buildbook.summary import summarise
from buildbook.summary.held import held_together
from buildbook.summary.sag import shelves


def part(name, length=1000, width=250, thickness=20, kind="wood", key="european-oak", row=2, qty=1, **also):
    sizes = {"length": length, "width": width, "thickness": thickness}
    sides = {side: Length(mm / 1000, str(mm)) for side, mm in sizes.items()}
    return Part(row, name, qty, kind, key, key, **sides, **also)


def sag(*parts, **job):
    return summarise(Job("a", parts=parts, **job)).sag


ARE = [
    "Shelf",
    "Upper shelf",
    "Shelf 2",
    "Shelves",
    "Shelf over the drawers",
    "Loose shelf",
    "Fachboden",
    "Einlegeböden",
    "Bücherbord",
]
ARE_NOT = ["Shelf pin", "Shelf lipping", "Shelf side", "Bottom", "Boden", "Top", "Bodenträger", "Shelf support", "Side"]  # fmt: skip


@pytest.mark.parametrize("name", ARE)
def test_it_is_a_shelf(name):
    assert shelves(Job("a", parts=(part(name),)))


@pytest.mark.parametrize("name", ARE_NOT)
def test_it_is_no_shelf(name):
    assert not shelves(Job("a", parts=(part(name),)))


def test_by_hand():
    """European oak, 1000 x 250 x 20, 30 kg on it, and its own 3.5 kg: W = 33.5 x 9.80665 = 328.6 N;
    5 x 328.6 x 1000^3 / (384 x 10 100 x 166 667) = 2.54 mm, 1.6 times that 4.07 mm: 1/246, which is seen.
    """
    (one,) = sag(part("Shelf"), loads=(PlaceLoad(30, "on each shelf"),))
    assert one.load_n_per_m == pytest.approx(328.6, rel=0.02)
    assert one.first_m * 1000 == pytest.approx(2.54, rel=0.02)
    assert one.sag_m == pytest.approx(1.6 * one.first_m)
    assert (one.ok, one.load_told) == (False, True)


def test_tenons_shorten_the_span():
    (one,) = sag(part("Shelf", tenons=Length(0.04, "40")))
    assert one.span_m == pytest.approx(0.96)


LOADS = (
    PlaceLoad(10, "spread over the glass shelf"),
    PlaceLoad(25, "on each shelf"),
    PlaceLoad(15, "in each drawer"),
)


def test_each_shelf_has_the_load_that_is_meant_for_it():
    parts = (
        part("Shelf", row=2),
        part("Glass shelf", row=3, kind="glass", key="toughened"),
        part("Top shelf", row=4),
    )
    told = {one.part: (one.load_n_per_m, one.load_told) for one in sag(*parts, loads=LOADS)}
    own = 3.5 * 9.81
    assert told["Shelf"] == (pytest.approx(25 * 9.81 + own, rel=0.02), True)
    assert told["Glass shelf"] == (
        pytest.approx(10 * 9.81 + 12.5 * 9.81, rel=0.02),
        True,
    )  # 5 litres of glass
    assert told["Top shelf"][1] is False


def test_books_where_nothing_is_told_but_no_more_than_the_piece_carries():
    (books,) = sag(part("Shelf"))
    assert books.load_told is False
    assert "books were assumed" in books.assumed[0]
    assert books.load_n_per_m > 25 * 4.448 / 0.3048
    (all_of_it,) = sag(part("Shelf"), contents_kg=20)
    assert all_of_it.load_n_per_m == pytest.approx((20 + 3.5) * 9.81, rel=0.02)
    assert "all that the piece carries" in all_of_it.assumed[0]


def test_of_a_set_it_is_one_shelf():
    (one,), (many,) = sag(part("Shelf")), sag(part("Shelf", qty=6), quantity=3)
    assert one.sag_m == pytest.approx(many.sag_m)


def test_a_material_whose_stiffness_is_not_known_has_no_figure():
    (one,) = sag(part("Shelf", kind="panel", key="cork-sheet"))
    assert (one.first_m, one.sag_m, one.sag_per_span, one.ok) == (None, None, None, None)
    assert "not known here" in one.assumed[-1]


def test_mdf_sags_more_in_years_than_its_first_sag_tells():
    (mdf,) = sag(part("Shelf", kind="panel", key="mdf"))
    assert mdf.sag_m == pytest.approx(3.25 * mdf.first_m)


# -- what proof says ---------------------------------------------------------------------------------


def told(*parts, **job):
    return [
        problem.message.replace("\u202f", " ")
        for problem in held_together(Job("a", parts=parts, **job))
        if problem.field != "adds"
    ]


def test_proof_asks_where_the_load_is_a_guess_and_says_where_it_is_told():
    """Books: (25 lbf / ft = 364.8 N + 34 N of its own) / 350 x 2.707 mm x 1.6 = 4.9 mm."""
    assert told(part("Shelf")) == ["“Shelf” would sag 4.9 mm in years over 1000 mm if it were full of books."]
    (said,) = told(part("Shelf"), loads=(PlaceLoad(30, "on the shelf"),))
    assert said.startswith("“Shelf” sags 4.1 mm in years")
    assert told(part("Shelf", length=500)) == []


SLOTTED = {"width": 800, "cut": "quarter"}


@pytest.mark.parametrize(
    ("fit", "note", "short"),
    [
        ("elongated holes", "", False),  # how long they are is not said
        ("elongated holes 8", "", False),
        ("elongated holes 2", "", True),
        ("elongated holes", "screws in 3 mm slots at the front, fixed at the back", True),
        ("elongated holes", "screws in 8 mm slots at the front, fixed at the back", False),
        ("slots 4 mm", "", True),
        ("slots 4 mm, fixed in the middle", "", False),  # half of it at each edge
        ("Langlöcher 3 mm", "", True),
        ("3 mm lange Langlöcher, in der Mitte fest", "", False),
        ("glued", "3 mm chamfer", False),
    ],
)
def test_a_slot_shorter_than_the_edge_travels(fit, note, short):
    """A quarter-sawn top of 800 in European oak moves some 4 to 5 mm over the year that is assumed."""
    (moves,) = summarise(Job("a", parts=(part("Top", **SLOTTED, fit=fit, note=note),))).movement
    assert 4 < (moves.grows_m + moves.shrinks_m) * 1000 < 6
    found = told(part("Top", **SLOTTED, fit=fit, note=note))
    assert [message.startswith("The slot of “Top”") for message in found] == [True] * short


@pytest.mark.parametrize(
    ("names", "asked"),
    [(["Top", "Leg"], 0), (["Side", "Door stile"], 1), (["Side", "Drawer front"], 1), (["Shelf"], 1)],
)
def test_a_sum_is_asked_for_where_something_has_to_fit(names, asked):
    job = Job("a", parts=tuple(part(name, length=400, row=n) for n, name in enumerate(names, 2)))
    found = [problem for problem in held_together(job) if problem.field == "adds"]
    assert len(found) == asked
    assert all(problem.severity == "warning" for problem in found)

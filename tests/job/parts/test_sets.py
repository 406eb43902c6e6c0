"""Sets: how many pieces, which of them went when, what parts.csv counts for; what is asked where a title tells of several."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job import read_job
from buildbook.job.model import Delivery, Job
from buildbook.job.parts.sets import several
from buildbook.job.toml.job_toml import read_job_toml
from buildbook.job.toml.pieces import read_pieces, told_pieces
from buildbook.problems import Problems
from buildbook.quantity import QuantityError
from tests.job import told

JUNE, JULY = date(2026, 6, 12), date(2026, 7, 3)


def stated(text):
    problems = Problems()
    return read_job_toml(text.encode(), "mm", problems).fields, told(problems)


def deliveries(*several_of, quantity=6):
    tables = "".join(f"\n[[delivery]]\nday = {day}\npieces = {pieces}\n" for day, pieces in several_of)
    return stated(f"quantity = {quantity}\n{tables}")


# -- which pieces ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("1-4", (1, 2, 3, 4)),
        ("1–4", (1, 2, 3, 4)),
        ("5, 6", (5, 6)),
        ("6,5", (5, 6)),
        ("1 to 3 and 5", (1, 2, 3, 5)),
        ("1 bis 3 und 5", (1, 2, 3, 5)),
        ("2", (2,)),
    ],
)
def test_pieces_are_read_as_makers_write_them(text, pieces):
    assert read_pieces(text) == pieces


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "does not say which"),
        ("all", "does not say which"),
        ("4-1", "from 4 down to 1"),
        ("0-3", "no piece 0"),
        ("1-999999999", "no piece 999999999"),
        ("1-4, 3", "names piece 3 twice"),
        ("1-", "does not say which"),
        ("-3", "does not say which"),
        ("1.5", "does not say which"),
        ("٣", "does not say which"),
    ],
)
def test_what_names_no_pieces_is_told(text, said):
    with pytest.raises(QuantityError, match=said):
        read_pieces(text)


@given(st.sets(st.integers(1, 1000), min_size=1, max_size=60))
def test_pieces_that_are_told_are_read_again(pieces):
    assert read_pieces(told_pieces(pieces)) == tuple(sorted(pieces))


# -- deliveries --------------------------------------------------------------------------------------


def test_a_set_that_goes_in_parts_is_delivered_with_its_last():
    fields, problems = deliveries(("2026-07-03", '"5, 6"'), ("2026-06-12", '"1-4"'))
    assert problems == []
    assert fields["deliveries"] == (Delivery(JUNE, (1, 2, 3, 4)), Delivery(JULY, (5, 6)))
    assert fields["delivered"] == JULY


def test_a_set_of_which_some_are_still_here_is_not_delivered():
    fields, problems = deliveries(("2026-06-12", '"1-4"'))
    job = Job("j", **fields)
    assert job.delivered is None
    assert job.handed_over
    assert job.batches == (Delivery(JUNE, (1, 2, 3, 4)), Delivery(None, (5, 6)))
    assert problems == [
        "warning: job.toml, delivery: Pieces 5 and 6 are in no [[delivery]], so they count as still in the shop. "
        "Write a [[delivery]] once they go."
    ]


@pytest.mark.parametrize("pieces", ["", 'pieces = "1-6"', "pieces = [1, 2, 3, 4, 5, 6]"])
def test_one_delivery_of_all_is_as_delivered(pieces):
    told_so, problems = stated(f"quantity = 6\n[[delivery]]\nday = 2026-06-12\n{pieces}")
    assert problems == []
    assert told_so == stated("quantity = 6\ndelivered = 2026-06-12")[0]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('quantity = 6\n[[delivery]]\nday = 2026-06-12\npieces = "1-4"\n[[delivery]]\nday = 2026-07-03\npieces = "4-6"',
         ["error: job.toml, line 7, delivery[2].pieces: Piece 4 is in two deliveries, of 2026-06-12 and 2026-07-03. Name each piece once."]),
        ('quantity = 6\n[[delivery]]\nday = 2026-06-12\npieces = "1-8"',
         ["error: job.toml, line 4, delivery[1].pieces: There is no piece 7 or 8 of 6. Put right pieces, or quantity."]),
        ('[[delivery]]\nday = 2026-06-12\npieces = "1, 2"',
         ["error: job.toml, line 3, delivery[1].pieces: There is no piece 2 of a job that makes one. Put right pieces, or quantity."]),
        ('quantity = 2\ndelivered = 2026-06-12\n[[delivery]]\nday = 2026-06-12',
         ["error: job.toml, line 2, delivered: “delivered” and [[delivery]] both say when it went. Keep one of the two."]),
        ('quantity = 2\n[[delivery]]\nday = 2026-06-12\npieces = 1\n[[delivery]]\nday = 2026-07-03',
         ["error: job.toml, delivery[2].pieces: This delivery does not say which pieces went. Write pieces = \"1-4\".",
          "warning: job.toml, delivery: Piece 2 is in no [[delivery]], so it counts as still in the shop. Write a [[delivery]] once they go."]),
        ('begun = 2026-06-20\nquantity = 2\n[[delivery]]\nday = 2026-06-12\npieces = 1\n[[delivery]]\nday = 2026-07-03\npieces = 2',
         ["error: job.toml, delivery: Delivered on 2026-06-12, before it was begun on 2026-06-20. Put right whichever day is wrong."]),
        ("quantity = 0", ["error: job.toml, line 1, quantity: 0 is not between 1 and 1,000. Write quantity = 6."]),
        ("quantity = -2", ["error: job.toml, line 1, quantity: -2 is not between 1 and 1,000. Write quantity = 6."]),
        ("quantity = 1.5", ["error: job.toml, line 1, quantity: 1.5 is not a whole number. Write quantity = 6."]),
        ("quantity = 60000", ["error: job.toml, line 1, quantity: 60000 is not between 1 and 1,000. See that no digit is too many."]),
        ('quantity = 0\n[[delivery]]\nday = 2026-06-12\npieces = "1-4"',
         ["error: job.toml, line 1, quantity: 0 is not between 1 and 1,000. Write quantity = 6."]),
        ('cards = "both"', ["error: job.toml, line 1, cards: “both” is not a word that “cards” takes. Known here: each, one."]),
    ],
)  # fmt: skip
def test_a_slip_is_told_once_where_it_is(text, said):
    assert stated(text)[1] == said


# -- what parts.csv counts for -----------------------------------------------------------------------

PARTS = "part,qty,kind,material,length,width,thickness\nLeg,4,wood,European ash,450,40,40\n"


def read(tmp_path, toml, parts=PARTS):
    folder = tmp_path / "2026-022-chairs"
    folder.mkdir()
    (folder / "job.toml").write_text(toml)
    (folder / "parts.csv").write_text(parts)
    (folder / "notes.md").write_text("## 2026-05-01\n\nHours: milling 2\n")
    return read_job(folder)


def asked(job):
    return [str(p) for p in job.problems if p.field in ("quantity", "qty", "parts_for")]


def test_parts_of_each_are_counted_for_all(tmp_path):
    job = read(tmp_path, 'quantity = 6\nparts_for = "each"')
    assert job.parts[0].qty == 24
    assert asked(job) == []


def test_what_several_are_counted_for_has_to_be_said(tmp_path):
    job = read(tmp_path, "quantity = 6")
    assert [p.severity for p in job.problems if p.field == "quantity"] == ["error"]
    assert asked(job) == [
        "job.toml, line 1, quantity: The job makes 6 pieces, and it is not said whether parts.csv counts for all of them."
        ' Write parts_for = "all", or parts_for = "each" where it counts the parts of one.'
    ]


def test_parts_that_do_not_go_evenly_into_the_pieces_are_told(tmp_path):
    job = read(
        tmp_path,
        'quantity = 6\nparts_for = "all"',
        PARTS.replace("Leg,4", "Leg,25") + "Screw,50,hardware,steel screw,,,\n",
    )
    assert asked(job) == [
        "parts.csv, row 2, qty: 25 cannot be the same in each of 6 pieces: one is taken to have its share."
        ' See that it counts for all of them, or write parts_for = "each" in job.toml.'
    ]


@pytest.mark.parametrize(
    ("said", "asks"), [("", True), ("quantity = 1", False), ('quantity = 2\nparts_for = "each"', False)]
)
def test_a_title_that_tells_of_several_is_asked_about_until_it_is_said(tmp_path, said, asks):
    job = read(tmp_path, f'title = "A pair of bedside tables"\n{said}')
    assert asked(job) == [
        "job.toml, quantity: “pair of bedside tables” tells of several pieces, and “quantity” is not said: all is reckoned"
        " for one. Write quantity = 2, or quantity = 1 where it is one piece."
    ] * asks  # fmt: skip


def test_pieces_are_numbered_by_the_job():
    job = Job("j", number="2026-022", quantity=6)
    assert [job.piece_number(piece) for piece in job.numbers][:3] == [
        "2026-022/1",
        "2026-022/2",
        "2026-022/3",
    ]
    assert Job("j", quantity=6).piece_number(3) == "3/6"


SEVERAL = {
    "Six dining chairs": 6, "Pair of bedside tables": 2, "Bedside tables, a pair": 2, "Set of four stools": 4,
    "Satz von vier Stühlen": 4, "Satz Stühle": None, "Ein Paar Nachttische": 2, "vier Stühle": 4, "Set of chairs": None,
    "Sechs gedrechselte Hocker": 6, "6 chairs": 6, "6x side chairs": 6, "A dozen folding chairs": None, "Zwei Bänke für den Flur": 2,
    "Vier Esszimmerstühle aus Esche": 4, "Two ladder-back armchairs in ash": 2, "Paar Konsolen": 2, "SET OF TWO BOXES": 2,
}  # fmt: skip
ONE = [
    "Dining chair", "Chest with two drawers", "Six-board chest", "Chess set", "Dining set in oak", "Box for a set of chisels",
    "Cabinet for a pair of boots", "Sitzbank für vier Stühle", "Two-drawer desk", "Dreibeiniger Hocker", "Drei-Bein-Hocker",
    "Glazed bookcase in two parts", "Tisch mit vier Stühlen", "Bookcase with six shelves", "Bunk beds", "Wine rack, 12 bottles",
    "Vier-Schubladen-Kommode", "Paarige Leuchten", "Settle in oak", "Stand on four legs", "Side table 2 with drawers", "",
]  # fmt: skip


@pytest.mark.parametrize("title", SEVERAL)
def test_titles_that_tell_of_several(title):
    found = several(title)
    assert found is not None
    assert found.count == SEVERAL[title]


@pytest.mark.parametrize("title", ONE)
def test_titles_that_tell_of_one(title):
    assert several(title) is None


@given(st.text(max_size=60))
def test_no_title_stops_it(title):
    several(title)

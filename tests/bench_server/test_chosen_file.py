"""What the contact sheet writes: read back it is what was chosen, and what a maker wrote around it is still there."""

import tomllib
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.bench.chosen_file import Changed, NotToml, Sent, with_changes
from buildbook.job.photos.choices import read_choices
from buildbook.problems import Problems

OWN = """# Mine: do not lose this.
lead = "photos/a.jpg"  # the front

[[photo]]  # the best
turn    = 90
file    = "A.JPG"
caption = "The back"   # said by the client

# between
[[photo]]
file = "photos/gone.jpg"
aside = true
"""
MEANT = {"A.JPG": "photos/a.jpg"}


def written(text, *photos, lead=None, lead_of_job=""):
    sent = Sent("", photos) if lead is None else Sent("", photos, lead)
    return with_changes(text, sent, lambda name: MEANT.get(name, name), lead_of_job)


def test_what_a_maker_wrote_around_it_stays():
    new = written(
        OWN, Changed("photos/a.jpg", client=True, turn=180), Changed("photos/b.jpg", day=date(2026, 3, 1))
    )
    for kept in (
        "# Mine: do not lose this.",
        "# the front",
        "# the best",
        "# said by the client",
        "# between",
        "gone.jpg",
    ):
        assert kept in new
    assert (
        new.index("turn")
        < new.index('file    = "A.JPG"')
        < new.index("caption = ")
        < new.index("client = true")
    )
    assert tomllib.loads(new) == {
        "lead": "photos/a.jpg",
        "photo": [
            {"turn": 180, "file": "A.JPG", "caption": "The back", "client": True},
            {"file": "photos/gone.jpg", "aside": True},
            {"file": "photos/b.jpg", "day": date(2026, 3, 1)},
        ],
    }


def test_nothing_sent_changes_no_byte():
    assert written(OWN) == OWN


def test_what_is_as_it_would_be_anyhow_is_not_written():
    new = written(
        OWN, Changed("photos/a.jpg", turn=0, caption=""), Changed("photos/c.jpg", aside=False, caption="")
    )
    assert tomllib.loads(new)["photo"] == [{"file": "photos/gone.jpg", "aside": True}]


@pytest.mark.parametrize(
    ("before", "lead", "of_job", "after"),
    [
        ("", "photos/b.jpg", "", {"lead": "photos/b.jpg"}),
        ("", "photos/b.jpg", "photos/a.jpg", {"lead": "photos/b.jpg", "instead_of": "photos/a.jpg"}),
        (OWN, "", "photos/a.jpg", {}),
        ('[[photo]]\nfile = "x.jpg"\nturn = 90\n', "photos/b.jpg", "", {"lead": "photos/b.jpg"}),
    ],
)
def test_a_lead_stands_at_the_top_with_what_it_was_chosen_over(before, lead, of_job, after):
    new = tomllib.loads(written(before, lead=lead, lead_of_job=of_job))
    assert {k: v for k, v in new.items() if k != "photo"} == after


def test_tables_in_one_line_are_taken_as_they_are():
    new = written(
        'photo = [{ file = "photos/a.jpg", turn = 90 }]\n',
        Changed("photos/a.jpg", client=True),
        Changed("photos/b.jpg", caption="B"),
    )
    assert tomllib.loads(new)["photo"] == [
        {"file": "photos/a.jpg", "turn": 90, "client": True},
        {"file": "photos/b.jpg", "caption": "B"},
    ]


@pytest.mark.parametrize("text", ['lead = "x', "photo = 3\n", "[photo]\nfile = 1\n"])
def test_what_cannot_be_read_is_not_written_over(text):
    with pytest.raises(NotToml):
        written(text, Changed("photos/a.jpg", client=True))


CHANGES = st.builds(
    Changed,
    file=st.sampled_from(("photos/a.jpg", "photos/ä b.jpg", 'photos/"q".jpg', "photos/x\\y.jpg")),
    client=st.booleans(),
    caption=st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), max_size=40),
    turn=st.sampled_from((0, 90, 180, 270)),
    aside=st.booleans(),
    day=st.none() | st.dates(date(1996, 1, 1), date(2099, 1, 1)),
)


@given(st.lists(st.lists(CHANGES, max_size=4, unique_by=lambda one: one.file), max_size=4))
def test_whatever_is_chosen_is_read_back(rounds):
    """The last word on each picture is the one that is read."""
    text, last = "", {}
    for changes in rounds:
        text = written(text, *changes)
        last |= {one.file: one for one in changes}
    problems = Problems()
    read = {one.file: one for one in read_choices(text.encode(), problems).photos}
    assert [str(problem) for problem in problems] == []
    for file, one in last.items():
        said = read[file]
        assert (said.client, said.caption or "", said.turn, said.aside, said.day) == (
            one.client,
            one.caption,
            one.turn,
            one.aside,
            one.day,
        )

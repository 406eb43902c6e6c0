"""A rail that is tenoned: what a maker measures with the rule, over all and between shoulders."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job.table.parts import read_parts
from buildbook.problems import Problems
from buildbook.quantity.figures import figure


def read(length, tenons="", note="", fit="", units="mm"):
    """The sizes in mm over all and between shoulders, and what is told of the row."""
    problems = Problems()
    csv = f'part;material;length;tenons;width;thickness;note;fit\nRail;European oak;"{length}";"{tenons}";55;22;"{note}";"{fit}"\n'
    (part,) = read_parts(csv.encode(), units, problems)
    between = part.between_shoulders_m
    return part.length.m * 1000, None if between is None else between * 1000, [p.field for p in problems]


# by hand: over all = between shoulders + both tenons
HAND = [
    (("600", "60"), 600, 540),
    (("600 between shoulders", "30"), 630, 600),
    (("Between the shoulders: 600", "60"), 660, 600),
    (("600 mm, shoulder to shoulder", "6 cm"), 660, 600),
    (("zwischen den Brüstungen 600", "60"), 660, 600),
    (("600", "60", "between shoulders"), 660, 600),
    (("600", "60", "", "haunched, length between shoulders"), 660, 600),
    (("600", "", "540 between shoulders"), 600, 540),
    (("600", "60", "540 between shoulders"), 600, 540),
    (("600", "60", "600 between shoulders, planed"), 660, 600),
    (("600", ""), 600, None),
]


@pytest.mark.parametrize(("written", "over_all", "between"), HAND)
def test_a_rail_by_the_rule(written, over_all, between):
    length, shoulders, told = read(*written)
    assert length == pytest.approx(over_all)
    assert shoulders == (None if between is None else pytest.approx(between))
    assert told == []


@pytest.mark.parametrize(
    ("written", "field"),
    [
        (("600 between shoulders", ""), "length"),
        (("600", "", "600 between shoulders"), "length"),
        (("600", "60", "530 between shoulders"), "note"),
        (("600", "600"), "tenons"),
        (("600", "four"), "tenons"),
    ],
)
def test_what_cannot_be_is_told_once(written, field):
    assert read(*written)[2] == [field]


def test_inches():
    length, shoulders, told = read("23 1/2 in between shoulders", "2 1/2 in")
    assert (figure(length), figure(shoulders), told) == (figure(26 * 25.4), figure(23.5 * 25.4), [])


@given(between=st.integers(100, 3000), tenons=st.integers(1, 200))
def test_both_ways_of_writing_are_one_rail(between, tenons):
    one = read(f"{between} between shoulders", str(tenons))
    other = read(str(between + tenons), str(tenons))
    assert one[0] == pytest.approx(other[0])
    assert one[1] == pytest.approx(other[1])
    assert one[2] == other[2] == []


@given(note=st.text(alphabet="between shoulders 0123456789.,/mm\"'-", max_size=40))
def test_no_note_keeps_a_row_from_being_read(note):
    problems = Problems()
    cell = note.replace('"', '""')
    csv = f'part;material;length;tenons;width;thickness;note\nRail;European oak;600;60;55;22;"{cell}"\n'
    (part,) = read_parts(csv.encode(), "mm", problems)
    assert part.length is not None
    assert not problems.errors


def test_net_timber_counts_the_length_over_all():
    from buildbook.job.model import Job
    from buildbook.summary import summarise

    problems = Problems()
    csv = b"part,qty,material,length,tenons,width,thickness\nRail,2,European oak,600 between shoulders,60,50,20\n"
    job = Job("a", parts=read_parts(csv, "mm", problems))
    assert summarise(job).timber.net_m3 == pytest.approx(2 * 0.66 * 0.05 * 0.02)

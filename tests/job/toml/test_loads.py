"""What a place carries: the mass first, then the maker's own words; what is no such thing is told in one line."""

import pytest

from buildbook.job import read_job
from buildbook.job.toml.loads import read_load
from buildbook.quantity import QuantityError


@pytest.mark.parametrize(
    ("text", "kg", "place"),
    [
        ("15 kg in each drawer", 15, "in each drawer"),
        ("up to 22 lb on the glass shelf.", 9.979, "on the glass shelf"),
        ("no more than 2.5kg on each hook", 2.5, "on each hook"),
        ("bis zu 15 kg in jedem Schubkasten", 15, "in jedem Schubkasten"),
        ("max. 8.5 kg je Boden", 8.5, "je Boden"),
        ("10 kg: the flap", 10, "the flap"),
        ("1 t on the whole top", 1000, "on the whole top"),
    ],
)
def test_a_load_is_a_mass_and_a_place(text, kg, place):
    load = read_load(text)
    assert (round(load.kg, 3), load.place) == (kg, place)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("each drawer 15 kg", "does not begin with a mass"),
        ("not too much", "says no mass"),
        ("15 in each drawer", "says no mass"),
        ("15 kg", "does not say what carries it"),
        ("15 kg in each drawer, 10 kg on the shelf", "holds more than one mass"),
        ("0 kg in each drawer", "is not above zero"),
        ("15 kgs in each drawer", "says no mass"),
        ("", "says no mass"),
    ],
)
def test_what_is_no_load_is_told_with_what_to_write(text, told):
    with pytest.raises(QuantityError) as wrong:
        read_load(text)
    assert told in wrong.value.message
    assert wrong.value.hint.startswith("Write ")


def test_a_place_that_carries_more_than_the_whole_piece_is_told(make_job):
    toml = 'units = "mm"\npiece = "cabinet"\ncontents = "60 kg"\nloads = ["15 kg in each drawer", "80 kg on the shelf"]\n'
    job = read_job(make_job(job_dot_toml=toml, notes_dot_md="## 2026-03-02\n\nCut.\n"))
    told = [str(problem) for problem in job.problems if problem.field == "loads"]
    assert told == [
        "job.toml, line 4, loads: 80 kg on the shelf is more than the whole piece carries, contents = 60 kg."
        " Put right loads, or contents, which is for all of it."
    ]

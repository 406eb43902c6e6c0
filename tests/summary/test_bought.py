"""What was bought by the tallies: of which wood, and against what is in the piece."""

from dataclasses import replace
from pathlib import Path

import pytest

from buildbook.job import read_job
from buildbook.summary import summarise
from tests.trade.reference import FOOT, INCH

SHELF = Path(__file__).parents[1] / "shelf"
BOARDS = [(5 / 4, 16.25, 11.5), (5 / 4, 8.25, 13), (5 / 4, 8, 5), (1, 5.5, 10), (6 / 4, 9.25, 4)]
"""Thickness and width in inches, length in feet, as the record cabinet's tally has them."""


@pytest.fixture(scope="module")
def cabinet():
    return read_job(SHELF / "2025-018-record-cabinet")


def test_a_tally_of_the_only_wood_is_its_own(cabinet):
    (walnut,) = summarise(cabinet).timber.species
    assert walnut.bought_m3 == pytest.approx(sum(t * INCH * w * INCH * n * FOOT for t, w, n in BOARDS))
    assert walnut.bought_bf == pytest.approx(sum(t * w * n / 12 for t, w, n in BOARDS), abs=1.5)
    assert walnut.net_m3 < walnut.rough_m3 < walnut.bought_m3


def test_a_tally_names_its_wood_where_there_are_several():
    woods = {wood.key: wood for wood in summarise(read_job(SHELF / "2024-015-hall-table")).timber.species}
    assert [key for key, wood in woods.items() if wood.bought_m3] == ["black-cherry"]


def test_a_tally_that_could_be_of_several_woods_is_of_none_and_is_told(cabinet, tmp_path):
    other = replace(cabinet.parts[0], row=99, material="European oak", key="european-oak")
    assert all(
        w.bought_m3 is None for w in summarise(replace(cabinet, parts=(*cabinet.parts, other))).timber.species
    )
    (tmp_path / "job.toml").write_text(
        '[[worked]]\nkind = "tally"\nwood = "wallnut"\nboards = ["8/4 x 6 in x 8 ft"]\n'
    )
    (tmp_path / "parts.csv").write_text(
        "part,qty,kind,material,length,width,thickness\nTop,1,wood,black walnut,900,300,20\n"
    )
    said = [p for p in read_job(tmp_path).problems if p.field.startswith("worked")]
    assert len(said) == 1
    assert "wallnut" in said[0].message
    assert "walnut" in said[0].hint

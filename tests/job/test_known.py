"""What is known by its name is found by it, as the readers would; what is not is told with what is like it."""

import pytest

from buildbook.cli import main
from buildbook.job.known import ask, known_by_name, written_in_files
from buildbook.job.table.headings import PARTS_HEADINGS, PRICES_HEADINGS
from buildbook.trade import tables

TABLES = {
    "woods": tables.species, "sheets": tables.sheets, "glass": tables.glass, "stones": tables.stones,
    "metals": tables.metals, "finishes": tables.finishes, "wall woods": tables.wall_woods,
}  # fmt: skip


@pytest.mark.parametrize("some", known_by_name(), ids=lambda some: some.heading)
def test_the_reader_takes_every_name_that_is_told(some):
    """Each for the one that it stands beside; what is taken for it is said to be."""
    table = TABLES[some.heading]()
    assert [one.name for one in some.every] == [record.name for record in table]
    for one in some.every:
        assert all(table.find(name) for name in one.names)
        assert {table.find(name).record.name for name in one.loose} <= {one.name}


def test_woods_and_finishes_have_their_german_names():
    by_name = {one.name: one for some in known_by_name() for one in some.every}
    assert "Rotbuche" in by_name["European beech"].names
    assert "Hartwachsöl" in by_name["Hardwax oil"].names
    assert "Messing" in by_name["Brass"].names


def test_everything_is_found_by_each_of_its_names():
    for some in (*written_in_files(), *known_by_name()):
        for one in some.every:
            for name in one.names:
                assert one in ask(name).found, (some.heading, name)


@pytest.mark.parametrize(
    ("file", "headings"),
    [("parts.csv", PARTS_HEADINGS), ("prices.csv", PRICES_HEADINGS)],
    ids=["parts", "prices"],
)
def test_every_heading_that_is_read_is_found(file, headings):
    for name in headings.names:
        where = {(one.where, one.name) for one in ask(name).found}
        assert (file, headings.find(name).column) in where


@pytest.mark.parametrize(
    ("word", "lines"),
    [
        ("refresh months", ["refresh_months  (job.toml [[finish]])", "refresh_months = 24", "between 1 and 1,200 months"]),
        ("SCHELLACK", ["Shellac  (finish)", "Schellackgrund"]),
        ("Holzart", ["material  (parts.csv)"]),
        ("quercus alba", ["White oak  (wood)"]),
        ("coat count", ["pieces, coats, sides, finish"]),
        ("client", ["client  (job.toml)", "letter: yes", "client  (parts.csv)"]),
    ],
)  # fmt: skip
def test_a_word_is_explained(word, lines, capsys):
    assert main(["keys", *word.split()]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    for line in lines:
        assert line in out


def test_a_slip_is_told_with_what_it_may_be(capsys):
    assert main(["keys", "shelac"]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert "nothing here is named shelac. Did you mean Shellac" in err


def test_without_a_word_all_are_listed(capsys):
    assert main(["keys"]) == 0
    out, _ = capsys.readouterr()
    for some in written_in_files():
        for one in some.every:
            assert f"  {one.name} " in out
    for some in known_by_name():
        assert some.every[-1].name in " ".join(out.split())

"""A record is found by what a maker would write, and a loose name is told as an assumption."""

from __future__ import annotations

import pytest

from buildbook.trade import tables
from buildbook.trade.lookup import Table
from buildbook.trade.records import Stone


@pytest.mark.parametrize(
    ("written", "key"),
    [
        ("White oak", "white-oak"),
        ("  WHITE-OAK ", "white-oak"),
        ("oak, white", "white-oak"),
        ("Quercus alba", "white-oak"),
        ("quercus  ALBA", "white-oak"),
        ("hard maple", "sugar-maple"),
        ("sapelli", "sapele"),
        ("Tulip poplar", "yellow-poplar"),
        ("yellow poplar lumber", "yellow-poplar"),
        ("European Oak", "european-oak"),
        ("Quercus petraea", "european-oak"),
        ("bird’s-eye maple", "sugar-maple"),
        ("Tasmanian oak", "victorian-ash"),
    ],
)
def test_a_wood_is_found_however_it_is_written(written: str, key: str) -> None:
    found = tables.species().find(written)
    assert (found.record.key, found.assumed) == (key, "")


@pytest.mark.parametrize(
    ("written", "key"),
    [
        ("oak", "white-oak"),
        ("Cherry", "black-cherry"),
        ("walnut", "black-walnut"),
        ("solid ash", "white-ash"),
        ("maple", "sugar-maple"),
        ("beech", "european-beech"),
        ("Mahogany", "honduras-mahogany"),
    ],
)
def test_a_loose_wood_is_taken_for_the_usual_one_and_said_so(written: str, key: str) -> None:
    found = tables.species().find(written)
    assert found.record.key == key
    assert found.assumed == (
        f"“{written}” was taken for {found.record.name} ({found.record.botanical}); "
        "name it in full if it is another"
    )


@pytest.mark.parametrize(
    ("table", "written", "key"),
    [
        (tables.sheets, "birch ply", "birch-plywood"),
        (tables.sheets, "medium-density fiberboard", "mdf"),
        (tables.glass, "Tempered glass", "toughened"),
        (tables.metals, "aluminum", "aluminium"),
        (tables.finishes, "Hard-wax oil", "hardwax-oil"),
        (tables.finishes, "BLO", "boiled-linseed-oil"),
        (tables.wall_woods, "softwood studs", "spruce-pine-fir"),
    ],
)
def test_british_and_american_names_are_both_known(table, written: str, key: str) -> None:
    assert table().find(written).record.key == key


@pytest.mark.parametrize("written", ["", "  ", "!!", "unobtainium"])
def test_a_name_that_means_nothing_is_not_found(written: str) -> None:
    assert tables.species().find(written) is None


@pytest.mark.parametrize(
    ("written", "named"),
    [
        ("walnt", "Black walnut"),
        ("wite oak", "White oak"),
        ("Sapelle", "Sapele"),
        ("oaks", "White oak"),
    ],
)
def test_the_nearest_names_are_told(written: str, named: str) -> None:
    nearest = tables.species().nearest(written)
    assert named in nearest
    assert len(nearest) <= 3


def test_nothing_near_is_an_empty_list() -> None:
    assert tables.species().nearest("zzzzqqq") == ()


def test_one_name_for_two_records_is_refused() -> None:
    def stone(key: str) -> Stone:
        return Stone(
            key=key, name=key, aliases=("rock",), density_kg_m3=1.0, acid=False, source="s", basis="read"
        )

    with pytest.raises(ValueError, match="'rock' means both a and b"):
        Table([stone("a"), stone("b")])

"""What makers write for a finish comes to what they meant, or is asked about; never to a finish of another kind."""

from __future__ import annotations

import csv
from collections import Counter
from itertools import permutations
from pathlib import Path

import pytest

from buildbook.trade import finish_names, tables
from buildbook.trade.finish_rows import kinds_of

LIST = Path(__file__).parents[1] / "data" / "finish_names.csv"
NAMES = list(
    csv.DictReader(line for line in LIST.read_text("utf-8").splitlines() if not line.startswith("# "))
)
GERMAN_LACK = {"lacquer", "varnish"}
"""Lack is both."""


def of(*how: str):
    rows = [row for row in NAMES if row["how"] in how]
    return pytest.mark.parametrize("row", rows, ids=[f"{row['language']} {row['written']}" for row in rows])


def test_the_list_is_long_enough_to_mean_something() -> None:
    languages = Counter(row["language"] for row in NAMES)
    assert languages["en"] >= 80
    assert languages["de"] >= 50
    assert {row["comes_to"] for row in NAMES if row["how"] == "exact"} >= {
        family.key for family in tables.finishes()
    }


@of("exact", "loose")
def test_a_name_comes_to_what_was_meant(row) -> None:
    found = tables.finishes().find(row["written"])
    assert found is not None
    assert found.record.key == row["comes_to"]
    assert bool(found.assumed) == (row["how"] == "loose")


@of("asked")
def test_what_is_not_known_is_asked_about_within_its_kind(row) -> None:
    assert tables.finishes().find(row["written"]) is None
    kinds = set(kinds_of(row["written"]))
    allowed = {row["comes_to"]} - {"-"}
    if row["language"] == "de" and row["comes_to"] == "lacquer":
        allowed = GERMAN_LACK
    assert kinds == allowed
    assert {family.kind for family in finish_names.meant(row["written"])} <= allowed
    assert {family.kind for family in finish_names.of_kinds(tuple(kinds))} == allowed


@pytest.mark.parametrize("name", ["lacquer", "Lacquer", "oil", "Lack", "Öl", "paint", "Beize"])
def test_a_kind_alone_is_no_slip_for_one_family_of_it(name) -> None:
    assert finish_names.meant(name) == ()


SLIPS = {
    "hardwaxoil": "hardwax-oil",
    "schelack": "shellac",
    "danish oli": "oil-varnish-blend",
    "polyuretane": "oil-polyurethane",
    "Hartwachsoll": "hardwax-oil",
    "conversion varnsh": "conversion-varnish",
    "leinoelfirniss": "boiled-linseed-oil",
    "millk paint": "milk-paint",
}


@pytest.mark.parametrize(("written", "key"), SLIPS.items())
def test_a_slip_of_the_pen_is_seen(written: str, key: str) -> None:
    found = tables.finishes().find(written)
    near = [family.key for family in finish_names.meant(written)]
    assert key in ([found.record.key] if found else near)


HEADS = {
    "oil": "oil",
    "paint": "paint",
    "varnish": "varnish",
    "lacquer": "lacquer",
    "stain": "stain",
    "wax": "wax",
}


@pytest.mark.parametrize(
    "first", sorted({row["written"].split()[0] for row in NAMES if row["language"] == "en"})
)
def test_no_name_with_another_last_word_is_taken_across_kinds(first: str) -> None:
    """Any first word of the list before the word of any kind: known, it is of that kind; unknown, so are all suggestions."""
    for word, kind in HEADS.items():
        written = f"{first} {word}"
        found = tables.finishes().find(written)
        if found is not None:
            assert kind in {found.record.kind} | ACROSS.get(found.record.key, set()), (
                written,
                found.record.key,
            )
            continue
        for family in finish_names.meant(written):
            assert family.kind == kind, (written, family.key)


ACROSS = {
    "hardwax-oil": {"wax"},
    "waxed-shellac": {"polish"},
    "paste-wax": {"polish"},
    "conversion-varnish": {"varnish"},
    "two-pack-lacquer": {"varnish"},
}
"""Families with names of two kinds: catalysed lacquer is conversion varnish."""


def test_the_kinds_of_the_table_are_known_by_a_word() -> None:
    told = {kind.key for kind in tables.finish_kinds()}
    assert {family.kind for family in tables.finishes()} <= told
    for some, other in permutations(tables.finish_kinds(), 2):
        shared = (some.words & other.words) | (set(some.endings) & set(other.endings))
        assert shared <= {"lack"}

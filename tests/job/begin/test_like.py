"""What a new job takes of a past one: every key and column is decided, and each decision is the truth when it is turned."""

import csv
import re
import shutil
import tomllib
from datetime import date

import pytest

from buildbook.job import read_job
from buildbook.job.begin import BeginError, Wishes, begin
from buildbook.job.begin.like import decided
from buildbook.job.table.headings import PARTS
from buildbook.job.toml.keys import JOB_TABLES
from buildbook.job.toml.working_keys import WORKED
from tests.conftest import ROOT
from tests.leaving import BASES, EVERY, lay, value

DAY = date(2026, 11, 27)
SAMPLE = ROOT / "sample_job"
HOW = {"yes", "no", "anew", "fittings"}
NONE = frozenset()


def table_of(heading):
    """A heading of the tables of keys as the decisions name it."""
    return "worked" if heading.startswith("[[worked]]") else heading.strip("[]")


def how(place):
    if place.file == "parts.csv":
        return decided()["parts.csv", place.name]
    kind = re.search('kind = "(.*)"', place.heading)
    if kind and decided()["worked kind", kind[1]] == "no":
        return "no"
    outer = place.heading.strip("[]").split(".")[0]
    if outer and not kind and decided()["", outer] == "no":
        return "no"
    return decided()[table_of(place.heading), place.name]


OURS = [place for place in EVERY if place.file in ("job.toml", "parts.csv")]


def test_every_key_and_column_is_decided_and_nothing_else():
    keys = {
        (table_of(table.heading), key) for table in (*JOB_TABLES, *WORKED.values()) for key in table.names
    }
    kinds = {("worked kind", kind) for kind in WORKED}
    assert set(decided()) == keys | kinds | {("parts.csv", column) for column in PARTS}
    assert set(decided().values()) <= HOW


@pytest.fixture(scope="module")
def laid(tmp_path_factory):
    """The files that begin lays out like a job that says everything, with some of it turned."""
    place = tmp_path_factory.mktemp("like")
    made = {}

    def of(base, turned=NONE):
        if (base, turned) not in made:
            (place / "past").mkdir(exist_ok=True)
            folder = lay(place / "past", BASES[base], turned)
            shelf = place / "new"
            shutil.rmtree(shelf, ignore_errors=True)
            begin(shelf / "2026-099-next", DAY, like=str(folder))
            made[base, turned] = {
                name: (shelf / "2026-099-next" / name).read_text("utf-8")
                for name in ("job.toml", "parts.csv", "notes.md")
            }
        return made[base, turned]

    return of


def _without_its_name(files):
    """All but the line that says which job it is like: it bears that one's number and title."""
    return {name: re.sub(r"\A# .*\n", "", text) for name, text in files.items()}


@pytest.mark.parametrize("base", BASES)
def test_what_is_not_taken_changes_nothing(base, laid):
    left = frozenset(
        place
        for place in OURS
        if how(place) in ("no", "anew") and place.name != "units" and place not in BASES[base].without
    )
    assert len(left) > 15
    plain = _without_its_name(laid(base))
    assert _without_its_name(laid(base, left)) == plain


def has_no_other(place):
    """Whether there is nothing to turn it into: the kind of a working, and a number that may be one only."""
    same = value(place, False) == value(place, True)
    return same or (place.heading.startswith("[[worked]]") and place.name == "kind")


def test_what_is_taken_is_there_and_turns_with_it(laid):
    idle = []
    for place in OURS:
        if how(place) != "yes" or EVERY[place].reads in ("table", "tables") or has_no_other(place):
            continue
        if not any(
            place not in BASES[base].without and laid(base, frozenset((place,))) != laid(base)
            for base in BASES
        ):
            idle.append(str(place))
    assert idle == []


# -- a real job ------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def matching(tmp_path_factory):
    folder = tmp_path_factory.mktemp("shelf") / "2032-003-matching-sideboard"
    begin(folder, DAY, Wishes(client="Somebody else"), str(SAMPLE))
    return folder


def test_the_matching_piece_has_the_parts_and_none_of_the_story(matching):
    old, new = read_job(SAMPLE, pictures=False), read_job(matching)
    assert [str(p) for p in new.problems if p.severity == "error"] == []
    for one, other in zip(old.parts, new.parts, strict=True):
        for name in (
            "name",
            "qty",
            "kind",
            "material",
            "length",
            "width",
            "thickness",
            "stock",
            "cut",
            "opening",
            "finish",
        ):
            assert getattr(one, name) == getattr(other, name)
        assert (other.origin, other.country, other.price) == ("", "", None)
    assert [finish.family for finish in new.finishes] == [finish.family for finish in old.finishes]
    assert all(not finish.coats and not finish.batch for finish in new.finishes)
    assert new.workings == old.workings
    assert (new.joinery, new.overall, new.doors, new.drawers) == (
        old.joinery,
        old.overall,
        old.doors,
        old.drawers,
    )
    assert (new.number, new.title, new.client, new.begun) == (
        "2032-003",
        "Matching sideboard",
        "Somebody else",
        DAY,
    )
    assert (new.price, new.delivered, new.made_at, new.climate, new.lead, new.photos) == (
        None,
        None,
        None,
        None,
        "",
        (),
    )
    written = "".join(path.read_text("utf-8") for path in matching.iterdir() if path.is_file())
    for private in (
        "Castellane",
        "6400",
        "parkland oak",
        "estate sawyer",
        "2026-03",
        "tenterhook.example",
        "meter, 24",
    ):
        assert private not in written, private


def test_fittings_are_bought_again_where_they_were(matching):
    rows = list(csv.DictReader((matching / "parts.csv").read_text("utf-8").splitlines()))
    assert {row["Supplier"] for row in rows if row["Kind"] == "wood"} == {""}
    assert "the ironmonger" in {row["Supplier"] for row in rows if row["Kind"] == "hardware"}


PAST = """# Private: Mrs. Whitlow, the house by the weir

# what kind it is
piece = "box"   # a small one
# she paid in cash
price = 400
number = "7"
title = "Tea box"
tags = [
  "tea",   # hers
]

# paid late

[[finish]]  # the only one
key = "body"
family = "shellac"
# three days in a row
coats = [2024-01-01]
"""


def test_comments_stay_with_what_is_taken_and_go_with_what_is_not(make_job):
    past = make_job(
        "2024-007-tea-box", **{"job.toml": PAST, "parts.csv": "Teil;Breite\nBoden;3\nSumme;9\nWand;12,5\n"}
    )
    (past.parent / "shop.toml").write_text('name = "W"\n', "utf-8")
    new = past.parent / "2026-001-next"
    begin(new, DAY, like="7")
    text = (new / "job.toml").read_text("utf-8")
    for kept in ("# what kind it is", "# a small one", "# hers", "# the only one"):
        assert kept in text
    for gone in ("Whitlow", "cash", "paid late", "three days", "2024"):
        assert gone not in text.partition("\n")[2]
    assert (new / "parts.csv").read_text("utf-8") == "Teil;Breite\nBoden;3\nWand;12,5\n"


@pytest.mark.parametrize("called", ["7", "tea BOX", "2024-007-tea-box"])
def test_a_job_of_the_shelf_is_found_by_what_it_is_called(make_job, called):
    past = make_job("2024-007-tea-box", **{"job.toml": PAST, "notes.md": "## 2024-01-01 x\n"})
    begin(past.parent / "new", DAY, like=called)
    assert tomllib.loads((past.parent / "new" / "job.toml").read_text("utf-8"))["piece"] == "box"


@pytest.mark.parametrize(("called", "said"), [("tea bx", "Did you mean “Tea box”"), ("2", "may be a and b")])
def test_a_name_of_none_or_of_several_is_told(make_job, called, said):
    past = make_job("2024-007-tea-box", **{"job.toml": PAST})
    for name in "ab":
        make_job(name, **{"job.toml": 'number = "2"\n'})
    with pytest.raises(BeginError, match=said):
        begin(past.parent / "new", DAY, like=called)
    assert not (past.parent / "new").exists()


def test_a_job_that_cannot_be_read_is_told(make_job):
    past = make_job("past", **{"job.toml": 'title = "never closed\n', "notes.md": "## 2024-01-01 x\n"})
    with pytest.raises(BeginError, match="cannot be read"):
        begin(past.parent / "new", DAY, like=str(past))


def test_the_unit_of_its_numbers_goes_along(make_job, tmp_path):
    past = make_job("past", **{"job.toml": 'title = "x"\n', "parts.csv": "part,width\nTop,12\n"})
    (past.parent / "shop.toml").write_text('units = "in"\n', "utf-8")
    begin(tmp_path / "elsewhere" / "new", DAY, like=str(past))
    assert 'units     = "in"' in (tmp_path / "elsewhere" / "new" / "job.toml").read_text("utf-8")

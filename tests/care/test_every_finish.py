"""A whole job under each family of finishes, read as its owner and as its shop: each is told what a finisher would tell
them of that family (finish_oracle.csv), and nothing that is true of another only.
"""

import csv
import re
from pathlib import Path

import pytest

from buildbook.care import choose, facts_of, if_something_happens
from buildbook.job import read_job
from buildbook.summary import summarise
from buildbook.trade import tables
from buildbook.words import Words

LIST = Path(__file__).parents[1] / "data" / "finish_oracle.csv"
ORACLE = {
    row["family"]: row
    for row in csv.DictReader(
        line for line in LIST.read_text("utf-8").splitlines() if not line.startswith("# ")
    )
}
PARTS = "part,qty,material,length,width,thickness,finish\nTop,1,European oak,1800,900,28,top\n"
JOB = """
title = "Table"
piece = "{piece}"
use = "{use}"
delivered = 2026-06-20
food = {food}

[[finish]]
key = "top"
family = "{family}"
product = "a product of ours"
coats = [2026-03-02, 2026-03-09]
"""

OWNER = {  # what the owner reads, for each answer of the oracle: there where it is so, and nowhere else
    "rags": r"rag wet with this finish|lay the rags out flat|Lay the rags out flat",
    "cup": r"softens or clouds at the warmth of a cup",
    "iron": r"damp lifts a dent|drop of water lifts a dent",
    "detergent": r"drop of washing-up liquid",
    "drops": r"three drops of water",
    "nut": r"nut allergy",
    "caustic_owner": r"gloves and goggles",
}
SHOP = {
    "isocyanate": r"asthma for life",
    "formaldehyde": r"Formaldehyde is given off",
}
SPIRIT = {"dissolves": r"Alcohol dissolves shellac", "softens": r"Alcohol softens this kind"}
LEFT_TO_THE_MAKER = (
    r"best left to the maker|work for the maker|work for a spray shop|Ask the maker or a polisher|best by the maker"
    r"|Do not stain it again|only as the data sheet of the product"
)


@pytest.fixture(scope="module")
def told(tmp_path_factory):
    """What the owner and what the shop reads of a family, in a language."""
    made = {}

    def of(family, language="en", piece="table", use="indoors", food="false"):
        key = (family, language, piece, use, food)
        if key not in made:
            folder = tmp_path_factory.mktemp(family) / "a-job"
            folder.mkdir()
            (folder / "job.toml").write_text(
                JOB.format(family=family, piece=piece, use=use, food=food), "utf-8"
            )
            (folder / "parts.csv").write_text(PARTS, "utf-8")
            job = read_job(folder)
            assert not [problem for problem in job.problems if problem.severity == "error"]
            summary, words = summarise(job), Words(language)
            items = choose(job, summary, words)
            texts = [(item, f"{item.title}. {item.text} {item.why} {item.short}") for item in items]
            happens = if_something_happens(facts_of(job, summary, words), words)
            aids = [f"{aid.first} {aid.never} {aid.call}" for event in happens for aid in event.aid]
            owner = "\n".join([*(text for item, text in texts if item.for_client), *aids])
            shop = "\n".join(text for item, text in texts if item.audience != "client")
            made[key] = (owner, shop)
        return made[key]

    return of


FAMILIES = [family.key for family in tables.finishes()]


def test_the_oracle_speaks_of_every_family():
    assert list(ORACLE) != []
    assert set(ORACLE) == set(FAMILIES)


@pytest.mark.parametrize("family", FAMILIES)
def test_the_owner_is_told_what_is_true_of_the_family(family, told):
    said, row = told(family)[0], dict(ORACLE[family])
    row["caustic_owner"] = "yes" if row["caustic"] == "yes" and row["owner"] == "yes" else "no"
    wrong = [
        f"{what}: {row[what]}"
        for what, pattern in OWNER.items()
        if bool(re.search(pattern, said)) != (row[what] == "yes")
    ]
    for answer, pattern in SPIRIT.items():
        if bool(re.search(pattern, said)) != (row["spirit"] == answer):
            wrong.append(f"spirit: {row['spirit']}")
    if bool(re.search(LEFT_TO_THE_MAKER, said)) == (row["owner"] == "yes"):
        wrong.append(f"owner: {row['owner']}")
    assert wrong == []


@pytest.mark.parametrize("family", FAMILIES)
def test_the_shop_is_told_what_is_true_of_the_family(family, told):
    shop, row = told(family)[1], ORACLE[family]
    wrong = [what for what, pattern in SHOP.items() if bool(re.search(pattern, shop)) != (row[what] == "yes")]
    warned = bool(re.search(r"\brags?\b", shop))
    if warned != ("yes" in (row["rags"], row["shop_rags"])):
        wrong.append("shop_rags")
    if bool(re.search(r"gloves and goggles|Wear gloves, goggles", shop)) != (row["caustic"] == "yes"):
        wrong.append("caustic")
    assert wrong == []


@pytest.mark.parametrize("family", FAMILIES)
def test_outdoors_only_what_is_made_for_it_goes_without_a_warning(family, told):
    shop = told(family, piece="garden table", use="in the garden")[1]
    assert ("Weather soon breaks a finish" in shop) == (ORACLE[family]["outdoors"] != "yes")


FOR_FOOD = {"mineral-oil", "board-wax", "unfinished"}
"""Sold for food, or nothing at all."""


@pytest.mark.parametrize("family", FAMILIES)
def test_where_food_lies_a_finish_that_is_not_declared_is_asked_about(family, told):
    shop = told(family, piece="cutting board", food="true")[1]
    assert ("declaration for contact with food" in shop) == (family not in FOR_FOOD)


@pytest.mark.parametrize("family", FAMILIES)
def test_a_board_is_never_dusted_dry_nor_told_of_coasters(family, told):
    owner = told(family, piece="cutting board", food="true")[0]
    assert "Wash both sides" in owner
    assert not re.search(r"Dust (with|it)|coaster|polish|three drops|lamp held low", owner)


@pytest.mark.parametrize("family", FAMILIES)
def test_german_says_as_much(family, told):
    for english, german in zip(told(family), told(family, "de"), strict=True):
        assert german.count("\n") == english.count("\n")
        assert not re.search(r"\b(the|and|with)\b|[{}]", german)

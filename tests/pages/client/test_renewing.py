"""How a finish is renewed, as its owner reads it: what it is, how often, how much, what instead; what is not known is said."""

from dataclasses import replace
from datetime import date

import pytest

from buildbook.job.model import Finish, Job
from buildbook.pages.client.stories import finish_stories
from buildbook.pages.phrases import Phrases
from buildbook.summary import summarise
from buildbook.trade import tables
from buildbook.words import Words, languages
from tests.pages.made import mm, part, plain

TOP = part(2, "Top", sides=(1000, 500, 20), finish="oil")  # both faces and edges: 1.06 m2
OIL = Finish("oil", "hardwax-oil", product="Quillby 40", sheen="satin, 20", coats=(date(2026, 3, 2),), spread_m2_per_l=24)  # fmt: skip


def told(finish=OIL, parts=(TOP,), language="en", piece="table", finishes=(), **facts):
    job = Job(folder="a-job", piece=piece, parts=parts, finishes=(finish, *finishes), **facts)
    stories = finish_stories(job, summarise(job), replace(Phrases.of(job), words=Words(language)))
    return [plain(said) for said in stories[0].said]


def test_kind_and_sheen_how_often_how_much_and_what_instead():
    # 2 x 0.5 m2 and the edges 2 x 20 mm x 1.5 m: 1.06 m2 / 24 m2/l = 44 ml, rounded up as a can is
    assert told() == [
        "Of its kind: hardwax oil. Sheen: satin, 20.",
        "Renew it about every 2 years, sooner where it looks dry or worn. One coat all over takes about 45 ml.",
        "If it is no longer sold, take any hardwax oil for furniture of the same sheen; try it first where nobody looks.",
    ]


def test_a_product_that_names_its_kind_does_not_name_it_twice():
    assert told(replace(OIL, product="Clear hardwax oil", sheen=""))[0].startswith("Renew it")


def test_a_product_that_is_not_known_is_said_to_be_so():
    assert (
        told(replace(OIL, product="", sheen=""))[0]
        == "The record does not name the product: ask the maker which one it was."
    )


def test_a_coat_is_that_of_one_piece_and_of_what_the_client_reads_of():
    hidden = replace(TOP, row=9, name="Hidden", for_client=False)
    assert "takes about 45 ml" in told(parts=(TOP, hidden))[1]
    six = replace(TOP, qty=6)
    assert (
        "One coat all over one piece takes about 45 ml" in told(parts=(six,), quantity=6, parts_for="all")[1]
    )


def test_a_later_coat_goes_farther_than_the_first():
    assert "about 30 ml" in told(replace(OIL, later_m2_per_l=36))[1]


def test_without_an_area_no_figure_is_made_up():
    assert "How much a coat takes was not recorded." in told(parts=(replace(TOP, faces="none"),))[1]


@pytest.mark.parametrize(
    ("finish", "facts", "said"),
    [
        (Finish("oil", "unfinished"), {}, ["The wood is bare: nothing was put on it, and nothing has to be renewed."]),
        (replace(OIL, wear="never", sheen=""), {}, ["Of its kind: hardwax oil.", "It is where no hand comes, and needs no renewing."]),
    ],
)  # fmt: skip
def test_what_is_not_renewed_is_said_and_nothing_is_bought(finish, facts, said):
    assert told(finish, **facts) == said


def test_what_lies_beneath_is_not_renewed_by_itself():
    stain = Finish("stain", "dye-stain", product="walnut dye")
    top = replace(OIL, over="stain")
    assert told(stain, finishes=(top,))[-1] == "It lies under another finish and is not renewed by itself."


def test_a_lacquer_is_the_makers_to_renew_and_no_amount_tempts_an_owner():
    said = told(Finish("oil", "two-pack-lacquer", product="clear lacquer"))
    assert "work for the maker or a restorer" in said[1]
    assert "coat" not in " ".join(said)


@pytest.mark.parametrize(
    ("piece", "facts", "said"),
    [
        ("salad bowl", {"food": True}, "only a product declared for contact with food"),
        ("cot", {}, "only a product declared safe for children’s furniture"),
        ("garden table", {"use": "outdoors"}, "any oil for garden furniture"),
        ("chest of drawers", {"drawers": 4}, "try it inside a drawer first"),
    ],
)
def test_what_is_taken_instead_follows_the_piece(piece, facts, said):
    assert said in told(piece=piece, **facts)[-1]


@pytest.mark.parametrize("language", [name for name in languages() if "-" not in name])
def test_every_family_is_told_what_to_take_when_it_is_no_longer_sold(language):
    gone = {"en": "no longer sold", "de": "nicht mehr"}[language]
    for family in tables.finishes():
        if family.key != "unfinished":
            said = told(Finish("oil", family.key, product="a product"), language=language)
            assert gone in said[-1], family.key


def test_an_inch_shop_reads_fluid_ounces():
    assert "about 2 US fl oz (45 ml)" in told(units="in")[1]


def test_many_parts_stand_behind_their_count():
    rows = tuple(replace(TOP, row=row, name=f"Part {row}", width=mm(100)) for row in range(2, 8))
    job = Job(folder="a-job", piece="table", parts=rows, finishes=(OIL,))
    (story,) = finish_stories(job, summarise(job), Phrases.of(job))
    assert story.where_folded == "On 6 of its parts"
    assert story.where.count(",") == 4
    few = replace(job, parts=rows[:3])
    assert finish_stories(few, summarise(few), Phrases.of(few))[0].where_folded == ""

"""The client's page as a model: what care it gives and in which order, what of the job it tells, what it keeps in."""

from dataclasses import replace
from datetime import date, datetime
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.care import choose
from buildbook.job.log_model import Passage, Picture
from buildbook.job.model import Photo
from buildbook.pages.client.handover import client_piece
from buildbook.pages.phrases import Phrases
from buildbook.summary import summarise
from tests.pages.made import HINGES, TOP, care, entry, plain, table

GRAVITY = {"warning": 0, "caution": 1, "note": 2}
ITEMS = [
    care("later", "year", order=9),
    care("twice", "half-year", order=10),
    care("weekly-b", "week", "note", order=5),
    care("weekly-a", "week", "caution", order=2),
    care("never-this", "week", order=3, manner="never"),
    care("with-that", "week", order=1, manner="with"),
    care("carry", "moving", "warning", order=1),
    care("first", "now", order=7),
    care("mend-it", "mend", order=8),
    care("air", "seasons", order=6),
    care("beware", "caution", "warning", order=0),
    care("screw-it", "changing", order=12),
    care("match", "another", order=13),
    care("heirs", "passing", order=14),
    care("kills", "caution", "warning", order=15, day_one=True, short="Kills."),
    care("hurts", "caution", "caution", order=16, day_one=True, short="Hurts."),
    care("hard", "now", "note", order=17, day_one=True, short="Go gently."),
    care("bench-only", "week", "warning", order=3, audience="maker"),
    care("for-both", "month", order=4, audience="both"),
]


def piece(job=None, items=()):
    job = job or table()
    return client_piece(job, summarise(job), tuple(items), Phrases.of(job))


@given(st.permutations(ITEMS))
def test_care_follows_the_readers_day_whatever_the_order_it_comes_in(items):
    page = piece(items=items)
    assert keys(page.everyday) == [
        ("do", ["weekly-a", "weekly-b"]),
        ("never", ["never-this"]),
        ("with", ["with-that"]),
    ]
    assert keys(page.care) == [
        ("month", ["for-both"]),
        ("half-year", ["twice"]),
        ("year", ["later"]),
        ("now", ["first", "hard"]),
    ]
    assert keys(page.moving) == [("moving", ["carry"]), ("changing", ["screw-it"])]
    named = (page.dangers, page.seasons.advice, page.mending, page.another, page.passing, page.cautions)
    assert [[item.key for item in items] for items in named] == [
        ["kills", "hurts"],
        ["air"],
        ["mend-it"],
        ["match"],
        ["heirs"],
        ["beware"],
    ]


def keys(groups):
    return [(group.key, [item.key for item in group.items]) for group in groups]


def test_each_instruction_stands_once_and_every_warning_of_the_first_day_among_the_dangers():
    many = [
        care(
            f"{severity}-{n}",
            "caution" if n % 2 else "week",
            severity,
            order=n,
            day_one=True,
            short="Short.",
        )
        for n in range(5)
        for severity in GRAVITY
    ]
    page = piece(items=many)
    assert [item.severity for item in page.dangers] == ["warning"] * 5
    few = piece(items=[item for item in many if item.key != "warning-4" and item.key != "warning-3"])
    assert [item.severity for item in few.dangers] == ["warning"] * 3 + ["caution"]
    for shown in (page, few):
        groups = (*shown.everyday, *shown.care, *shown.moving)
        told = [item.key for group in groups for item in group.items]
        told += [item.key for item in (*shown.dangers, *shown.cautions)]
        assert len(told) == len(set(told))


def test_what_is_said_of_a_real_piece_goes_from_the_graver_to_the_lighter():
    job = table(contents_kg=40, children=True, stands="wall", near=("window", "radiator"))
    page = piece(job, choose(job, summarise(job), Phrases.of(job).words))
    assert len(page.everyday) > 1
    assert len(page.care) > 1
    for group in (*page.everyday, *page.care, *page.moving):
        assert all(GRAVITY[one.severity] <= GRAVITY[next_.severity] for one, next_ in pairwise(group.items))
    assert {caution.severity for caution in page.day_one} <= set(GRAVITY)


def test_the_makers_own_stays_in_and_its_top_names_what_it_leads_to():
    items = [care("fix", "caution", "warning", day_one=True, short="Fix it."),
             care("mine", "week", "warning", audience="maker", day_one=True, short="Mine.")]  # fmt: skip
    page = piece(items=items)
    assert [(short.key, short.text) for short in page.day_one] == [("fix", "Fix it.")]
    assert "mine" not in str(page)


def test_figures_are_those_of_the_piece():
    # oak: 0.0246 m3 net; it swells by its widest part, the quarter-sawn top
    figures = {line.label: plain(line.value) for line in piece().figures}
    assert figures["Size"].startswith("1200 × 600 × 740 mm")
    job = table(parts=(replace(HINGES, mass_kg=30),))
    heavy = piece(job).figures[1]
    assert "60 kg" in plain(heavy.value)  # two of them
    assert heavy.note
    assert not piece(table(parts=(HINGES,))).figures[1].note


def test_a_part_says_how_much_it_moves_only_where_that_is_anything():
    narrow = replace(TOP, row=9, name="Bead", width=replace(TOP.width, m=0.002))
    assert [moving.part for moving in piece(table(parts=(TOP, narrow))).seasons.moving] == ["Top"]
    assert not piece(table(parts=(HINGES,))).seasons.sentences


def photo(name, digest):
    return Photo(name, Path(name), 60, 40, datetime(2026, 3, 1, 10, 0), digest)


def test_pictures_are_those_that_the_maker_chose_each_once():
    shown = Picture("photos/b.jpg", "The joint", True, 3, "photos/b.jpg")
    kept = Picture("photos/c.jpg", "Not yours", False, 4, "photos/c.jpg")
    note = replace(entry(date(2026, 3, 1), "Frame"), pictures=(shown, kept), for_client=(Passage("Words ![](photos/b.jpg)", 2),))  # fmt: skip
    job = table(
        entries=(note,),
        photos=tuple(photo(f"photos/{name}.jpg", name) for name in "abcd"),
        client_photos=("photos/a.jpg", "photos/b.jpg"),
    )
    page = piece(job)
    assert page.lead.digest == "a"
    assert [picture.digest for picture in page.pictures()] == ["a", "b"]
    assert [picture.caption for _, picture in page.story[0].pictures] == ["The joint"]
    assert page.gallery == ()
    assert piece(replace(job, lead="photos/d.jpg")).lead.digest == "d"
    assert piece(replace(job, client_photos=())).lead.digest == "b"  # else the first that a passage shows
    assert "Not yours" not in str(page)


@pytest.mark.parametrize(
    ("page", "pages_at", "address"),
    [
        ("", "", ""),
        ("https://example.org/mine", "https://example.org/pages", "https://example.org/mine"),
        ("", "https://example.org/pages/", "https://example.org/pages/2026-004-writing-table/"),
    ],
)
def test_where_the_page_will_be(page, pages_at, address):
    job = table(page=page)
    assert piece(replace(job, shop=replace(job.shop, pages_at=pages_at))).page_address == address

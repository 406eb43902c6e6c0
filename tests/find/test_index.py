"""The index: what it keeps, how it weighs, and that packing loses nothing."""

import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.find.counting import counts_of, edition
from buildbook.find.excerpt import Excerpt
from buildbook.find.index import build
from buildbook.find.model import FACETS, FindRecord
from buildbook.find.packing import SIGNS, pack, pack_numbers, unpack, unpack_numbers
from buildbook.find.settings import settings
from buildbook.find.tokens import idle, joined, terms, tokens
from tests.make_shelf import Searched


def record(key="a", *passages, day="2026-01-01", **more):
    return with_words(key, *passages, day=day, **more).record


def with_words(key, *passages, day="2026-01-01", **more):
    facts = {"title": key, "hours_h": 0.0, "sides": (), "facets": dict.fromkeys(FACETS, ()), **more}
    some = tuple(Excerpt(*passage) for passage in passages)
    return Searched(FindRecord(key=key, day=day, counted=edition(), counts=counts_of(some), **facts), some)


def steps(index, term):
    return dict(index.postings[index.terms.index(term)])


@given(st.lists(st.integers(min_value=0, max_value=10**9)))
def test_numbers_come_back(numbers):
    assert list(unpack_numbers(pack_numbers(numbers))) == numbers


def test_the_signs_need_no_escape_and_are_told_apart_from_the_break():
    assert len(set(SIGNS)) == len(SIGNS) == 90
    assert not set(SIGNS) & set(' "\\<\t\n')


def test_an_index_comes_back_from_json(records):
    index = build(records)
    assert unpack(json.loads(json.dumps(pack(index)))) == index


def test_an_index_of_nothing_comes_back():
    assert unpack(pack(build([]))) == build([])


def test_jobs_stand_newest_first_then_by_key():
    index = build([record("b"), record("c", day="2026-02-01"), record("a"), record("z", day="")])
    assert index.keys == ("c", "a", "b", "z")


def test_a_title_weighs_more_than_a_tag_and_a_tag_more_than_a_note():
    index = build([
        record("title", ("title", "", "oak chair"), ("note", "", "one two")),
        record("tag", ("tags", "", "oak"), ("note", "", "one two")),
        record("note", ("note", "", "oak two"), ("tags", "", "red")),
    ])  # fmt: skip
    by_key = {index.keys[place]: step for place, step in steps(index, "oak").items()}
    assert by_key["title"] > by_key["tag"] > by_key["note"] >= 1


def test_a_word_in_a_long_note_weighs_less_than_in_a_short_one():
    index = build(
        [record("long", ("note", "", "oak " + "word " * 400)), record("short", ("note", "", "oak word"))]
    )
    by_key = {index.keys[place]: step for place, step in steps(index, "oak").items()}
    assert by_key["short"] > by_key["long"]


def test_a_rare_word_has_more_points_and_none_has_none(records):
    index = build(records)
    frequent = sorted(range(len(index.terms)), key=lambda place: len(index.postings[place]))
    assert index.rarity[frequent[0]] > index.rarity[frequent[-1]] >= 1
    assert {step for postings in index.postings for _, step in postings} <= set(
        range(1, settings().ranking.levels + 1)
    )


def test_nothing_that_a_maker_would_search_is_left_out(found):
    """Every word of every passage is in the index, but for those that say nothing."""
    terms = set(build(one.record for one in found[:20]).terms)
    said = {token.term for one in found[:20] for passage in one.passages for token in tokens(passage.text)}
    assert said - idle() <= terms


def test_facets_hold_every_job_that_has_a_value():
    oak = {"wood": ("Oak",), "piece": ("Chair",)}
    some = [
        record("a", facets=oak, hours_h=25.0, sides=(4000, 12000)),
        record("b", facets={"wood": ("oak", "Ash")}, hours_h=25.5, sides=()),
    ]
    found = {facet.name: {value.label: value.jobs for value in facet.values} for facet in build(some).facets}
    assert found["wood"] == {"Oak": (0, 1), "Ash": (1,)}
    assert found["year"] == {"2026": (0, 1)}
    assert found["hours"] == {"10-25": (0,), "25-50": (1,)}
    assert found["size"] == {"800-1200": (0,)}
    assert "joinery" not in found


def test_an_inch_shop_has_ranges_in_inches():
    found = {f.name: f for f in build([record("a", sides=(12192,))], units="in").facets}
    assert [value.label for value in found["size"].values] == ["32-48"]


def test_counts_that_are_kept_are_those_of_the_passages_and_others_are_made_anew(found):
    one = found[0]
    assert one.record.counts == counts_of(one.passages)
    of_another_edition = replace(one.record, counted="another", counts={"title": {"nonsense": 3}})
    assert of_another_edition.recounted(one.passages) == one.record


def test_terms_are_those_of_tokens_and_of_what_a_hyphen_joins(found):
    for passage in (passage for one in found[:20] for passage in one.passages):
        found = tokens(passage.text)
        whole = [token.term for token in (*found, *joined(passage.text, found))]
        assert terms(passage.text) == whole


@pytest.mark.parametrize(
    "harm",
    [
        lambda facts: facts | {"postings": facts["postings"].rpartition(" ")[0]},
        lambda facts: facts | {"postings": facts["postings"].replace(" ", "", 1)},
        lambda facts: facts | {"postings": facts["postings"].replace(" ", " <", 1)},
        lambda facts: facts | {"postings": facts["postings"].replace(" ", " ä", 1)},
        lambda facts: facts | {"rarity": facts["rarity"][:-1]},
        lambda facts: facts | {"terms": facts["terms"].rpartition(" ")[0]},
        lambda facts: facts | {"schema": 0},
    ],
)
def test_an_index_that_was_altered_is_none(harm):
    facts = pack(build([record("a", ("note", "", "oak and ash")), record("b", ("note", "", "oak and elm"))]))
    unpack(facts)
    with pytest.raises((ValueError, KeyError, TypeError)):
        unpack(harm(facts))

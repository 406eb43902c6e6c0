"""What care says: short whole sentences, every name filled in, nothing the client may not read."""

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.care import choose, rules
from buildbook.trade import tables
from tests.care.cases import CASES
from tests.care.pieces import (
    WORDS,
    coated,
    hardware,
    moving,
    pane,
    panel,
    piece,
    stone,
    supply,
    upholstery,
    wood,
)

LONGEST_SENTENCE = 30  # words
MOST_SENTENCES = 3
LONGEST_TITLE = 9
PIECES = {key: pair[0] for key, pair in CASES.items()}
CANARY = "Zqwx"


def sentences(text):
    """The sentences of a text; a colon inside one does not end it."""
    return re.split(r"(?<=[.?!])\s+", text)


@pytest.mark.parametrize("key", PIECES)
def test_every_text_is_short_whole_sentences(key):
    item = PIECES[key].item(key)
    for text in filter(None, (item.text, item.why, item.short)):
        assert text.endswith(".")
        assert text[0].isupper()
        assert not re.search(r"[{}]|\be\.g\.|\bi\.e\.|\betc\b|  | [.,;:]|\.\.|: \.", text)
        assert len(sentences(text)) <= MOST_SENTENCES
        for sentence in sentences(text):
            assert len(sentence.split()) <= LONGEST_SENTENCE, sentence
    assert len(sentences(item.why)) == 1
    assert len(item.title.split()) <= LONGEST_TITLE
    assert not item.title.endswith(".")


@pytest.mark.parametrize("key", PIECES)
def test_the_short_form_stands_only_where_it_is_for_the_first_day(key):
    item = PIECES[key].item(key)
    assert bool(item.short) == item.day_one == WORDS.has(f"care.{key}.short")
    assert len(sentences(item.short)) == 1


def test_a_piece_under_every_finish_reads_nothing_twice():
    coats = [coated(family.key, family.key) for family in tables.finishes()]
    made = piece(*(wood(name=coat.key, finish=coat.key) for coat in coats), finishes=coats, piece="table")
    texts = [item.text for item in made.care]
    assert len(texts) > 45
    assert len(set(texts)) == len(texts)


def test_nothing_promises_what_only_rules_or_a_wall_can_keep():
    for rule in rules():
        text = " ".join(WORDS.section(f"care.{rule.key}").values())
        assert not re.search(
            r"\b(complies|conforms|certified safe|(?<!a )guarantee\w*|is safe to|approved)\b", text
        )


ROWS = [
    wood("cocobolo", f"{CANARY} rail", material=f"{CANARY} wood", origin=f"{CANARY} mill, reclaimed"),
    wood("black-walnut", f"{CANARY} lid with live edge"),
    panel(f"{CANARY} back"),
    pane(f"{CANARY} door", "toughened"),
    pane(f"{CANARY} shelf"),
    stone("marble", f"{CANARY} slab"),
    hardware(f"{CANARY} magnet", f"{CANARY} catch"),
    hardware("brass", f"{CANARY} knob", note=f"{CANARY} lacquered"),
    hardware("steel", f"{CANARY} knife lamp"),
    upholstery(f"{CANARY} leather", f"{CANARY} seat"),
    upholstery(f"{CANARY} cloth", f"{CANARY} cushion"),
]
"""A row of every kind, named by a canary."""


def made_of(rows):
    """A piece of these rows, with canaries in what is private anywhere."""
    keys = (f"{CANARY}a", f"{CANARY}b")
    made = piece(
        *rows,
        supply(f"{CANARY} epoxy", f"{CANARY} glue"),
        finishes=[coated("soap", "c"), *(coated("shellac", key, note=CANARY) for key in keys)],
        tags=(CANARY,),
        client=CANARY,
        crosses_border=True,
    )
    return made.figured(movement=(moving(2, f"{CANARY} rail", ok=False),))


def test_the_client_reads_nothing_of_a_row_that_stays_in():
    items = [item for item in made_of(replace(row, for_client=False) for row in ROWS).care if item.for_client]
    assert len(items) > 15  # the cautions, and what is true of the whole piece
    for item in items:
        assert CANARY.lower() not in f"{item.title} {item.text} {item.why} {item.short}".lower()
        assert not re.search("cocobolo|walnut|birch", f"{item.text} {item.why}")


def test_the_same_rows_are_named_where_the_client_may_read_them():
    made = made_of(ROWS)
    assert "cocobolo" in made.item("cites").why
    assert "zqwx catch" in made.item("magnets-children").why
    assert "birch plywood" in made.item("formaldehyde-panels").why


@given(
    rows=st.lists(st.sampled_from([row for made in PIECES.values() for row in made.job.parts]), max_size=12),
    others=st.lists(st.sampled_from(sorted(PIECES)), min_size=2, max_size=2),
    shown=st.booleans(),
)
def test_any_mixture_gets_whole_texts_in_order_each_time_the_same(rows, others, shown):
    one, other = (PIECES[key] for key in others)
    made = piece(*(replace(row, for_client=shown) for row in rows), finishes=one.job.finishes)
    made = made.but(tags=other.job.tags, piece=other.job.piece, near=other.job.near, shop=one.job.shop)
    items = made.care
    assert items == choose(made.job, made.summary, WORDS)
    assert [item.order for item in items] == list(range(len(items)))
    assert len({item.key for item in items}) == len(items)
    for item in items:
        assert not re.search(r"[{}]|: \.|  | \.", f"{item.text}|{item.why}|{item.short}")

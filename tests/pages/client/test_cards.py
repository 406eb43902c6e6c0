"""What the cards of whole jobs say, held against what a maker would say of each kind of piece."""

import re
import tomllib
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from buildbook.pages.client.card import CareCard, card_of
from tests.conftest import ROOT

ORACLE = tomllib.loads((Path(__file__).parent / "cards.toml").read_text(encoding="utf-8"))


@cache
def card(name: str, language: str = "en") -> CareCard:
    job = read_job(ROOT / ORACLE[name]["job"])
    piece, *_ = pages_of(replace(job, shop=replace(job.shop, language=language)))
    return card_of(piece)


def said(card: CareCard) -> str:
    """The instructions and dates of a card, an item a line."""
    items = [f"{item.title} {item.text}" for item in (*card.cautions, *card.things)]
    return (
        "\n".join([*items, *(f"{line.value} {line.note}" for line in card.dates)])
        .replace("\xa0", " ")
        .replace("\u202f", " ")
    )


@pytest.mark.parametrize("name", ORACLE)
def test_a_card_says_what_its_maker_would_say_of_such_a_piece(name):
    text = said(card(name))
    missing = [pattern for pattern in ORACLE[name]["says"] if not re.search(pattern, text, re.IGNORECASE)]
    idle = [pattern for pattern in ORACLE[name]["leaves"] if re.search(pattern, text, re.IGNORECASE)]
    assert (missing, idle) == ([], []), text


@pytest.mark.parametrize("name", ORACLE)
def test_it_says_the_same_in_german_and_nothing_twice(name):
    english, german = card(name), card(name, "de")
    for part in ("cautions", "things"):
        assert [item.key for item in getattr(german, part)] == [item.key for item in getattr(english, part)]
    for made in (english, german):
        keys = [item.key for item in (*made.cautions, *made.things)]
        assert len(keys) == len(set(keys))
        sentences = [s for s in re.split(r"(?<=[.!?]) |\n", said(made)) if len(s) > 40]
        assert len(sentences) == len(set(sentences))

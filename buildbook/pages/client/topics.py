"""What a card tells of living with a piece, and in which order: card.toml, read once.

Pure but for reading that file. In: the instructions of a piece. Out: the few that it needs most, weightiest first.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources

from buildbook.care.rules import ORDINARY, SEVERITIES
from buildbook.pages.client.piece import Advice, FinishStory


@dataclass(frozen=True)
class Topics:
    """The topics of a card, weightiest first, each as the keys of its instructions; `left` are never told there."""

    topics: tuple[tuple[str, ...], ...]
    left: frozenset[str]


@cache
def topics() -> Topics:
    """The table. Raises KeyError where a row lacks what the head of the file names: our fault, never the maker's."""
    table = tomllib.loads(
        resources.files("buildbook.pages.client").joinpath("card.toml").read_text(encoding="utf-8")
    )
    return Topics(tuple(tuple(row["says"]) for row in table["topic"]), frozenset(table["left"]["says"]))


def most_needed(advice: Iterable[Advice], finishes: Sequence[FinishStory]) -> tuple[Advice, ...]:
    """An instruction of each topic that the piece has, then what the table does not know but keeps from harm, the
    gravest first.

    Within a topic, what is for the main finish, which is listed first, goes before what is for a lesser one only.
    """
    table = topics()
    waiting = {item.key: item for item in advice if item.key not in table.left}
    chosen = []
    for keys in table.topics:
        of_topic = [waiting[key] for key in keys if key in waiting]
        if of_topic:
            chosen.append(min(of_topic, key=lambda item: _of_lesser(item, finishes)))
    listed = {key for keys in table.topics for key in keys}
    unlisted = [item for key, item in waiting.items() if key not in listed and item.severity != ORDINARY]
    return (*chosen, *sorted(unlisted, key=lambda item: SEVERITIES.index(item.severity)))


def _of_lesser(item: Advice, finishes: Sequence[FinishStory]) -> bool:
    """Whether it is for a lesser finish and not for the main one."""
    return (
        any(finish.title and finish.title in item.text for finish in finishes[1:])
        and finishes[0].title not in item.text
    )

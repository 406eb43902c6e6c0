"""A job that makes several like pieces: its parts counted for all of them, and what to ask where it is not said.

In: a `Job` of what each file says. Out: its parts; problems. Pure.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from importlib import resources
from typing import Any

from buildbook.folding import folded
from buildbook.job.model import Job, Part

_EVENLY = ("wood", "panel", "glass", "stone", "upholstery")
"""Kinds of parts of which each piece of a set has as many; screws and glue come by the box."""

_TOKEN = re.compile(r"[^\W_]+(?:[-’'][^\W_]+)*|[,;:(]")
_TIMES = re.compile(r"(\d{1,3})[x×]?")
_STOPS = frozenset(",;:(")


def for_all(parts: Sequence[Part], job: Job) -> tuple[Part, ...]:
    """The parts with their counts for all pieces of the job, however they were written."""
    if job.parts_for != "each" or job.quantity == 1:
        return tuple(parts)
    return tuple(replace(part, qty=part.qty * job.quantity) for part in parts)


def uneven(job: Job) -> tuple[Part, ...]:
    """The parts that cannot be the same in every piece, by their counts for all."""
    return tuple(part for part in job.parts if part.kind in _EVENLY and part.qty % job.quantity)


# -- what a title tells ----------------------------------------------------------------------------


@dataclass(frozen=True)
class Several:
    """The words of a title that tell of several pieces, and how many; None where they do not say."""

    said: str
    count: int | None


@cache
def _told() -> Mapping[str, Any]:
    return tomllib.loads(resources.files("buildbook.job").joinpath("data", "several.toml").read_text("utf-8"))


def several(title: str) -> Several | None:
    """What a title such as `Six dining chairs` or `Ein Paar Nachttische` tells of how many pieces there are; None where
    it speaks of one. What a piece has or is for (`with two drawers`, `für vier Stühle`) tells nothing of it.
    """
    words = _TOKEN.findall(title)
    plain = [folded(word) for word in words]
    stop = next(
        (at for at, word in enumerate(plain) if word in _ends() and not _of_a_set(plain, at)), len(plain)
    )
    for at in range(stop):
        if found := _from(at, words[:stop], plain[:stop]):
            return found
    return None


def _ends() -> frozenset[str]:
    return frozenset(_told()["ends"]["words"])


def _of_a_set(plain: Sequence[str], at: int) -> bool:
    """Whether a word such as `aus` only joins a set with what is in it."""
    rules = _told()["set"]
    return at > 0 and plain[at] in rules["of"] and plain[at - 1] in rules["words"]


def _from(at: int, words: Sequence[str], plain: Sequence[str]) -> Several | None:
    """What the word at a place tells with those after it."""
    rules = _told()
    if plain[at] in rules["pair"]["words"]:
        return Several(_said(words, at, _noun(plain, at + 1)), 2)
    if plain[at] in rules["set"]["words"]:
        then = at + 1 + (at + 1 < len(plain) and plain[at + 1] in rules["set"]["of"])
        count = _count(plain[then]) if then < len(plain) else None
        noun = _noun(plain, then + (count is not None))
        if count is None and noun is None:
            return None
        return Several(_said(words, at, then if noun is None else noun), count)
    count = _count(plain[at])
    noun = _noun(plain, at + 1) if count is not None else None
    return Several(_said(words, at, noun), count) if noun is not None else None


def _count(word: str) -> int | None:
    """The number that a word or figures tell, of several; None for any other word."""
    if (times := _TIMES.fullmatch(word)) and int(times[1]) > 1:
        return int(times[1])
    count: int | None = _told()["counts"].get(word)
    return count


def _noun(plain: Sequence[str], begin: int) -> int | None:
    """Where the noun of several pieces stands, if one stands here or a few words on."""
    rules = _told()["pieces"]
    for at in range(begin, min(begin + rules["between"] + 1, len(plain))):
        if plain[at] in _STOPS:
            return None
        if plain[at].endswith(tuple(rules["ends"])):
            return at
    return None


def _said(words: Sequence[str], first: int, last: int | None) -> str:
    return " ".join(words[first : (first if last is None else last) + 1])

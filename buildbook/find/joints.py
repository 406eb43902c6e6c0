"""Which joints a note cuts: on which day, in which paragraph, and which settings, mistakes and fixes go with them.

In: the entries of a job with the ids of their days. Out: `JointsTold`, each stretch of the notes with the joints that
it is about. A joint is cut where a `Joint:` mark names it, and where a note names it on a day with hours of joinery or
one whose title names a joint. A setting, a mistake and its fix go with the joint that is told last before them. Words
are in `joints.toml`.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from pkgutil import get_data
from typing import NamedTuple

from buildbook.estimate.hours.forecast import own_driver
from buildbook.find.tokens import single_terms, tokens
from buildbook.folding import folded
from buildbook.job.log_model import LogEntry
from buildbook.job.notes.markdown import FOR_CLIENT
from buildbook.job.notes.places import Block, blocks_of

_JOINERY = "joints"  # what the hours of the stage of joints go with (estimate/data/drivers.toml)
_BY_BEGINNING = 5  # letters of a word that is told by its beginning too
_JOINT = "joint"  # the mark
_GOES_ALONG = frozenset(("setting", "mistake", "fix", "next-time"))
"""Marks that go with what is told before them."""
_NAMES = frozenset(("jig", "template", "changed"))
"""Marks that are about the joint that they name, on any day."""

Joints = frozenset[str]
_NONE: Joints = frozenset()


class Joint(NamedTuple):
    """A row of joints.toml. told: words in a row, as terms. kind_of: the joint that it is a kind of, maybe empty."""

    key: str
    names: str
    told: tuple[tuple[str, ...], ...]
    kind_of: str


class JointsTold(NamedTuple):
    """A stretch of the notes: its day, the id where it stands, the mark that it opens, its words, and the joints that
    it is about. `cuts`: whether it says so itself, and is not only told beside it.
    """

    day: str
    at: str
    block: Block
    joints: Joints
    cuts: bool


@cache
def joints() -> Mapping[str, Joint]:
    rows = tomllib.loads((get_data(__name__, "joints.toml") or b"").decode("utf-8"))
    return {
        key: Joint(
            key,
            row["names"],
            tuple(tuple(single_terms(words)) for words in row["told"]),
            row.get("of", ""),
        )
        for key, row in rows.items()
    }


@cache
def _by_first() -> dict[str, list[tuple[tuple[str, ...], str]]]:
    """Words that tell a joint, by the first five letters of the first, the longest first."""
    found: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for joint in joints().values():
        for words in joint.told:
            found.setdefault(words[0][:_BY_BEGINNING], []).append((words, joint.key))
    for several in found.values():
        several.sort(key=lambda pair: (-len(pair[0]), -len(pair[0][0]), pair))
    return found


def joints_in(text: str) -> Joints:
    """The joints that a text names. Of words that overlap, those that say most."""
    return frozenset(key for _, _, key in _named(single_terms(text)))


def joint_spans(text: str) -> list[tuple[int, int, str]]:
    """Where in a text a joint is named: begin, end, the joint."""
    found = tokens(text)
    return [
        (found[first].start, found[last].end, key)
        for first, last, key in _named([token.term for token in found])
    ]


def _named(terms: Sequence[str]) -> Iterator[tuple[int, int, str]]:
    """The first and the last word that name a joint, and the joint."""
    at = 0
    while at < len(terms):
        for words, key in _by_first().get(terms[at][:_BY_BEGINNING], ()):
            if _stands(words, terms[at : at + len(words)]):
                yield at, at + len(words) - 1, key
                at += len(words) - 1
                break
        at += 1


def _stands(words: tuple[str, ...], here: Sequence[str]) -> bool:
    """Whether words stand in a row; the last by its beginning where it is long enough."""
    return (
        len(words) == len(here)
        and all(one == other for one, other in zip(words[:-1], here, strict=False))
        and (here[-1] == words[-1] or (len(words[-1]) >= _BY_BEGINNING and here[-1].startswith(words[-1])))
    )


def kinds_of(keys: Iterable[str]) -> Joints:
    """Joints with those that they are a kind of."""
    known = joints()
    return frozenset(keys) | {known[key].kind_of for key in keys if known[key].kind_of}


def told_as(keys: Joints, stated: Joints) -> Joints:
    """The joints that a stated one may be told as: itself, its kinds, and what only the kind is told of, where the job
    states no plain one. `stated`: all that it states.
    """
    known = joints()
    kinds = {known[key].kind_of for key in keys} - {""} - stated
    return keys | kinds | {key for key, joint in known.items() if joint.kind_of in keys and key not in stated}


def told_in(entries: Iterable[tuple[str, LogEntry]], stated: Iterable[str] = ()) -> Iterator[JointsTold]:
    """Every stretch of the notes in its order, but for what opens a passage for the client. `entries`: with the ids of
    their days. `stated`: the joints that the job says it has.
    """
    of_job = frozenset().union(*map(joints_in, stated))
    for identity, entry in entries:
        yield from _told_on(identity, entry, of_job)


def _told_on(identity: str, entry: LogEntry, of_job: Joints) -> Iterator[JointsTold]:
    every = list(notes_of(entry))
    blocks = [block for block, _ in every]
    named = [joints_in(block.body) for block in blocks]
    title = joints_in(entry.title)
    is_at_joints = bool(title) or any(own_driver(booked.stage) == _JOINERY for booked in entry.hours)
    is_of_joints = is_at_joints or any(block.mark == _JOINT for block in blocks)
    cuts = [
        bool(own) and (block.mark == _JOINT or (is_at_joints and not block.mark and not told))
        for (block, told), own in zip(every, named, strict=True)
    ]
    of_day = title.union(*(own for own, is_cut in zip(named, cuts, strict=True) if is_cut))
    last = title
    for block, own, is_cut in zip(blocks, named, cuts, strict=True):
        if block.mark == _JOINT:
            about = last = _meant(own)
        elif is_cut:
            about = last = _meant(own, last, of_day, of_job)
        elif block.mark in _GOES_ALONG and is_of_joints:
            about = _meant(own, last, of_day) | (last or of_day)
        else:
            about = _meant(own, last, of_day) if block.mark in _NAMES else _NONE
        place = f"{identity}-{block.place}"
        yield JointsTold(entry.day.isoformat(), place, block, about, is_cut)


def notes_of(entry: LogEntry) -> Iterator[tuple[Block, bool]]:
    """The stretches of a note, and whether they are told to the client, who is not told where a joint was cut but what
    it is good for.
    """
    told = False
    for block in blocks_of(entry.body):
        if block.is_heading:
            told = folded(block.text) in FOR_CLIENT
        if not (block.is_heading and told):
            yield block, told


def _meant(own: Joints, *around: Joints) -> Joints:
    """The joints that words mean: where they tell only the kind, those of the kind that stand beside it or, by turns,
    `around` it.
    """
    known = joints()
    found: set[str] = set()
    for key in own:
        kinds = (frozenset(one for one in some if known[one].kind_of == key) for some in (own, *around))
        found |= next(filter(None, kinds), _NONE) or {key}
    return frozenset(found)

"""Where the log leads on to: the pages across the jobs of the book, for each wood, finish, joint, jig, hinge and
supplier that it names.

In: the job and its figures. Out: addresses seen from the top of the book, for a cell of a table that is such a name,
and for the names that stand in a line of a note. What has no place there leads nowhere.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from buildbook.find.joints import joint_spans, joints_in, told_as
from buildbook.folding import folded
from buildbook.job.model import Job
from buildbook.pages.phrases import Phrases
from buildbook.summary.model import Summary
from buildbook.summary.things import address, finish_key, hardware_key, joint_key, named_in
from buildbook.trade import tables

_SHORTEST = 3  # letters of a name that is looked for in a line


class Bit(NamedTuple):
    """A stretch of a line, and where it leads, empty for nowhere."""

    text: str
    to: str = ""


@dataclass(frozen=True)
class Onward:
    """cells: address by the text of a whole cell. names: address by a name in a line, folded. joints: by their key."""

    cells: Mapping[str, str]
    names: Mapping[str, str]
    joints: Mapping[str, str]

    def bits(self, text: str) -> tuple[Bit, ...]:
        """A line in stretches; each address once, where two names overlap that which begins first, or is longer."""
        found: list[Bit] = []
        at, been = 0, set[str]()
        for start, end, to in sorted(self._spots(text), key=lambda spot: (spot[0], -spot[1])):
            if start >= at and to not in been:
                found += [Bit(text[at:start]), Bit(text[start:end], to)]
                at = end
                been.add(to)
        return tuple(bit for bit in (*found, Bit(text[at:])) if bit.text)

    def _spots(self, text: str) -> Iterator[tuple[int, int, str]]:
        for start, end, key in joint_spans(text):
            if to := self.joints.get(key):
                yield start, end, to
        for name, to in self.names.items():
            for match in re.finditer(rf"(?<!\w){re.escape(name)}(?!\w)", text, re.IGNORECASE):
                yield match.start(), match.end(), to


def onward(job: Job, summary: Summary, phrases: Phrases) -> Onward:
    """Where the log of a job leads."""
    written = dict(named_in(job, summary))
    cells = written | dict(_shown(job, summary, phrases))
    heads = dict(_heads(job))
    names = {folded(name): to for name, to in (*heads.items(), *cells.items()) if len(name) >= _SHORTEST}
    return Onward(cells, names, dict(_joints(job)))


def _shown(job: Job, summary: Summary, phrases: Phrases) -> Iterator[tuple[str, str]]:
    """Names as the tables of the log have them, where that is not as the maker wrote."""
    for part in job.parts:
        if part.kind == "wood" and part.key in tables.species():
            name = tables.species()[part.key].name
            yield phrases.words.name("species_name", part.key, name), address("woods", part.same)
    for use in summary.finish:
        yield phrases.finish(use), address("finishes", finish_key(use))
    by_row = {part.row: part for part in job.parts}
    for item in summary.hardware:
        yield item.spec, address("hardware", hardware_key(by_row[item.row]))


def _heads(job: Job) -> Iterator[tuple[str, str]]:
    """The word that says which wood it is (`oak` of `European oak`), where only one wood of the job has it."""
    woods = {part.same: part.material for part in job.parts if part.kind == "wood" and part.material.strip()}
    heads = {
        same: material.split(",")[0].split()[-1]
        for same, material in woods.items()
        if material.split(",")[0].split()
    }
    counts = Counter(map(folded, heads.values()))
    for same, head in heads.items():
        if counts[folded(head)] == 1:
            yield head, address("woods", same)


def _joints(job: Job) -> Iterator[tuple[str, str]]:
    """Joints of the table, with the joint as the job states it; none for what may be told of several."""
    stated = frozenset[str]().union(*map(joints_in, job.joinery))
    names: dict[str, set[str]] = {}
    for name in job.joinery:
        for key in told_as(joints_in(name), stated):
            names.setdefault(key, set()).add(joint_key(name))
    for key, several in sorted(names.items()):
        if len(several) == 1:
            yield key, address("joinery", *several)

"""Where a maker's notes speak of a thing: the sentences of the log in which its name stands.

A name is found whatever its capitals, accents or plural s, by all its words or by the one that says what it is
(`hinge` for a brass butt hinge).
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from buildbook.find.joints import notes_of
from buildbook.find.tokens import idle, tokens
from buildbook.job.model import Job
from buildbook.job.notes.places import with_ids
from buildbook.left.model import Remark

MOST = 3  # sentences of the log that are kept of a thing in a job
LONGEST = 260  # characters of one
CUT = "…"
_ENDS = re.compile(r"(?<=[.!?…])[”“\"’)]*\s+(?=[^\W\d_a-zäöüß]|[“„\"(])")
_SHORTEST_HEAD = 3  # letters
_OUTSIDE = re.compile(r"\(.*?\)")

Terms = tuple[str, ...]


class Called(NamedTuple):
    """What a thing is called: by all words of a name one after the other, or by one word alone, a head."""

    names: tuple[Terms, ...]
    heads: tuple[str, ...]


class Sentence(NamedTuple):
    """`weight`: 1 where the maker marked it, -1 for the title of an entry, which seldom tells much; else 0. `at`: the
    id of where it stands.
    """

    day: str
    text: str
    terms: Terms
    weight: int
    at: str


@dataclass(frozen=True)
class Spoken:
    """The sentences of a job's log, where each word stands in them, and the words that are ever written small."""

    sentences: tuple[Sentence, ...]
    places: dict[str, list[tuple[int, int]]] = field(repr=False)
    small: frozenset[str] = field(repr=False)

    @classmethod
    def of(cls, job: Job) -> Spoken:
        found = tuple(_sentences(job))
        places: dict[str, list[tuple[int, int]]] = {}
        for number, sentence in enumerate(found):
            for at, term in enumerate(sentence.terms):
                places.setdefault(term, []).append((number, at))
        small = {
            token.term
            for sentence in found
            for token in tokens(sentence.text)
            if sentence.text[token.start].islower()
        }
        return cls(found, places, frozenset(small))

    def about(self, things: Sequence[Called]) -> list[tuple[Remark, ...]]:
        """At most a few sentences about each of several things of a kind, in the order of the log: first those with its
        whole name, and those that the maker marked (a mistake, its fix, what to do next time). One with the whole name
        of another thing is about that one, even if a head stands in it.
        """
        whole = [self._whole(thing) for thing in things]
        times = Counter(number for some in whole for number in some)
        return [
            self._best(
                own, {n for head in heads for n, _ in self.places.get(head, ()) if n in own or not times[n]}
            )
            for own, (_, heads) in zip(whole, things, strict=True)
        ]

    def _best(self, whole: set[int], by_head: set[int]) -> tuple[Remark, ...]:
        def rank(number: int) -> tuple[int, int]:
            return -(number in whole) - self.sentences[number].weight, number

        return tuple(
            Remark(one.day, "", shortened(one.text), one.at)
            for one in (self.sentences[number] for number in sorted(sorted(whole | by_head, key=rank)[:MOST]))
        )

    def _whole(self, thing: Called) -> set[int]:
        return {number for name in thing.names for number in self._with(name)}

    def _with(self, name: Terms) -> Iterable[int]:
        """The sentences that hold all words of a name, one after the other."""
        for number, at in self.places.get(name[0], ()):
            if self.sentences[number].terms[at : at + len(name)] == name:
                yield number


def _sentences(job: Job) -> Iterable[Sentence]:
    for identity, entry in with_ids(job.entries):
        day = entry.day.isoformat()
        if entry.title:
            yield Sentence(day, entry.title, terms_of(entry.title), -1, identity)
        for block, _ in notes_of(entry):
            text = " ".join(block.text.split())
            place = f"{identity}-{block.place}"
            for part in sentences_in(text):
                yield Sentence(day, part, terms_of(part), int(bool(block.mark)), place)


def sentences_in(text: str) -> list[str]:
    """A text in sentences."""
    return _ENDS.split(text)


def shortened(text: str) -> str:
    """The text on one line, cut at a word where it is longer than can be read at a glance."""
    text = " ".join(text.split())
    if len(text) <= LONGEST:
        return text
    return text[: LONGEST - len(CUT)].rsplit(" ", 1)[0] + CUT


def terms_of(name: str) -> Terms:
    """The words of a name or a sentence as they are compared."""
    return tuple(token.term for token in tokens(name))


def called(names: Iterable[str], heads: Iterable[str]) -> Called:
    """Names and heads as they are compared, each once."""
    told = dict.fromkeys(terms_of(name) for name in names)
    return Called(tuple(name for name in told if name), tuple(dict.fromkeys(head for head in heads if head)))


def telling(name: str) -> Terms:
    """The words of a name that say something."""
    return tuple(dict.fromkeys(term for term in terms_of(name) if _tells(term)))


def head_of(name: str) -> str:
    """The word that says what a thing is: the last before a comma, `hinge` of `brass butt hinge, 65 mm`."""
    first = _OUTSIDE.sub("", name).split(",")[0]
    return next((term for term in reversed(terms_of(first)) if _tells(term)), "")


def first_of(name: str) -> str:
    """The first word of a supplier's name that says something: `dunmarra` of `Dunmarra Hardwoods`."""
    words = [token for token in tokens(name) if _tells(token.term)]
    named = [token.term for token in words if name[token.start].isupper()]
    return named[0] if named else ""


def _tells(term: str) -> bool:
    return term.isalpha() and len(term) >= _SHORTEST_HEAD and term not in idle()

"""What is true of a piece as far as its care goes, each fact with the things on the piece that it is true of.

In: `Job`, `Summary` and `Words`. Out: `Facts`. Pure. The names of the facts, and what each means, stand at the head of
data/rules.toml; the modules `surfaces`, `woods`, `fittings`, `setting` and `told` find them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from buildbook.care import fittings, setting, surfaces, told, woods
from buildbook.care.subject import Found, Subject
from buildbook.job.model import Job
from buildbook.summary.model import Summary
from buildbook.words import Words


@dataclass(frozen=True)
class Facts:
    """The facts that hold for one piece, and what each is true of (nothing, for a fact about the whole
    piece).
    """

    held: Mapping[str, tuple[Subject, ...]]

    def holds(self, fact: str) -> bool:
        return fact in self.held

    def named(self, fact: str, *, public: bool) -> tuple[str, ...]:
        """The names of what a fact is true of; only those that the client may read, if `public`."""
        return tuple(dict.fromkeys(s.name for s in self.held.get(fact, ()) if s.public or not public))

    def may_be_told(self, fact: str) -> bool:
        """Whether a fact is true of the whole piece, or of anything that the client may read of."""
        subjects = self.held[fact]
        return not subjects or any(subject.public for subject in subjects)

    def __iter__(self) -> Iterator[str]:
        return iter(self.held)


def gather(found: Iterable[Found]) -> Facts:
    """Facts from single findings, each fact once, with its subjects in the order they were found."""
    held: dict[str, dict[Subject, None]] = {}
    for fact, subject in found:
        subjects = held.setdefault(fact, {})
        if subject is not None:
            subjects[subject] = None
    return Facts(MappingProxyType({fact: tuple(subjects) for fact, subjects in held.items()}))


def facts_of(job: Job, summary: Summary, words: Words) -> Facts:
    """Every fact that holds for a job, its subjects named in the language of `words`.

    Nothing is guessed: what is not written is no fact.
    """

    def all_found() -> Iterator[Found]:
        yield from surfaces.found(job, summary, words)
        yield from woods.found(job, summary, words)
        yield from fittings.found(job, summary, words)
        yield from setting.found(job, summary, words)
        yield from told.found(job, words)

    return gather(all_found())

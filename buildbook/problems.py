"""What is wrong with the maker's input, and where.

Readers add problems to a `Problems` collector and go on; nothing raises for what a maker wrote.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Literal

_FEW = 500  # known names that are compared with a slip one by one; of more, only the likest are
_LIKEST = 50
_HINTED = 500  # problems of a file that get a hint with the nearest known word

Severity = Literal["error", "warning"]


@dataclass(frozen=True)
class Problem:
    """One thing to put right.

    severity  `error`: the job is not bound; `warning`: bound, the section it feeds is marked.
    file      relative to the job folder (or the shelf), as the maker sees it.
    row       of a table, as a spreadsheet numbers it: the headings are row 1.
    line      of a text file, as an editor numbers it.
    field     a column, or a key such as `finish[2].coats`.
    message   what is there, quoted; one sentence.
    hint      one thing to do; a sentence.
    """

    severity: Severity
    file: str
    message: str
    hint: str = ""
    row: int | None = None
    line: int | None = None
    field: str = ""

    @property
    def place(self) -> str:
        """Where it is, in words: `parts.csv, row 7, thickness`."""
        parts = [self.file]
        if self.row is not None:
            parts.append(f"row {self.row}")
        if self.line is not None:
            parts.append(f"line {self.line}")
        if self.field:
            parts.append(self.field)
        return ", ".join(parts)

    def __str__(self) -> str:
        return f"{self.place}: {self.message}" + (f" {self.hint}" if self.hint else "")


class Problems:
    """A collector that readers add to."""

    def __init__(self) -> None:
        self._items: dict[Problem, None] = {}
        self._errors = 0

    def error(self, file: str, message: str, hint: str = "", **where: int | str | None) -> None:
        """Add what keeps the job from being bound; `where` is row, line, field."""
        self.add(Problem("error", file, message, hint, **where))  # type: ignore[arg-type]

    def warn(self, file: str, message: str, hint: str = "", **where: int | str | None) -> None:
        """Add what costs a section or rests on a guess; `where` is row, line, field."""
        self.add(Problem("warning", file, message, hint, **where))  # type: ignore[arg-type]

    def add(self, problem: Problem) -> None:
        if problem not in self._items:  # the same sentence twice helps nobody
            self._items[problem] = None
            self._errors += problem.severity == "error"

    @property
    def errors(self) -> int:
        """How many errors there are."""
        return self._errors

    def extend(self, problems: Iterable[Problem]) -> None:
        for problem in problems:
            self.add(problem)

    def near(self, word: str, known: Iterable[str]) -> str:
        """`did_you_mean`, while there are few problems: with hundreds, looking for hints takes longer than all else."""
        return did_you_mean(word, known) if len(self) < _HINTED else ""

    def __iter__(self) -> Iterator[Problem]:
        return iter(self.ordered())

    def __len__(self) -> int:
        return len(self._items)

    def ordered(self) -> tuple[Problem, ...]:
        """Most serious first, then by file and place."""
        return tuple(
            sorted(
                self._items,
                key=lambda p: (p.severity != "error", p.file, p.row or 0, p.line or 0, p.field, p.message),
            )
        )


def failed(job: str, fault: BaseException) -> Problem:
    """A fault of this program's own at one job, which the others must not pay for."""
    said = " ".join(f"{type(fault).__name__}: {fault}".split())
    what = f"buildbook itself failed on this job ({said[:_LONGEST_FAULT]})."
    return Problem("warning", job, what, "It is left out here; bind it alone to see all that is told of it.")


_LONGEST_FAULT = 200  # characters of a fault that a problem shows


def any_error(problems: Iterable[Problem]) -> bool:
    """Whether one of them keeps a job from being bound."""
    return any(problem.severity == "error" for problem in problems)


def listed(words: Iterable[str], last: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`."""
    items = list(words)
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"


def nearest(word: str, known: Iterable[str], how_many: int = 3) -> list[str]:
    """The known words that look most like this one, best first; empty when none is close."""
    import difflib  # only where something was misspelt

    by_folded = {k.casefold(): k for k in known}
    wanted = word.casefold()
    among = list(by_folded)
    if len(among) > _FEW:
        pairs = _pairs(wanted)
        among = heapq.nlargest(_LIKEST, among, key=lambda name: _alike(pairs, _pairs(name)))
    close = difflib.get_close_matches(wanted, among, n=how_many, cutoff=0.6)
    return [by_folded[c] for c in close]


@lru_cache(maxsize=20_000)
def _pairs(word: str) -> frozenset[str]:
    """The pairs of letters in a word."""
    return frozenset(map("".join, pairwise(word)))


def _alike(one: frozenset[str], other: frozenset[str]) -> float:
    """The share of pairs that two words have in common (Dice), from 0 to 1."""
    return 2 * len(one & other) / (len(one) + len(other) or 1)


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A hint sentence with the nearest known name, or all of them when they are few."""
    options = list(known)
    close = nearest(word, options, how_many=2)
    if close:
        return f"Did you mean {listed([f'“{c}”' for c in close], 'or')}?"
    if options and len(options) <= 12:
        return f"Known here: {', '.join(sorted(options))}."
    return ""

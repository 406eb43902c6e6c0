"""What is wrong with the maker's input, and where.

Readers add problems to a `Problems` collector and go on; nothing raises for what a maker wrote.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import Any, Literal

_FEW = 500  # known names that are compared with a slip one by one; of more, only the likest are
_LIKEST = 50
_HINTED = 500  # problems of a file that get a hint with the nearest known word
_FEW_WORDS = 12  # known words that a hint names all, where none is near

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
    also      further rows of a table, or lines of a text, that have the same: one cause is told once.
    """

    severity: Severity
    file: str
    message: str
    hint: str = ""
    row: int | None = None
    line: int | None = None
    field: str = ""
    also: tuple[int, ...] = ()

    @property
    def place(self) -> str:
        """Where it is, in words: `parts.csv, row 7, thickness`."""
        return ", ".join(part for part in (self.file, self.row_words, self.line_words, self.field) if part)

    @property
    def row_words(self) -> str:
        """`row 7`, `rows 7, 9-12`; empty where it is of no row."""
        return "" if self.row is None else self._numbered("row", self.row)

    @property
    def line_words(self) -> str:
        """`line 7`, `lines 7, 9-12`; empty where it is of no line."""
        return "" if self.line is None else self._numbered("line", self.line)

    def _numbered(self, what: str, first: int) -> str:
        return f"{what}s {spans((first, *self.also))}" if self.also else f"{what} {first}"

    def __str__(self) -> str:
        return f"{self.place}: {self.message}" + (f" {self.hint}" if self.hint else "")


OF_A_JOB = "job: "
"""How a cause begins that is one habit in all files of a job: told where it is met first."""


class _Cause:
    """What was told of one cause: its first problem, and where else it is."""

    def __init__(self, first: Problem) -> None:
        self.first = first
        self.numbers: dict[int, None] = {}
        self.fields: dict[str, None] = {}

    def add(self, problem: Problem) -> None:
        number = problem.row if problem.row is not None else problem.line
        self.numbers.update(dict.fromkeys(((number,) if number is not None else ()) + problem.also))
        self.fields[problem.field] = None

    def problem(self) -> Problem:
        first = self.first
        if len(self.numbers) < 2 and len(self.fields) < 2:
            return first
        fields = ", ".join(filter(None, self.fields))
        if not self.numbers:
            return replace(first, field=fields)
        least, *more = sorted(self.numbers)
        if first.row is not None:
            return replace(first, field=fields, row=least, also=tuple(more))
        return replace(first, field=fields, line=least, also=tuple(more))


class Problems:
    """A collector that readers add to. What is said of several rows or lines in the same words, or has the same cause,
    is one problem with all of them.
    """

    def __init__(self) -> None:
        self._items: dict[tuple[object, ...], _Cause] = {}
        self._errors = 0

    def error(self, file: str, message: str, hint: str = "", *, cause: str = "", **where: Any) -> None:
        """Add what keeps the job from being bound; `where` is row, line, field. `cause` names what is one slip of the
        whole file in whatever cells and words it shows.
        """
        self.add(Problem("error", file, message, hint, **where), cause)

    def warn(self, file: str, message: str, hint: str = "", *, cause: str = "", **where: Any) -> None:
        """Add what costs a section or rests on a guess; `where` is row, line, field; `cause` as above."""
        self.add(Problem("warning", file, message, hint, **where), cause)

    def add(self, problem: Problem, cause: str = "") -> None:
        said = (cause,) if cause else (problem.message, problem.hint, problem.field)
        placed = problem.row is not None, problem.line is not None
        file = "" if cause.startswith(OF_A_JOB) else problem.file
        key = (problem.severity, file, placed, *said)
        if key in self._items and self._items[key].first.file != problem.file:
            return
        if key not in self._items:
            self._items[key] = _Cause(problem)
            self._errors += problem.severity == "error"
        self._items[key].add(problem)

    @property
    def errors(self) -> int:
        """How many errors there are, each cause once."""
        return self._errors

    def extend(self, problems: Iterable[Problem]) -> None:
        for problem in problems:
            self.add(problem)

    def near(self, word: str, known: Iterable[str], few: int = _FEW_WORDS) -> str:
        """`did_you_mean`, while there are few problems: with hundreds, looking for hints takes longer than all else."""
        return did_you_mean(word, known, few) if len(self) < _HINTED else ""

    def __iter__(self) -> Iterator[Problem]:
        return iter(self.ordered())

    def __len__(self) -> int:
        return len(self._items)

    def ordered(self) -> tuple[Problem, ...]:
        """Most serious first, then by file and place."""
        return tuple(
            sorted(
                (cause.problem() for cause in self._items.values()),
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


def spans(numbers: Iterable[int]) -> str:
    """Numbers in their order, runs of three and more as a span: `2, 4-9`."""
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    near = (f"{a}" if a == b else f"{a}, {b}" if b == a + 1 else f"{a}-{b}" for a, b in runs)
    return ", ".join(near)


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


def did_you_mean(word: str, known: Iterable[str], few: int = _FEW_WORDS) -> str:
    """A hint sentence with the nearest known name, or all of them when they are no more than `few`."""
    options = list(known)
    close = nearest(word, options, how_many=2)
    if close:
        return f"Did you mean {listed([f'“{c}”' for c in close], 'or')}?"
    if options and len(options) <= few:
        return f"Known here: {', '.join(sorted(options))}."
    return ""

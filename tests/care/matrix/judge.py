"""Holds what was told of a piece against the trade: what is told wrongly, what is missing, what unsays itself."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fnmatch import fnmatchcase
from functools import cache
from pathlib import Path
from typing import Any, Literal, NamedTuple

from buildbook.care import rules
from tests.care.matrix.pieces import Told

HERE = Path(__file__).resolve().parent
EVERY = "*"
Sort = Literal["no rule", "told wrongly", "missing", "said wrongly", "not said", "clash", "refused"]
SORTS: tuple[Sort, ...] = (
    "no rule",
    "told wrongly",
    "missing",
    "said wrongly",
    "not said",
    "clash",
    "refused",
)


class Fault(NamedTuple):
    """What is wrong: the sort, the line of the oracle that says so, the kind of piece."""

    sort: Sort
    line: str
    kind: str


class OracleError(ValueError):
    """The oracle's files are not as their heads say."""


@dataclass(frozen=True)
class Line:
    """Where something must, may and must never be told, as clauses; `said` only where it is a pattern in the words."""

    name: str
    must: tuple[Clause, ...]
    may: tuple[Clause, ...]
    never: tuple[Clause, ...]
    reader: str = "client"
    said: re.Pattern[str] | None = None

    def verdict(self, is_: frozenset[str]) -> str:
        """`must`, `may` or `never`."""
        if _any(self.never, is_):
            return "never"
        if _any(self.must, is_):
            return "must"
        return "may" if _any(self.may, is_) else "never" if self.said is None else "may"


@dataclass(frozen=True)
class Clause:
    """Words that must all hold."""

    words: tuple[Word, ...]

    def holds(self, is_: frozenset[str]) -> bool:
        return all(word.holds(is_) for word in self.words)


@dataclass(frozen=True)
class Word:
    """One of some traits or groups, or none of them."""

    negated: bool
    traits: frozenset[str]
    groups: tuple[tuple[Clause, ...], ...]

    def holds(self, is_: frozenset[str]) -> bool:
        found = bool(self.traits & is_) or any(_any(group, is_) for group in self.groups)
        return found is not self.negated


def _any(clauses: Iterable[Clause], is_: frozenset[str]) -> bool:
    return any(clause.holds(is_) for clause in clauses)


# -- the oracle's files ------------------------------------------------------------------------------


@cache
def instructions() -> Mapping[str, Line]:
    """The line of every instruction, by its key."""
    table = _toml("instructions.toml")
    return {name: _line(name, row) for name, row in table.items() if name != "groups"}


@cache
def sayings() -> Mapping[str, Line]:
    """The line of everything that is looked for in the words."""
    return {name: _line(name, row) for name, row in _toml("says.toml").items()}


@cache
def clashes() -> tuple[tuple[str, str], ...]:
    """What must never stand together on one page: two patterns, or keys in angle brackets."""
    return tuple((one, other) for one, other in _toml("clashes.toml")["pairs"])


@cache
def named() -> frozenset[str]:
    """Every word that a clause of the oracle names, groups apart."""
    lines = (*instructions().values(), *sayings().values())
    clauses = [clause for line in lines for clause in (*line.must, *line.may, *line.never)]
    clauses += [clause for name in _toml("instructions.toml")["groups"] for clause in _group(name)]
    return frozenset(trait for clause in clauses for word in clause.words for trait in word.traits)


@cache
def _toml(name: str) -> dict[str, Any]:
    return tomllib.loads((HERE / name).read_text(encoding="utf-8"))


def _line(name: str, row: Mapping[str, Any]) -> Line:
    if strangers := set(row) - {"must", "may", "never", "said", "reader"}:
        raise OracleError(f"{name}: unknown: {', '.join(sorted(strangers))}")
    clauses = [tuple(map(_clause, row.get(part, ()))) for part in ("must", "may", "never")]
    said = re.compile(row["said"]) if "said" in row else None
    return Line(name, *clauses, reader=row.get("reader", "client"), said=said)


def _clause(text: str) -> Clause:
    return Clause(tuple(map(_word, text.split())))


def _word(text: str) -> Word:
    names = text.removeprefix("!").split("|")
    groups = tuple(_group(name[1:]) for name in names if name.startswith("@"))
    return Word(text.startswith("!"), frozenset(n for n in names if not n.startswith("@")), groups)


@cache
def _group(name: str) -> tuple[Clause, ...]:
    groups = _toml("instructions.toml")["groups"]
    if name not in groups:
        raise OracleError(f"there is no group {name}")
    return tuple(map(_clause, groups[name]))


def no_rules() -> Iterator[Fault]:
    """The lines whose instruction does not exist: not made yet, or gone."""
    made = {rule.key for rule in rules()}
    yield from (Fault("no rule", key, EVERY) for key in instructions() if key not in made)


# -- the judgement -----------------------------------------------------------------------------------


def faults(told: Told) -> Iterator[Fault]:
    """What is wrong with what was told of a piece."""
    kind = told.case["kind"]
    if told.refused:
        yield Fault("refused", _refused_for(told), kind)
        return
    for key in told.keys - instructions().keys():
        yield Fault("told wrongly", key, kind)  # no line: nobody has said where it is true
    made = {rule.key for rule in rules()}
    for key, line in instructions().items():
        verdict = line.verdict(told.is_)
        if key in told.keys and verdict == "never":
            yield Fault("told wrongly", key, kind)
        elif key not in told.keys and verdict == "must" and key in made:
            yield Fault("missing", key, kind)
    text = {reader: told.text(reader) for reader in ("client", "maker", "anyone")}
    for name, line in sayings().items():
        assert line.said is not None, name
        verdict = line.verdict(told.is_)
        if verdict == "may":
            continue
        if bool(line.said.search(text[line.reader])) is not (verdict == "must"):
            yield Fault("not said" if verdict == "must" else "said wrongly", name, kind)
    yield from _together(told, text["client"])


def _together(told: Told, text: str) -> Iterator[Fault]:
    """What unsays something else on the client's page, and what lacks that without which it makes no sense."""
    kind, to_client = told.case["kind"], {item.key for item in told.items if item.for_client}
    for one, other in clashes():
        if _stands(one, to_client, text) and _stands(other, to_client, text):
            yield Fault("clash", f"{one} / {other}", kind)
    for one, *others in _toml("clashes.toml")["needs"]:
        if _stands(one, to_client, text) and not any(_stands(other, to_client, text) for other in others):
            yield Fault("clash", f"{one} alone", kind)


def _stands(what: str, keys: set[str], text: str) -> bool:
    if what.startswith("<"):
        return any(fnmatchcase(key, what[1:-1]) for key in keys)
    return re.search(what, text) is not None


def _refused_for(told: Told) -> str:
    """What a case was refused for, in short: a family of finish that is not known, or the first thing that is told."""
    unknown = [fault for fault in told.refused if "family" in fault.split(":")[0]]
    return told.case["finish"] if unknown else told.refused[0].split(":")[0]

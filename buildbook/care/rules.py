"""The rules of care, read once from data/rules.toml: which facts call for which instruction.

Out: `rules()` in the order of the file, `vocabulary()`. A fault in the file is a `RuleError` that names the
rule.
"""

from __future__ import annotations

import tomllib
from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass, fields
from functools import cache
from graphlib import CycleError, TopologicalSorter
from importlib import resources
from types import MappingProxyType
from typing import Any, Literal

Audience = Literal["client", "maker", "both"]
Severity = Literal["warning", "caution", "note"]
Season = Literal[
    "now", "week", "month", "half-year", "year", "seasons", "moving", "changing", "another", "passing", "mend",
    "caution",
]  # fmt: skip
Manner = Literal["do", "never", "with"]
When = Literal["delivery", "settled", "month", "half-year", "spring", "autumn", "year"]

AUDIENCES: tuple[Audience, ...] = ("client", "maker", "both")
SEVERITIES: tuple[Severity, ...] = ("warning", "caution", "note")
ORDINARY: Severity = "note"
"""Keeps nobody from harm."""
SEASONS: tuple[Season, ...] = (
    "now", "week", "month", "half-year", "year", "seasons", "moving", "changing", "another", "passing", "mend",
    "caution",
)  # fmt: skip
MANNERS: tuple[Manner, ...] = ("do", "never", "with")
EVERYDAY: tuple[Season, ...] = ("week", "month", "half-year", "year")
"""Seasons of what is done every day or in its turn: an instruction of these has a manner."""
WHENS: tuple[When, ...] = ("delivery", "settled", "month", "half-year", "spring", "autumn", "year")
"""When the calendar calls: the day of handing over, once when the piece has settled, each month, half-year, spring,
autumn, year.
"""
BASES = ("read", "memory", "common practice")
ABOUT_FINISHES = ("finish.", "family.", "surface.", "under.")
"""What the name of a fact about finishes begins with."""


WEARS = "finish.wears"


class RuleError(ValueError):
    """A rule is not as the head of rules.toml says: our fault, never the maker's."""


@dataclass(frozen=True, kw_only=True)
class Rule:
    """One instruction and the facts that call for it, by the columns that the head of rules.toml explains.
    `order` is its place in the file.
    """

    key: str
    order: int
    covers: tuple[str, ...] = ()
    all: tuple[str, ...] = ()
    any: tuple[str, ...] = ()
    none: tuple[str, ...] = ()
    stands_back_for: tuple[str, ...] = ()
    audience: Audience
    severity: Severity
    season: Season
    manner: Manner | None = None
    day_one: bool = False
    before_sale: bool = False
    per_finish: bool = False
    renews: bool = False
    worn: bool = False
    due: tuple[When, ...] = ()
    proof: bool = False
    source: str
    basis: str

    @property
    def facts(self) -> tuple[str, ...]:
        """Every fact that the rule names; what renews a finish, or asks how it wears, is of one that does."""
        return (*self.all, *self.any, *self.none, *((WEARS,) if self.of_worn else ()))

    @property
    def of_worn(self) -> bool:
        """Whether it is for finishes that wear only."""
        return self.renews or self.worn

    @property
    def times(self) -> tuple[When, ...]:
        """When the calendar calls for it: as `due` says, else by its season. What is done each month is in the calendar
        only where somebody could come to harm, or the piece could.
        """
        if self.due:
            return self.due
        if self.season == "month":
            return ("month",) if self.severity != ORDINARY else ()
        return (self.season,) if self.season in ("half-year", "year") else ()

    def called_for_by(self, held: Container[str]) -> bool:
        """Whether a piece for which these facts hold calls for it."""
        return (
            all(fact in held for fact in self.all)
            and (not self.any or any(fact in held for fact in self.any))
            and not any(fact in held for fact in self.none)
        )


def called_for(rules: Iterable[Rule], held: Container[str]) -> tuple[Rule, ...]:
    """The rules that a piece with these facts is given, in their order: those that the facts call for, but
    none that stands back for another that is given.
    """
    called = {rule.key: rule for rule in rules if rule.called_for_by(held)}

    @cache
    def is_given(key: str) -> bool:
        return key in called and not any(is_given(other) for other in called[key].stands_back_for)

    return tuple(rule for rule in called.values() if is_given(rule.key))


@cache
def rules() -> tuple[Rule, ...]:
    """Every rule, in the order of the file."""
    return read_rules(_table())


@cache
def vocabulary() -> Mapping[str, str]:
    """The facts that a rule may name, and what each means."""
    return MappingProxyType(_table()["facts"])


@cache
def _table() -> dict[str, Any]:
    text = resources.files("buildbook.care").joinpath("data", "rules.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def read_rules(table: Mapping[str, Any]) -> tuple[Rule, ...]:
    """The rules of a parsed file. Raises RuleError for the first that is not as it should be."""
    found: dict[str, Rule] = {}
    for order, row in enumerate(table["rule"]):
        rule = _read(row, order)
        if rule.key in found:
            raise RuleError(f"the rule {rule.key} stands twice")
        if strangers := set(rule.facts) - set(table["facts"]):
            raise RuleError(f"{rule.key}: no such fact: {', '.join(sorted(strangers))}")
        found[rule.key] = rule
    for rule in found.values():
        _check_covers(rule, found)
        _check_stands_back(rule, found)
    _check_no_cycle(found)
    return tuple(found.values())


def _check_covers(rule: Rule, rules: Mapping[str, Rule]) -> None:
    if own := [key for key in rule.covers if key in rules]:
        raise RuleError(f"{rule.key}: covers what has a rule of its own: {', '.join(own)}")


def _check_stands_back(rule: Rule, rules: Mapping[str, Rule]) -> None:
    for key in rule.stands_back_for:
        if key not in rules:
            raise RuleError(f"{rule.key}: stands back for {key}, and there is no such rule")
        if rules[key].audience not in (rule.audience, "both"):
            raise RuleError(f"{rule.key}: stands back for {key}, which not all of its readers get")


def _check_no_cycle(rules: Mapping[str, Rule]) -> None:
    waits_for = {rule.key: rule.stands_back_for for rule in rules.values()}
    try:
        TopologicalSorter(waits_for).prepare()
    except CycleError as cycle:
        raise RuleError(f"rules stand back for each other: {', '.join(sorted(set(cycle.args[1])))}") from None


def _read(row: Mapping[str, Any], order: int) -> Rule:
    name = row.get("key", f"rule {order + 1}")
    if strangers := set(row) - {field.name for field in fields(Rule)}:
        raise RuleError(f"{name}: unknown: {', '.join(sorted(strangers))}")
    if wrong := [when for when in row.get("due", ()) if when not in WHENS]:
        raise RuleError(f"{name}: due is {wrong[0]!r}, not one of {', '.join(WHENS)}")
    if (row.get("renews") or row.get("worn")) and not row.get("per_finish"):
        raise RuleError(f"{name}: what renews a finish is per_finish")
    allowed = {"audience": AUDIENCES, "severity": SEVERITIES, "season": SEASONS, "basis": BASES}
    for column, words in allowed.items():
        if row.get(column) not in words:
            raise RuleError(f"{name}: {column} is {row.get(column)!r}, not one of {', '.join(words)}")
    _check_manner(name, row)
    if not row.get("source") or not (row.get("all") or row.get("any")):
        raise RuleError(f"{name}: a rule needs a source, and facts in `all` or `any`")
    if row.get("per_finish") and not _about_finishes(row):
        raise RuleError(
            f"{name}: per_finish needs facts about finishes, and no more than one of them in `all`"
        )
    lists = ("covers", "all", "any", "none", "stands_back_for", "due")
    listed = {column: tuple(row.get(column, ())) for column in lists}
    return Rule(**{**row, **listed, "order": order})


def _check_manner(name: str, row: Mapping[str, Any]) -> None:
    """An everyday rule says whether it is done, never done, or what it is done with; no other does."""
    if row["season"] not in EVERYDAY:
        if "manner" in row:
            raise RuleError(f"{name}: a rule of the season {row['season']} has no manner")
    elif row.get("manner") not in MANNERS:
        raise RuleError(f"{name}: manner is {row.get('manner')!r}, not one of {', '.join(MANNERS)}")


def _about_finishes(row: Mapping[str, Any]) -> bool:
    """Whether it is plain for which finishes a rule holds: two finish facts in `all` may be true of
    different ones.
    """
    in_all, in_any = (
        [fact for fact in row.get(column, ()) if fact.startswith(ABOUT_FINISHES)] for column in ("all", "any")
    )
    return len(in_all) + bool(in_any) == 1

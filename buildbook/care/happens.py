"""If something happens: what to do in the first minute, what not to do and whom to call, by what the piece is made of.

In: the `Facts` that care goes by. Out: `Happening`s, in the order of data/happens.toml, which says what calls for what;
what is said is words/<language>.toml, [happens]. Pure.
"""

from __future__ import annotations

import tomllib
from collections.abc import Container, Mapping
from dataclasses import dataclass, fields
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any

from buildbook.care.facts import Facts
from buildbook.care.figures import MOST_NAMED
from buildbook.care.rules import BASES, RuleError, vocabulary
from buildbook.words import Words

OF_ANY = ("piece", "people")
"""What an entry is about that is true of any piece."""
WOOD, UNSAID, CANDLE = "wood", "unsaid", "candle"
"""Wood, wood of which no finish is known, wood with candle wax on it."""
OF_WOOD = (WOOD, UNSAID, CANDLE)


@dataclass(frozen=True, kw_only=True)
class AidRule:
    """Three lines for one event, and what calls for them, by the columns that the head of happens.toml explains."""

    key: str
    event: str
    of: tuple[str, ...]
    all: tuple[str, ...] = ()
    any: tuple[str, ...] = ()
    none: tuple[str, ...] = ()
    call: str
    danger: bool = False
    source: str
    basis: str

    @property
    def facts(self) -> tuple[str, ...]:
        """The facts that it names itself."""
        return (*self.all, *self.any, *self.none)


@dataclass(frozen=True)
class FirstAid:
    """What to do for what the piece is made of, in three lines.

    of        what it is about, in general words; `named` are the names of it on this piece that the client may read.
    to_maker  whether whom to call is the maker. danger: somebody can be hurt.
    """

    key: str
    of: tuple[str, ...]
    named: tuple[str, ...]
    first: str
    never: str
    call: str
    to_maker: bool
    danger: bool
    source: str
    basis: str


@dataclass(frozen=True)
class Happening:
    """One event, and the first aid for it: what is dangerous first, then in the order of the file."""

    event: str
    title: str
    aid: tuple[FirstAid, ...]


@dataclass(frozen=True)
class AidTable:
    """The file, read: `made_of` gives the facts of which one says that a piece is made of a thing, `calls` whether it
    is the maker who is called.
    """

    events: Mapping[str, tuple[str, ...]]
    made_of: Mapping[str, tuple[str, ...]]
    finishes: tuple[str, ...]
    calls: Mapping[str, bool]
    entries: tuple[AidRule, ...]

    def made(self, held: Container[str]) -> tuple[str, ...]:
        """The things that a piece is made of for which these facts hold."""
        there = {name: any(fact in held for fact in found) for name, found in self.made_of.items()}
        there |= dict.fromkeys(OF_ANY, True)
        there[UNSAID] = there[WOOD] and not any(there[name] for name in self.finishes)
        return tuple(name for name, is_there in there.items() if is_there)


def if_something_happens(facts: Facts, words: Words) -> tuple[Happening, ...]:
    """What the owner of a piece with these facts is told of each event; an event of which there is nothing to say is
    left out.
    """
    known = table()
    told = [entry for entry in called_for(facts.held, known) if entry.danger or _may_be_told(entry, facts)]
    happenings = []
    for event in known.events:
        aid = sorted((entry for entry in told if entry.event == event), key=lambda entry: not entry.danger)
        if aid:
            title = words.text(f"happens.event.{event}")
            happenings.append(Happening(event, title, tuple(_first_aid(one, facts, words) for one in aid)))
    return tuple(happenings)


def called_for(held: Container[str], known: AidTable) -> tuple[AidRule, ...]:
    """The entries that a piece for which these facts hold is given, in their order."""
    made = known.made(held)
    return tuple(
        entry
        for entry in known.entries
        if any(name in made for name in entry.of)
        and all(fact in held for fact in entry.all)
        and (not entry.any or any(fact in held for fact in entry.any))
        and not any(fact in held for fact in (*entry.none, *known.events[entry.event]))
    )


def _may_be_told(entry: AidRule, facts: Facts) -> bool:
    """Whether the client may read of anything that it is about."""
    made = table().made(facts.held)
    return any(name in made and _may_be_read(name, facts) for name in entry.of)


def _may_be_read(name: str, facts: Facts) -> bool:
    """Whether a thing that the piece is made of is any piece’s, or stands in a row that the client may read."""
    about = [fact for fact in table().made_of[name] if facts.holds(fact)]
    return not about or any(map(facts.may_be_told, about))


def _first_aid(entry: AidRule, facts: Facts, words: Words) -> FirstAid:
    of, named = _about(entry, facts)
    return FirstAid(
        key=entry.key,
        of=tuple(dict.fromkeys(words.text(f"happens.made_of.{name}") for name in of)),
        named=named,
        first=words.text(f"happens.{entry.key}.first"),
        never=words.text(f"happens.{entry.key}.never"),
        call=words.text(f"happens.call.{entry.call}"),
        to_maker=table().calls[entry.call],
        danger=entry.danger,
        source=entry.source,
        basis=entry.basis,
    )


def _about(entry: AidRule, facts: Facts) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What an entry is about on this piece: the things, and their names as far as they help a reader. What is about
    every finish of a piece with several is about its wood.
    """
    known = table()
    made = known.made(facts.held)
    finishes = [name for name in made if name in known.finishes]
    there = tuple(name for name in entry.of if name in made and (entry.danger or _may_be_read(name, facts)))
    if len(finishes) > 1 and set(there) == set(finishes):
        return (WOOD,), ()
    unnamed = (*OF_WOOD, *(finishes if len(finishes) == 1 else ()))
    facts_there = [fact for name in there if name not in unnamed for fact in known.made_of[name]]
    named = tuple(dict.fromkeys(called for fact in facts_there for called in facts.named(fact, public=True)))
    return there, named if len(named) <= MOST_NAMED else ()


@cache
def table() -> AidTable:
    """The file of the package, read once."""
    text = resources.files("buildbook.care").joinpath("data", "happens.toml").read_text(encoding="utf-8")
    return read_table(tomllib.loads(text))


def read_table(file: Mapping[str, Any]) -> AidTable:
    """A parsed file. Raises RuleError for the first entry that is not as its head says."""
    made_of, events = _lists(file["made_of"]), _lists(file["events"])
    for where, lists in (("made_of", made_of), ("events", events)):
        if strangers := {fact for found in lists.values() for fact in found} - set(vocabulary()):
            raise RuleError(f"{where}: no such fact: {', '.join(sorted(strangers))}")
    finishes = tuple(file["finishes"])
    if strangers := {WOOD, UNSAID, *OF_ANY, *finishes} - set(made_of):
        raise RuleError(f"made_of: lacks {', '.join(sorted(strangers))}")
    entries: dict[str, AidRule] = {}
    for row in file["entry"]:
        entry = _entry(row, events, made_of, file["calls"])
        if entry.key in entries:
            raise RuleError(f"the entry {entry.key} stands twice")
        entries[entry.key] = entry
    calls = MappingProxyType(dict(file["calls"]))
    return AidTable(events, made_of, finishes, calls, tuple(entries.values()))


def _lists(rows: Mapping[str, Any]) -> Mapping[str, tuple[str, ...]]:
    return MappingProxyType({name: tuple(found) for name, found in rows.items()})


def _entry(
    row: Mapping[str, Any], events: Container[str], made_of: Mapping[str, Any], calls: Container[str]
) -> AidRule:
    name = row.get("key", "an entry without a key")
    if strangers := set(row) - {field.name for field in fields(AidRule)}:
        raise RuleError(f"{name}: unknown: {', '.join(sorted(strangers))}")
    if row["event"] not in events or not row["key"].startswith(f"{row['event']}-"):
        raise RuleError(f"{name}: its key begins with its event, one of `events`")
    if not row["of"] or set(row["of"]) - set(made_of):
        raise RuleError(f"{name}: is about nothing in made_of")
    if row.get("call") not in calls:
        raise RuleError(f"{name}: calls nobody in calls")
    if row.get("basis") not in BASES or not row.get("source"):
        raise RuleError(f"{name}: rests on nothing")
    listed = {column: tuple(row.get(column, ())) for column in ("of", "all", "any", "none")}
    entry = AidRule(**{**row, **listed})
    if strangers := set(entry.facts) - set(vocabulary()):
        raise RuleError(f"{name}: no such fact: {', '.join(sorted(strangers))}")
    return entry

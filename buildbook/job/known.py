"""All that a maker may write and that is known by its name: keys, columns, workings, woods, sheets, metals, finishes.

Made from the tables that the readers read by. `KEYS.md` (`keys_page`) and the command `keys` show it.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from buildbook.job.believable import believable
from buildbook.job.table.headings import PARTS, PRICES, Column
from buildbook.job.toml.key import READS, Key, Leaves, Table
from buildbook.job.toml.keys import JOB_TABLES
from buildbook.job.toml.photo_keys import PHOTO_TABLES
from buildbook.job.toml.shop_keys import SHOP_TABLES
from buildbook.job.toml.working_keys import WORKED
from buildbook.trade import tables
from buildbook.trade.kinds import kinds
from buildbook.trade.lookup import Table as Records
from buildbook.trade.lookup import plain_names, spellings, words
from buildbook.trade.records import Named, Species
from buildbook.words import Words, languages

Kind = Literal["key", "column", "table", "working", "material"]


@dataclass(frozen=True)
class KnownName:
    """A thing that is known by its name.

    where    the file and table it stands in, or the kind of thing that it is (`wood`).
    also     its other names, in any language.
    loose    names that are taken for it though they could mean another, which is then said.
    written  how its value is written; empty where there is none.
    between  what is believable of it, in words.
    leaves   what of it reaches a client; None for what is no value.
    """

    kind: Kind
    where: str
    name: str
    meaning: str
    botanical: str = ""
    also: tuple[str, ...] = ()
    loose: tuple[str, ...] = ()
    example: str = ""
    written: str = ""
    choices: tuple[str, ...] = ()
    between: str = ""
    needed: bool = False
    leaves: Leaves | None = None

    @property
    def names(self) -> tuple[str, ...]:
        botanical = (self.botanical,) if self.botanical else ()
        return (self.name, *botanical, *self.also, *self.loose)


@dataclass(frozen=True)
class KnownNames:
    """A table of them under its heading, as a maker meets it: `job.toml [[finish]]`, `woods`."""

    heading: str
    meaning: str
    every: tuple[KnownName, ...]


# -- keys and columns ------------------------------------------------------------------------------


def _between(key: Key) -> str:
    """The believable bounds in words; of a board, those of each side."""
    return "; ".join(believable(name).between() for name in key.within.split("; ") if name)


def _of_key(key: Key, where: str) -> KnownName:
    is_column = isinstance(key, Column)
    also = tuple(name.strip() for name in key.names.split(";")) if isinstance(key, Column) else ()
    return KnownName(
        kind="column" if is_column else "key",
        where=where,
        name=key.name,
        meaning=key.meaning,
        also=tuple(name for name in also if name != key.name),
        example=key.example,
        written="" if is_column else READS[key.reads],
        choices=key.choices,
        between=_between(key),
        needed=key.needed,
        leaves=key.leaves,
    )


def _of_table(file: str, table: Table) -> KnownNames:
    where = f"{file} {table.heading}".strip()
    return KnownNames(where, table.meaning, tuple(_of_key(key, where) for key in table.keys))


@cache
def written_in_files() -> tuple[KnownNames, ...]:
    """What each file may hold, in the order in which a maker meets it."""
    columns = (
        Table(
            "",
            "The parts, one row each; or parts.xlsx, parts.ods. Headings may have any of their other names.",
            tuple(PARTS.values()),
        ),
        Table("", "What materials cost, one row each.", tuple(PRICES.values())),
    )
    return (
        *(_of_table("job.toml", table) for table in JOB_TABLES),
        *(_of_table("job.toml", table) for table in WORKED.values()),
        *(_of_table("shop.toml", table) for table in SHOP_TABLES),
        *(_of_table("photos.toml", table) for table in PHOTO_TABLES),
        _of_table("parts.csv", columns[0]),
        _of_table("prices.csv", columns[1]),
    )


# -- materials and finishes ------------------------------------------------------------------------


def _taken(name: str, record: Named, table: Records[Any]) -> Iterator[str]:
    """A printed name as a reader takes it: whole, or what stands before its brackets, and in them."""
    forms = dict.fromkeys((*plain_names(name), *re.findall(r"\((.*?)\)", name)))
    for form in (form.strip() for form in forms):
        found = table.find(form)
        if found and found.record is record and not found.assumed:
            yield form


def _of_record(record: Named, table: Records[Any], kind: str, meaning: str, section: str) -> KnownName:
    """A row of the trade's table, with what each language calls it."""
    printed = (Words(language).name(section, record.key, "") for language in languages())
    in_words = (form for name in printed for form in _taken(name, record, table))
    botanical = record.botanical if isinstance(record, Species) else ""
    other = {"".join(words(name)): name for name in reversed((*in_words, *record.aliases))}
    said = {"".join(words(name)) for name in (record.name, botanical)}
    return KnownName(
        kind="material",
        where=kind,
        name=record.name,
        meaning=meaning,
        botanical=botanical,
        also=tuple(name for spelt, name in reversed(other.items()) if spelt not in said),
        loose=record.taken_for,
    )


@cache
def known_by_name() -> tuple[KnownNames, ...]:
    """Woods, sheets, metals, glass, stones, finishes, woods of walls, kinds of piece, each with all its names."""
    column, by_any = "Written in the column material", "by any of its names"
    said = (
        ("woods", "wood", f"{column}, {by_any}, the botanical one too.", tables.species(), "species_name"),
        ("sheets", "sheet", f"{column}, {by_any}.", tables.sheets(), "sheet_name"),
        ("glass", "glass", f"{column}, {by_any}.", tables.glass(), "glass_name"),
        ("stones", "stone", f"{column}, {by_any}.", tables.stones(), "stone_name"),
        (
            "metals",
            "metal",
            "Told from the name, the material or the note of hardware.",
            tables.metals(),
            "metal_name",
        ),
        (
            "finishes",
            "finish",
            f"Written as the family of a [[finish]], {by_any}.",
            tables.finishes(),
            "finish_name",
        ),
        (
            "wall woods",
            "wall wood",
            f"Written as the kind of [hanging.wall], {by_any}.",
            tables.wall_woods(),
            "",
        ),
    )
    return (
        *(
            KnownNames(
                heading, meaning, tuple(_of_record(record, table, kind, meaning, section) for record in table)
            )
            for heading, kind, meaning, table, section in said
        ),
        _of_pieces(),
    )


def _of_pieces() -> KnownNames:
    """The kinds of piece: what each has and what reaches it is not told, for it is what care asks, not the maker."""
    meaning = (
        "Written as piece, or found in the title, by any of its names; a German one may end a longer word."
    )
    every = (
        KnownName(kind="material", where="piece", name=kind.name, meaning=meaning, also=kind.aliases)
        for kind in kinds().values()
    )
    return KnownNames("kinds of piece", meaning, tuple(every))


# -- asking ----------------------------------------------------------------------------------------

_NEAR, _MOST_NEAR = (
    0.72,
    6,
)  # how alike two words are that may be a slip of one another, and how many are named


@dataclass(frozen=True)
class Answered:
    """What a word means, the surest first; where it means nothing, what is spelt much like it."""

    found: tuple[KnownName, ...]
    near: tuple[str, ...] = ()


def ask(word: str) -> Answered:
    """Everything of this name; else everything with this word in a name. Capitals, accents and hyphens do not count."""
    wanted = set(spellings(word))
    if not wanted:
        return Answered(())
    asked = words(word)
    whole = [one.known for one in _indexed() if one.spelt & wanted]
    inside = [
        one.known
        for one in _indexed()
        if not one.spelt & wanted and any(_holds(name, asked) for name in one.words)
    ]
    if whole or inside:
        return Answered((*whole, *inside))
    plain = {"".join(words(name)): name for one in _indexed() for name in one.known.names}
    close = difflib.get_close_matches("".join(asked), plain, n=_MOST_NEAR, cutoff=_NEAR)
    return Answered((), tuple(plain[spelt] for spelt in close))


@dataclass(frozen=True)
class _Indexed:
    """A thing with the spellings and the words of its names, worked out once."""

    known: KnownName
    spelt: frozenset[str]
    words: tuple[tuple[str, ...], ...]


@cache
def _indexed() -> tuple[_Indexed, ...]:
    return tuple(
        _Indexed(
            one,
            frozenset(spelt for name in one.names for spelt in spellings(name)),
            tuple(words(name) for name in one.names),
        )
        for one in _every()
    )


def _holds(inside: tuple[str, ...], asked: tuple[str, ...]) -> bool:
    """Whether every word that was asked for stands in a name, as a word of it or at the beginning of one."""
    return all(any(one.startswith(part) for one in inside) for part in asked)


def _every() -> Iterator[KnownName]:
    for some in (*written_in_files(), *known_by_name()):
        if _is_table(some):
            yield _as_one(some)
        yield from some.every


def _is_table(some: KnownNames) -> bool:
    return "[" in some.heading


def _as_one(some: KnownNames) -> KnownName:
    """A table as a thing to be asked for, by the name in its brackets or as the working that it is."""
    file, _, heading = some.heading.partition(" ")
    kind, name = ("working", heading.split('"')[1]) if '"' in heading else ("table", heading.strip("[]"))
    inside = ", ".join(one.name for one in some.every)
    return KnownName(
        "working" if kind == "working" else "table",
        f"{file} {heading}",
        name,
        f"{some.meaning} Keys: {inside}.",
    )


def leaving(leaves: Leaves) -> str:
    """What of a value reaches a client, in a few words; empty for nothing."""
    page, letter = _LEAVES[leaves.page], _LEAVES[leaves.letter]
    if page == letter:
        return page
    return ", ".join(_joined((("page", page), ("letter", letter))))


_LEAVES = {"no": "", "effect": "its effect", "yes": "yes"}


def _joined(said: Iterable[tuple[str, str]]) -> Iterator[str]:
    for where, what in said:
        if what:
            yield f"{where}: {what}"

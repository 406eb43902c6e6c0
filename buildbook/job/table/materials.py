"""What the trade's tables know of a material as a maker names it: which kind of part it makes, and its row."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources
from typing import Any

from buildbook.job.model import PartKind
from buildbook.problems import listed
from buildbook.trade import tables
from buildbook.trade.lookup import Found, Table
from buildbook.trade.tables import ANYWHERE, Place
from buildbook.trade.wood_rows import Woods

_TABLES: dict[PartKind, Callable[[], Table[Any]]] = {
    "wood": tables.species,
    "panel": tables.sheets,
    "glass": tables.glass,
    "stone": tables.stones,
    "hardware": tables.metals,
}
"""The table that names the materials of a kind, in the order in which a kind is inferred."""

NAMES = {"wood": "a wood", "panel": "a sheet", "glass": "a glass", "stone": "a stone", "hardware": "a metal"}
"""What a row of a kind's table is, in a sentence."""

_LONGEST = 80  # characters of a name that are looked at
_LONGEST_NAME = 4  # words of a material inside a longer description


@dataclass(frozen=True)
class KnownMaterial:
    """A row of a table of the trade; `assumed` says what a loose name was taken for, `stated` whether it says which."""

    kind: PartKind
    key: str = ""
    assumed: str = ""
    stated: bool = True


@lru_cache(maxsize=4096)
def find_material(kind: PartKind, name: str, place: Place = ANYWHERE) -> KnownMaterial | None:
    """The row of a kind's table that a name means in a place; None when it means none or the kind has no table.

    Hardware is named by what it is (`brass butt hinge`): any words in it that name a metal count.
    """
    if kind not in _TABLES:
        return None
    table = _TABLES[kind]()
    for words in _phrases(name[:_LONGEST], inside=kind in ("hardware", "glass")):
        if found := _find(table, words, place) or _with_aside(table, words, place):
            return KnownMaterial(kind, found.record.key, found.assumed, found.stated)
    return None


_ASIDE = re.compile(r"(?P<name>[^()]+?)\s*\((?P<aside>[^()]+)\)\s*")


def _with_aside(table: Table[Any], name: str, place: Place) -> Found[Any] | None:
    """A name with a second one in brackets, where both mean the same (`Ulme (Rüster)`) or make one (`oak (white)`): an
    aside that says something else is none that may be left out.
    """
    if (match := _ASIDE.fullmatch(name)) is None:
        return None
    if whole := _find(table, f"{match['aside']} {match['name']}", place):
        return whole
    one, other = (_find(table, match[part], place) for part in ("name", "aside"))
    if one is None or other is None:
        return None
    if one.record.key == other.record.key:
        return one if one.stated else other
    return None


def _find(table: Table[Any], name: str, place: Place) -> Found[Any] | None:
    """The names of woods hang on the place."""
    return table.find(name, place) if isinstance(table, Woods) else table.find(name)


def _phrases(name: str, inside: bool) -> Iterator[str]:
    yield name
    if inside:
        words = re.findall(r"[^\W_]+(?:-[^\W_]+)*", name)
        for length in range(min(_LONGEST_NAME, len(words)), 0, -1):
            for start in range(len(words) - length + 1):
                yield " ".join(words[start : start + length])


@lru_cache(maxsize=4096)
def infer_material(name: str, place: Place = ANYWHERE) -> KnownMaterial | None:
    """What a material is when its row does not say the kind: by the tables, else by telling words. None if
    unclear.
    """
    for kind, table in _TABLES.items():
        if found := _find(table(), name[:_LONGEST], place) or _with_aside(table(), name[:_LONGEST], place):
            return KnownMaterial(kind, found.record.key, found.assumed, found.stated)
    phrases = {phrase.casefold() for phrase in _phrases(name[:_LONGEST], inside=True)}
    said = [word for word in _kind_words() if word in phrases]
    longest = max((len(word.split()) for word in said), default=0)
    kinds = {_kind_words()[word] for word in said if len(word.split()) == longest}
    if not kinds and (ending := _by_ending(name)):
        kinds = {ending}
    if len(kinds) == 1:
        kind = kinds.pop()
        return find_material(kind, name, place) or KnownMaterial(kind)
    for kind in ("glass", "hardware"):
        if found_inside := find_material(kind, name):
            return found_inside
    return None


def _by_ending(name: str) -> PartKind | None:
    """The kind of a German compound, by the longest ending that is known: `Möbelknopf` is a Knopf."""
    for word in re.findall(r"[^\W_]+", name[:_LONGEST].casefold()):
        for begins in range(len(word) - 2):
            if kind := _kind_words().get(f"…{word[begins:]}"):
                return kind
    return None


@cache
def _kind_words() -> dict[str, PartKind]:
    text = resources.files("buildbook.job").joinpath("data/kind_words.csv").read_text("utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {row["word"].casefold(): row["kind"] for row in rows}  # type: ignore[misc]


@lru_cache(maxsize=1024)
def nearest_materials(name: str, kind: PartKind | None = None) -> str:
    """A hint with the nearest names, of one kind or of all that have a table; empty when none is near."""
    kinds = [kind] if kind in _TABLES else list(_TABLES) if kind is None else []
    names: list[str] = []
    for each in kinds:
        names += _TABLES[each]().nearest(name[:_LONGEST])
    quoted = [f"“{near}”" for near in dict.fromkeys(names[:3])]
    return f"Did you mean {listed(quoted, 'or')}?" if quoted else ""

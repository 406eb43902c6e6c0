"""What a maker says of a new piece before there is a job: by options, or asked on a terminal; the rest by what such a
piece usually has.

In: `Wishes`, as they were typed. Out: `Settled`, where everything is decided. `BeginError` for what is not known here.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from buildbook.folding import folded
from buildbook.job.begin.texts import ENGLISH, data, spoken, words
from buildbook.job.table.materials import infer_material, nearest_materials
from buildbook.problems import listed
from buildbook.trade import tables
from buildbook.trade.finish_names import meant
from buildbook.trade.kinds import PieceKind, called, kind_of
from buildbook.words import Words

BARE = "unfinished"
UNITS = ("mm", "in")
_YES = frozenset(("y", "yes", "j", "ja", "true", "1"))
_NO = frozenset(("n", "no", "nein", "none", "false", "0"))
_STORES = frozenset(("drawers", "shelves"))
_ADJUSTS = frozenset(("doors", "drawers"))


class BeginError(Exception):
    """The folder cannot be made; the text says why and what to do."""


@dataclass(frozen=True)
class Wishes:
    """What was said of the piece; None for what was not. `finish` is a family by any of its names."""

    piece: str | None = None
    units: str | None = None
    woods: tuple[str, ...] | None = None
    finish: str | None = None
    hangs: bool | None = None
    glass: bool | None = None
    client: str | None = None
    language: str | None = None


@dataclass(frozen=True)
class Around:
    """What a new folder's surroundings tell: its title, the language and units of its shop, whether there is one."""

    title: str
    language: str
    units: str
    has_shop: bool


@dataclass(frozen=True)
class Settled:
    """All that a new job says of its piece. `facts`: what is true of it, for the lines and rows that it needs."""

    piece: str
    units: str
    woods: tuple[str, ...]
    finish: str
    client: str
    language: str
    kind: PieceKind | None
    facts: frozenset[str]


def settled(wishes: Wishes, around: Around) -> Settled:
    """The wishes, each held against what is known, and what is taken where there is none."""
    language = wishes.language or around.language
    piece = usual_piece(around, language) if wishes.piece is None else wishes.piece.strip()
    kind = kind_of(piece, around.title)
    has = kind.has if kind else frozenset[str]()
    units = around.units if wishes.units is None else known_units(wishes.units)
    finish = usual_finish(kind) if wishes.finish is None else known_finish(wishes.finish)
    woods = wishes.woods if wishes.woods else (usual_wood(language, units),)
    woods = tuple(known_wood(wood) for wood in woods)
    hangs = "hangs" in has if wishes.hangs is None else wishes.hangs
    facts = {
        **dict.fromkeys(has, True),
        "hangs": hangs,
        "glass": bool(wishes.glass),
        "piece": bool(piece),
        "client": bool(wishes.client),
        "inch": units == "in",
        "metric": units == "mm",
        "coated": finish != BARE,
        "furniture": kind is None or "furniture" in has,
        "stores": bool(_STORES & has),
        "adjusts": bool(_ADJUSTS & has),
    }
    return Settled(
        piece=piece,
        units=units,
        woods=woods,
        finish=finish,
        client=(wishes.client or "").strip(),
        language=language,
        kind=kind,
        facts=frozenset(fact for fact, holds in facts.items() if holds),
    )


# -- what is usual -------------------------------------------------------------------------------


def usual_piece(around: Around, language: str) -> str:
    """What the folder's name says that it is, in the shop's language; empty where it says nothing."""
    named = called(around.title)
    if named is None:
        return ""
    if spoken(language) != ENGLISH:
        return named.kind.usual[-1]
    return next((name for name in named.kind.english if name.replace(" ", "") == named.by), named.kind.name)


def usual_finish(kind: PieceKind | None) -> str:
    """The family by the first fact that is true of the piece."""
    has = kind.has if kind else frozenset[str]()
    return next(row["family"] for row in _defaults()["finish"] if not row["fact"] or row["fact"] in has)


def usual_wood(language: str, units: str) -> str:
    return str(_defaults()["wood"][spoken(language)][units])


@cache
def _defaults() -> dict[str, Any]:
    return tomllib.loads(data().joinpath("defaults.toml").read_text("utf-8"))


# -- what is known -------------------------------------------------------------------------------


def known_units(text: str) -> str:
    """`mm` or `in`, by any of their names."""
    plain = folded(text).strip(". ")
    if plain in ("mm", "metric", "millimetre", "millimeter", "metrisch"):
        return "mm"
    if plain in ("in", "inch", "inches", '"', "zoll", "imperial"):
        return "in"
    raise BeginError(f"“{text}” is no unit of a bare number. Say mm or in.")


def known_finish(text: str) -> str:
    """The name of a family as it was typed, where one has it."""
    if folded(text) in _NO:
        return BARE
    if found := tables.finishes().find(text):
        return BARE if found.record.key == BARE else text.strip()
    near = listed([f"“{family.name}”" for family in meant(text)], "or")
    hint = f"Did you mean {near}?" if near else "All of them: buildbook keys"
    raise BeginError(f"“{text}” is not a finish that is known here. {hint}")


def known_wood(text: str) -> str:
    """A wood or a sheet as it was typed, where the tables have the name."""
    name = text.strip()
    found = infer_material(name)
    if found and found.kind in ("wood", "panel"):
        return name
    hint = nearest_materials(name, "wood") or "All of them: buildbook keys"
    raise BeginError(f"“{name}” is not a wood that is known here. {hint}")


def known_answer(text: str) -> bool:
    """Yes or no, in English or German."""
    if (plain := folded(text)) in _YES:
        return True
    if plain in _NO:
        return False
    raise BeginError(f"“{text}” is neither yes nor no.")


def split_woods(text: str) -> tuple[str, ...]:
    return tuple(known_wood(wood) for wood in text.split(",") if wood.strip())


# -- asking --------------------------------------------------------------------------------------

_READERS: Mapping[str, Callable[[str], Any]] = {
    "piece": str.strip,
    "units": known_units,
    "woods": split_woods,
    "finish": known_finish,
    "hangs": known_answer,
    "glass": known_answer,
    "client": str.strip,
}
QUESTIONS = tuple(_READERS)
"""What is asked, in this order."""

Ask = Callable[[str], str]
"""Shows a question, gives the answer. Raises EOFError where nobody answers any more."""


def asked(
    wishes: Wishes, around: Around, names: Sequence[str], ask: Ask, tell: Callable[[str], None]
) -> Wishes:
    """The wishes with an answer for each of these things that was not said. What is not known is asked again."""
    said = words(wishes.language or around.language)
    open_ones = [name for name in names if getattr(wishes, name) is None]
    if open_ones:
        tell(said["intro"])
    for name in open_ones:
        usual = _shown(name, settled(wishes, around), said, spoken(wishes.language or around.language))
        answer = _answer(f"{said[name]} [{usual or said['left']}]", _READERS[name], ask, tell)
        if answer is not None:
            wishes = replace(wishes, **{name: answer})
    return wishes


def _answer(question: str, read: Callable[[str], Any], ask: Ask, tell: Callable[[str], None]) -> Any:
    """What was answered, None for Enter."""
    while text := ask(question).strip():
        try:
            return read(text)
        except BeginError as wrong:
            tell(str(wrong))
    return None


def _shown(name: str, now: Settled, said: Any, language: str) -> str:
    """What Enter takes."""
    if name in ("hangs", "glass"):
        return str(said["yes" if name in now.facts else "no"])
    if name == "finish":
        if found := tables.finishes().find(now.finish):
            return Words(language).name("finish_name", found.record.key, found.record.name)
        return now.finish
    if name == "woods":
        return ", ".join(now.woods)
    return str(getattr(now, name))

"""The questions and the pieces, read once from their files."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
LANGUAGES = ("en", "de")


@dataclass(frozen=True)
class Asked:
    """Of which pieces something is asked: those that are any of `of` (all, where it is empty) and none of `not_of`."""

    of: frozenset[str] = frozenset()
    not_of: frozenset[str] = frozenset()

    def fits(self, traits: Iterable[str]) -> bool:
        have = set(traits)
        return (not self.of or bool(self.of & have)) and not self.not_of & have


@dataclass(frozen=True)
class Said:
    """Something that an answer says, or must not: `fits` says whether a text holds it."""

    says: str
    asked: Asked
    patterns: Mapping[str, re.Pattern[str]]

    def found(self, text: str, language: str) -> re.Match[str] | None:
        """Where a text says it, in its language; else in the other, for what the maker wrote."""
        others = (other for other in LANGUAGES if other != language)
        return next((hit for one in (language, *others) if (hit := self.patterns[one].search(text))), None)


@dataclass(frozen=True)
class Question:
    """One question, by the columns that the head of questions.toml explains."""

    key: str
    asked_as: Mapping[str, str]
    asked: Asked
    typed: Mapping[str, tuple[str, ...]]
    answer: Mapping[str, str]
    about: Said | None
    needs: tuple[Said, ...]
    never: tuple[Said, ...]
    source: str
    basis: str

    def needed_of(self, traits: Iterable[str]) -> tuple[Said, ...]:
        """What the answer must hold for such a piece, what matters most first."""
        return tuple(need for need in self.needs if need.asked.fits(traits))


@dataclass(frozen=True)
class Piece:
    """A job, and what a person sees of the piece."""

    key: str
    folder: str
    owner: str
    traits: frozenset[str]


@cache
def questions() -> tuple[Question, ...]:
    """All of them, in the order of the file."""
    return tuple(map(_question, _table("questions.toml")["question"]))


@cache
def pieces() -> tuple[Piece, ...]:
    """The six, in the order of the file."""
    return tuple(
        Piece(key, row["folder"], row["owner"], frozenset(row["is"]))
        for key, row in _table("pieces.toml").items()
    )


def asked_of(piece: Piece) -> tuple[Question, ...]:
    """The questions that an owner of this piece asks."""
    return tuple(question for question in questions() if question.asked.fits(piece.traits))


def _table(name: str) -> dict[str, Any]:
    return tomllib.loads((HERE / name).read_text(encoding="utf-8"))


def _question(row: Mapping[str, Any]) -> Question:
    return Question(
        key=row["key"],
        asked_as={"en": row["asked"], "de": row["gefragt"]},
        asked=_asked(row),
        typed={language: tuple(row["typed"][language]) for language in LANGUAGES},
        answer=row["answer"],
        about=_said({"says": "what it speaks of", **row["about"]}) if "about" in row else None,
        needs=tuple(map(_said, row["needs"])),
        never=tuple(map(_said, row.get("never", ()))),
        source=row["source"],
        basis=row["basis"],
    )


def _asked(row: Mapping[str, Any]) -> Asked:
    return Asked(frozenset(row.get("of", ())), frozenset(row.get("not_of", ())))


def _said(row: Mapping[str, Any]) -> Said:
    patterns = {language: re.compile(row[language], re.IGNORECASE) for language in LANGUAGES}
    return Said(row["says"], _asked(row), patterns)

"""The words that a page shows, one TOML file a language.

In: a language (`en`). Out: `Words`, which gives the text of a dotted key with its `{names}` filled in, or a
whole section for a template. Leaving out a value, or naming a key that is not there, is a fault of ours and
raises KeyError.
"""

from __future__ import annotations

import datetime
import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources
from types import MappingProxyType
from typing import Any

_NAME = re.compile(r"\{([A-Za-z][\w.-]*)\}|\{\{|\}\}|[{}]")
_BRACES = {"{{": "{", "}}": "}"}

Section = Mapping[str, Any]
"""A table of a words file: text, or further sections, by name. Cannot be changed."""

NAMES = (
    "species_name",
    "species_colour",
    "sheet_name",
    "metal_name",
    "glass_name",
    "stone_name",
    "finish_name",
    "near_name",
    "country_name",
)
"""Sections that only a language other than that of the tables has: names of rows by their keys (`Words.name`)."""


_KEPT = 1 << 14
"""Keys of which what they are is remembered: more than there are in a language."""


@cache
def languages() -> tuple[str, ...]:
    """The languages that have a words file."""
    files = (entry.name for entry in resources.files(__name__).iterdir())
    return tuple(sorted(name.removesuffix(".toml") for name in files if name.endswith(".toml")))


@dataclass(frozen=True)
class Words:
    """The words of one language. Raises KeyError for a language that has no file (see `languages`)."""

    language: str = "en"

    def __post_init__(self) -> None:
        if self.language not in languages():
            raise KeyError(f"there are no words for the language {self.language!r}")

    def text(self, key: str, **values: object) -> str:
        """The text of a dotted key (`care.oily-rags.text`), each `{name}` in it filled from `values`.

        Doubled braces stand for one. Raises KeyError for a key that is no text, and for a name without a
        value.
        """
        return fill(self._template(key), values, key)

    def has(self, key: str) -> bool:
        """Whether a dotted key is there, as a text or as a section."""
        return _found(self.language, key) is not None

    def names(self, key: str) -> frozenset[str]:
        """The `{names}` that a text asks values for. Raises KeyError for a key that is no text."""
        return frozenset(match[1] for match in _NAME.finditer(self._template(key)) if match[1])

    def section(self, key: str) -> Section:
        """A whole section, for a template to pick from. Raises KeyError for a key that is no section."""
        found = _found(self.language, key)
        if not isinstance(found, Mapping):
            raise KeyError(f"{key} is no section of {self.language}.toml")
        return found

    def every_key(self) -> Iterator[str]:
        """The dotted key of every text, in the order of the file."""
        return _texts(_table(self.language), "")

    def name(self, section: str, key: str, otherwise: str) -> str:
        """What this language calls a row of a table; `otherwise`, the table's own name, where it has none."""
        named = f"{section}.{key}"
        return self.text(named) if key and self.has(named) else otherwise

    def date(self, day: datetime.date) -> str:
        """`11 April 2026`, the day and month kept on one line."""
        return self.text("dates.day", day=day.day, month=self._month(day), year=day.year)

    def month(self, day: datetime.date) -> str:
        """`April 2026`, kept on one line."""
        return self.text("dates.month", month=self._month(day), year=day.year)

    def _month(self, day: datetime.date) -> str:
        return self.text(f"dates.months.m{day.month}")

    def _template(self, key: str) -> str:
        found = _found(self.language, key)
        if not isinstance(found, str):
            raise KeyError(f"{key} is no text of {self.language}.toml")
        return found


def fill(template: str, values: Mapping[str, object], key: str = "") -> str:
    """A template with each `{name}` filled. `key` is only for the message of the KeyError (or, for a lone
    brace, ValueError) that a fault raises."""

    def put(match: re.Match[str]) -> str:
        if name := match[1]:
            if name not in values:
                raise KeyError(f"{key}: no value for {{{name}}}")
            return str(values[name])
        if match[0] not in _BRACES:
            raise ValueError(f"{key}: a lone brace in {template!r}")
        return _BRACES[match[0]]

    return _NAME.sub(put, template)


@cache
def _table(language: str) -> Section:
    text = resources.files(__name__).joinpath(f"{language}.toml").read_text(encoding="utf-8")
    return _frozen(tomllib.loads(text))


def _frozen(table: dict[str, Any]) -> Section:
    return MappingProxyType({k: _frozen(v) if isinstance(v, dict) else v for k, v in table.items()})


@lru_cache(maxsize=_KEPT)
def _found(language: str, key: str) -> object | None:
    return _look_up(_table(language), key)


def _look_up(table: Section, key: str) -> object | None:
    found: object = table
    for step in key.split("."):
        found = found.get(step) if isinstance(found, Mapping) else None
    return found


def _texts(table: Section, above: str) -> Iterator[str]:
    for name, value in table.items():
        if isinstance(value, Mapping):
            yield from _texts(value, f"{above}{name}.")
        else:
            yield f"{above}{name}"

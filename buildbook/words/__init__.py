"""The words that a page shows, one TOML file a language.

In: a language (`en`). Out: `Words`, which gives the text of a dotted key with its `{names}` filled in, or a
whole section for a template. Leaving out a value, or naming a key that is not there, is a fault of ours and
raises KeyError.

The language of a country (`de-CH`) is a file of what differs, on top of its language (`de`).
"""

from __future__ import annotations

import datetime
import re
import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache, partial
from importlib import resources
from importlib.resources.abc import Traversable
from types import MappingProxyType
from typing import Any

from buildbook.words.plural import ALL, Rules, form_of, read_rules

_NAME = re.compile(r"\{([A-Za-z][\w.-]*)\}|\{\{|\}\}|[{}]")
_DAY = re.compile(r"\d{4}-\d\d-\d\d")
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
    "choice_name",
    "country_name",
)
"""Sections that only a language other than that of the tables has: names of rows by their keys (`Words.name`)."""


ABOUT = "language"
"""The section that is about the language and no words: `plural`, its forms but the last by the rules of `plural.py`;
`letters`, what is written for a letter or mark of the language below (`ss` for `ß`); `spelling`, what is written for a
part of a word of it (`color` for `colour`); `problems`, sentences of problems by their English; `meanings`, what keys,
columns and tables mean, by the same."""


def folders() -> tuple[Traversable, ...]:
    """Where words files lie."""
    return (resources.files(__name__),)


_LETTER = "letter."
_KEPT = 1 << 14
"""Keys of which what they are is remembered: more than there are in a language."""


@cache
def languages() -> tuple[str, ...]:
    """The languages that have a words file, those of a country (`de-AT`) among them."""
    return tuple(sorted(_files()))


def known_language(tag: str) -> str | None:
    """The language that a tag of BCP 47 asks for: itself, else the nearest above it (`de-LI`: `de`), else None."""
    by_folded = {name.casefold(): name for name in languages()}
    steps = tag.casefold().split("-")
    shorter = ("-".join(steps[:count]) for count in range(len(steps), 0, -1))
    return next((by_folded[name] for name in shorter if name in by_folded), None)


def chain(language: str) -> tuple[str, ...]:
    """A language and those it stands on: `de-CH`, `de`."""
    steps = language.split("-")
    above = ("-".join(steps[:count]) for count in range(len(steps), 0, -1))
    return tuple(name for name in above if name in languages())


@dataclass(frozen=True)
class Words:
    """The words of one language. Raises KeyError for a language that has no file (see `languages`).

    voice  who writes a letter, `I` or `we`: texts under `letter.we` stand in for those of `letter`.
    """

    language: str = "en"
    voice: str = "I"

    def __post_init__(self) -> None:
        if self.language not in languages():
            raise KeyError(f"there are no words for the language {self.language!r}")

    def text(self, key: str, **values: object) -> str:
        """The text of a dotted key (`care.oily-rags.text`), each `{name}` in it filled from `values`.

        A text may be a table of forms (`one`, `few` …, `more` for all others), of which `count` picks one by the rule
        of the language. Doubled braces stand for one. Raises KeyError for a key that is no text, and for a name
        without a value.
        """
        return fill(self._template(key, values.get("count")), values, key)

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

    @property
    def forms(self) -> tuple[str, ...]:
        """The forms of a plural that the language has."""
        return (*(name for name, _ in _about(self.language)[0]), ALL)

    def short_date(self, day: datetime.date) -> str:
        """A day in figures, for a column: `23.02.2026`."""
        return self.text("dates.short", day=f"{day.day:02}", month=f"{day.month:02}", year=day.year)

    def short_day(self, iso: str) -> str:
        """The same of a day as ISO 8601 has it; any other text as it is."""
        return self.short_date(datetime.date.fromisoformat(iso)) if _DAY.fullmatch(iso) else iso

    def date(self, day: datetime.date) -> str:
        """`11 April 2026`, the day and month kept on one line."""
        return self.text("dates.day", day=day.day, month=self._month(day), year=day.year)

    def month(self, day: datetime.date) -> str:
        """`April 2026`, kept on one line."""
        return self.text("dates.month", month=self._month(day), year=day.year)

    def _month(self, day: datetime.date) -> str:
        return self.text(f"dates.months.m{day.month}")

    def _template(self, key: str, count: object = None) -> str:
        found = _found(self.language, key)
        if self.voice == "we" and key.startswith(_LETTER):
            found = _found(self.language, f"{_LETTER}we.{key.removeprefix(_LETTER)}") or found
        if isinstance(found, Mapping) and isinstance(count, int):
            found = found.get(form_of(count, _about(self.language)[0]), found.get(ALL))
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


def problem_sentences(language: str) -> Mapping[str, str]:
    """What a language says for English sentences of problems, by those: see `told.py`."""
    return _by_english(language, "problems")


def meanings(language: str) -> Mapping[str, str]:
    """What a language says for what keys, columns and tables mean, by that in English; empty where it says nothing."""
    return _by_english(language, "meanings")


def _by_english(language: str, what: str) -> Mapping[str, str]:
    sentences: dict[str, str] = {}
    for name in reversed(chain(language)):
        sentences |= _read(name).get(ABOUT, {}).get(what, {})
    letters = str.maketrans(dict(_about(language)[1]))
    mark, below = (_table(name)["figures"]["decimal"] for name in (language, chain(language)[-1]))
    return {english: _marked(said.translate(letters), below, mark) for english, said in sentences.items()}


def _files() -> dict[str, Traversable]:
    entries = (entry for folder in folders() for entry in folder.iterdir())
    return {entry.name.removesuffix(".toml"): entry for entry in entries if entry.name.endswith(".toml")}


@cache
def _read(language: str) -> dict[str, Any]:
    return tomllib.loads(_files()[language].read_text(encoding="utf-8"))


@cache
def _about(language: str) -> tuple[Rules, Mapping[str, str]]:
    """The rules of plurals, and what is written for letters."""
    rules: Rules = ()
    letters: dict[str, str] = {}
    for name in reversed(chain(language)):
        about = _read(name).get(ABOUT, {})
        rules = read_rules(about["plural"]) if "plural" in about else rules
        letters |= about.get("letters", {})
    return rules, MappingProxyType(letters)


@cache
def _table(language: str) -> Section:
    """The words of a language: those of the language below in its letters, with what differs on top."""
    below: dict[str, Any] = {}
    letters = str.maketrans(dict(_about(language)[1]))
    for name in reversed(chain(language)):
        spelling = _read(name).get(ABOUT, {}).get("spelling", {})
        below = _spelt(below, partial(_respelt, spelling)) if spelling else below
        if letters:
            below = _spelt(below, lambda text: text.translate(letters))
        if below and (mark := _read(name).get("figures", {}).get("decimal")):
            below = _spelt(below, partial(_marked, was=below["figures"]["decimal"], mark=mark))
        below = _over(below, _read(name))
    return _frozen({name: section for name, section in below.items() if name != ABOUT})


def _marked(text: str, was: str, mark: str) -> str:
    """A text of the language below with the decimal mark of the country in its figures."""
    return text if was == mark else re.sub(rf"(?<=\d){re.escape(was)}(?=\d)", mark, text)


def _spelt(table: dict[str, Any], spell: Callable[[str], str]) -> dict[str, Any]:
    return {k: _spelt(v, spell) if isinstance(v, dict) else spell(v) for k, v in table.items()}


def _respelt(spelling: Mapping[str, str], text: str) -> str:
    """A text with parts of its words spelt otherwise, a capital kept; `{names}` stay."""
    parts = "|".join(map(re.escape, spelling))

    def put(match: re.Match[str]) -> str:
        if match[0].startswith("{"):
            return match[0]
        spelt = spelling[match[0].lower()]
        return spelt.capitalize() if match[0][0].isupper() else spelt

    return re.sub(rf"\{{[^}}]*\}}|{parts}", put, text, flags=re.IGNORECASE)


def _over(below: dict[str, Any], differs: dict[str, Any]) -> dict[str, Any]:
    """A table with what differs put over it, in its own order."""
    merged = dict(below)
    for name, value in differs.items():
        merged[name] = _over(merged.get(name, {}), value) if isinstance(value, dict) else value
    return merged


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

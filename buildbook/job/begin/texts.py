"""What a job begins with, in the language of its shop: the files, with the lines that this piece needs, and the words.

A line of a template that begins `?fact` is there only where the fact is true of the piece; `?!fact` where it is not,
`?one&other` where both are.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from importlib import resources
from importlib.resources.abc import Traversable
from string import Template

ENGLISH = "en"
_ONLY = re.compile(r"^\?(?P<facts>[!\w&-]+) (?P<line>.*)$")


def data() -> Traversable:
    """Where the files lie, a folder a language."""
    return resources.files("buildbook.job").joinpath("data", "begin")


def spoken(language: str) -> str:
    """The language that there are files in: that of a country (`de-AT`) takes its own; English where there is none."""
    steps = language.casefold().split("-")
    above = ("-".join(steps[:count]) for count in range(len(steps), 0, -1))
    return next((name for name in above if data().joinpath(name).is_dir()), ENGLISH)


@cache
def words(language: str) -> Mapping[str, str]:
    """Questions and words, by their names."""
    return tomllib.loads(_file(language, "asked.toml"))


@cache
def every_note() -> frozenset[str]:
    """What stands as the note of an example of parts, in any language."""
    return frozenset(words(folder.name)["note"] for folder in data().iterdir() if folder.is_dir())


def filled(name: str, language: str, facts: frozenset[str], values: Mapping[str, str]) -> str:
    """A file's template with the lines that these facts call for."""
    lines = (_line(line, facts) for line in _file(language, name).splitlines())
    return Template("".join(f"{line}\n" for line in lines if line is not None)).substitute(values)


def _file(language: str, name: str) -> str:
    return data().joinpath(spoken(language), name).read_text("utf-8")


def _line(line: str, facts: frozenset[str]) -> str | None:
    match = _ONLY.match(line)
    if match is None:
        return line
    wanted = match["facts"].split("&")
    holds = all((fact[1:] not in facts) if fact.startswith("!") else (fact in facts) for fact in wanted)
    return match["line"] if holds else None

"""`keys`: what may be written in the files of a job, and what is known by its name; in the language of the shop that is
here.
"""

from __future__ import annotations

import argparse
import shutil
import sys
import textwrap
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path

from buildbook.cli.say import spoken
from buildbook.cli.spoken import language_of
from buildbook.cli.terminal import err, out, print_json
from buildbook.job.known import KnownName, KnownNames, ask, known_by_name, written_in_files
from buildbook.job.row_names import row_name
from buildbook.job.toml.key import Leaves
from buildbook.words import Words, meanings
from buildbook.words.told import sentence

_WIDEST = 100  # characters of a line that is read with ease
_PIPE_WIDTH = 160
_INSIDE = " Keys: "
_SHOWN = 25
"""How many answers are printed in full; more of them are named only."""


@dataclass(frozen=True)
class _Told:
    """What is known by its name, told in a language."""

    language: str

    def __call__(self, key: str, **values: object) -> str:
        return Words(self.language).text(f"keys.{key}", **values)

    def meaning(self, english: str) -> str:
        """What a key, a column or a table means; a table that was asked for names its keys too."""
        said, _, inside = english.partition(_INSIDE)
        said = meanings(self.language).get(said, said)
        return f"{said} {self('inside', names=inside.removesuffix('.'))}" if inside else said

    def name(self, one: KnownName) -> str:
        """What the language calls a row of the tables; a key is called as it is written."""
        of_a_table = one.kind == "material" and one.where != "piece"
        return (row_name(one.name, self.language) if of_a_table else None) or one.name

    def also(self, one: KnownName) -> tuple[str, ...]:
        """Its other names, that of the tables among them."""
        name = self.name(one)
        every = one.also if name == one.name else (one.name, *one.also)
        return tuple(other for other in every if other != name)

    def where(self, one: KnownName) -> str:
        return self(f"kind.{one.where.replace(' ', '_')}") if one.kind == "material" else one.where

    def heading(self, some: KnownNames) -> str:
        return self(f"heading.{some.heading.replace(' ', '_')}")

    def leaving(self, leaves: Leaves) -> str:
        """What of a value reaches a client."""
        page, letter = leaves.page, leaves.letter
        if page == letter:
            return self(f"leaving.{page}")
        both = (("page", page), ("letter", letter))
        return ", ".join(
            self(f"leaving.{who}", what=self(f"leaving.{what}")) for who, what in both if what != "no"
        )


def run(options: argparse.Namespace) -> int:
    word, told = " ".join(options.word), _Told(language_of(Path.cwd()))
    if not word:
        return _list(options.json, told)
    answer = ask(word)
    if options.json:
        print_json({"found": [asdict(one) for one in answer.found], "near": list(answer.near)})
    elif answer.found:
        for one in answer.found[:_SHOWN]:
            out(*_lines(one, told))
        for one in answer.found[_SHOWN:]:
            out(f"{told.name(one)}  {told.where(one)}")
    if not answer.found:
        near = f" {told('near', names=', '.join(answer.near))}" if answer.near else ""
        err(f"{spoken('error', told.language)}: {told('unknown', word=word)}{near} {told('every')}")
        return 1
    return 0


def _list(as_json: bool, told: _Told) -> int:
    every = (*written_in_files(), *known_by_name())
    if as_json:
        print_json([asdict(some) for some in every])
        return 0
    for some in written_in_files():
        out(*_listed(some, told), "")
    for some in known_by_name():
        names = ", ".join(told.name(one) for one in some.every)
        out(told.heading(some), *_wrapped(names, "  ", "  "), "")
    out(told("ask"))
    return 0


def _listed(some: KnownNames, told: _Told) -> Iterator[str]:
    yield from _wrapped(f"{some.heading}  {told.meaning(some.meaning)}", "", "  ")
    wide = max(len(one.name) for one in some.every)
    for one in some.every:
        yield from _wrapped(told.meaning(one.meaning), f"  {one.name:{wide}}  ", " " * (wide + 4))


def _lines(one: KnownName, told: _Told) -> Iterator[str]:
    """A name, where it belongs, and what is to be known about it, a line each."""
    yield f"{told.name(one)}  ({told.where(one)})"
    choices = told("one_of", choices=", ".join(one.choices)) if one.choices else ""
    needed = told("needed") if one.needed else ""
    said = " ".join(filter(None, (told.meaning(one.meaning), choices, needed)))
    yield from _wrapped(said, "  ", "  ")
    lines = (
        ("example", _example(one)),
        ("written", meanings(told.language).get(one.written, one.written)),
        ("believable", "; ".join(sentence(each, told.language) for each in one.between.split("; "))),
        ("leaves", told.leaving(one.leaves) if one.leaves else ""),
        ("botanical", one.botanical),
        ("also", ", ".join(told.also(one))),
        ("taken_for", ", ".join(one.loose)),
    )
    for label, text in lines:
        if text:
            yield from _wrapped(text, f"  {told(label):12}  ", " " * 16)
    yield ""


def _example(one: KnownName) -> str:
    if one.kind != "key":
        return one.example
    is_heading = one.example.startswith("[[")
    return one.example if is_heading else f"{one.name} = {one.example}"


def _wrapped(text: str, first: str, then: str) -> list[str]:
    terminal = shutil.get_terminal_size().columns if sys.stdout.isatty() else _PIPE_WIDTH
    width = min(terminal, _WIDEST) if sys.stdout.isatty() else terminal
    lines = textwrap.wrap(
        text, max(width, 40), initial_indent=first, subsequent_indent=then, break_on_hyphens=False
    )
    return lines or [first.rstrip()]

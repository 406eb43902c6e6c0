"""`keys`: what may be written in the files of a job, and what is known by its name."""

from __future__ import annotations

import argparse
import shutil
import sys
import textwrap
from collections.abc import Iterator
from dataclasses import asdict

from buildbook.cli.terminal import err, out, print_json
from buildbook.job.known import KnownName, KnownNames, ask, known_by_name, leaving, written_in_files

_WIDEST = 100  # characters of a line that is read with ease
_PIPE_WIDTH = 160
_SHOWN = 25
"""How many answers are printed in full; more of them are named only."""


def run(options: argparse.Namespace) -> int:
    word = " ".join(options.word)
    if not word:
        return _list(options.json)
    answer = ask(word)
    if options.json:
        print_json({"found": [asdict(one) for one in answer.found], "near": list(answer.near)})
    elif answer.found:
        for one in answer.found[:_SHOWN]:
            out(*_told(one))
        for one in answer.found[_SHOWN:]:
            out(f"{one.name}  {one.where}")
    if not answer.found:
        near = f" Did you mean {', '.join(answer.near)}?" if answer.near else ""
        err(f"error: nothing here is named {word}.{near} All of them: buildbook keys")
        return 1
    return 0


def _list(as_json: bool) -> int:
    every = (*written_in_files(), *known_by_name())
    if as_json:
        print_json([asdict(some) for some in every])
        return 0
    for some in written_in_files():
        out(*_listed(some), "")
    for some in known_by_name():
        names = ", ".join(one.name for one in some.every)
        out(some.heading, *_wrapped(names, "  ", "  "), "")
    out("What one of them means, and how it is written: buildbook keys WORD")
    return 0


def _listed(some: KnownNames) -> Iterator[str]:
    yield from _wrapped(f"{some.heading}  {some.meaning}", "", "  ")
    wide = max(len(one.name) for one in some.every)
    for one in some.every:
        yield from _wrapped(one.meaning, f"  {one.name:{wide}}  ", " " * (wide + 4))


def _told(one: KnownName) -> Iterator[str]:
    """A name, where it belongs, and what is to be known about it, a line each."""
    yield f"{one.name}  ({one.where})"
    choices = f"One of {', '.join(one.choices)}." if one.choices else ""
    said = f"{one.meaning} {choices}{' Needed.' if one.needed else ''}".strip()
    yield from _wrapped(said, "  ", "  ")
    lines = (
        ("for example", _example(one)),
        ("written", one.written),
        ("believable", one.between),
        ("leaves", (leaving(one.leaves) or "no") if one.leaves else ""),
        ("botanical", one.botanical),
        ("also", ", ".join(one.also)),
        ("taken for it", ", ".join(one.loose)),
    )
    for label, text in lines:
        if text:
            yield from _wrapped(text, f"  {label:12}  ", " " * 16)
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

"""Searches past work."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

from buildbook.book.past.search import FoundJob, NothingToAsk, find_in
from buildbook.cli.say import say
from buildbook.cli.terminal import err, out, plain_text, print_json
from buildbook.find.passage import Shown
from buildbook.problems import Problems

if TYPE_CHECKING:  # loaded only where what was typed is not plain
    from argparse import Namespace
    from types import SimpleNamespace

HITS_SHOWN = 20
_HEADS = ("job", "title", "date")


def run(options: Namespace | SimpleNamespace) -> int:
    problems = Problems()
    try:
        most = None if options.json else HITS_SHOWN
        hits, found = find_in(options.place, " ".join(options.words), most, problems)
    except NothingToAsk as error:
        err(f"error: {error}")
        return 1
    if options.json:
        print_json([found_facts(job) for job in found])
    elif not found:
        out("No job has all of this. Leave out a word.")
    else:
        print_found(found)
        if hits > len(found):
            out(f"and {hits - len(found)} more: add a word.")
    say(problems.ordered())
    return 0


def found_facts(job: FoundJob) -> dict[str, object]:
    passage = job.passages[0].text if job.passages else ""
    return {"job": job.key, "title": job.title, "page": job.page, "score": job.score, "passage": passage}


def print_found(found: Sequence[FoundJob]) -> None:
    """A table: for a person one that fits the window, with what matched set bold; else plain lines, none broken."""
    if sys.stdout.isatty():
        _show(found)
        return
    rows = [_HEADS, *((job.key, job.title, job.day) for job in found)]
    reasons = [["why"], *([_reason(shown) for shown in job.passages] for job in found)]
    wide = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for row, why in zip(rows, reasons, strict=True):
        cells = [f"{text:{width}}" for text, width in zip(row, wide, strict=True)]
        for line in why or [""]:
            out("  ".join((*cells, line)).rstrip())
            cells = [" " * width for width in wide]


def _reason(shown: Shown) -> str:
    return f"{shown.where}: {shown.text}" if shown.where else shown.text


def _show(found: Sequence[FoundJob]) -> None:
    from rich.console import Console  # takes longer to load than the search does
    from rich.table import Table
    from rich.text import Text

    table = Table(*_HEADS, "why", box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for job in found:
        why = Text()
        for shown in job.passages:
            text = Text(plain_text(shown.text))
            for start, end in shown.marks:
                text.stylize("bold", start, end)
            why.append("\n" if why else "").append(
                plain_text(f"{shown.where}: ") if shown.where else "", "dim"
            ).append(text)
        table.add_row(*(Text(plain_text(text)) for text in (job.key, job.title, job.day)), why)
    Console(highlight=False).print(table)

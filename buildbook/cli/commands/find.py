"""Searches past work."""

from __future__ import annotations

import argparse
from collections.abc import Sequence

from buildbook.book.past.search import FoundJob, NothingToAsk, find_in
from buildbook.cli.say import say
from buildbook.cli.terminal import err, out, plain_text, print_json
from buildbook.problems import Problems

HITS_SHOWN = 20
PIPE_WIDTH = 160  # characters of a line that goes to a file or another program


def run(options: argparse.Namespace) -> int:
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
    """A plain table; what matched is set bold where a person is looking."""
    from rich.console import (
        Console,  # takes longer to load than the search, and is not needed where nothing was found
    )
    from rich.table import Table
    from rich.text import Text

    console = Console(highlight=False)
    if not console.is_terminal:
        console = Console(highlight=False, width=PIPE_WIDTH)
    table = Table("job", "title", "date", "why", box=None, pad_edge=False, padding=(0, 2, 0, 0))
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
    console.print(table)

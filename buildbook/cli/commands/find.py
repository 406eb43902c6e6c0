"""Searches past work."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

from buildbook.book.past.found import FoundJob, NothingToAsk, page_of
from buildbook.book.past.search import find_in
from buildbook.cli.say import say, spoken, spoken_day
from buildbook.cli.spoken import language_of
from buildbook.cli.terminal import err, out, plain_text, print_json
from buildbook.find.passage import Shown
from buildbook.problems import Problems

if TYPE_CHECKING:  # loaded only where what was typed is not plain
    from argparse import Namespace
    from pathlib import Path
    from types import SimpleNamespace

HITS_SHOWN = 20
_HEADS = ("job", "title", "date", "why")


def run(options: Namespace | SimpleNamespace) -> int:
    problems, language = Problems(), language_of(options.place)
    try:
        most = None if options.json else HITS_SHOWN
        hits, found = find_in(options.place, " ".join(options.words), most, problems)
    except NothingToAsk as error:
        err(f"{spoken('error', language)}: {spoken(str(error), language)}")
        return 1
    if options.json:
        print_json([found_facts(job) for job in found])
    elif not found:
        out(spoken("No job has all of this. Leave out a word.", language))
    else:
        if found[0].lacks:
            out(spoken("No job has all of this. These have most of it.", language))
        print_found(found, language, options.place)
        if hits > len(found):
            out(spoken(f"and {hits - len(found)} more: add a word.", language))
    say(problems.ordered(), language=language)
    return 0


def found_facts(job: FoundJob) -> dict[str, object]:
    passage = job.passages[0].text if job.passages else ""
    return {"job": job.key, "title": job.title, "page": job.page, "score": job.score, "passage": passage}


def print_found(found: Sequence[FoundJob], language: str, place: Path) -> None:
    """A table: for a person one that fits the window, with what matched set bold and days that lead to the page; else
    plain lines, none broken, each with the place on the page.
    """
    heads = [spoken(head, language) for head in _HEADS]
    if sys.stdout.isatty():
        _show(found, heads, place, language)
        return
    rows = [tuple(heads[:-1]), *((job.key, job.title, spoken_day(job.day, language)) for job in found)]
    reasons = [heads[-1:], *([_reason(job, shown, language) for shown in job.passages] for job in found)]
    wide = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for row, why in zip(rows, reasons, strict=True):
        cells = [f"{text:{width}}" for text, width in zip(row, wide, strict=True)]
        for line in why or [""]:
            out("  ".join((*cells, line)).rstrip())
            cells = [" " * width for width in wide]


def _reason(job: FoundJob, shown: Shown, language: str) -> str:
    text = f"{spoken_day(shown.where, language)}: {shown.text}" if shown.where else shown.text
    return f"{text}  {page_of(job.key, shown.at)}" if shown.at else text


def _show(found: Sequence[FoundJob], heads: Sequence[str], place: Path, language: str) -> None:
    from rich.console import Console  # takes longer to load than the search does
    from rich.style import Style
    from rich.table import Table
    from rich.text import Text

    table = Table(*heads, box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for job in found:
        why = Text()
        for shown in job.passages:
            text = Text(plain_text(shown.text))
            for start, end in shown.marks:
                text.stylize("bold", start, end)
            why.append("\n" if why else "").append(
                plain_text(f"{spoken_day(shown.where, language)}: ") if shown.where else "",
                Style(dim=True, link=_address(place, job.key, shown.at)),
            ).append(text)
        table.add_row(
            *(Text(plain_text(text)) for text in (job.key, job.title, spoken_day(job.day, language))), why
        )
    Console(highlight=False).print(table)


def _address(book: Path, key: str, at: str) -> str | None:
    """Where a page of a book is opened; None for a shelf, which has no pages."""
    page, _, place = page_of(key, at).partition("#")
    path = book / page
    return f"{path.resolve().as_uri()}#{place}" if at and path.is_file() else None

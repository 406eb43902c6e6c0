"""Whether notes can be read in good time: what makes a Markdown parser work hard is counted before it starts.

A parser's time grows with lines, with brackets that may open a link, and with the cells of tables, which it fills up to
the end of each row. Past a limit the file that reached it is an error and is not read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from buildbook import limits
from buildbook.job.notes.markdown import Note
from buildbook.job.text import long_word, shown
from buildbook.problems import Problems

_UNDER_HEAD = re.compile(r"[ \t>]*+[|:-][|: \t-]*+")  # the line of dashes under the head of a table
_SPLIT = "Keep what belongs to this piece, and put the rest elsewhere."


def within(notes: Sequence[tuple[str, str]], problems: Problems) -> Iterator[tuple[str, str]]:
    """The notes, given as (name, text), up to the one that takes them beyond a limit, which is told."""
    left = {
        "signs": limits.NOTES_SIGNS,
        "lines": limits.NOTE_LINES,
        "opening brackets": limits.NOTE_BRACKETS,
        "cells of tables": limits.NOTE_CELLS,
    }
    most = dict(left)
    for name, text in notes:
        text = re.sub(r"\r\n?", "\n", text)
        counts = {
            "signs": len(text),
            "lines": text.count("\n") + 1,
            "opening brackets": text.count("["),
            "cells of tables": _cells(text),
        }
        for what, count in counts.items():
            left[what] -= count
        beyond = [what for what in left if left[what] < 0]
        for what in beyond:
            problems.error(
                name,
                f"With this file the notes have {most[what] - left[what]:,} {what}; {most[what]:,} can be read.",
                _SPLIT,
            )
        if beyond:
            return
        yield name, text


def _cells(text: str) -> int:
    """How many cells the tables of a note have, at most: columns times rows up to the next empty line."""
    cells = columns = 0
    for line in text.split("\n"):
        if not line.strip():
            columns = 0
        elif "|" in line and _UNDER_HEAD.fullmatch(line):
            columns = max(columns, line.count("|") + 1)
        cells += columns
    return cells


def check_passage(name: str, line: int, passage: Note, problems: Problems) -> None:
    """A passage for the client goes to print: its words must be short enough for that, its emphasis not too deep."""
    if passage.depth > limits.EMPHASIS_DEPTH:
        problems.error(
            name,
            f"Emphasis or links stand {passage.depth:,} deep inside one another in this passage.",
            "See whether each * is closed.",
            line=line,
        )
    if word := long_word(passage.text):
        problems.error(
            name,
            f"A word of {len(word):,} signs, {shown(word)}, is too long to print.",
            f"Put blanks into it; a word has {limits.WORD_SIGNS:,} signs at most.",
            line=line,
        )

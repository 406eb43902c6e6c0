"""Marked lines of a note: `Setting: 3 tpi`, `Mistake: …`, `Joint: tenon 34 x 8`.

In: a `Note` and a stretch of its lines. Out: a `Mark` for each line that begins with one of the words of
`data/marks.toml` and a colon, with what is written behind it up to the next mark or the end of the paragraph. A mark
stands in a paragraph or in an item of a list, in the open: in a fence, a quote or a comment there is none.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from functools import cache
from importlib import resources
from typing import NamedTuple

from buildbook.folding import folded
from buildbook.job.log_model import Mark
from buildbook.job.notes.hours import LIKE_HOURS, plain_hours
from buildbook.job.notes.markdown import Note

_ITEM = r"(?:(?:[-*+]|\d{1,9}[.)])\s+)*"
_EMPHASIS = r"[*_]{0,3}"
_PICTURE = re.compile(r"!\[[^\[\]]*\](?:\([^()]*\)|\[[^\[\]]*\])?")
_REFERENCE = re.compile(r"!\[[^\[\]]*\]\(\s*([^()\s]+)[^()]*\)")
_STRESS = re.compile(r"(?<![\w*_])([*_]{1,3})(?=\S)(.+?)(?<=\S)\1(?![\w*_])")


class Opening(NamedTuple):
    """The beginning of a marked line: which mark, its word as written, and where the text behind the colon begins."""

    key: str
    word: str
    end: int


@cache
def _table() -> dict[str, dict[str, list[str]]]:
    text = resources.files("buildbook.job").joinpath("data", "marks.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def words_of_marks() -> dict[str, tuple[str, ...]]:
    """The words that open each mark, by its key, in every language."""
    return {
        key: tuple(word for words in languages.values() for word in words)
        for key, languages in _table().items()
    }


@cache
def _by_word() -> dict[str, str]:
    return {
        folded(word): key
        for key, languages in _table().items()
        for words in languages.values()
        for word in words
    }


@cache
def _opening() -> re.Pattern[str]:
    written = {word for languages in _table().values() for words in languages.values() for word in words}
    written |= _by_word().keys()  # SPALTMASS is folded as Spaltmaß is, and written otherwise
    words = "|".join(
        re.escape(word).replace(r"\ ", r"[ \t]+")
        for word in sorted(written, key=lambda one: (-len(one), one))
    )
    return re.compile(
        rf"\s*{_ITEM}{_EMPHASIS}(?P<word>{words}){_EMPHASIS}[ \t]?[:：]{_EMPHASIS}\s*", re.IGNORECASE
    )


def opens_mark(line: str) -> Opening | None:
    """What mark a line opens; None where it opens none."""
    match = _opening().match(line)
    if match is None:
        return None
    return Opening(_by_word()[folded(match["word"])], match["word"], match.end())


def find_marks(note: Note, start: int, end: int) -> Iterator[Mark]:
    """The marks in a stretch of a note, in the order of its lines, which count from 1 in the `Mark`."""
    for first, last in note.between(note.prose, lambda lines: lines[0], start, end):
        if last > end:
            continue
        opened: tuple[Opening, int] | None = None
        words: list[str] = []
        for line in range(first, last):
            text = note.lines[line]
            if note.in_comment(line) or LIKE_HOURS.match(text) or plain_hours(text, ()) is not None:
                continue
            if opening := opens_mark(text):
                yield from _closed(opened, words)
                opened, words = (opening, line), [text[opening.end :]]
            elif opened:
                words.append(text)
        yield from _closed(opened, words)


def _closed(opened: tuple[Opening, int] | None, words: list[str]) -> Iterator[Mark]:
    written = " ".join(words)
    if opened and (said := _plain(written)):
        yield Mark(opened[0].key, said, opened[1] + 1, tuple(_REFERENCE.findall(written)))


def _plain(markdown: str) -> str:
    """A line without pictures and stress; what else it holds is as it was typed."""
    return " ".join(_STRESS.sub(r"\2", _PICTURE.sub("", markdown)).split())

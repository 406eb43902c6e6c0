"""The structure of a note: headings, pictures, prose, comments, each with its lines, as the parser has them.

In: text. Out: a `Note`. Lines count from 0 here, ends are excluded, as the parser has it.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import TypeVar

from markdown_it.common.utils import normalizeReference
from markdown_it.token import Token

from buildbook.job.notes import parser

T = TypeVar("T")

FOR_CLIENT = frozenset(("for the client", "für den kunden", "für die kundin", "für die kundschaft"))
"""The marks that open a passage for the client, in any shop: few and whole, so that nobody opens one by chance."""

FOR_CLIENT_LEVEL = 3

_LINE_ENDS = re.compile(r"\r\n?")  # the parser's own
_LISTS = frozenset(("bullet_list_open", "ordered_list_open", "list_item_open"))
_LABEL = re.compile(r"\[((?:\\.|[^\\\[\]])+)\]")
_CLOSING_UP = (
    50  # times that what is left of a text with its comments cut out may close up to another comment
)
_SPACED = re.compile(r"!\[[^\[\]]*+\]\(([^()<>\"]*+)\)")


@dataclass(frozen=True)
class Heading:
    """A heading: level 1 to 6, as written and in plain words, its lines; `nested` when it stands in a list or
    a quote.
    """

    level: int
    text: str
    words: str
    start: int
    end: int
    nested: bool


@dataclass(frozen=True)
class Image:
    """A Markdown image: the reference as written, its words, its line."""

    reference: str
    words: str
    line: int


@dataclass(frozen=True)
class Note:
    """A note taken apart.

    starts     where each line begins in `text`.
    headings   those at document level; `nested` the others.
    prose      stretches of lines that are a paragraph, in the open or in a list.
    comments   stretches of characters of `text` inside <!-- and -->, outside fences; the last may never be
               closed.
    unclosed   line and name of what is opened and never closed.
    spaced     line and reference of what was meant as an image but has a blank in its reference.
    depth      how deep emphasis and links stand inside one another.
    """

    text: str
    lines: tuple[str, ...]
    starts: tuple[int, ...]
    headings: tuple[Heading, ...]
    nested: tuple[Heading, ...]
    images: tuple[Image, ...]
    prose: tuple[tuple[int, int], ...]
    comments: tuple[tuple[int, int], ...]
    references: dict[str, tuple[int, int]]
    unclosed: tuple[tuple[int, str], ...]
    spaced: tuple[tuple[int, str], ...]
    depth: int

    def in_comment(self, line: int) -> bool:
        """Whether a line begins inside a comment."""
        before = bisect_left(self.comments, (self.starts[line],)) - 1  # the last that opens above
        return before >= 0 and self.starts[line] < self.comments[before][1]

    def between(self, found: Sequence[T], line_of: Callable[[T], int], start: int, end: int) -> Sequence[T]:
        """What of headings, images or prose, which are in order of their lines, begins from one line up to another."""
        return found[bisect_left(found, start, key=line_of) : bisect_left(found, end, key=line_of)]


def is_for_client(heading: Heading) -> bool:
    """Whether a heading is the mark that opens a passage for the client, were it in the open."""
    return heading.level == FOR_CLIENT_LEVEL and " ".join(heading.text.split()).casefold() in FOR_CLIENT


def parse(text: str) -> Note:
    """Take a note apart. Never raises."""
    text = _LINE_ENDS.sub("\n", text)
    env: dict[str, dict[str, dict[str, list[int]]]] = {}
    tokens = parser.parse(text, env)
    lines = tuple(text.split("\n"))
    fences = [token.map for token in tokens if token.type in ("fence", "code_block") and token.map]
    headings = list(_headings(tokens))
    comments = tuple(_comments(text, lines, fences))
    unclosed = [(token.map[0], "A fence") for token in tokens if token.map and _is_open_fence(token, lines)]
    if comments and not text[: comments[-1][1]].endswith("-->"):
        unclosed.append((text.count("\n", 0, comments[-1][0]), "A comment"))
    return Note(
        text=text,
        lines=lines,
        starts=tuple(accumulate((len(line) + 1 for line in lines[:-1]), initial=0)),
        headings=tuple(heading for heading in headings if not heading.nested),
        nested=tuple(heading for heading in headings if heading.nested),
        images=tuple(_images(tokens, lines)),
        prose=tuple(_prose(tokens)),
        comments=comments,
        references={
            label: (found["map"][0], found["map"][1]) for label, found in env.get("references", {}).items()
        },
        unclosed=tuple(unclosed),
        spaced=tuple(_spaced(tokens, lines)),
        depth=max((child.level for token in tokens for child in token.children or ()), default=0),
    )


def _headings(tokens: list[Token]) -> Iterator[Heading]:
    for opening, inside in pairwise(tokens):
        if opening.type == "heading_open" and opening.map:
            level, (start, end) = int(opening.tag[1:]), opening.map
            yield Heading(level, inside.content, _words(inside), start, end, nested=opening.level > 0)


def _prose(tokens: list[Token]) -> Iterator[tuple[int, int]]:
    around: list[str] = []
    for token in tokens:
        if token.type == "inline" and token.map and around and around[-1] == "paragraph_open":
            if set(around[:-1]) <= _LISTS:
                yield token.map[0], token.map[1]
        elif token.nesting == 1:
            around.append(token.type)
        elif token.nesting == -1:
            around.pop()


def _comments(text: str, lines: tuple[str, ...], fences: list[list[int]]) -> Iterator[tuple[int, int]]:
    """Comments by their marks alone, fences left out: wider than the parser's, so that nothing slips out of
    one.
    """
    inside = {line for start, end in fences for line in range(start, end)}
    plain = "\n".join(" " * len(line) if number in inside else line for number, line in enumerate(lines))
    at = 0
    while (start := plain.find("<!--", at)) >= 0:
        close = plain.find("-->", start + 4)
        at = close + 3 if close >= 0 else len(plain)
        yield start, at


def _is_open_fence(token: Token, lines: tuple[str, ...]) -> bool:
    if token.type != "fence" or not token.map:
        return False
    start, end = token.map
    last = lines[end - 1].strip(" \t>")
    closed = end - 1 > start and set(last) == {token.markup[0]} and len(last) >= len(token.markup)
    return not closed


def _inside(tokens: list[Token], lines: tuple[str, ...]) -> Iterator[tuple[Token, int]]:
    """What stands inside paragraphs and headings, with its line; the first line where it cannot be told."""
    for token in tokens:
        if token.type != "inline" or not token.map:
            continue
        first, end = token.map
        line = first
        for child in token.children or ():
            is_picture = child.type == "image" or "![" in child.content
            yield child, line if line < end and (not is_picture or "![" in lines[line]) else first
            line += child.type in ("softbreak", "hardbreak")
            line += child.content.count("\n") if child.type == "comment" else 0


def _images(tokens: list[Token], lines: tuple[str, ...]) -> Iterator[Image]:
    for token, line in _inside(tokens, lines):
        if token.type == "image":
            yield Image(str(token.attrGet("src") or ""), _words(token), line)


def _words(token: Token) -> str:
    """What an inline stretch says, without its marks."""
    found = []
    for child in token.children or ():
        if child.type in ("text", "code_inline"):
            found.append(child.content)
        elif child.type in ("softbreak", "hardbreak"):
            found.append(" ")
        elif child.type == "image":
            found.append(_words(child))
    return " ".join("".join(found).split())


def _spaced(tokens: list[Token], lines: tuple[str, ...]) -> Iterator[tuple[int, str]]:
    for token, line in _inside(tokens, lines):
        for match in _SPACED.finditer(token.content if token.type == "text" else ""):
            if re.search(r"\s", match[1]):
                yield line, match[1].strip()


# -- cutting out ---------------------------------------------------------------------------------


def without_comments(text: str) -> str:
    """A text without anything between <!-- and -->, code included; one that is never closed takes the
    rest.
    """
    for _ in range(_CLOSING_UP):
        if (without := parser.COMMENT.sub("", text)) == text:
            return text
        text = without
    return text.partition("<!--")[0]  # made to close up without end: what is left of it stays in


def with_references(note: Note, text: str) -> str:
    """A stretch of the note with the link definitions that it uses and that stand elsewhere in the note."""
    used = dict.fromkeys(normalizeReference(match[1]) for match in _LABEL.finditer(text))
    wanted = []
    for label in used:
        if label in note.references:
            start, end = note.references[label]
            definition = "\n".join(note.lines[start:end]).strip()
            if definition not in text:
                wanted.append(definition)
    return text + "\n\n" + "\n".join(wanted) if wanted else text

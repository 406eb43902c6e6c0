"""Where what a note says stands on the page of the log: the ids of its days and of what stands in them.

In: the days of a job, the tokens of a note. Out: `day-2026-02-16`, a second entry of the day `day-2026-02-16-2`; in it
`…-setting-1` for the first line that opens that mark, `…-p3` for the third paragraph, item or row that opens none.
Ids are counted within an entry, so that no other one changes them. The page and the search go by the same tokens.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from copy import copy
from datetime import date
from typing import NamedTuple

from markdown_it.token import Token

from buildbook.job.log_model import LogEntry
from buildbook.job.notes.marks import opens_mark
from buildbook.job.notes.parser import parse, to_show

PLACE = "place"
"""The entry of `Token.meta` that holds the end of an id."""
MARK = "mark"
CELL = "cell"
BETWEEN_CELLS = " · "

_BREAKS = ("softbreak", "hardbreak")
_STRESS = ("strong_open", "strong_close", "em_open", "em_close")
_UNSAID = ("image", "comment")
_HOLDERS = ("paragraph_open", "heading_open", "html_open")
_CODE = ("fence", "code_block")


class Block(NamedTuple):
    """A stretch of a note that is found as one: the end of its id, the mark that it opens (maybe none), and its words.
    `body`: those without the word of the mark. A row of a table has the head of its column before each cell.
    """

    place: str
    mark: str
    text: str
    body: str
    is_heading: bool = False


# -- days --------------------------------------------------------------------------------------------


def day_ids(days: Iterable[date | None]) -> tuple[str, ...]:
    """The id of each day of the log in its order; empty for what has no date."""
    counts: Counter[date] = Counter()
    found = []
    for day in days:
        if day is None:
            found.append("")
            continue
        counts[day] += 1
        found.append(f"day-{day.isoformat()}" + (f"-{counts[day]}" if counts[day] > 1 else ""))
    return tuple(found)


def with_ids(entries: Sequence[LogEntry]) -> list[tuple[str, LogEntry]]:
    """Each entry with the id of its day on the page, which shows them as they stand here."""
    return list(zip(day_ids(entry.day for entry in entries), entries, strict=True))


# -- what stands in a note ---------------------------------------------------------------------------


def blocks_of(markdown: str) -> Iterator[Block]:
    """What of a note is found by itself, in its order: paragraphs, headings, items, code, a table row by row."""
    heads: list[str] = []
    row: list[str] = []
    place = mark = opened = ""
    for token in placed(to_show(parse(markdown))):
        if PLACE in token.meta:
            place, mark = token.meta[PLACE], token.meta.get(MARK, "")
        if token.nesting > 0:
            opened = token.type
        if token.type == "tr_open":
            row = []
        elif token.type == "thead_close":
            heads = row
        elif token.type == "tr_close" and heads and any(row):  # not that of the heads themselves
            yield _block(place, "", BETWEEN_CELLS.join(_cells(heads, row)))
        elif token.type == "table_close":
            if row is heads and any(heads):  # a table of heads alone
                yield _block(place, "", BETWEEN_CELLS.join(filter(None, heads)))
            heads = []
        elif token.type in _CODE and token.content.strip():
            yield _block(place, "", token.content)
        elif token.type == "inline":
            text = _plain(token.children or ())
            if token.meta.get(CELL):
                row.append(text)
            elif text:
                yield _block(place, mark, text)._replace(is_heading=opened == "heading_open")
                mark = ""


def _cells(heads: Sequence[str], row: Sequence[str]) -> Iterator[str]:
    for head, cell in zip(heads, row, strict=False):
        if cell:
            yield f"{head}: {cell}" if head else cell


def _block(place: str, mark: str, text: str) -> Block:
    opening = opens_mark(text) if mark else None
    return Block(place, mark, text, text[opening.end :] if opening else text)


def placed(tokens: Sequence[Token]) -> list[Token]:
    """The tokens of a note with the end of an id on each that opens what is found by itself (`meta[PLACE]`). Each line
    that opens a mark begins a paragraph of its own, which has the mark's class; its word is set apart. In a quote and
    in a cell nothing is marked.
    """
    out: list[Token] = []
    counts: Counter[str] = Counter()
    quoted = 0
    holder: Token | None = None  # what opened what is being read
    items: list[Token] = []
    row: Token | None = None

    def mark_place(token: Token, key: str = "p") -> None:
        if PLACE not in token.meta:
            counts[key] += 1
            token.meta = {**token.meta, PLACE: f"{key}{'' if key == 'p' else '-'}{counts[key]}"}

    for number, token in enumerate(tokens):
        quoted += token.nesting if token.type in ("blockquote_open", "blockquote_close") else 0
        if token.type in _HOLDERS:
            holder = token
        elif token.type == "paragraph_close" and holder:
            token.hidden = holder.hidden
            holder = None
        elif token.type in ("heading_close", "html_close"):
            holder = None
        elif token.type == "list_item_open":
            items.append(token)
        elif token.type == "list_item_close":
            items.pop()
        elif token.type in ("tr_open", "tr_close"):
            row = token if token.nesting > 0 else None
        elif token.type in _CODE and token.content.strip():
            mark_place(token)
        if token.type != "inline":
            out.append(token)
            continue
        if row is not None:
            token.meta = {**token.meta, CELL: True}
            if _plain(token.children or ()):
                mark_place(row)
        if holder is None or holder.type != "paragraph_open" or quoted:
            if holder is not None and _plain(token.children or ()):
                mark_place(holder)
            out.append(token)
            continue
        for place, (key, children) in enumerate(_marked(token.children or [])):
            if place:
                out += [_paragraph(tokens[number + 1]), holder := _paragraph(holder)]
            piece = copy(token)
            piece.children = children
            if key:
                holder.hidden = False  # in a tight list it would be
                holder.attrSet("class", f"mark {key}")
                mark_place(holder, key)
                holder.meta[MARK] = key
            elif _plain(children):
                mark_place(items[-1] if holder.hidden and items else holder)
            out.append(piece)
    return out


def _plain(children: Iterable[Token]) -> str:
    """The words of a paragraph on one line, without pictures."""
    kept = (
        " " if child.type in _BREAKS else child.content for child in children if child.type not in _UNSAID
    )
    return "".join(kept).strip()


def _paragraph(token: Token) -> Token:
    """Another end or beginning of a paragraph, shown, and without what belongs to the first."""
    other = copy(token)
    other.attrs, other.meta, other.hidden = {}, {}, False
    return other


def _marked(children: Sequence[Token]) -> Iterator[tuple[str, list[Token]]]:
    """The stretches that its marks make of a paragraph, each with the key of its mark; the first may have none."""
    key, stretch = "", list[Token]()
    for line in _lines(children):
        opened = _opened(line[1:] if line[0].type in _BREAKS else line)
        if opened is None:
            stretch += line
            continue
        if stretch:
            yield key, stretch
        key, stretch = opened
    yield key, stretch


def _lines(children: Sequence[Token]) -> Iterator[list[Token]]:
    """The lines of a paragraph, each but the first with the break before it."""
    line: list[Token] = []
    for child in children:
        if child.type in _BREAKS and line:
            yield line
            line = []
        line.append(child)
    if line:
        yield line


def _opened(line: Sequence[Token]) -> tuple[str, list[Token]] | None:
    """The key of the mark that a line opens, and the line with its word set apart; None where it opens none."""
    if not line or line[0].type not in ("text", *_STRESS):
        return None
    plain = "".join(child.content for child in line if child.type == "text")
    opening = opens_mark(plain)
    if opening is None:
        return None
    left, closed, rest = opening.end, 0, list[Token]()
    for child in line:
        if child.type == "text" and left:
            left, kept = max(0, left - len(child.content)), child.content[left:]
            if kept:
                rest.append(Token("text", "", 0, content=kept))
        elif child.type in _STRESS and (left or (closed and child.nesting < 0)):
            closed += child.nesting  # stress around the word goes with both its ends
        else:
            rest.append(child)
    word = plain[: opening.end].strip()
    return opening.key, [
        Token("strong_open", "b", 1),
        Token("text", "", 0, content=word),
        Token("strong_close", "b", -1),
        Token("text", "", 0, content=" "),
        *rest,
    ]

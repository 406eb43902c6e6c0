"""The maker's Markdown as plain data for a template that is not HTML.

In: Markdown and how the pictures in it are to be shown. Out: a list of blocks of JSON's kinds, each with
`kind`: `paragraph`, `heading`, `list`, `quote`, `code`, `rule`, `table`, `picture`; their runs of text
likewise. Nothing in them is markup: a template shows each text as it stands.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any
from urllib.parse import unquote

from markdown_it.token import Token
from markdown_it.tree import SyntaxTreeNode

from buildbook.job.notes.parser import QUOTES
from buildbook.limits import PASSAGE_EMPHASIS, PASSAGE_LEVELS
from buildbook.render.html.prose import parse

Block = dict[str, Any]
Run = dict[str, Any]
Shown = Callable[[str], Block | None]

_HOLDING = frozenset({"bullet_list", "ordered_list", "blockquote"})
_WRAPPED = {"strong": "strong", "em": "emph", "s": "strike"}


class TooDeep(ValueError):
    """A passage that holds so much within one another that no typesetter follows; the message says what."""


def blocks(markdown: str, picture: Shown, quotes: str = QUOTES) -> list[Block]:
    """The blocks of a passage; `picture` gives that of a picture by its name in the text, None to drop it.

    Raises `TooDeep`.
    """
    tokens = parse(markdown, quotes)
    if (levels := _levels(tokens, _HOLDING)) > PASSAGE_LEVELS:
        raise TooDeep(f"it has lists and quotes {levels} deep; {PASSAGE_LEVELS} can be printed")
    if (
        levels := max((_levels(token.children or (), None) for token in tokens), default=0)
    ) > PASSAGE_EMPHASIS:
        raise TooDeep(f"it has emphasis and links {levels} deep; {PASSAGE_EMPHASIS} can be printed")
    return list(_blocks(SyntaxTreeNode(tokens).children, picture))


def _levels(tokens: Iterable[Token], counted: frozenset[str] | None) -> int:
    """How deep the tokens that open and close lie within one another; `counted` names those that count."""
    level = deepest = 0
    for token in tokens:
        if counted is None or token.type.rpartition("_")[0] in counted:
            level += token.nesting
            deepest = max(deepest, level)
    return deepest


def _blocks(nodes: Iterable[SyntaxTreeNode], picture: Shown) -> Iterator[Block]:
    for node in nodes:
        if node.type in ("paragraph", "heading", "html"):
            yield from _paragraph(node, picture)
        elif node.type in ("bullet_list", "ordered_list"):
            items = [list(_blocks(item.children, picture)) for item in node.children]
            first = node.attrGet("start") if node.type == "ordered_list" else None
            yield {
                "kind": "list",
                "ordered": node.type == "ordered_list",
                "first": int(first) if first else 1,
                "items": items,
            }
        elif node.type == "blockquote":
            yield {"kind": "quote", "blocks": list(_blocks(node.children, picture))}
        elif node.type in ("fence", "code_block"):
            yield {"kind": "code", "text": node.content.rstrip("\n")}
        elif node.type == "hr":
            yield {"kind": "rule"}
        elif node.type == "table":
            yield from _table(node, picture)


def _paragraph(node: SyntaxTreeNode, picture: Shown) -> Iterator[Block]:
    """A paragraph, then the pictures that stood in it: they are figures of their own."""
    runs = list(_runs(node.children, picture))
    words = [run for run in runs if run["kind"] != "picture"]
    if _has_words(words):
        yield {"kind": "heading" if node.type == "heading" else "paragraph", "runs": words}
    yield from (run["block"] for run in runs if run["kind"] == "picture")


def _has_words(runs: Iterable[Run]) -> bool:
    return any(run.get("text", "").strip() or _has_words(run.get("runs", ())) for run in runs)


def _table(node: SyntaxTreeNode, picture: Shown) -> Iterator[Block]:
    rows = [
        [[run for run in _runs(cell.children, picture) if run["kind"] != "picture"] for cell in row.children]
        for part in node.children
        for row in part.children
    ]
    if rows and rows[0]:
        columns = len(rows[0])
        yield {
            "kind": "table",
            "columns": columns,
            "head": rows[0],
            "rows": [row[:columns] for row in rows[1:]],
        }


def _runs(nodes: Iterable[SyntaxTreeNode], picture: Shown) -> Iterator[Run]:
    for node in nodes:
        if node.type == "inline":
            yield from _runs(node.children, picture)
        elif node.type in ("text", "text_special", "comment"):
            yield {"kind": "text", "text": node.content}
        elif node.type == "softbreak":
            yield {"kind": "text", "text": " "}
        elif node.type == "hardbreak":
            yield {"kind": "break"}
        elif node.type == "code_inline":
            yield {"kind": "code", "text": node.content}
        elif node.type == "image":
            if (shown := picture(unquote(str(node.attrGet("src") or "")))) is not None:
                yield {"kind": "picture", "block": shown}
        elif node.type in _WRAPPED:
            yield from _wrapped({"kind": _WRAPPED[node.type]}, node, picture)
        elif node.type == "link":
            yield from _wrapped({"kind": "link", "to": str(node.attrGet("href") or "")}, node, picture)


def _wrapped(outer: Run, node: SyntaxTreeNode, picture: Shown) -> Iterator[Run]:
    """Runs in emphasis or in a link; a picture in them steps out."""
    inner = list(_runs(node.children, picture))
    words = [run for run in inner if run["kind"] != "picture"]
    if _has_words(words):
        yield {**outer, "runs": words}
    yield from (run for run in inner if run["kind"] == "picture")

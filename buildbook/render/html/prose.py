"""The maker's Markdown as safe HTML.

Raw HTML is shown as text, links go only where a page may lead, and a picture is shown only when the page's model has
it. Lines that begin with `Setting:`, `Mistake:`, `Fix:` or `Next time:` are marked, so that they can be found again.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from urllib.parse import unquote

from markdown_it.token import Token
from markupsafe import Markup

from buildbook.job.notes.parser import QUOTES, shared_parser, to_show
from buildbook.pages.shared import Picture

_MARKED = re.compile(
    r"^(setting|mistake|fix|next time"
    r"|einstellung|fehler|behoben|abhilfe|lösung|(?:beim )?nächste[sn] mal|merke)\s*:\s*",
    re.IGNORECASE,
)
_KINDS = {
    "einstellung": "setting",
    "fehler": "mistake",
    "behoben": "fix",
    "abhilfe": "fix",
    "lösung": "fix",
    "merke": "next-time",
    "beim nächsten mal": "next-time",
    "nächstes mal": "next-time",
    "next time": "next-time",
}


def parse(markdown: str, quotes: str = QUOTES) -> list[Token]:
    """The tokens of a passage with typographic marks, its links as a reader may have them. `quotes`: the four marks of
    the language."""
    return to_show(shared_parser(typographic=True, quotes=quotes).parse(markdown))


def prose(
    markdown: str,
    pictures: Mapping[str, Picture],
    figure: Callable[[Picture], object],
    *,
    shift: int = 1,
    quotes: str = QUOTES,
) -> Markup:
    """HTML of a passage. `figure(picture)` makes the HTML of one picture; headings are lowered by `shift` levels."""
    parser = shared_parser(typographic=True)
    by_name = {
        unquote(name): picture for name, picture in pictures.items()
    }  # the parser encodes blanks and the like
    tokens = parse(markdown, quotes)
    _mark_lines(tokens)
    for token in tokens:
        if token.type in ("heading_open", "heading_close"):
            token.tag = f"h{min(6, int(token.tag[1]) + shift)}"
        for child in token.children or ():
            if child.type == "link_open":
                child.attrSet("rel", "noopener noreferrer")
    tokens = _lift_pictures(tokens)
    out = []
    run: list[Token] = []
    for token in tokens:
        if token.type == "picture":
            out.append(parser.renderer.render(run, parser.options, {}))
            run = []
            shown = by_name.get(unquote(token.content))
            if shown is not None:
                out.append(str(figure(shown)))
        else:
            run.append(token)
    out.append(parser.renderer.render(run, parser.options, {}))
    return Markup("".join(out))


def _mark_lines(tokens: Sequence[Token]) -> None:
    """Give a paragraph that begins with one of the marking words its class, and set the word apart in it."""
    for before, token in pairwise(tokens):
        if before.type != "paragraph_open" or token.type != "inline":
            continue
        match = _MARKED.match(token.content)
        first = token.children[0] if token.children else None
        if match is None or first is None or first.type != "text":
            continue
        word = match[1].lower()
        before.attrSet("class", f"mark {_KINDS.get(word, word)}")
        rest = first.content[len(match[0]) :]
        token.children = [
            Token("strong_open", "b", 1),
            Token("text", "", 0, content=match[0].strip()),
            Token("strong_close", "b", -1),
            Token("text", "", 0, content=f" {rest}"),
            *(token.children or [])[1:],
        ]


def _lift_pictures(tokens: Sequence[Token]) -> list[Token]:
    """Take pictures out of their paragraphs, to stand as figures of their own after them."""
    out: list[Token] = []
    waiting: list[Token] = []
    for token in tokens:
        if token.type == "inline" and token.children:
            kept = []
            for child in token.children:
                if child.type == "image":
                    waiting.append(Token("picture", "", 0, content=str(child.attrGet("src") or "")))
                else:
                    kept.append(child)
            token.children = _trim_breaks(kept)
        out.append(token)
        if token.level == 0 and token.nesting == -1 and waiting:
            if len(out) >= 3 and out[-3].type == "paragraph_open" and not out[-2].children:
                del out[-3:]
            out += waiting
            waiting = []
    return out + waiting


def _trim_breaks(children: list[Token]) -> list[Token]:
    """Line breaks that were beside a picture are left at the edges: away with them."""

    def empty(token: Token) -> bool:
        return token.type in ("softbreak", "hardbreak") or (
            token.type == "text" and not token.content.strip()
        )

    while children and empty(children[0]):
        children = children[1:]
    while children and empty(children[-1]):
        children = children[:-1]
    return children

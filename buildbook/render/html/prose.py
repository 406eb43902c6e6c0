"""The maker's Markdown as safe HTML.

Raw HTML is shown as text, links go only where a page may lead, and a picture is shown only when the page's model has
it. Lines that begin with `Setting:`, `Mistake:`, `Fix:` or `Next time:` are marked, so that they can be found again.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from itertools import pairwise
from urllib.parse import unquote, urlsplit

from markdown_it import MarkdownIt
from markdown_it.rules_core import StateCore
from markdown_it.token import Token
from markupsafe import Markup

from buildbook import limits
from buildbook.pages.shared import Picture

_SAFE_SCHEMES = frozenset({"http", "https", "mailto", "tel"})
_MARKED = re.compile(
    r"^(setting|mistake|fix|next time|einstellung|fehler|behoben|nächstes mal)\s*:\s*", re.IGNORECASE
)
_KINDS = {
    "einstellung": "setting",
    "fehler": "mistake",
    "behoben": "fix",
    "nächstes mal": "next-time",
    "next time": "next-time",
}


@cache
def _parser() -> MarkdownIt:
    """Commonmark without raw HTML, with tables and strike-through; `js-default` shows HTML as text."""
    parser = MarkdownIt("js-default", {"html": False, "linkify": False, "typographer": True})
    parser.validateLink = lambda url: urlsplit(url).scheme.lower() in _SAFE_SCHEMES or _is_picture(url)  # type: ignore[method-assign]
    curl = next(rule.fn for rule in parser.core.ruler.__rules__ if rule.name == "smartquotes")
    parser.core.ruler.at("smartquotes", lambda state: _curled(state, curl))
    return parser


def _curled(state: StateCore, curl: Callable[[StateCore], None]) -> None:
    """Typographic quotation marks, where a paragraph has not so many that pairing them takes minutes."""
    every = state.tokens
    state.tokens = [token for token in every if sum(map(token.content.count, "\"'")) <= limits.CURLED]
    curl(state)
    state.tokens = every


def parse(markdown: str) -> list[Token]:
    """The tokens of a passage, for what is not HTML. Links that are left have a safe scheme or lead into a folder."""
    return _parser().parse(markdown)


def _is_picture(url: str) -> bool:
    """A relative path: nothing but a picture may have one; links with one are unwrapped below."""
    parts = urlsplit(url)
    return not parts.scheme and not parts.netloc


def prose(
    markdown: str, pictures: Mapping[str, Picture], figure: Callable[[Picture], object], *, shift: int = 1
) -> Markup:
    """HTML of a passage. `figure(picture)` makes the HTML of one picture; headings are lowered by `shift` levels."""
    parser = _parser()
    by_name = {
        unquote(name): picture for name, picture in pictures.items()
    }  # the parser encodes blanks and the like
    tokens = parser.parse(markdown)
    _mark_lines(tokens)
    for token in tokens:
        if token.type in ("heading_open", "heading_close"):
            token.tag = f"h{min(6, int(token.tag[1]) + shift)}"
        if token.children:
            token.children = _plain_links(token.children)
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


def _plain_links(children: Sequence[Token]) -> list[Token]:
    """Drop links that lead into a folder: on a page they would lead nowhere, or tell a file's name."""
    out: list[Token] = []
    dropped = 0
    for child in children:
        if child.type == "link_open":
            if _is_picture(str(child.attrGet("href") or "")):
                dropped += 1
                continue
            child.attrSet("rel", "noopener noreferrer")
        elif child.type == "link_close" and dropped:
            dropped -= 1
            continue
        out.append(child)
    return out


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

"""The one Markdown of the package: CommonMark with tables and struck-out words; HTML in it is text.

What a note is taken apart by, what its links are found by, what is searched and what the pages show all come from this
parser, so that a heading, a link, a picture or a piece of code is one for all of them or for none. A stretch of HTML is
a block of text (type `html`) in which nothing but words, links and the like is looked for: no heading opens in it. A
comment (type `comment`) is what stands between its marks, as typed; one that is never closed goes on to the end.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from copy import copy
from functools import cache
from urllib.parse import unquote, urlsplit

from markdown_it import MarkdownIt
from markdown_it.common.utils import escapeHtml
from markdown_it.renderer import RendererHTML
from markdown_it.rules_core import StateCore
from markdown_it.rules_inline import StateInline
from markdown_it.token import Token
from markdown_it.utils import EnvType, OptionsDict

from buildbook import limits

COMMENT = re.compile(r"<!--.*?(?:-->|\Z)", re.DOTALL)

_SAFE_SCHEMES = frozenset({"http", "https", "mailto", "tel"})


QUOTES = "“”‘’"
"""Quotation marks of English: outer, inner."""


def new_parser(*, typographic: bool = False, quotes: str = QUOTES) -> MarkdownIt:
    """A parser of one's own, to listen to or to render with. Every address makes a link: see `to_show`."""
    # HTML is told apart by the library's own rules, and none of it comes out as HTML
    parser = MarkdownIt(
        "js-default", {"html": True, "linkify": False, "typographer": typographic, "quotes": quotes}
    )
    parser.validateLink = lambda url: True  # type: ignore[method-assign]
    parser.core.ruler.after("block", "html_as_text", _html_as_text)
    curl = next(rule.fn for rule in parser.core.ruler.__rules__ if rule.name == "smartquotes")
    parser.core.ruler.at("smartquotes", lambda state: _curled(state, curl))
    parser.inline.ruler.at("html_inline", _comment)
    for name in ("comment", "html_block", "html_inline"):
        parser.add_render_rule(name, _as_typed)
    return parser


@cache
def shared_parser(*, typographic: bool = False, quotes: str = QUOTES) -> MarkdownIt:
    """A parser that nobody changes."""
    return new_parser(typographic=typographic, quotes=quotes)


def parse(markdown: str, env: EnvType | None = None) -> list[Token]:
    """The tokens of a text as it was typed; `env` takes its definitions, by the parser's name `references`."""
    return shared_parser().parse(markdown, env)


def to_show(tokens: Sequence[Token]) -> list[Token]:
    """Tokens of a text for whoever reads it: a link leads to the web, a letter-box or a telephone, or is none.

    One into a folder would lead nowhere and tell a file's name: its words stay. Any other is shown as it was typed.
    Pictures by a path or of the web are left to whoever has pictures.
    """
    out = []
    for token in tokens:
        shown = copy(token)
        if token.children:
            shown.children = list(_shown(token.children))
        out.append(shown)
    return out


# -- rules -------------------------------------------------------------------------------------------


def _html_as_text(state: StateCore) -> None:
    """Each block of HTML as a paragraph of a kind of its own."""
    out: list[Token] = []
    for token in state.tokens:
        if token.type != "html_block":
            out.append(token)
            continue
        opening = Token("html_open", "p", 1, map=token.map, level=token.level, block=True)
        inside = Token("inline", "", 0, map=token.map, level=token.level + 1, block=True, children=[])
        inside.content = token.content.strip()
        out += [opening, inside, Token("html_close", "p", -1, level=token.level, block=True)]
    state.tokens = out


def _curled(state: StateCore, curl: Callable[[StateCore], None]) -> None:
    """Typographic quotation marks, where a paragraph has not so many that pairing them takes minutes."""
    every = state.tokens
    state.tokens = [token for token in every if sum(map(token.content.count, "\"'")) <= limits.CURLED]
    curl(state)
    state.tokens = every


def _comment(state: StateInline, silent: bool) -> bool:
    match = COMMENT.match(state.src, state.pos, state.posMax)
    if match is None:
        return False
    if not silent:
        state.push("comment", "", 0).content = match[0]
    state.pos = match.end()
    return True


def _as_typed(
    renderer: RendererHTML, tokens: Sequence[Token], at: int, options: OptionsDict, env: EnvType
) -> str:
    return escapeHtml(tokens[at].content)


# -- links -------------------------------------------------------------------------------------------


def _kind_of(url: str) -> str:
    """`safe`, `path` or `refused`: where an address leads."""
    try:
        parts = urlsplit(url)
    except ValueError:
        return "refused"
    if parts.scheme.lower() in _SAFE_SCHEMES:
        return "safe"
    return "refused" if parts.scheme or parts.netloc else "path"


def _shown(children: Iterable[Token]) -> Iterator[Token]:
    after: list[Token | None] = []  # what stands at the end of each link that is open
    for child in children:
        if child.type == "link_open":
            kind = _kind_of(str(child.attrGet("href") or ""))
            if kind == "safe":
                after.append(None)
                yield copy(child)
            elif kind == "path":
                after.append(_text(""))
            else:
                opening, closing = _typed(child, "href", "[")
                after.append(_text(closing))
                yield _text(opening)
        elif child.type == "link_close":
            yield after.pop() or copy(child)
        elif child.type == "image" and _kind_of(str(child.attrGet("src") or "")) == "refused":
            opening, closing = _typed(child, "src", "![")
            yield _text(opening + child.content + closing)
        else:
            yield copy(child)


def _typed(token: Token, name: str, opening: str) -> tuple[str, str]:
    """What stands before and after the words of a link or a picture."""
    if token.info == "auto":
        return "<", ">"
    title = str(token.attrGet("title") or "")
    written = unquote(str(token.attrGet(name) or "")) + (f' "{title}"' if title else "")
    return opening, f"]({written})"


def _text(content: str) -> Token:
    return Token("text", "", 0, content=content)

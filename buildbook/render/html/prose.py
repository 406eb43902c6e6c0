"""The maker's Markdown as safe HTML.

Raw HTML is shown as text, links go only where a page may lead, and a picture is shown only when the page's model has
it. A line that opens a mark (`Setting:`, `Mistake:` …, `job.notes.marks`) stands by itself; what is found by itself can
be linked to.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from urllib.parse import unquote

from markdown_it.token import Token
from markupsafe import Markup

from buildbook.job.notes.parser import QUOTES, shared_parser, to_show
from buildbook.job.notes.places import PLACE, placed
from buildbook.pages.shared import Picture


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
    ids: str = "",
) -> Markup:
    """HTML of a passage. `figure(picture)` makes the HTML of one picture; headings are lowered by `shift` levels.
    `ids`: what the ids of what stands in it begin with (`job.notes.places`); without it there are none."""
    parser = shared_parser(typographic=True)
    by_name = {
        unquote(name): picture for name, picture in pictures.items()
    }  # the parser encodes blanks and the like
    tokens = parse(markdown, quotes)
    for token in (tokens := placed(tokens)):
        if ids and PLACE in token.meta:
            token.attrSet("id", f"{ids}-{token.meta[PLACE]}")
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

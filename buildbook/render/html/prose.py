"""The maker's Markdown as safe HTML.

Raw HTML is shown as text, links go only where a page may lead, and a picture is shown only when the page's model has
it. A line that opens a mark (`Setting:`, `Mistake:` …, `job.notes.marks`) stands by itself, and can be linked to.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from copy import copy
from urllib.parse import unquote

from markdown_it.token import Token
from markupsafe import Markup

from buildbook.job.notes.marks import opens_mark
from buildbook.job.notes.parser import QUOTES, shared_parser, to_show
from buildbook.pages.shared import Picture


def parse(markdown: str, quotes: str = QUOTES) -> list[Token]:
    """The tokens of a passage with typographic marks, its links as a reader may have them. `quotes`: the four marks of
    the language."""
    return to_show(shared_parser(typographic=True, quotes=quotes).parse(markdown))


_BREAKS = ("softbreak", "hardbreak")
_STRESS = ("strong_open", "strong_close", "em_open", "em_close")


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
    `ids`: what the ids of marked lines begin with; without it they have none."""
    parser = shared_parser(typographic=True)
    by_name = {
        unquote(name): picture for name, picture in pictures.items()
    }  # the parser encodes blanks and the like
    tokens = parse(markdown, quotes)
    for token in (tokens := _mark_lines(tokens, ids)):
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


def _mark_lines(tokens: Sequence[Token], ids: str) -> list[Token]:
    """Each line that opens a mark begins a paragraph of its own, which has the mark's class, and with `ids` an id by
    which it can be linked to: `day-2026-02-16-setting-1`. The word is set apart. In a quote nothing is marked.
    """
    out: list[Token] = []
    counts: Counter[str] = Counter()
    quoted = 0
    opening: Token | None = None
    for number, token in enumerate(tokens):
        quoted += token.nesting if token.type in ("blockquote_open", "blockquote_close") else 0
        if token.type == "paragraph_open":
            opening = token
        elif token.type == "paragraph_close" and opening:
            token.hidden = opening.hidden
            opening = None
        if token.type != "inline" or opening is None or quoted:
            out.append(token)
            continue
        for place, (key, children) in enumerate(_marked(token.children or [])):
            if place:
                out += [_paragraph(tokens[number + 1]), opening := _paragraph(opening)]
            if key:
                counts[key] += 1
                opening.hidden = False  # in a tight list it would be
                opening.attrSet("class", f"mark {key}")
                if ids:
                    opening.attrSet("id", f"{ids}-{key}-{counts[key]}")
            piece = copy(token)
            piece.children = children
            out.append(piece)
    return out


def _paragraph(token: Token) -> Token:
    """Another end or beginning of a paragraph, shown, and without what belongs to the first."""
    other = copy(token)
    other.attrs, other.hidden = {}, False
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

"""Links of a passage for the client that lead to a place on one computer: found, and taken out of the text.

Nobody else can follow them, and they tell how the maker's computer and folders are named. A link's words stay, unless
they are such a path themselves; a picture goes whole; so does a definition. Found by the parser that the pages use, and
beyond it where something is plainly meant as a link and is none, as a path with a blank in it.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import unquote

from markdown_it import MarkdownIt
from markdown_it.common.utils import unescapeAll
from markdown_it.rules_inline import StateInline, autolink, image, link
from markdown_it.token import Token

from buildbook.job.notes.parser import new_parser

_SCHEME = re.compile(r"[a-z][a-z0-9+.-]+:", re.IGNORECASE)
_PLACE = re.compile(
    r"""(?: [a-z][a-z0-9+.-]+: )* file:   # also inside another, as view-source:file:
    | (?: smb | cifs | afp | nfs ):       # a share of the shop's network
    | [a-z]:                              # a drive
    | [\\/]                               # the top of a disk, or \\server
    | ~ | % \w+ % | \$                    # the user's folder, by a shorthand
    """,
    re.IGNORECASE | re.VERBOSE,
)
_SURELY_A_PATH = re.compile(r"file:|[a-z]:[\\/]|\\\\", re.IGNORECASE)
_LIKE_A_PATH = re.compile(r"file:|[a-z]:[\\/]|[\\/]{2}|~|\.\.[\\/]|/[^/\s]+/", re.IGNORECASE)
_DESTINATION = re.compile(r"\(\s*<?([^\s<>()]*)")
_DEFINITION = re.compile(r"\[[^\[\]\n]+\]:[ \t]*([^\n]+)")
_WRITTEN = re.compile(r"!?\[([^\[\]\n]*)\](?=\()")
_DEFINED = re.compile(r"\]:[ \t]*<?([^\s<>]+)")
_IN_BRACKETS = re.compile(r"<([^<>\n]+)>")
_MEANT = re.compile(r"(?=\](?:\([^()\n]*[\s\\/]|:))")  # where what can be meant as a link to a path is none
_LONGEST_PATH = 4096  # characters; no system has longer ones
_NOT_SEEN = re.compile(r"[\x00-\x20\x7f\xa0]+")


@dataclass(frozen=True)
class LocalLink:
    """What was taken out: the place that it leads to, whether as a picture, and how it was written (a first line)."""

    place: str
    is_picture: bool
    written: str


def is_local(reference: str, note_file: str) -> bool:
    """Whether a reference, as written in a note of this name, leads to a place outside the job folder on a computer.

    Markdown takes a stroke before a sign for an escape, whoever writes a path does not: both are looked at.
    """
    return any(_leads_out(form, note_file) for form in (reference, unescapeAll(reference)))


def _leads_out(reference: str, note_file: str) -> bool:
    plain = _NOT_SEEN.sub("", unquote(reference))
    if _PLACE.match(plain):
        return True
    if _SCHEME.match(plain):
        return False
    path = posixpath.normpath(posixpath.join(posixpath.dirname(note_file), plain.replace("\\", "/")))
    return path == ".." or path.startswith("../")


def _is_path(words: str, note_file: str) -> bool:
    """Whether words, or a title, are such a place themselves: “~ 20 mm” is none."""
    plain = words.strip(" \n*_`<>\"'")
    return bool(_LIKE_A_PATH.match(plain)) or (
        bool(plain) and is_local(plain, note_file) and not re.search(r"\s", plain)
    )


def without_local_links(text: str, note_file: str) -> tuple[str, tuple[LocalLink, ...]]:
    """The text without its local links, and what they were, as they stand."""
    found: list[LocalLink] = []
    while True:
        text, cuts = _once(text, note_file)
        if not cuts:
            return text, tuple(found)
        found += cuts


# -- finding -------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Cut:
    """Characters of an inline text that are a local link, and what of it stays."""

    start: int
    end: int
    stays: str
    place: str
    is_picture: bool


@dataclass
class _Finder:
    """Listens to a parser and notes the local links that it comes by, by the inline text that they stand in."""

    note_file: str
    cuts: dict[str, set[_Cut]] = field(default_factory=dict)
    _last: dict[str, int] = field(default_factory=dict)

    def parser(self) -> MarkdownIt:
        parser = new_parser()
        for name, rule in (("link", link), ("image", image), ("autolink", autolink)):
            parser.inline.ruler.at(name, self._listening(rule))
        return parser

    def _listening(self, rule: Callable[[StateInline, bool], bool]) -> Callable[[StateInline, bool], bool]:
        def listening(state: StateInline, silent: bool) -> bool:
            if rule is link and self._meant_as_definition(state):
                return True
            start, before = state.pos, len(state.tokens)
            if rule(state, silent):
                if not silent:
                    made = next(t for t in state.tokens[before:] if t.type in ("link_open", "image"))
                    self._judge(state, start, made)
                return True
            state.pos = start
            return self._meant_in_brackets(state) if rule is autolink else self._meant(state)

        return listening

    def _judge(self, state: StateInline, start: int, made: Token) -> None:
        """What the parser took for a link."""
        place, title = (
            str(made.attrGet("href") or made.attrGet("src") or ""),
            str(made.attrGet("title") or ""),
        )
        words = (_label(state, start) or "") if made.info != "auto" else ""
        written = _DESTINATION.match(state.src, start + state.src.startswith("!", start) + len(words) + 2)
        for form in (place, written[1] if written else ""):
            if is_local(form, self.note_file):
                self._cut(state, start, state.pos, words, form)
                return
        titles = (title, *_quoted(state.src[start : state.pos])) if title else ()
        if as_title := next((form for form in titles if _is_path(form, self.note_file)), ""):
            self._cut(state, start, state.pos, words, as_title)
        elif made.type == "link_open" and _SURELY_A_PATH.match(words.strip(" \n*_`")):
            self._cut(state, start, state.pos, words, words)

    def _meant(self, state: StateInline) -> bool:
        """What the parser took for no link, and somebody meant as one: a path with a blank in it."""
        start = state.pos
        if start > self._last_meant(state.src):
            return False
        label = _label(state, start)
        if label is None:  # a path that ends in a stroke has taken the bracket for a sign
            match = _WRITTEN.match(state.src, start, state.posMax)
            if not match:
                return False
            label = match[1]
        opening = start + state.src.startswith("!", start) + len(label) + 2
        end = _closing(state.src, opening, state.posMax)
        written = state.src[opening + 1 : end - 1].strip()
        places = (written.strip("<>"), *_quoted(written)) if end else ()
        place = next((form for form in places if is_local(form, self.note_file)), "")
        return bool(place) and self._cut(state, start, end, label, place)

    def _last_meant(self, text: str) -> int:
        """Where in an inline text the last may be that is meant so; asked at every sign, so looked for once."""
        if text not in self._last:
            self._last[text] = max((match.start() for match in _MEANT.finditer(text)), default=-1)
        return self._last[text]

    def _meant_as_definition(self, state: StateInline) -> bool:
        """A line that begins as a definition does and goes on as a path."""
        start = state.pos
        match = _DEFINITION.match(state.src, start, state.posMax)
        if (
            not match
            or state.src[start - 1 : start] not in ("", "\n")
            or not _is_path(match[1], self.note_file)
        ):
            return False
        return self._cut(state, start, match.end(), "", match[1])

    def _meant_in_brackets(self, state: StateInline) -> bool:
        match = _IN_BRACKETS.match(state.src, state.pos, state.posMax)
        if not match or not _LIKE_A_PATH.match(match[1].strip()):
            return False
        return self._cut(state, state.pos, match.end(), "", match[1].strip())

    def _cut(self, state: StateInline, start: int, end: int, words: str, place: str) -> bool:
        is_picture = state.src.startswith("!", start)
        is_path = _is_path(words, self.note_file) or words == place
        cut = _Cut(start, end, "" if is_picture or is_path else words, unquote(place), is_picture)
        self.cuts.setdefault(state.src, set()).add(cut)
        state.pos = end
        return True


def _label(state: StateInline, start: int) -> str | None:
    """What stands in the square brackets that open here; None when there are none."""
    opening = start + state.src.startswith("!", start)
    if not state.src.startswith("[", opening):
        return None
    end = state.md.helpers.parseLinkLabel(state, opening)
    return state.src[opening + 1 : end] if end >= 0 else None


def _quoted(written: str) -> list[str]:
    """What stands in quotes."""
    return re.split("[\"']", written)[1::2]


def _closing(text: str, opening: int, end: int) -> int:
    """After the bracket that closes the round one here, on the same line; 0 when there is none."""
    end = min(end, opening + _LONGEST_PATH)
    if not text.startswith("(", opening) or ")" not in text[opening:end]:
        return 0
    depth = 0
    for place in range(opening, end):
        sign = text[place]
        if sign == "\n":
            return 0
        depth += (sign == "(") - (sign == ")")
        if depth == 0:
            return place + 1
    return 0


# -- taking out ----------------------------------------------------------------------------------


def _once(text: str, note_file: str) -> tuple[str, list[LocalLink]]:
    finder, env = _Finder(note_file), dict[str, Any]()
    tokens = finder.parser().parse(text, env)
    lines: list[str | None] = list(text.split("\n"))
    found = []
    first = 0
    for token in tokens:
        first = token.map[0] if token.map else first  # a cell of a table has its row's
        if token.type == "inline" and token.content in finder.cuts:
            cuts = _outermost(finder.cuts[token.content])
            _replace(lines, first, token.content, cuts)
            found += [_link(token.content, cut) for cut in cuts]
    told = {one.place for one in found}
    written = text.split("\n")
    for definition in (*env.get("references", {}).values(), *env.get("duplicate_refs", ())):
        start, end = definition["map"]
        place, title = unquote(str(definition["href"])), str(definition["title"] or "")
        as_written = _DEFINED.search(written[start])
        forms = (place, as_written[1] if as_written else "")
        if not any(is_local(form, note_file) for form in forms) and not _is_path(title, note_file):
            continue
        lines[start:end] = [None] * (end - start)
        if place not in told:
            found.append(LocalLink(place, False, written[start].strip()))
    return "\n".join(line for line in lines if line is not None), found


def _link(content: str, cut: _Cut) -> LocalLink:
    return LocalLink(cut.place, cut.is_picture, content[cut.start : cut.end].split("\n")[0])


def _outermost(cuts: Iterable[_Cut]) -> list[_Cut]:
    """In order; one inside another waits until that is gone."""
    kept: list[_Cut] = []
    for cut in sorted(cuts, key=lambda cut: (cut.start, -cut.end)):
        if not kept or cut.start >= kept[-1].end:
            kept.append(cut)
    return kept


def _replace(lines: list[str | None], first: int, content: str, cuts: list[_Cut]) -> None:
    """Put what stays into the lines that an inline text comes from, behind the marks of their lists and quotes."""
    parts, at = [], 0
    for cut in cuts:
        parts += [content[at : cut.start], cut.stays]
        at = cut.end
    new = "".join((*parts, content[at:])).split("\n")
    for number, old in enumerate(content.split("\n")):
        line = lines[first + number] or ""
        column = line.rfind(old)
        if number >= len(new):
            lines[first + number] = None
        elif (
            column < 0
        ):  # the parser changed it, a tab or a bar with a stroke: what stays, without what was around
            lines[first + number] = new[number]
        else:
            line = line[:column] + new[number] + line[column + len(old) :]
            lines[first + number] = line if line.strip() or not old.strip() else None

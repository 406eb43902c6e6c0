"""A client's page in a browser, as its reader meets it."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser

from tests.owner.questions import HERE

PHONE = (390, 844)
DESK = (1280, 900)
"""Windows, in px: a phone held upright, and a table."""

MORE = re.compile(r"More about this piece|Mehr über", re.IGNORECASE)
"""The heading after which stands what an owner seldom needs."""


@dataclass(frozen=True)
class Passage:
    """A heading and what stands below it, up to the next. `above`: the headings that it is under, the outermost first.
    `text` begins with the heading, a block a line; `tops` are their distances from the top of the page in px.
    """

    heading: str
    above: tuple[str, ...]
    folded: bool
    blocks: tuple[str, ...]
    tops: tuple[float, ...]

    @cached_property
    def text(self) -> str:
        return "\n".join(self.blocks)

    @property
    def named(self) -> str:
        """Its text with all headings that it is under."""
        return "\n".join((*self.above, self.text))

    def top_at(self, place: int) -> float:
        """How far from the top of the page the block stands that holds this place of the text."""
        starts = list(accumulate((len(block) + 1 for block in self.blocks), initial=0))
        return self.tops[bisect_right(starts[:-1], place) - 1]


@dataclass(frozen=True)
class Page:
    """A page at one width. Heights in px; `small`: what can be tapped and is less than 44 px wide or high."""

    passages: tuple[Passage, ...]
    contents: tuple[str, ...]
    height: float
    small: tuple[str, ...]
    lead_top: float | None
    title_bottom: float
    sections: tuple[str, ...]
    telephone: bool

    @cached_property
    def text(self) -> str:
        return "\n".join(passage.text for passage in self.passages)

    def words(self, *, before_more: bool = False) -> int:
        """How many words there are, at most up to the heading after which stands what an owner seldom needs."""
        texts = []
        for passage in self.passages:
            if before_more and MORE.search(passage.heading):
                break
            texts.append(passage.text)
        return len(re.findall(r"\w[\w’'-]*", "\n".join(texts)))

    @property
    def has_more(self) -> bool:
        return any(MORE.search(passage.heading) for passage in self.passages)

    def height_before_more(self) -> float:
        tops = [passage.tops[0] for passage in self.passages if MORE.search(passage.heading)]
        return min(tops, default=self.height)


def open_pages(browser: Browser, path: Path) -> dict[tuple[int, int], Page]:
    """A page at both widths, by day."""
    script = (HERE / "read.js").read_text(encoding="utf-8")
    context = browser.new_context(color_scheme="light")
    page = context.new_page()
    try:
        page.goto(path.as_uri())
        found = {}
        for window in (PHONE, DESK):
            page.set_viewport_size({"width": window[0], "height": window[1]})
            found[window] = page_of(page.evaluate(script))
        return found
    finally:
        context.close()


def page_of(read: Mapping[str, Any]) -> Page:
    """A page from what `read.js` gives."""
    return Page(
        passages=tuple(map(_passage, read["passages"])),
        contents=tuple(read["contents"]),
        height=read["height"],
        small=tuple(read["small"]),
        lead_top=read["lead_top"],
        title_bottom=read["title_bottom"],
        sections=tuple(read["headings"]),
        telephone=read["telephone"],
    )


def _passage(row: Mapping[str, Any]) -> Passage:
    blocks = [(row["heading"], row["top"])] + [(block["text"], block["top"]) for block in row["blocks"]]
    return Passage(
        heading=row["heading"],
        above=tuple(row["above"]),
        folded=row["folded"],
        blocks=tuple(text for text, _ in blocks),
        tops=tuple(top for _, top in blocks),
    )

"""The jobs of an index that answer a question, with the words that answer it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from buildbook.find.excerpt import Excerpt
from buildbook.find.index import Index
from buildbook.find.passage import Shown, why
from buildbook.find.query import Asked, Hit, Query, answers, ask, lacking, parse

PassagesOf = Callable[[str], tuple[Excerpt, ...]]


class NothingToAsk(Exception):
    """There is no past work to be asked here; the text says why and what to do."""


class FoundJob(NamedTuple):
    """A job that was found. `page` is where in its build log that is, as seen from the top of the book; `lacks`: words
    of the question that it does not have.
    """

    key: str
    title: str
    day: str
    page: str
    score: int
    passages: tuple[Shown, ...]
    lacks: tuple[str, ...] = ()


def page_of(key: str, at: str = "") -> str:
    """The build log of a job as seen from the top of the book, and a place on it."""
    return f"jobs/{key}/index.html" + (f"#{at}" if at else "")


Ask = Callable[[str, int | None], tuple[int, list[FoundJob]]]
"""A question, and how many hits are shown at most -> how many jobs answer it, and the first of them, in order."""


def found_by(index: Index, text: str, most: int | None, passages: PassagesOf) -> tuple[int, list[FoundJob]]:
    """How many jobs of an index answer a question, and the first `most`. `passages`: the words of a job by its name."""
    query = parse(text)
    asked = ask(index, query)
    hits = answers(index, query, asked, passages)
    return len(hits), [
        _found(index, hit, query, asked, passages(index.keys[hit.place])) for hit in hits[:most]
    ]


def _found(
    index: Index, hit: Hit, query: Query, asked: Sequence[Asked], passages: Sequence[Excerpt]
) -> FoundJob:
    key, shown = index.keys[hit.place], tuple(why(passages, query, asked))
    return FoundJob(
        key=key,
        title=index.titles[hit.place],
        day=index.days[hit.place],
        page=page_of(key, shown[0].at if shown else ""),
        score=hit.score,
        passages=shown,
        lacks=lacking(query, asked, hit.place),
    )

"""Finding past work from the terminal: asks a book by its own index, or a shelf by reading its jobs. Both answer in the
same order.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple

from buildbook import limits
from buildbook.book.past.passages import read_passages
from buildbook.find import scripts
from buildbook.find.index import Index
from buildbook.find.model import Excerpt
from buildbook.find.packing import unpack
from buildbook.find.passage import Shown, why
from buildbook.find.query import Asked, Hit, Query, answers, ask, lacking, parse
from buildbook.job.plain_file import NotRead, read_plain
from buildbook.problems import Problems

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


def find_in(
    folder: Path, text: str, most: int | None = None, problems: Problems | None = None
) -> tuple[int, list[FoundJob]]:
    """How many jobs of a book, a shelf or a job folder answer a question, and the first `most`, in order. A job that
    cannot be searched is added to `problems`, and the others answer.

    Raises `NothingToAsk`.
    """
    return open_past_work(folder, Problems() if problems is None else problems)(text, most)


def open_past_work(folder: Path, problems: Problems) -> Ask:
    """A book, a shelf or a job folder read once, to be asked as often as you like. Raises `NothingToAsk`."""
    if (folder / scripts.INDEX).is_file():
        index = _index_of(folder / scripts.INDEX)
        return lambda text, most: found_by(
            index, text, most, lambda key: read_passages(folder / "jobs" / key) or ()
        )
    from buildbook.book.past.shelf_search import open_shelf  # reads jobs, for which much is loaded

    return open_shelf(folder, problems)


def _index_of(path: Path) -> Index:
    try:
        return unpack(scripts.read_index(read_plain(path, limits.INDEX_BYTES).decode("utf-8")))
    except (NotRead, ValueError, KeyError, TypeError, IndexError, AttributeError, RecursionError) as error:
        raise NothingToAsk(f"{path} cannot be read. Bind the book again.") from error


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

"""Past work in a book, and finding it from the terminal.

The index and the scripts of the page are made from the records that bound jobs left.
`find_in` asks a book by its own index, or a shelf by reading its jobs: both answer in the same order.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from buildbook import limits
from buildbook.book.past.records import read_passages
from buildbook.book.past.without import without_failing
from buildbook.find.index import Index, build
from buildbook.find.packing import unpack
from buildbook.find.passage import Shown, why
from buildbook.find.query import ask, find, parse
from buildbook.find.record import Excerpt, FindRecord, find_record, passages_of
from buildbook.job import find_jobs, read_job, read_shop
from buildbook.job.places import job_name
from buildbook.job.plain_file import NotRead, read_plain
from buildbook.job.shop_model import Shop
from buildbook.left import JobRecord
from buildbook.problems import Problems, failed
from buildbook.render.html import search as scripts
from buildbook.summary import summarise
from buildbook.words import Words

PassagesOf = Callable[[str], tuple[Excerpt, ...]]


def book_files(records: Sequence[JobRecord], shop: Shop, problems: Problems) -> dict[str, bytes]:
    """What past work is found by, at the top of a book: the index, and the scripts that ask it, by name. A job that
    cannot be searched is told.
    """

    def of(some: Sequence[JobRecord]) -> str:
        index = build((record.find for record in some), shop.units)
        return scripts.index_script(index, Words(shop.language), shop.units)

    index = without_failing(of, records, lambda record: record.key, problems)
    return {
        scripts.INDEX: index.encode(),
        **{name: scripts.script(name).encode() for name in scripts.SCRIPTS},
    }


# -- the terminal --------------------------------------------------------------------------------


class NothingToAsk(Exception):
    """There is no past work to be asked here; the text says why and what to do."""


@dataclass(frozen=True)
class FoundJob:
    """A job that was found. `page` is its build log as seen from the top of the book."""

    key: str
    title: str
    day: str
    page: str
    score: int
    passages: tuple[Shown, ...]


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
        return lambda text, most: _found(
            index, text, most, lambda key: read_passages(folder / "jobs" / key) or ()
        )
    jobs = find_jobs(folder)
    if not jobs:
        raise NothingToAsk(f"{folder} holds no job and is no book. Name a shelf or a book with --in.")
    shop, _ = read_shop(folder)
    records: dict[str, FindRecord] = {}
    passages: dict[str, tuple[Excerpt, ...]] = {}
    for path in jobs:
        try:
            job = read_job(path)
            summary, words = summarise(job), Words(job.shop.language)
            passages[job.key] = passages_of(job, summary, words)
            records[job.key] = find_record(job, summary, words, passages[job.key])
        except Exception as fault:  # one job must not keep the others from answering
            problems.add(failed(job_name(path), fault))

    def ask_all(text: str, most: int | None) -> tuple[int, list[FoundJob]]:
        def of(some: Sequence[FindRecord]) -> tuple[int, list[FoundJob]]:
            return _found(build(some, shop.units), text, most, passages.__getitem__)

        return without_failing(of, list(records.values()), lambda record: record.key, problems)

    return ask_all


def _index_of(path: Path) -> Index:
    try:
        return unpack(scripts.read_index(read_plain(path, limits.INDEX_BYTES).decode("utf-8")))
    except (NotRead, ValueError, KeyError, TypeError, RecursionError) as error:
        raise NothingToAsk(f"{path} cannot be read. Bind the book again.") from error


def _found(index: Index, text: str, most: int | None, passages: PassagesOf) -> tuple[int, list[FoundJob]]:
    query = parse(text)
    asked = ask(index, query)
    hits = find(index, text, passages)
    shown = [
        FoundJob(
            key=index.keys[hit.place],
            title=index.titles[hit.place],
            day=index.days[hit.place],
            page=f"jobs/{index.keys[hit.place]}/index.html",
            score=hit.score,
            passages=tuple(why(passages(index.keys[hit.place]), query, asked)),
        )
        for hit in hits[:most]
    ]
    return len(hits), shown

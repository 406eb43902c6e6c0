"""Past work in a book, and finding it from the terminal.

Each bound job leaves find.json beside its log; the index and the scripts of the page are made from all of them.
`find_in` asks a book by its own index, or a shelf by reading its jobs: both answer in the same order.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from buildbook.book.left import all_left, read_left
from buildbook.find.index import Index, build
from buildbook.find.packing import unpack
from buildbook.find.passage import Shown, why
from buildbook.find.query import ask, find, parse
from buildbook.find.record import FindRecord, Passage, find_record
from buildbook.job import find_jobs, read_job, read_shop
from buildbook.job.model import Job
from buildbook.job.shop_model import Shop
from buildbook.render.html import search as scripts
from buildbook.summary import summarise
from buildbook.summary.model import Summary
from buildbook.words import Words

RECORD = "find.json"
PassagesOf = Callable[[str], tuple[Passage, ...]]


# -- what a book keeps ---------------------------------------------------------------------------


def job_files(job: Job, summary: Summary) -> dict[str, bytes]:
    """What a job leaves beside its log, by name."""
    record = find_record(job, summary, Words(job.shop.language))
    return {
        RECORD: _compact(record.as_json()).encode(),
        scripts.WORDS: scripts.words_script(record).encode(),
    }


def book_files(records: Iterable[FindRecord], shop: Shop) -> dict[str, bytes]:
    """What stands at the top of a book, by name: the index, and the scripts that ask it."""
    index = scripts.index_script(build(records, shop.units), Words(shop.language), shop.units)
    return {
        scripts.INDEX: index.encode(),
        **{name: scripts.script(name).encode() for name in scripts.SCRIPTS},
    }


def _compact(facts: dict[str, Any]) -> str:
    """JSON for machines only: a line for each word would double the file."""
    return json.dumps(facts, ensure_ascii=False, separators=(",", ":")) + "\n"


def read_records(book: Path) -> list[FindRecord]:
    """The records that bound jobs left in a book."""
    return all_left(book, RECORD, FindRecord.from_json)


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


def find_in(folder: Path, text: str, most: int | None = None) -> tuple[int, list[FoundJob]]:
    """How many jobs of a book, a shelf or a job folder answer a question, and the first `most`, in order.

    Raises `NothingToAsk`.
    """
    if (folder / scripts.INDEX).is_file():
        index = _index_of(folder / scripts.INDEX)
        return _found(index, text, most, lambda key: _kept(folder, key))
    jobs = find_jobs(folder)
    if not jobs:
        raise NothingToAsk(f"{folder} holds no job and is no book. Name a shelf or a book with --in.")
    shop, _ = read_shop(folder)
    records = {record.key: record for record in map(_record_of, jobs)}
    return _found(build(records.values(), shop.units), text, most, lambda key: records[key].passages)


def _index_of(path: Path) -> Index:
    try:
        return unpack(scripts.read_index(path.read_text("utf-8")))
    except (OSError, ValueError, KeyError, TypeError) as error:
        raise NothingToAsk(f"{path} cannot be read. Bind the book again.") from error


def _kept(book: Path, key: str) -> tuple[Passage, ...]:
    record = read_left(book / "jobs" / key / RECORD, FindRecord.from_json)
    return record.passages if record else ()


def _record_of(path: Path) -> FindRecord:
    job = read_job(path)
    return find_record(job, summarise(job), Words(job.shop.language))


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

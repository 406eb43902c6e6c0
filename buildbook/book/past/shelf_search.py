"""Finding past work on a shelf that was not bound: every job is read for it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from buildbook.book.past.search import Ask, FoundJob, NothingToAsk, found_by
from buildbook.book.past.without import without_failing
from buildbook.find.index import build
from buildbook.find.model import Excerpt, FindRecord
from buildbook.find.record import find_record, passages_of
from buildbook.job import find_jobs, read_job, read_shop
from buildbook.job.places import job_name
from buildbook.problems import Problems, failed
from buildbook.summary import summarise
from buildbook.words import Words


def open_shelf(folder: Path, problems: Problems) -> Ask:
    """As `search.open_past_work`, for a shelf or a job folder. Raises `NothingToAsk`."""
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
            return found_by(build(some, shop.units), text, most, passages.__getitem__)

        return without_failing(of, list(records.values()), lambda record: record.key, problems)

    return ask_all

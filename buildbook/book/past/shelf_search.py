"""Finding past work on a shelf: of a job that a book near it has as it is now, what its binding left; the others are
read for it.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from buildbook.book.past.found import Ask, FoundJob, NothingToAsk, found_by
from buildbook.book.past.near import books_near
from buildbook.book.past.passages import read_passages
from buildbook.book.past.records import LeftRecord, read_record
from buildbook.book.past.without import without_failing
from buildbook.book.place import LOGS
from buildbook.book.redo.inputs import Inputs
from buildbook.book.redo.seen import as_before
from buildbook.find.excerpt import Excerpt
from buildbook.find.index import build
from buildbook.find.model import FindRecord
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
    books, inputs = books_near(folder), Inputs()
    for path in jobs:
        if left := _left(path, books, inputs):
            records[left.key] = left.find
            passages[left.key] = read_passages(left.folder) or ()
            continue
        try:
            job = read_job(path, pictures=False)
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


def _left(path: Path, books: Sequence[Path], inputs: Inputs) -> LeftRecord | None:
    """What the binding of a job left, in a book that has the job as it is now."""
    for book in books:
        if as_before(path, book, inputs, notes=False) is not None:
            with suppress(OSError):  # then the job itself is read
                return read_record(book / LOGS / job_name(path))
    return None

"""What bound jobs leave beside their logs for the pages across jobs: written with a job, read once a binding.

record.json   what the list, the index and the pages across are made from
words.js      the words of the job, for the page of past work, and for the terminal where the job is found
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NamedTuple

from buildbook.book.disk import write
from buildbook.book.lock import second_list
from buildbook.book.past.passages import read_passages
from buildbook.find.counting import edition
from buildbook.find.record import passages_of
from buildbook.job.model import Job
from buildbook.job.plain_file import NotRead, read_plain
from buildbook.left.codec import decoded, encoded, read_as
from buildbook.left.model import Cover, JobRecord
from buildbook.left.record import job_record
from buildbook.limits import LEFT_BYTES
from buildbook.render.html import search as scripts
from buildbook.summary.model import Summary
from buildbook.words import Words

RECORD = "record.json"


def job_files(job: Job, summary: Summary, cover: Cover | None) -> dict[str, bytes]:
    """What a job leaves beside its log, by name."""
    words = Words(job.shop.language)
    passages = passages_of(job, summary, words)
    return {
        RECORD: encoded(job_record(job, summary, words, passages, cover)),
        scripts.WORDS: scripts.words_script(job.key, passages).encode(),
    }


class BookRecords(NamedTuple):
    """The records of a book by the name of their job, and the jobs that were bound but have left none that is read:
    they are to be bound again.
    """

    records: tuple[JobRecord, ...]
    without: tuple[str, ...]


def read_records(book: Path) -> BookRecords:
    """Every job of a book, each record read once."""
    found: list[JobRecord] = []
    without: list[str] = []
    for folder in bound_folders(book):
        record = read_record(folder)
        if record:
            found.append(record)
        else:
            without.append(folder.name)
    return BookRecords(tuple(found), tuple(without))


def bound_folders(book: Path) -> list[Path]:
    """The folders of a book's jobs, by name; not those that are being written."""
    try:
        inside = sorted((book / "jobs").iterdir())
    except OSError:
        return []
    return [f for f in inside if not f.name.startswith(".") and os.path.lexists(f / write.LIST)]


def read_record(folder: Path) -> JobRecord | None:
    """The record of the job whose log is in a folder; None where there is none, or one that we have not written."""
    data = _bytes_of(folder / RECORD)
    record = decoded(data) if data is not None else None
    if record is None or record.key != folder.name:
        return None
    if record.find.counted == edition():
        return record
    passages = read_passages(folder)
    return replace(record, find=record.find.recounted(passages)) if passages is not None else None


@dataclass(frozen=True)
class _Listing:
    """What the list of a book's own files says of its jobs."""

    stale: dict[str, str]


def stale_jobs(book: Path) -> Mapping[str, str]:
    """The jobs whose pages are not of the last binding, and why."""
    for path in (book / write.LIST, second_list(book)):
        data = _bytes_of(path)
        if data is not None and (listing := read_as(_Listing, data)):
            return listing.stale
    return {}


def _bytes_of(path: Path) -> bytes | None:
    """What is in a plain file; None where there is none, or more than any record holds."""
    try:
        return read_plain(path, LEFT_BYTES)
    except NotRead:
        return None

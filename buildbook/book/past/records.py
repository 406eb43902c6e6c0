"""What bound jobs leave beside their logs for the pages across jobs: written with a job, read once a binding.

record.json   what the list, the index and the pages across are made from
words.js      the words of the job, for the page of past work, and for the terminal where the job is found
"""

from __future__ import annotations

import os
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import NamedTuple, TypeVar

import msgspec

from buildbook.book.disk import write
from buildbook.book.lock import second_list
from buildbook.book.past.passages import read_passages
from buildbook.find import scripts
from buildbook.find.counting import edition
from buildbook.find.model import FindRecord
from buildbook.find.record import passages_of
from buildbook.job.model import Job
from buildbook.job.plain_file import NotRead, read_plain
from buildbook.left.codec import Parts, decoded, encoded, read_as
from buildbook.left.model import Cover, Entry, Used
from buildbook.left.record import job_record
from buildbook.limits import LEFT_BYTES
from buildbook.summary.model import Summary
from buildbook.words import Words

RECORD = "record.json"
T = TypeVar("T")
_IS_NONE = (FileNotFoundError, NotADirectoryError)


def job_files(job: Job, summary: Summary, cover: Cover | None) -> dict[str, bytes]:
    """What a job leaves beside its log, by name."""
    words = Words(job.shop.language)
    passages = passages_of(job, summary, words)
    return {
        RECORD: encoded(job_record(job, summary, words, passages, cover)),
        scripts.WORDS: scripts.words_script(job.key, passages).encode(),
    }


@dataclass(frozen=True, eq=False)
class LeftRecord:
    """What a job left, each part read when it is asked for: most bindings change one job, and few of the pages."""

    key: str
    folder: Path
    parts: Parts

    @cached_property
    def entry(self) -> Entry:
        return _part(Entry, self.parts.entry)

    @cached_property
    def used(self) -> Used:
        return _part(Used, self.parts.used)

    @cached_property
    def find(self) -> FindRecord:
        """With the counts of this edition, if need be made anew from the words beside them."""
        record = _part(FindRecord, self.parts.find)
        passages = read_passages(self.folder) if record.counted != edition() else None
        return record.recounted(passages) if passages is not None else record


class BookRecords(NamedTuple):
    """The records of a book by the name of their job, and the jobs that were bound but have left none that is read:
    they are to be bound again.
    """

    records: tuple[LeftRecord, ...]
    without: tuple[str, ...]


def read_records(book: Path, whole: Collection[str] = ()) -> BookRecords:
    """Every job of a book. `whole`: the names of jobs whose record is known to be one that we have written.

    Raises OSError: a job that the disk does not give now is none that is missing.
    """
    found: list[LeftRecord] = []
    without: list[str] = []
    for folder in bound_folders(book):
        record = read_record(folder, known=folder.name in whole)
        if record:
            found.append(record)
        else:
            without.append(folder.name)
    return BookRecords(tuple(found), tuple(without))


def bound_folders(book: Path) -> list[Path]:
    """The folders of a book's jobs, by name; not those that are being written. Raises OSError."""
    jobs = book / "jobs"
    try:
        inside = sorted(os.listdir(jobs))
    except FileNotFoundError:
        return []
    return [folder for name in inside if not name.startswith(".") and _is_bound(folder := jobs / name)]


def _is_bound(folder: Path) -> bool:
    try:
        os.lstat(os.path.join(folder, write.LIST))
    except _IS_NONE:
        return False
    return True


def read_record(folder: Path, *, known: bool = False) -> LeftRecord | None:
    """The record of the job whose log is in a folder; None where there is none, or one that we have not written. Raises
    OSError.

    known  whether it is known to be ours, and need not be read whole to see
    """
    try:
        data = read_plain(folder / RECORD, LEFT_BYTES)
    except NotRead as why:
        fault = why.__cause__
        if isinstance(fault, OSError) and not isinstance(fault, _IS_NONE):
            raise fault from why
        return None
    parts = read_as(Parts, data)
    if parts is None:
        return None
    record = LeftRecord(folder.name, folder, parts)
    return record if known or _is_whole(record, data) else None


def _is_whole(record: LeftRecord, data: bytes) -> bool:
    whole = decoded(data)
    if whole is None or whole.key != record.key:
        return False
    return whole.find.counted == edition() or read_passages(record.folder) is not None


def _part(kind: type[T], part: msgspec.Raw) -> T:
    read = read_as(kind, part)
    assert read is not None  # a record that was written whole
    return read


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

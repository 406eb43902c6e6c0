"""The files at the top of a book: the list of past work, the index, the pages across jobs.

They are made of what bound jobs left, and only where a record, the shop, the theme or what is out of date has changed;
one is written only where its bytes differ.
"""

from __future__ import annotations

import hashlib
import json
import os
import time
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from buildbook.book.disk import write
from buildbook.book.faults import problem_of
from buildbook.book.lock import second_list
from buildbook.book.past.across import across_files
from buildbook.book.past.index_files import book_files
from buildbook.book.past.last import Last, without_collecting
from buildbook.book.past.records import RECORD, BookRecords, bound_folders, read_records, stale_jobs
from buildbook.book.past.without import NO_JOBS_FAULT, without_failing
from buildbook.book.place import LOGS
from buildbook.book.redo import decide as redo
from buildbook.book.redo.inputs import Inputs
from buildbook.book.redo.made import Made, keep_made, place_of, read_made
from buildbook.book.redo.noted import FileFacts, FoundFile, Noted, found_at
from buildbook.book.redo.program import imaging, program
from buildbook.book.themes import theme_of
from buildbook.job.shop_model import Shop
from buildbook.pages.past.list import ListedJob, listed, past_work, without_entry
from buildbook.problems import Problem, Problems, any_error
from buildbook.render.html.theme import Theme
from buildbook.summary.as_json import as_text
from buildbook.words import Words

INDEX = "index.html"
_VALUE = "value"


@dataclass(frozen=True)
class ShelfNow:
    """What a binding knows of a shelf: its folder, whether that is a job itself, its shop, and which of its jobs are in
    the book as they are now.
    """

    folder: Path
    is_job: bool
    shop: Shop
    bound: Collection[str]
    not_bound: Sequence[str]


def lay_top(book: Path, shelf: ShelfNow, inputs: Inputs, problems: Problems, *, again: bool = False) -> None:
    """Bring the top of a book up to date. Jobs that are in the book but were not bound now stay listed."""
    stale = _stale(book, shelf)
    before = None if again else read_made(place_of(book))
    try:
        theme, shelf_of_themes = _theme(shelf)
        chain = theme.chain
        found = [*_left_by_jobs(book), *inputs.of_themes(shelf_of_themes, chain)]
        was = {one.name: one for one in before.inputs} if before else {}
        files = inputs.noted(found, book, was, before.begun_ns if before else 0)
        now = Made(
            program=program(),
            imaging=imaging(),
            begun_ns=inputs.begun_ns,
            done_ns=inputs.begun_ns,
            themes=chain,
            inputs=(*files, *_values(shelf, stale)),
            outputs=(),
        )
        last = Last(before, now, book)
        if before and last.is_all_as_it_was:
            if last.was_read or not inputs.is_settled(before, now.inputs):
                anew = replace(before, inputs=now.inputs, begun_ns=now.begun_ns, done_ns=time.time_ns())
                keep_made(place_of(book), anew)
            problems.extend(before.problems)
            return
        told = Problems()
        with without_collecting():
            written = _lay(book, shelf, theme, stale, last, told)
        problems.extend(told)
        if not any_error(told):
            keep_made(place_of(book), replace(written, done_ns=time.time_ns(), problems=told.ordered()))
    except NO_JOBS_FAULT as fault:
        problems.add(problem_of(fault, book))
    except Exception as fault:  # a fault of ours at what no one job can be blamed for
        said = f"buildbook itself failed on the pages across jobs ({type(fault).__name__}: {fault})."
        problems.add(Problem("error", str(book), said, "Those of the last binding stay."))


# -- what they are made of ---------------------------------------------------------------------------


def _stale(book: Path, shelf: ShelfNow) -> dict[str, str]:
    """The jobs whose pages are not of this binding, or of the last that saw them, and why."""
    stale = {key: why for key, why in stale_jobs(book).items() if key not in shelf.bound}
    if not shelf.not_bound:
        return stale
    return stale | dict.fromkeys(shelf.not_bound, Words(shelf.shop.language).text("shelf.stale"))


def _theme(shelf: ShelfNow) -> tuple[Theme, Path]:
    """The theme of the pages, and the folder in which a shop's own lies. Raises `ThemeError`."""
    folder = shelf.folder
    if shelf.is_job:
        return theme_of(shelf.shop, folder), Path(os.path.abspath(folder)).parent
    return theme_of(shelf.shop, None, folder), folder


def _left_by_jobs(book: Path) -> list[FoundFile]:
    names = (f"{LOGS}/{folder.name}/{RECORD}" for folder in bound_folders(book))
    return [found_at(name, os.path.join(book, name)) for name in names]


def _values(shelf: ShelfNow, stale: Mapping[str, str]) -> tuple[Noted, ...]:
    """What is no file: the shop as it was read, and which jobs are out of date."""
    states = sorted(stale.items()), sorted(shelf.not_bound)
    values = {"the shop": repr(shelf.shop), "the state of jobs": json.dumps(states)}
    return tuple(
        Noted(name, FileFacts(_VALUE), write.sha256(text.encode("utf-8", "backslashreplace")))
        for name, text in values.items()
    )


# -- making them -------------------------------------------------------------------------------------


def _lay(
    book: Path, shelf: ShelfNow, theme: Theme, stale: Mapping[str, str], last: Last, problems: Problems
) -> Made:
    """Make and write the files, but for those that are made from what they were. What was made, with each file that is
    in its place.
    """
    found = read_records(book, last.whole_records)
    around = [
        theme.name,
        shelf.shop,
        sorted(stale.items()),
        list(shelf.not_bound),
        found.without,
        last.of_themes,
    ]
    makers = {
        "list": ("entry", lambda: {INDEX: _list_page(found, shelf, theme, stale, problems)}),
        "across": ("used", lambda: across_files(found, shelf.shop, theme, stale, problems)),
        "search": ("find", lambda: book_files(found.records, shelf.shop, problems)),
    }
    groups: dict[str, str] = {}
    kept: dict[str, str] = {}
    files: dict[str, bytes] = {}
    for group, (part, make) in makers.items():
        groups[group] = _key_of(around, found, part)
        as_is = last.files_of(group, groups[group])
        kept |= as_is
        files |= {} if as_is else make()
    written = _write(book, files, kept, stale, problems)
    outputs = redo.outputs_as_noted(book, written.items())
    return replace(last.now, outputs=outputs, groups=groups, without=found.without)


def _key_of(around: Sequence[object], found: BookRecords, part: str) -> str:
    """One digest of what a group of pages is made from: the state of the shelf, and one part of every record."""
    running = hashlib.sha256(repr(around).encode("utf-8", "backslashreplace"))
    for record in found.records:
        content = bytes(getattr(record.parts, part))
        running.update(f"\n{record.key}\n{len(content)}\n".encode())
        running.update(content)
    return running.hexdigest()


def _list_page(
    found: BookRecords, shelf: ShelfNow, theme: Theme, stale: Mapping[str, str], problems: Problems
) -> bytes:
    words = Words(shelf.shop.language)
    jobs = [listed(record.entry, words, stale.get(record.key, "")) for record in found.records]
    jobs += [
        without_entry(key, stale.get(key) or words.text("shelf.without_record"), has_handover=True)
        for key in found.without
    ]
    known = {job.key for job in jobs}
    jobs += [
        without_entry(key, words.text("shelf.never_bound"), has_handover=False)
        for key in shelf.not_bound
        if key not in known
    ]

    def listing(some: Sequence[ListedJob]) -> bytes:
        return theme.shelf_page(past_work(some, language=shelf.shop.language, shop=shelf.shop.name)).encode()

    return without_failing(listing, jobs, lambda job: job.key, problems)


def _write(
    book: Path,
    files: Mapping[str, bytes],
    kept: Mapping[str, str],
    stale: Mapping[str, str],
    problems: Problems,
) -> dict[str, str]:
    """Write what differs. The list goes first: what it names is ours, whatever comes in between. Name and SHA-256 of
    each file that is in its place, with the `kept` ones, which are there already.

    A file of the maker's in the place of one is told, and the others are written.
    """
    known = write.listed_files(book, write.LIST, second_list(book))
    digests = {name: write.sha256(content) for name, content in sorted(files.items())}
    as_is = {name for name, digest in digests.items() if write.is_as_written(book / name, digest)}
    theirs = {
        name for name in digests if name not in known and name not in as_is and os.path.lexists(book / name)
    }
    ours = {**kept, **{name: digest for name, digest in digests.items() if name not in theirs}}
    facts = {"schema": 1, "stale": dict(sorted(stale.items())), "files": dict(sorted(ours.items()))}
    content = as_text(facts).encode()
    lists = (write.LIST, second_list(book).relative_to(book).as_posix())
    for name in lists:
        write.write_where_it_differs(book / name, content)
    for name in files:
        try:
            if name in theirs:
                raise write.NotOurs(book / name)
            write.write_where_it_differs(book / name, files[name])
        except (write.NotOurs, OSError) as fault:
            problems.add(problem_of(fault, book))
    return ours | dict.fromkeys(lists, write.sha256(content))

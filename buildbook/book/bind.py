"""Binds a job or a shelf: reads, computes, renders, and puts each job's pages in place whole.

One bad job never holds up the others: its last good pages stay, and the list of past work says so.
"""

from __future__ import annotations

import os
import traceback
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from buildbook.book.across import across_files
from buildbook.book.disk import write
from buildbook.book.handover import lay_handover, passages_in
from buildbook.book.lock import one_at_a_time, second_list
from buildbook.book.pictures import Progress, encode_all, picture_files
from buildbook.book.place import HANDOVERS, LOGS, like_named, refused
from buildbook.book.records import job_files, read_records, stale_jobs
from buildbook.book.seal import NOT_SEALED, Fingerprints
from buildbook.book.search import book_files
from buildbook.book.themes import theme_of
from buildbook.book.without import NO_JOBS_FAULT, without_failing
from buildbook.care import choose
from buildbook.job import find_jobs, no_jobs, read_job, read_shop, shop_around
from buildbook.job.model import Job
from buildbook.job.places import clashes, job_name
from buildbook.job.shop_model import Shop
from buildbook.job.slug import same_slug
from buildbook.left import Cover
from buildbook.pages.client.handover import client_piece
from buildbook.pages.client.piece import ClientPiece
from buildbook.pages.log.build_log import BuildLog, build_log
from buildbook.pages.past.list import ListedJob, listed, past_work, without_entry
from buildbook.pages.phrases import Phrases
from buildbook.problems import Problem, Problems, any_error
from buildbook.render.html.theme import Theme, ThemeError
from buildbook.summary import summarise
from buildbook.summary.as_json import as_text, summary_facts
from buildbook.summary.model import Summary
from buildbook.words import Words

INDEX = "index.html"


@dataclass(frozen=True)
class BoundJob:
    """What became of one job. `fault` is a fault of this program's own, with its traceback."""

    key: str
    bound: bool
    problems: tuple[Problem, ...]
    photos_made: int = 0
    sealed: Fingerprints = NOT_SEALED
    fault: str = ""


@dataclass(frozen=True)
class Bound:
    """What became of a binding. `problems` are those of no single job."""

    jobs: tuple[BoundJob, ...]
    problems: tuple[Problem, ...] = ()

    @property
    def ok(self) -> bool:
        return not any_error(self.problems) and bool(self.jobs) and all(job.bound for job in self.jobs)


def silent(what: str, done: int, of: int) -> None:
    """No progress shown."""


def waits_silently(book: Path) -> None:
    """Nothing said while another program binds the same book."""


def bind(
    folder: Path,
    book: Path,
    *,
    progress: Progress = silent,
    told: Callable[[BoundJob], None] | None = None,
    waits: Callable[[Path], None] = waits_silently,
) -> Bound:
    """Bind every job of a folder into a book. Never raises for what a maker wrote.

    `waits` is called once where another program binds the same book; then it is waited for.
    """
    jobs = find_jobs(folder)
    if problem := no_jobs(folder, jobs) or refused(folder, book, jobs):
        return Bound((), (problem,))
    done = []
    problems = Problems()
    with one_at_a_time(book, waits) as no_lock:
        if no_lock:
            said = f"cannot be locked here ({no_lock}); it was bound all the same."
            problems.warn(str(book), said, "See that nobody else binds it at the same time.")
        not_bound = like_named(jobs, book) | clashes(jobs)
        for path, problem in same_slug(folder, jobs).items():
            if problem.severity == "error":
                not_bound.setdefault(path, problem)
            else:
                problems.add(problem)
        for path in jobs:
            if problem := not_bound.get(path):
                result = BoundJob(job_name(path), False, (problem,))
            else:
                result = _bind_one(path, book, progress)
            done.append(result)
            if told:
                told(result)
        _write_list(book, _shop_of(folder, jobs), done, folder, problems)
    return Bound(tuple(done), problems.ordered())


def _shop_of(folder: Path, jobs: list[Path]) -> Shop:
    """The shop of the whole binding: that of the folder, else the one around its first job."""
    shop, _ = read_shop(folder)
    return shop if shop.name else shop_around(jobs[0].absolute())[0]


def problem_of(fault: Exception, book: Path) -> Problem:
    """What keeps a page from being written, in words. Raises a fault that is none of the maker's."""
    match fault:
        case ThemeError():
            hint = "Put the theme right, or name another."
            return Problem("error", "shop.toml", f"{fault}.", hint, field="theme")
        case write.NotOurs():
            hint = "Move it, or bind into another folder."
            return Problem(
                "error", str(fault.path), "stands in the way and is not a file of this book.", hint
            )
        case OSError():
            said = f"cannot be written: {fault.strerror or fault}."
            return Problem("error", str(fault.filename or book), said, "Look at the disk and its rights.")
    raise fault


def _bind_one(path: Path, book: Path, progress: Progress) -> BoundJob:
    key = job_name(path)
    known: tuple[Problem, ...] = ()
    try:
        job = read_job(path)
        known = job.problems
        if any_error(known):
            return BoundJob(key, False, known)
        theme = theme_of(job.shop, path)
        return _lay(job, theme, book, progress)
    except (ThemeError, write.NotOurs, OSError) as fault:
        return BoundJob(key, False, (problem_of(fault, book), *known))
    except Exception:  # a fault of ours must not cost the other jobs their pages
        return BoundJob(key, False, (), fault=traceback.format_exc())


def _lay(job: Job, theme: Theme, book: Path, progress: Progress) -> BoundJob:
    """Write both folders of a job beside their places, then put both in place."""
    with (
        _staging(book, LOGS, job.key, write.LIST) as log_folder,
        _staging(book, HANDOVERS, job.key, write.SEAL) as handover,
    ):
        encoded = encode_all(job.photos, log_folder, progress)
        problems = Problems()
        problems.extend(job.problems)
        problems.extend(encoded.problems)
        job = replace(job, photos=encoded.readable, problems=problems.ordered())
        summary = summarise(job)
        piece, log, cover, facts = pages_of(job, summary)
        for picture in piece.pictures():
            for name in picture_files(picture.digest, picture.width, picture.height):
                handover.copy_from(log_folder, name)
        sealed, more = lay_handover(piece, theme, handover, job.shop.card, passages_in(job))
        problems.extend(more)
        log_folder.write(INDEX, theme.log_page(log, f"../../handover/{job.key}/{INDEX}").encode())
        log_folder.write("summary.json", facts.encode())
        for name, content in job_files(job, summary, cover).items():
            log_folder.write(name, content)
        handover.put(fingerprint=sealed.record, whole=sealed.whole)
        log_folder.put()
    return BoundJob(job.key, True, problems.ordered(), encoded.made, sealed)


def _staging(book: Path, folder: str, key: str, list_name: str) -> write.Staging:
    return write.Staging(book / folder / key, list_name, second_list(book, folder, key))


def pages_of(job: Job, summary: Summary | None = None) -> tuple[ClientPiece, BuildLog, Cover | None, str]:
    """The page models of a job, its picture for the list and its summary.json: everything between reading and
    rendering. Pure.
    """
    phrases = Phrases.of(job)
    summary = summary or summarise(job)
    care = choose(job, summary, phrases.words)
    piece = client_piece(job, summary, care, phrases)
    log = build_log(job, summary, care, phrases, lead=piece.lead, wood_colours=piece.wood_colours)
    return piece, log, _cover(piece, log), as_text(summary_facts(job.key, summary, care, job.problems))


def _cover(piece: ClientPiece, log: BuildLog) -> Cover | None:
    """The picture that leads the client's page; for a job without one the last of its log."""
    picture = piece.lead or next(reversed(log.pictures()), None)
    if picture is None:
        return None
    return Cover(digest=picture.digest, width=picture.width, height=picture.height, alt=picture.alt)


# -- the list of past work ---------------------------------------------------------------------------


def _write_list(book: Path, shop: Shop, done: list[BoundJob], folder: Path, problems: Problems) -> None:
    """The pages across jobs follow last; jobs that are in the book but were not bound now stay listed."""
    words = Words(shop.language)
    job_alone = find_jobs(folder) == [folder]
    stale = dict(stale_jobs(book))
    for job in done:
        if job.bound:
            stale.pop(job.key, None)
        else:
            stale[job.key] = words.text("shelf.stale")
    found = read_records(book)
    jobs = [listed(record.entry, stale.get(record.key, "")) for record in found.records]
    jobs += [
        without_entry(key, stale.get(key) or words.text("shelf.without_record"), has_handover=True)
        for key in found.without
    ]
    known = {job.key for job in jobs}
    jobs += [
        without_entry(job.key, words.text("shelf.never_bound"), has_handover=False)
        for job in done
        if not job.bound and job.key not in known
    ]
    try:
        theme = theme_of(shop, folder) if job_alone else theme_of(shop, None, folder)

        def listing(some: Sequence[ListedJob]) -> bytes:
            return theme.shelf_page(past_work(some, language=shop.language, shop=shop.name)).encode()

        page = without_failing(listing, jobs, lambda job: job.key, problems)
        across = across_files(found, shop, theme, stale, problems)
        files = {**book_files(found.records, shop, problems), **across, INDEX: page}
        _write_top(book, files, stale, problems)
    except NO_JOBS_FAULT as fault:
        problems.add(problem_of(fault, book))
    except Exception as fault:  # a fault of ours at what no one job can be blamed for
        said = f"buildbook itself failed on the pages across jobs ({type(fault).__name__}: {fault})."
        problems.add(Problem("error", str(book), said, "Those of the last binding stay."))


def _write_top(book: Path, files: dict[str, bytes], stale: dict[str, str], problems: Problems) -> None:
    """The files at the top of a book. The list goes first: what it names is ours, whatever comes in between.

    A file of the maker's in the place of one is told, and the others are written.
    """
    known = write.listed_files(book, write.LIST, second_list(book))
    digests = {name: write.sha256(content) for name, content in sorted(files.items())}
    theirs = {
        name
        for name, digest in digests.items()
        if name not in known and os.path.lexists(book / name) and not write.is_as_written(book / name, digest)
    }
    ours = {name: digest for name, digest in digests.items() if name not in theirs}
    facts = {"schema": 1, "stale": dict(sorted(stale.items())), "files": ours}
    for path in (book / write.LIST, second_list(book)):
        write.write_whole(path, as_text(facts).encode())
    for name, content in files.items():
        try:
            if name in theirs:
                raise write.NotOurs(book / name)
            write.write_whole(book / name, content)
        except (write.NotOurs, OSError) as fault:
            problems.add(problem_of(fault, book))

"""Binds a job or a shelf: reads, computes, renders, and puts each job's pages in place whole.

One bad job never holds up the others: its last good pages stay, and the list of past work says so.
"""

from __future__ import annotations

import traceback
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from buildbook.book.disk import write
from buildbook.book.faults import problem_of
from buildbook.book.handover import lay_handover, passages_in
from buildbook.book.lock import one_at_a_time, second_list
from buildbook.book.past.records import job_files
from buildbook.book.past.top import INDEX, ShelfNow, lay_top
from buildbook.book.pictures import Progress, encode_all, picture_files
from buildbook.book.place import HANDOVERS, LOGS, like_named, refused
from buildbook.book.redo.inputs import Inputs
from buildbook.book.redo.seen import Seen, Written, look
from buildbook.book.sealed.seal import NOT_SEALED, Fingerprints
from buildbook.book.themes import theme_of
from buildbook.care import choose
from buildbook.job import find_jobs, no_jobs, read_job, read_shop, shop_around
from buildbook.job.model import Job
from buildbook.job.places import clashes, job_name
from buildbook.job.shop_model import Shop
from buildbook.job.slug import same_slug
from buildbook.left.model import Cover
from buildbook.pages.client.handover import client_piece
from buildbook.pages.client.piece import ClientPiece
from buildbook.pages.log.build_log import BuildLog, build_log
from buildbook.pages.phrases import Phrases
from buildbook.problems import Problem, Problems, any_error
from buildbook.render.html.theme import Theme, ThemeError, forget_templates
from buildbook.render.print.typeset import forget_fonts
from buildbook.summary import summarise
from buildbook.summary.as_json import as_text, summary_facts
from buildbook.summary.model import Summary


@dataclass(frozen=True)
class BoundJob:
    """What became of one job.

    bound   whether its pages are in the book as the job is now; redone: whether they had to be made for it
    why     what changed since it was bound before; fault: a fault of this program's own, with its traceback
    """

    key: str
    bound: bool
    problems: tuple[Problem, ...]
    photos_made: int = 0
    sealed: Fingerprints = NOT_SEALED
    fault: str = ""
    redone: bool = True
    why: tuple[str, ...] = ()


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
    again: bool = False,
) -> Bound:
    """Bind every job of a folder into a book; a job that is in there as it is now is passed over. Never raises for what
    a maker wrote.

    `waits` is called once where another program binds the same book; then it is waited for. `again` binds every job
    from nothing.
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
        _sweep(book, problems)
        forget_templates()
        forget_fonts()
        not_bound = like_named(jobs, book) | clashes(jobs)
        for path, problem in same_slug(folder, jobs).items():
            if problem.severity == "error":
                not_bound.setdefault(path, problem)
            else:
                problems.add(problem)
        inputs = Inputs()
        progress("jobs", 0, len(jobs))
        for number, path in enumerate(jobs, 1):
            if problem := not_bound.get(path):
                result = BoundJob(job_name(path), False, (problem,))
            else:
                result = _bind_one(path, book, progress, inputs, again)
            done.append(result)
            progress("jobs", number, len(jobs))
            if told:
                told(result)
        bound = {job.key for job in done if job.bound}
        failed = [job.key for job in done if not job.bound]
        lay_top(book, ShelfNow(folder, _shop_of(folder, jobs), bound, failed), inputs, problems, again=again)
    return Bound(tuple(done), problems.ordered())


def _sweep(book: Path, problems: Problems) -> None:
    """What a stopped program left goes, before anything is looked at."""
    for part in (LOGS, HANDOVERS):
        try:
            write.sweep(book / part)
        except OSError as fault:
            problems.add(problem_of(fault, book))


def _shop_of(folder: Path, jobs: list[Path]) -> Shop:
    """The shop of the whole binding: that of the folder, else the one around its first job."""
    shop, _ = read_shop(folder)
    return shop if shop.name else shop_around(jobs[0].absolute())[0]


def _bind_one(path: Path, book: Path, progress: Progress, inputs: Inputs, again: bool) -> BoundJob:
    key = job_name(path)
    known: tuple[Problem, ...] = ()
    why: tuple[str, ...] = ()
    try:
        seen = look(path, book, inputs, again=again)
        why = seen.why
        if seen.before and not why:
            return BoundJob(key, True, seen.before.problems, sealed=seen.before.sealed, redone=False)
        job = read_job(path, known=seen.photos)
        known = job.problems
        if any_error(known):
            return BoundJob(key, False, known, redone=False, why=why)
        seen = seen.using(theme_of(job.shop, path).chain)
        theme = theme_of(job.shop, path)  # now that its files are noted
        return _lay(job, theme, book, progress, seen)
    except (ThemeError, write.NotOurs, OSError) as fault:
        return BoundJob(key, False, (problem_of(fault, book), *known), redone=False, why=why)
    except Exception:  # a fault of ours must not cost the other jobs their pages
        return BoundJob(key, False, (), fault=traceback.format_exc(), redone=False, why=why)


def _lay(job: Job, theme: Theme, book: Path, progress: Progress, seen: Seen) -> BoundJob:
    """Write both folders of a job beside their places, then put both in place."""
    with (
        _staging(book, LOGS, job.key, write.LIST, seen) as log_folder,
        _staging(book, HANDOVERS, job.key, write.SEAL, seen) as handover,
    ):
        every_photo = job.photos
        encoded = encode_all(every_photo, log_folder, progress)
        problems = Problems()
        problems.extend(job.problems)
        problems.extend(encoded.problems)
        job = replace(job, photos=encoded.readable, problems=problems.ordered())
        summary = summarise(job)
        piece, log, cover, facts = pages_of(job, summary)
        for picture in piece.pictures():
            for name in picture_files(picture.digest, picture.width, picture.height):
                handover.take_from(log_folder, name)
        laid = lay_handover(
            piece, theme, handover, job.shop.card, passages_in(job), seen.prints, seen.made_with
        )
        problems.extend(laid.problems)
        log_folder.write(INDEX, theme.log_page(log, f"../../handover/{job.key}/{INDEX}").encode())
        log_folder.write("summary.json", facts.encode())
        for name, content in job_files(job, summary, cover).items():
            log_folder.write(name, content)
        handover.put(fingerprint=laid.sealed.record, whole=laid.sealed.whole)
        log_folder.put()
    written = Written((log_folder, handover), theme.chain, every_photo, laid.prints)
    seen.leave(written, problems.ordered(), laid.sealed)
    return BoundJob(job.key, True, problems.ordered(), encoded.made, laid.sealed, why=seen.why)


def _staging(book: Path, folder: str, key: str, list_name: str, seen: Seen) -> write.Staging:
    sure = seen.sure_in(f"{folder}/{key}/")
    second = second_list(book, folder, key)
    return write.Staging(book / folder / key, list_name, second, sure, keeps=seen.keeps_pictures)


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

"""Binds one job: reads, computes, renders, and puts both of its folders in place whole."""

from __future__ import annotations

import traceback
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from buildbook.book.disk import write
from buildbook.book.drawings import lay_drawings, readable
from buildbook.book.faults import problem_of
from buildbook.book.handover import lay_handover, passages_in
from buildbook.book.lock import second_list
from buildbook.book.log_prints import lay_log_prints
from buildbook.book.past.past_jobs import for_estimates
from buildbook.book.past.records import job_files
from buildbook.book.past.top import INDEX
from buildbook.book.pictures import Progress, encode_all, picture_files
from buildbook.book.place import HANDOVERS, LOGS
from buildbook.book.redo.inputs import Inputs
from buildbook.book.redo.seen import Seen, Written, look
from buildbook.book.sealed.seal import NOT_SEALED, Fingerprints
from buildbook.book.tables import lay_tables
from buildbook.book.themes import theme_of
from buildbook.care import choose, facts_of, if_something_happens
from buildbook.job import read_job
from buildbook.job.model import Job
from buildbook.job.places import job_name
from buildbook.job.row_names import row_name
from buildbook.left.model import Cover
from buildbook.pages.client.handover import client_piece
from buildbook.pages.client.piece import ClientPiece
from buildbook.pages.log.build_log import BuildLog, build_log
from buildbook.pages.phrases import Phrases
from buildbook.problems import Problem, Problems, any_error
from buildbook.render.html.theme import Theme, ThemeError
from buildbook.summary import summarise
from buildbook.summary.as_json import as_text, summary_facts
from buildbook.summary.model import Summary
from buildbook.words.told import told


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


def silent(what: str, done: int, of: int) -> None:
    """No progress shown."""


def not_asked(job: BoundJob) -> None:
    """Nobody waits for its pages."""


def bind_job(
    path: Path,
    book: Path,
    progress: Progress,
    inputs: Inputs,
    again: bool,
    share: int = 1,
    placed: Callable[[BoundJob], None] = not_asked,
) -> BoundJob:
    """Bind one job, but for one that is in the book as it is now. Never raises for what a maker wrote.

    share   how many processes bind jobs at once: each opens only its share of pictures
    placed  gets it as soon as its pages lie in the book
    """
    key = job_name(path)
    known: tuple[Problem, ...] = ()
    why: tuple[str, ...] = ()
    try:
        seen = look(path, book, inputs, again=again)
        why = seen.why
        if seen.before and not why:
            return BoundJob(key, True, seen.before.problems, sealed=seen.before.sealed, redone=False)
        job = read_job(path, known=seen.photos, known_videos=seen.videos)
        known = job.problems
        if any_error(known):
            return BoundJob(key, False, known, redone=False, why=why)
        theme, seen = _theme_noted(job, path, seen)
        return _lay(job, theme, book, progress, seen, share, placed)
    except (ThemeError, write.NotOurs, OSError) as fault:
        return BoundJob(key, False, (problem_of(fault, book), *known), redone=False, why=why)
    except Exception:  # a fault of ours must not cost the other jobs their pages
        return BoundJob(key, False, (), fault=traceback.format_exc(), redone=False, why=why)


def _theme_noted(job: Job, path: Path, seen: Seen) -> tuple[Theme, Seen]:
    """The theme of a job, read when its files were noted; one of the project's own once for many jobs.

    Raises `ThemeError`.
    """
    read = seen.inputs.themes_read
    if theme := read.get(job.shop.theme):
        return theme, seen.using(theme.chain)
    seen = seen.using(theme_of(job.shop, path).chain)
    theme = theme_of(job.shop, path)  # now that its files are noted
    if theme.is_the_projects:
        read[job.shop.theme] = theme
    return theme, seen


def _lay(
    job: Job,
    theme: Theme,
    book: Path,
    progress: Progress,
    seen: Seen,
    share: int,
    placed: Callable[[BoundJob], None],
) -> BoundJob:
    """Write both folders of a job beside their places, then put both in place."""
    with (
        _staging(book, LOGS, job.key, write.LIST, seen) as log_folder,
        _staging(book, HANDOVERS, job.key, write.SEAL, seen) as handover,
    ):
        drawn = tuple(one.photo for one in job.drawings if one.photo)
        every_photo = (*job.photos, *job.aside, *drawn)
        stills = tuple(one.frame for one in job.videos if one.frame)
        shown = {one.digest: one for one in (*stills, *drawn, *job.photos)}
        encoded = encode_all(shown.values(), log_folder, progress, share)
        problems = Problems()
        problems.extend(job.problems)
        problems.extend(told(one, job.shop.language, row_name) for one in encoded.problems)
        if problems.errors:
            return BoundJob(job.key, False, problems.ordered(), redone=False, why=seen.why)
        job = replace(readable(job, encoded.readable), problems=problems.ordered())
        summary = summarise(job)
        piece, log, cover, facts = pages_of(job, summary)
        for picture in piece.pictures():
            for name in picture_files(picture.digest, picture.width, picture.height):
                handover.take_from(log_folder, name)
        laid = lay_handover(
            piece, theme, handover, job.shop.card, passages_in(job), seen.prints, seen.made_with
        )
        problems.extend(told(one, job.shop.language, row_name) for one in laid.problems)
        log_folder.write(INDEX, theme.log_page(log, f"../../handover/{job.key}/{INDEX}").encode())
        log_folder.write("summary.json", facts.encode())
        lay_drawings(job.drawings, log_folder)
        of_log = lay_log_prints(log, theme, log_folder, seen.prints, seen.made_with)
        problems.extend(told(p, job.shop.language, row_name) for one in of_log.values() for p in one.problems)
        lay_tables(log.lists, log_folder, of_this_program=seen.is_of_this_program)
        for name, content in job_files(job, summary, cover).items():
            log_folder.write(name, content)
        handover.finish(fingerprint=laid.sealed.record, whole=laid.sealed.whole)
        log_folder.finish()
        write.put_all(handover, log_folder)
        bound = BoundJob(job.key, True, problems.ordered(), encoded.made, laid.sealed, why=seen.why)
        placed(bound)
    past = for_estimates(job, summary)
    written = Written(
        (log_folder, handover), theme.chain, every_photo, job.videos, {**laid.prints, **of_log}, past
    )
    seen.leave(written, bound.problems, laid.sealed)
    return bound


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
    facts = facts_of(job, summary, phrases.words)
    care = choose(job, summary, phrases.words, facts)
    piece = client_piece(job, summary, care, phrases, if_something_happens(facts, phrases.words))
    log = build_log(job, summary, care, phrases, lead=piece.lead, wood_colours=piece.wood_colours)
    return piece, log, _cover(piece, log), as_text(summary_facts(job.key, summary, care, job.problems))


def _cover(piece: ClientPiece, log: BuildLog) -> Cover | None:
    """The picture that leads the client's page; for a job without one the last of its log."""
    picture = piece.lead or next(reversed(log.pictures()), None)
    if picture is None:
        return None
    return Cover(digest=picture.digest, width=picture.width, height=picture.height, alt=picture.alt)

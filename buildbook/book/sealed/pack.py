"""Packs what a client gets: the handover as one archive, and the page as one file to mail.

Both are made from a binding of their own in a temporary folder, so that an old book that lies about is never sent
by mistake.
"""

from __future__ import annotations

import base64
import tempfile
import zipfile
from dataclasses import dataclass, replace
from pathlib import Path

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.book.disk import swap, write
from buildbook.book.pictures import Progress, picture_files
from buildbook.book.sealed.seal import NOT_SEALED, Fingerprints
from buildbook.book.sealed.verify import Verdict, verify
from buildbook.book.themes import theme_of
from buildbook.job import find_jobs, read_job
from buildbook.job.model import Job
from buildbook.job.places import in_a_job
from buildbook.job.slug import slug_of
from buildbook.pages.client.piece import ClientPiece
from buildbook.problems import Problem
from buildbook.render.copies import LONG_EDGES, copies_of
from buildbook.render.html.theme import Theme

MOST_MAILED = 3_000_000  # bytes: what mail servers and patience still take
_FIRST_DAY = (1980, 1, 1, 0, 0, 0)  # the earliest that an archive can state
_RIGHTS = 0o644 << 16


@dataclass(frozen=True)
class Packed:
    """The two files, or the problems that kept them from being made."""

    archive: Path | None
    single: Path | None
    single_bytes: int
    sealed: Fingerprints
    problems: tuple[Problem, ...]
    fault: str = ""

    @property
    def ok(self) -> bool:
        return self.archive is not None


def pack(job: Path, to: Path, progress: Progress) -> Packed:
    """`<slug>-handover.zip` (`<slug>-draft.zip` of a job without a delivery) and `<slug>.html`. Never raises for what a
    maker wrote.
    """
    jobs = find_jobs(job)
    if len(jobs) > 1:
        hint = "Give one job folder: a handover goes to one client."
        return _refused(Problem("error", str(job), "holds several jobs.", hint))
    if problem := in_a_job(to, jobs):
        return _refused(problem)
    with tempfile.TemporaryDirectory() as place:
        bound = bind(job, Path(place) / "book", progress=progress)
        if not bound.ok:
            told = (problem for done in bound.jobs for problem in done.problems)
            return _refused(*told, *bound.problems, fault="".join(done.fault for done in bound.jobs))
        done = bound.jobs[0]
        folder = Path(place) / "book" / "handover" / done.key
        read = read_job(jobs[0])
        piece = _again(read, folder)
        page = single_page(piece, theme_of(read.shop, jobs[0]), folder, done.sealed.record)
        name = slug_of(read)
        archive = to / f"{name}-{'handover' if read.handed_over else 'draft'}.zip"
        single = to / f"{name}.html"
        try:
            checked = _write_archive(folder, name, archive, done.sealed.whole)
            if not checked.ok:
                said = f"would not stand its own check: it {checked.broken or 'differs from its list'}."
                hint = "Mark fewer pictures for the client."
                return _refused(Problem("error", archive.name, said, hint))
            write.write_whole(single, page)
        except OSError as error:
            said = f"cannot be written: {error.strerror or error}."
            return _refused(
                Problem("error", str(error.filename or to), said, "Name another place with --to.")
            )
    problems = [*done.problems, *bound.problems]
    if len(page) > MOST_MAILED:
        said = f"is {len(page) / 1e6:.1f} MB, more than the {MOST_MAILED / 1e6:.0f} MB that are easy to mail."
        problems.append(Problem("warning", single.name, said, "Mark fewer pictures for the client."))
    return Packed(archive, single, len(page), done.sealed, tuple(problems))


def _refused(*problems: Problem, fault: str = "") -> Packed:
    """Nothing was packed."""
    return Packed(None, None, 0, NOT_SEALED, problems, fault)


def _again(job: Job, folder: Path) -> ClientPiece:
    """The piece as it was just bound, without the pictures that could not be read."""
    readable = tuple(
        photo
        for photo in job.photos
        if any((folder / name).is_file() for name in picture_files(photo.digest, photo.width, photo.height))
    )
    piece, _, _, _ = pages_of(replace(job, photos=readable))
    return piece


def single_page(piece: ClientPiece, theme: Theme, folder: Path, fingerprint: str) -> bytes:
    """The page with its pictures inside, in the largest size that is easy to mail."""
    page = b""
    for edge in LONG_EDGES[1:]:
        text = theme.client_page(piece, fingerprint=fingerprint, largest=edge)
        for picture in piece.pictures():
            for copy in copies_of(picture.digest, picture.width, picture.height):
                name = f"photos/{copy.name}"
                if name in text:
                    inside = base64.b64encode((folder / name).read_bytes()).decode()
                    text = text.replace(name, f"data:image/jpeg;base64,{inside}")
        page = text.encode()
        if len(page) <= MOST_MAILED:
            break
    return page


def _write_archive(folder: Path, name: str, archive: Path, whole: str) -> Verdict:
    """The folder as a zip, called `name` in it: files in order, one fixed date, the same rights, so the same bytes.

    It is put in its place only when `verify` vouches for all of it.
    """
    write.make_folder(archive.parent)
    beside = archive.with_name(f".laying-{archive.name}")
    try:
        with zipfile.ZipFile(beside, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as out:
            for path in sorted(p for p in folder.rglob("*") if p.is_file()):
                entry = zipfile.ZipInfo(f"{name}/{path.relative_to(folder).as_posix()}", _FIRST_DAY)
                entry.compress_type = zipfile.ZIP_STORED if path.suffix == ".jpg" else zipfile.ZIP_DEFLATED
                entry.external_attr = _RIGHTS
                entry.create_system = 3  # as on Unix, on every system
                out.writestr(entry, path.read_bytes())
        checked = verify(beside, whole)
        if checked.ok:
            write.sync(beside)
            beside.replace(archive)
            swap.sync_folder(archive.parent)
        return checked
    finally:
        beside.unlink(missing_ok=True)

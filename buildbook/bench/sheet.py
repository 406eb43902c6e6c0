"""The desk of the contact sheet: shows the photos of a job by day, writes what is chosen into photos.toml."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from contextlib import suppress
from dataclasses import dataclass
from http import HTTPStatus
from importlib import resources
from pathlib import Path

from buildbook import limits
from buildbook.bench.answer import PAGE, SCRIPT, Response
from buildbook.bench.chosen_file import NotToml, Sent, with_changes
from buildbook.bench.desk import Desk, NotTaken
from buildbook.bench.language import shop_language
from buildbook.book.disk.write import write_whole
from buildbook.book.pictures import copies_made
from buildbook.book.redo.inputs import Inputs
from buildbook.book.redo.seen import look
from buildbook.book.themes import theme_of
from buildbook.job import find_jobs, read_job
from buildbook.job.model import Job
from buildbook.job.notes.pictures import Names, resolve
from buildbook.job.photo_model import Photo
from buildbook.job.photos.choices import FILE, read_choices
from buildbook.job.places import job_name
from buildbook.job.plain_file import NotRead, inside, read_plain
from buildbook.pages.materials import wood_colours
from buildbook.pages.phrases import Phrases
from buildbook.pages.sheet.sheet import contact_sheet
from buildbook.problems import Problem, Problems
from buildbook.render.copies import Copy
from buildbook.render.photo import UnreadablePicture
from buildbook.summary import summarise
from buildbook.words.told import line, sentence

_SMALL_EDGE = 504  # of a picture on the sheet, in pixels
_SMALL_KEPT = 2_000  # small pictures that are kept in memory, some 30 kB each
_SCRIPT = resources.files("buildbook.bench") / "data" / "sheet.js"
_SCRIPT_NAME = "sheet.js"
_CHANGED = (
    "photos.toml was changed meanwhile, by an editor or on another page. Nothing was written; your choices are still"
    " here. Look at it anew, and save again."
)


def sheet_desk(folder: Path, book: Path) -> Desk:
    """The desk of the jobs in a folder (a job or a shelf) that is bound into a book."""
    sheets = _Sheets(folder, book)
    return Desk(show=sheets.show, take=sheets.take, kind=Sent)


@dataclass(frozen=True)
class Picked:
    """What is answered to what was sent: the digest of photos.toml as it is now."""

    seen: str


class _Sheets:
    def __init__(self, folder: Path, book: Path) -> None:
        self._folder = folder
        self._book = book
        self._small: OrderedDict[str, bytes] = OrderedDict()
        self._photos: dict[tuple[str, str], Photo] = {}

    def show(self, parts: tuple[str, ...]) -> Response | None:
        """`<job>/`: its page; `<job>/small/<content>.jpg`: a small picture; `sheet.js`: what the page runs."""
        match parts:
            case (name,) if name == _SCRIPT_NAME:
                return Response.of(_SCRIPT.read_bytes(), SCRIPT)
            case (key,) if folder := self._job(key):
                return Response.of(self._page(folder).encode(), PAGE)
            case (key, "small", name) if folder := self._job(key):
                return self._small_picture(folder, key, name.removesuffix(".jpg"))
            case _:
                return None

    def take(self, parts: tuple[str, ...], sent: Sent) -> Picked:
        """Write photos.toml of a job. Raises `NotTaken`, in the language of the shop."""
        try:
            return self._take(parts, sent)
        except NotTaken as why:
            job = self._job(parts[0]) if parts else None
            said = sentence(str(why), shop_language(job or self._folder))
            raise NotTaken(said, why.status) from why

    def _take(self, parts: tuple[str, ...], sent: Sent) -> Picked:
        folder = self._job(parts[0]) if len(parts) == 1 else None
        if folder is None:
            raise NotTaken("There is no such job here any more.", HTTPStatus.NOT_FOUND)
        path, data = _chosen(folder)
        if _digest(data) != sent.seen:
            raise NotTaken(_CHANGED)
        job = self._read(folder)
        photos = {name: p.name for p in (*job.photos, *job.aside) for name in (p.name, *p.also)}
        named = [change.file for change in sent.photos] + ([sent.lead] if sent.lead else [])
        if gone := [str(name) for name in named if name not in photos]:
            raise NotTaken(f"There is no picture {gone[0]} any more. Look at the sheet anew.")
        names = Names((*job.photos, *job.aside))

        def means(written: str) -> str | None:
            found = resolve(written, FILE, names)
            return photos.get(found) if found else None

        try:
            text = with_changes((data or b"").decode("utf-8-sig"), sent, means, job.lead_of_job_toml)
        except (NotToml, UnicodeDecodeError) as why:
            raise NotTaken(f"photos.toml cannot be read as it stands ({why}). Put it right first.") from why
        content = text.encode()
        _check(content, shop_language(folder))
        try:
            if _digest(_chosen(folder)[1]) != sent.seen:
                raise NotTaken(_CHANGED)
            if content:
                write_whole(path, content)
        except OSError as fault:
            said = f"photos.toml could not be written: {fault.strerror or fault}."
            raise NotTaken(said, HTTPStatus.INSUFFICIENT_STORAGE) from fault
        return Picked(_digest(content))

    def _job(self, key: str) -> Path | None:
        return next((path for path in find_jobs(self._folder) if job_name(path) == key), None)

    def _read(self, folder: Path) -> Job:
        """The job as it is now; what the book knows of its pictures need not be read again."""
        with suppress(OSError):
            seen = look(folder, self._book, Inputs())
            return read_job(folder, known=seen.photos, known_videos=seen.videos)
        return read_job(folder)

    def _page(self, folder: Path) -> str:
        _, data = _chosen(folder)  # before the job is read: at worst what is sent is not taken
        job = self._read(folder)
        key = job_name(folder)
        for photo in (*job.photos, *job.aside):
            self._photos[key, photo.content] = photo
        for still in (video.frame for video in job.videos if video.frame):
            self._photos[key, still.digest] = still
        sheet = contact_sheet(job, Phrases.of(job), _digest(data), wood_colours(job, summarise(job)))
        return theme_of(job.shop, folder).sheet_page(sheet)

    def _small_picture(self, folder: Path, key: str, content: str) -> Response | None:
        """As the camera held it: the page turns it."""
        if (made := self._small.get(content)) is None:
            if (key, content) not in self._photos:
                self._page(folder)  # asked for by a page of an earlier run
            photo = self._photos.get((key, content))
            if photo is None:
                return None
            made = _small(photo)
            if made is None:
                return None
            self._small[content] = made
            if len(self._small) > _SMALL_KEPT:
                self._small.popitem(last=False)
        return Response.of(made, "image/jpeg")


def _small(photo: Photo) -> bytes | None:
    width, height = (photo.header.width, photo.header.height) if photo.header else (photo.width, photo.height)
    scale = min(1.0, _SMALL_EDGE / max(width, height))
    copy = Copy("small.jpg", max(1, round(width * scale)), max(1, round(height * scale)))
    try:
        return next(copies_made(photo, (copy,), turned=False))[1]
    except UnreadablePicture:
        return None


def _chosen(folder: Path) -> tuple[Path, bytes | None]:
    """photos.toml of a job, whatever its capitals, and what is in it; None where there is none. Raises `NotTaken`."""
    alike = [path for path in folder.iterdir() if path.name.casefold() == FILE]
    path = next((path for path in alike if path.name == FILE), alike[0] if alike else folder / FILE)
    if not alike:
        return path, None
    try:
        return path, read_plain(inside(path, folder), limits.TOML_BYTES)
    except NotRead as why:
        problem = Problem("error", FILE, why.message, why.hint)
        raise NotTaken(line(problem, shop_language(folder))) from why


def _digest(data: bytes | None) -> str:
    return "" if data is None else hashlib.sha256(data).hexdigest()


def _check(content: bytes, language: str) -> None:
    """Nothing is written that could not be read again. Raises `NotTaken`."""
    problems = Problems()
    read_choices(content, problems)
    if found := next((problem for problem in problems if problem.severity == "error"), None):
        raise NotTaken(f"This was not written: {line(found, language)}")

"""A job folder -> `Job`, a shelf -> `Shop`: finds the files and calls their readers, whatever is in them."""

from __future__ import annotations

import errno
import os
import re
import stat
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from types import MappingProxyType

from buildbook import limits
from buildbook.job import quoted
from buildbook.job.cross_checks import across
from buildbook.job.log_model import LogEntry
from buildbook.job.model import Job, Part
from buildbook.job.notes import entries as notes
from buildbook.job.notes.pictures import Names
from buildbook.job.photos import choices
from buildbook.job.photos import headers as photos
from buildbook.job.places import is_book
from buildbook.job.plain_file import NotRead, disk_fails, inside, not_read, read_bytes
from buildbook.job.row_names import row_name
from buildbook.job.sets import for_all
from buildbook.job.shop_model import Shop
from buildbook.job.table import parts, prices
from buildbook.job.table.workbook import is_workbook, tables_named
from buildbook.job.text import as_text, shown
from buildbook.job.toml import job_toml
from buildbook.job.toml.job_toml import Stated, read_job_toml
from buildbook.job.toml.shop_toml import FILE as SHOP_FILE
from buildbook.job.toml.shop_toml import decimal_comma, read_shop_toml
from buildbook.problems import Problem, Problems, listed
from buildbook.words import Words
from buildbook.words.told import told

PARTS_FILES = tables_named(parts.FILE)
PRICES_FILES = tables_named(prices.FILE)
JOB_FILES = (job_toml.FILE, *PARTS_FILES, notes.MAIN)
_NOTE_SUFFIXES = (".md", ".markdown")
_LEFT_ASIDE = ("thumbs.db", "desktop.ini")
_NAMED = 3  # files that a warning names

_NOT_IN_NAMES = re.compile(r'[<>:"/\\|?*\x00-\x1f\x7f]')
_RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)
_LONGEST_NAME = 120  # bytes; leaves room for what a book puts around it

WITHOUT = {
    job_toml.FILE: "the pages have no title, sizes or finish",
    parts.FILE: "there is nothing on materials, hardware and movement",
    notes.MAIN: "there is no build log and there are no hours",
    photos.FOLDER: "there are no pictures",
}
"""What a job goes without when a file is missing."""


# -- a shelf -------------------------------------------------------------------------------------


def find_jobs(folder: Path) -> list[Path]:
    """The job folders that a folder means: itself, or those right inside it, by name; maybe none."""
    try:
        with os.scandir(folder) as entries:
            names = sorted(one.name for one in entries if not one.name.startswith(".") and _is_folder(one))
    except OSError:
        return []
    jobs = [path for name in names if _is_job(path := folder / name)]
    is_shelf = bool(jobs) and _find(folder, SHOP_FILE) is not None and _find(folder, job_toml.FILE) is None
    return [folder] if _is_job(folder) and not is_shelf else jobs


def _is_folder(entry: os.DirEntry[str]) -> bool:
    """Whether it is one, or a link to one. Raises OSError."""
    try:
        return entry.is_dir()
    except OSError as fault:
        if fault.errno == errno.ELOOP:  # a link that leads to itself must not cost the others
            return False
        raise


def no_jobs(folder: Path, jobs: Sequence[Path]) -> Problem | None:
    """Why there is nothing to read in a folder; None when `jobs`, which were found in it, are some."""
    if not folder.is_dir():
        hint = "Give a job folder or a shelf of job folders."
        return Problem("error", str(folder), "is not a folder.", hint)
    if not jobs and (said := _why_not_listed(folder)):
        return Problem("error", str(folder), f"cannot be read: {said}.", "See that you may open it.")
    if not jobs:
        hint = "A job is a folder with job.toml, parts.csv, notes.md or notes/ in it."
        return Problem("error", str(folder), "holds no job.", hint)
    return None


def _is_job(folder: Path) -> bool:
    """Whether it has a file of a job; a book has none, whatever somebody put beside its pages."""
    return _has_files_of_job(folder) and not is_book(folder)


def _has_files_of_job(folder: Path) -> bool:
    return any(_find(folder, name) for name in JOB_FILES) or _find(folder, notes.FOLDER) is not None


def has_shop(folder: Path) -> bool:
    """Whether a folder has a shop.toml of its own."""
    return _find(folder, SHOP_FILE) is not None


def read_shop(folder: Path) -> tuple[Shop, Problems]:
    """The shop of a shelf: shop.toml and prices.csv. Without them a plain `Shop()`."""
    problems = Problems()
    if _find(folder, SHOP_FILE) is None:
        problems.warn(SHOP_FILE, "There is no shop.toml, so the pages do not name the shop.", "Write one.")
    data = _of_shop(folder, SHOP_FILE, limits.TOML_BYTES, problems)
    read = read_shop_toml(data, problems) if data is not None else Shop()
    name = _table_of(folder, PRICES_FILES, problems)
    if (data := _of_shop(folder, name, _most(name), problems)) is not None:
        comma = decimal_comma(read.language)
        found = prices.read_prices(data, problems, read.currency, file=name, decimal_comma=comma)
        read = replace(read, prices=found)
    said = Problems()
    said.extend(told(problem, read.language, row_name) for problem in problems)
    return read, said


def _of_shop(folder: Path, name: str, most: int, problems: Problems) -> bytes | None:
    """A file of the shop; one in a job folder may be a link to that of the shelf around it."""
    path = _find(folder, name)
    shelf = folder.parent if _find(folder.parent, SHOP_FILE) else folder
    return read_bytes(path, name, shelf, most, problems, "the shelf") if path else None


# -- a job ---------------------------------------------------------------------------------------


def read_job(
    folder: Path,
    shop: Shop | None = None,
    *,
    pictures: bool = True,
    known: Mapping[str, photos.KnownPhoto] = MappingProxyType({}),
) -> Job:
    """A job, read whole, with everything that is wrong in `Job.problems`.

    Without a shop, shop.toml is looked for in the job folder and in the folder around it. `pictures` off leaves the
    photos unread, for what needs none: of a whole shelf they are most of the reading. `known`: what is known of photos
    beforehand, by name.
    """
    folder = Path(os.path.abspath(folder))  # not resolved: a link to a folder keeps the name of the link
    problems = Problems()
    if not _is(folder.is_dir):
        problems.error(as_text(folder.name), "There is no such folder.", "See that its name is right.")
        return Job(as_text(folder.name), problems=problems.ordered())
    if shop is None:
        shop, found = shop_around(folder)
        problems.extend(found)
    _check_name(folder.name, problems)
    stated = _job_toml(folder, shop, problems)
    job = Job(folder=as_text(folder.name), shop=shop, **stated.fields)
    read = photos.read_photos(folder, problems, known) if pictures else ()
    # where job.toml cannot be read, units and finishes are not known: what parts.csv has against them is told after it
    of_parts = problems if stated.is_read else Problems()
    films = photos.read_videos(folder, problems) if pictures else ()
    job = replace(job, photos=read, videos=films, parts=for_all(_parts(folder, job, of_parts), job))
    job = replace(
        job, entries=_entries(folder, job, problems, stated.is_read), quoted=_quoted(folder, problems)
    )
    _tell_missing(folder, problems)
    chosen = _choices(folder, problems) if pictures else choices.NOTHING_CHOSEN
    checked = across(job, stated, of_parts, chosen)
    at_last = in_parts_file(folder, problems.ordered())
    return replace(checked, problems=tuple(told(one, shop.language, row_name) for one in at_last))


def in_parts_file(folder: Path, problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Problems of the parts, told of the file that holds them: parts.csv, or the spreadsheet that is there instead."""
    name = next((name for name in PARTS_FILES if _find(folder, name)), parts.FILE)
    return tuple(replace(one, file=name) if one.file == parts.FILE else one for one in problems)


def _table_of(folder: Path, names: tuple[str, ...], problems: Problems) -> str:
    """The one table that counts of those there, told where there are several; the first name where there is none."""
    there = [name for name in names if _find(folder, name)]
    if len(there) > 1:
        what = f"There are {listed(map(shown, there))} here: only {there[0]} is read."
        problems.warn(there[0], what, f"Keep one, as {there[0]}.")
    return there[0] if there else names[0]


def _most(table: str) -> int:
    return limits.WORKBOOK_BYTES if is_workbook(table) else limits.TABLE_BYTES


def shop_around(folder: Path) -> tuple[Shop, Problems]:
    """The shop of a job: its own shop.toml, else that of the folder around it."""
    own = _find(folder, SHOP_FILE) is not None
    return read_shop(folder if own else folder.parent)


def _job_toml(folder: Path, around: Shop, problems: Problems) -> Stated:
    data = _of_job(folder, job_toml.FILE, limits.TOML_BYTES, problems)
    if data is None:
        return Stated({"units": around.units})
    return read_job_toml(data, around.units, problems, decimal_comma=decimal_comma(around.language))


def _of_job(folder: Path, name: str, most: int, problems: Problems) -> bytes | None:
    """A file of the job; None where there is none, or none that can be read, which is told."""
    path = _find(folder, name)
    return read_bytes(path, name, folder, most, problems) if path else None


def _choices(folder: Path, problems: Problems) -> choices.PhotoChoices:
    data = _of_job(folder, choices.FILE, limits.TOML_BYTES, problems)
    return choices.read_choices(data, problems) if data is not None else choices.NOTHING_CHOSEN


def _parts(folder: Path, job: Job, problems: Problems) -> tuple[Part, ...]:
    name = _table_of(folder, PARTS_FILES, problems)
    data = _of_job(folder, name, _most(name), problems)
    if data is None:
        return ()
    comma = decimal_comma(job.shop.language)
    place, currency = job.shop.place, job.shop.currency
    return parts.read_parts(data, job.units, problems, place, currency, file=name, decimal_comma=comma)


_LAST_DAY = date(2000, 12, 31)  # month and day tell themselves apart


def _entries(folder: Path, job: Job, problems: Problems, begun_is_known: bool) -> tuple[LogEntry, ...]:
    files = []
    for name, path in _note_files(folder, problems):
        if (data := read_bytes(path, name, folder, limits.NOTE_BYTES, problems)) is not None:
            files.append((name, data))
    words = Words(job.shop.language)
    known = notes.Known(
        job.begun,
        job.shop.stages,
        Names(job.photos),
        words.text("log.before_dates"),
        begun_is_known,
        decimal_comma(job.shop.language),
        words.short_date(_LAST_DAY).startswith(f"{_LAST_DAY.month}/"),
    )
    return notes.read_notes(files, known, problems)


def _quoted(folder: Path, problems: Problems) -> quoted.Quoted | None:
    """The estimate that the maker copied here once the piece was ordered; it never keeps a job from being bound."""
    found = Problems()
    data = _of_job(folder, quoted.FILE, limits.RECORD_BYTES, found)
    problems.extend(replace(problem, severity="warning") for problem in found)
    return quoted.read_quoted(data, problems) if data is not None else None


def _note_files(folder: Path, problems: Problems) -> list[tuple[str, Path]]:
    """notes.md, then the notes of notes/ by name; other files there are told."""
    found = [(notes.MAIN, path)] if (path := _find(folder, notes.MAIN)) else []
    others = []
    for path in _in_notes(folder, problems):
        if path.name.startswith(".") or path.name.casefold() in _LEFT_ASIDE:
            continue
        name = f"{notes.FOLDER}/{path.name}"
        if (
            path.suffix.casefold() in _NOTE_SUFFIXES
            and _is_text(path.name)
            and _is_file(path, name, problems)
        ):
            found.append((name, path))
        else:
            others.append(path.name)
    if others:
        more = [f"{len(others) - _NAMED} more"] if len(others) > _NAMED else []
        listing = listed([*map(shown, others[:_NAMED]), *more])
        problems.warn(
            notes.FOLDER,
            f"{listing} {'is no note and is' if len(others) == 1 else 'are no notes and are'} passed over.",
            "Notes are files such as 2026-03-02.md; pictures go in photos.",
        )
    return found


def _in_notes(folder: Path, problems: Problems) -> list[Path]:
    """What lies in notes/; nothing of a folder elsewhere, which is told."""
    path = _find(folder, notes.FOLDER)
    if path is None:
        return []
    try:
        inside(path, folder)
        is_folder = stat.S_ISDIR(_mode(path))
    except NotRead as why:
        problems.error(notes.FOLDER, why.message, why.hint)
        return []
    if not is_folder:
        hint = f"Save it as {notes.MAIN}, or put the notes of each day in a folder of this name."
        problems.warn(notes.FOLDER, "This is no folder; it is passed over.", hint)
        return []
    try:
        return sorted(path.iterdir())
    except OSError as fault:
        said = f"This folder cannot be read: {fault.strerror}."
        problems.error(notes.FOLDER, said, "See that you may open it.")
        return []


def _why_not_listed(folder: Path) -> str:
    try:
        os.listdir(folder)
    except OSError as fault:
        return fault.strerror or str(fault)
    return ""


def _listing(folder: Path) -> list[str]:
    """The names in a folder, in order; none where it cannot be looked into."""
    try:
        return sorted(os.listdir(folder))
    except OSError:
        return []


# -- files and names -----------------------------------------------------------------------------


def _is(question: Callable[[], bool]) -> bool:
    """The answer to a question about a path; no where the system does not let us ask."""
    try:
        return question()
    except OSError:
        return False


def _is_file(path: Path, name: str, problems: Problems) -> bool:
    """Whether it is a plain file, or a link to one; where the system does not say, that is told."""
    try:
        return stat.S_ISREG(_mode(path))
    except NotRead as why:
        problems.error(name, why.message, why.hint)
        return False


def _mode(path: Path) -> int:
    """What is at a place, a link followed; 0 where there is nothing. Raises `NotRead`."""
    try:
        return path.stat().st_mode
    except OSError as fault:
        if disk_fails(fault):
            raise not_read(fault) from fault
        return 0


def _find(folder: Path, name: str) -> Path | None:
    """A file or folder by its name, whatever the capitals."""
    if _is((folder / name).exists):
        return folder / name
    alike = [other for other in _listing(folder) if other.casefold() == name]
    return folder / alike[0] if len(alike) == 1 else None


def _tell_missing(folder: Path, problems: Problems) -> None:
    """What is missing, and what goes without it. Neither parts nor notes is no job."""
    has_notes = bool(_find(folder, notes.MAIN) or _find(folder, notes.FOLDER))
    has_parts = any(_find(folder, name) for name in PARTS_FILES)
    if not has_notes and not has_parts:
        problems.error(
            parts.FILE,
            "There are neither parts nor notes here, so there is no job.",
            "Write parts.csv or notes.md.",
        )
        return
    names = _listing(folder)
    for name, cost in WITHOUT.items():
        alike = [other for other in names if other.casefold() == name]
        if len(alike) > 1:
            what = f"only {name} is read" if name in alike else f"none of them is read, and {cost}"
            problems.warn(
                name, f"There are {listed(map(shown, alike))} here: {what}.", f"Keep one, as {name}."
            )
            continue
        if _find(folder, name) or (name == notes.MAIN and has_notes) or (name == parts.FILE and has_parts):
            continue
        if other := _saved_otherwise(folder, name):
            hint = f"There is {shown(other)}: save it as {name}."
        elif name == photos.FOLDER:
            hint = "Put pictures in a folder named photos."
        else:
            hint = "Write one."
        problems.warn(name, f"There is no {name}: {cost}.", hint)


def _saved_otherwise(folder: Path, name: str) -> str:
    """A file of the same name in another format (`parts.xlsx`, `job.toml.txt`)."""
    stem = name.split(".")[0]
    names = [name for name in _listing(folder) if (folder / name).is_file()]
    return next((other for other in names if "." in name and other.casefold().startswith(f"{stem}.")), "")


def _is_text(name: str) -> bool:
    """Whether the characters of a name are some: the system also gives names that are only bytes."""
    return as_text(name) == name


def _check_name(name: str, problems: Problems) -> None:
    """A name that some system cannot have as a folder cannot go on a stick or a web host."""
    bad: Sequence[str] = _NOT_IN_NAMES.findall(name)
    if not _is_text(name):
        why = "It has characters that are none."
    elif bad:
        why = f"It has {listed([shown(sign) for sign in dict.fromkeys(bad)])} in it."
    elif name != name.strip() or name.endswith("."):
        why = "It begins or ends with a blank, or ends with a dot."
    elif _RESERVED.fullmatch(name):
        why = "Some systems keep this name for themselves."
    elif len(name.encode()) > _LONGEST_NAME:
        why = "It is too long."
    else:
        return
    problems.error(
        as_text(name), f"Not every system can have a folder of this name. {why}", "Rename the folder."
    )

"""A job folder -> `Job`, a shelf -> `Shop`: finds the files and calls their readers, whatever is in them."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from types import MappingProxyType

from buildbook import limits
from buildbook.job import quoted
from buildbook.job.cross_checks import across
from buildbook.job.log_model import LogEntry
from buildbook.job.lying import can_be, check_name, find, listing, note_files, saved_otherwise, why_not_listed
from buildbook.job.model import Job, Part
from buildbook.job.notes import entries as notes
from buildbook.job.notes.pictures import Names
from buildbook.job.parts.sets import for_all
from buildbook.job.photo_model import VideoFacts
from buildbook.job.photos import choices, drawings, films
from buildbook.job.photos import headers as photos
from buildbook.job.places import is_book
from buildbook.job.plain_file import read_bytes
from buildbook.job.row_names import row_name
from buildbook.job.shop_model import LETTER_PAPER, Shop
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
    is_shelf = bool(jobs) and find(folder, SHOP_FILE) is not None and find(folder, job_toml.FILE) is None
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
    if not jobs and (said := why_not_listed(folder)):
        return Problem("error", str(folder), f"cannot be read: {said}.", "See that you may open it.")
    if not jobs:
        hint = "A job is a folder with job.toml, parts.csv, notes.md or notes/ in it."
        return Problem("error", str(folder), "holds no job.", hint)
    return None


def _is_job(folder: Path) -> bool:
    """Whether it has a file of a job; a book has none, whatever somebody put beside its pages."""
    return _has_files_of_job(folder) and not is_book(folder)


def _has_files_of_job(folder: Path) -> bool:
    return any(find(folder, name) for name in JOB_FILES) or find(folder, notes.FOLDER) is not None


def has_shop(folder: Path) -> bool:
    """Whether a folder has a shop.toml of its own."""
    return find(folder, SHOP_FILE) is not None


def read_shop(folder: Path) -> tuple[Shop, Problems]:
    """The shop of a shelf: shop.toml and prices.csv. Without them a plain `Shop()`."""
    problems = Problems()
    if find(folder, SHOP_FILE) is None:
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
    path = find(folder, name)
    shelf = folder.parent if find(folder.parent, SHOP_FILE) else folder
    return read_bytes(path, name, shelf, most, problems, "the shelf") if path else None


# -- a job ---------------------------------------------------------------------------------------


def read_job(
    folder: Path,
    shop: Shop | None = None,
    *,
    pictures: bool = True,
    known: Mapping[str, photos.KnownPhoto] = MappingProxyType({}),
    known_videos: Mapping[str, VideoFacts] = MappingProxyType({}),
) -> Job:
    """A job, read whole, with everything that is wrong in `Job.problems`.

    Without a shop, shop.toml is looked for in the job folder and in the folder around it. `pictures` off leaves the
    photos unread, for what needs none: of a whole shelf they are most of the reading. `known`, `known_videos`: what is
    known of photos and videos beforehand, by name.
    """
    folder = Path(os.path.abspath(folder))  # not resolved: a link to a folder keeps the name of the link
    problems = Problems()
    if not can_be(folder.is_dir):
        problems.error(as_text(folder.name), "There is no such folder.", "See that its name is right.")
        return Job(as_text(folder.name), problems=problems.ordered())
    if shop is None:
        shop, found = shop_around(folder)
        problems.extend(found)
    check_name(folder.name, problems)
    stated = _job_toml(folder, shop, problems)
    job = Job(folder=as_text(folder.name), shop=shop, **stated.fields)
    read = photos.read_photos(folder, problems, known) if pictures else ()
    # where job.toml cannot be read, units and finishes are not known: what parts.csv has against them is told after it
    of_parts = problems if stated.is_read else Problems()
    moving = films.read_videos(folder, problems, known_videos, shop.country_code) if pictures else ()
    sheets = drawings.read_drawings(folder, problems, known) if pictures else ()
    job = replace(
        job, photos=read, videos=moving, drawings=sheets, parts=for_all(_parts(folder, job, of_parts), job)
    )
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
    name = next((name for name in PARTS_FILES if find(folder, name)), parts.FILE)
    return tuple(replace(one, file=name) if one.file == parts.FILE else one for one in problems)


def _table_of(folder: Path, names: tuple[str, ...], problems: Problems) -> str:
    """The one table that counts of those there, told where there are several; the first name where there is none."""
    there = [name for name in names if find(folder, name)]
    if len(there) > 1:
        what = f"There are {listed(map(shown, there))} here: only {there[0]} is read."
        problems.warn(there[0], what, f"Keep one, as {there[0]}.")
    return there[0] if there else names[0]


def _most(table: str) -> int:
    return limits.WORKBOOK_BYTES if is_workbook(table) else limits.TABLE_BYTES


def shop_around(folder: Path) -> tuple[Shop, Problems]:
    """The shop of a job: its own shop.toml, else that of the folder around it."""
    own = find(folder, SHOP_FILE) is not None
    return read_shop(folder if own else folder.parent)


def _job_toml(folder: Path, around: Shop, problems: Problems) -> Stated:
    data = _of_job(folder, job_toml.FILE, limits.TOML_BYTES, problems)
    if data is None:
        return Stated({"units": around.units})
    return read_job_toml(data, around.units, problems, decimal_comma=decimal_comma(around.language))


def _of_job(folder: Path, name: str, most: int, problems: Problems) -> bytes | None:
    """A file of the job; None where there is none, or none that can be read, which is told."""
    path = find(folder, name)
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
    for name, path in note_files(folder, problems):
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
        bool(job.shop.country_code) and job.shop.country_code not in LETTER_PAPER,
    )
    return notes.read_notes(files, known, problems)


def _quoted(folder: Path, problems: Problems) -> quoted.Quoted | None:
    """The estimate that the maker copied here once the piece was ordered; it never keeps a job from being bound."""
    found = Problems()
    data = _of_job(folder, quoted.FILE, limits.RECORD_BYTES, found)
    problems.extend(replace(problem, severity="warning") for problem in found)
    return quoted.read_quoted(data, problems) if data is not None else None


# -- files and names -----------------------------------------------------------------------------


def _by_other_names(folder: Path) -> str:
    """What to rename, where tables, texts and pictures lie in a folder by other names (`Stückliste.csv`, `Bilder/`)."""
    alike = (_alike(folder, name) for name in (PARTS_FILES[0], notes.MAIN, photos.FOLDER))
    match [(shown(one[0]), one[1]) for one in alike if one]:
        case [(name, meant)]:
            return f"Rename {name} to {meant}."
        case [(name, meant), (other, its)]:
            return f"Rename {name} to {meant}, and {other} to {its}."
        case [(name, meant), (other, its), (third, of_third)]:
            return f"Rename {name} to {meant}, {other} to {its} and {third} to {of_third}."
    return ""


def _alike(folder: Path, name: str) -> tuple[str, str] | None:
    """What lies in a folder in place of a file or folder of a job, and what it should be called; None for nothing."""
    if name == photos.FOLDER:
        other = next((one for one in listing(folder) if one.casefold() in _PICTURES), "")
        return (other, name) if other and can_be((folder / other).is_dir) else None
    names = PARTS_FILES if name in PARTS_FILES else (notes.MAIN, f"{Path(notes.MAIN).stem}.txt")
    by_suffix = {Path(one).suffix: one for one in names}
    for other in listing(folder):
        suffix = Path(other).suffix.lower()
        if suffix in by_suffix and not other.startswith(".") and other not in (*JOB_FILES, *PRICES_FILES):
            return other, notes.MAIN if notes.MAIN in names else by_suffix[suffix]
    return None


_PICTURES = frozenset(("pictures", "pics", "images", "photo", "bilder", "fotos", "foto", "bild", "dcim"))
"""What makers call a folder of photos."""


def _tell_missing(folder: Path, problems: Problems) -> None:
    """What is missing, and what goes without it. Neither parts nor notes is no job."""
    has_notes = bool(find(folder, notes.MAIN) or find(folder, notes.FOLDER))
    has_parts = any(find(folder, name) for name in PARTS_FILES)
    if not has_notes and not has_parts:
        problems.error(
            parts.FILE,
            "There are neither parts nor notes here, so there is no job.",
            _by_other_names(folder) or "Write parts.csv or notes.md.",
        )
        return
    names = listing(folder)
    for name, cost in WITHOUT.items():
        alike = [other for other in names if other.casefold() == name]
        if len(alike) > 1:
            what = f"only {name} is read" if name in alike else f"none of them is read, and {cost}"
            problems.warn(
                name, f"There are {listed(map(shown, alike))} here: {what}.", f"Keep one, as {name}."
            )
            continue
        if find(folder, name) or (name == notes.MAIN and has_notes) or (name == parts.FILE and has_parts):
            continue
        if other := saved_otherwise(folder, name):
            hint = f"There is {shown(other)}: save it as {name}."
        elif (alike_here := _alike(folder, name)) is not None:
            hint = f"Rename {shown(alike_here[0])} to {alike_here[1]}."
        elif name == photos.FOLDER:
            hint = "Put pictures in a folder named photos."
        else:
            hint = "Write one."
        problems.warn(name, f"There is no {name}: {cost}.", hint)

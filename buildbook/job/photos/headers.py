"""photos/ -> `Photo`s: what each picture file is, by its header only. What cannot be read is passed over.

Out: photos by name; two files with the same content are one, with both names. `check` decodes one whole.
Pillow reads bytes that anyone may have written, so whatever it raises becomes a problem.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from PIL import Image

from buildbook import limits
from buildbook.job.believable import believable
from buildbook.job.photo_model import DayFrom, Photo, PhotoHeader
from buildbook.job.photos.decode import opened, what_is_wrong
from buildbook.job.photos.named_day import day_in
from buildbook.job.plain_file import NotRead, disk_fails, inside, not_read, open_plain
from buildbook.job.text import as_text, shown
from buildbook.problems import Problem, Problems, Severity, listed

FOLDER = "photos"
SUFFIXES = frozenset(
    (".jpg", ".jpeg", ".jpe", ".jfif", ".png", ".webp", ".tif", ".tiff", ".heic", ".heif", ".hif")
)
VIDEO_SUFFIXES = frozenset(
    (".mp4", ".m4v", ".mov", ".qt", ".webm", ".mkv", ".avi", ".3gp", ".3g2", ".mts", ".m2ts",
     ".mpg", ".mpeg", ".wmv", ".hevc")
)  # fmt: skip
_PASSED_SILENTLY = frozenset(("thumbs.db", "desktop.ini", "ehthumbs.db", "icon\r"))
_NAMED = 3  # other files that a warning names

_EXIF_FOLDER = 0x8769
_TAKEN = 0x9003  # DateTimeOriginal
_CHANGED = 0x0132  # DateTime
_ORIENTATION = 0x0112
_ON_ITS_SIDE = range(5, 9)  # orientations that swap width and height
_TURNED_BY_PILLOW = ("TIFF", "HEIF")
_BELIEVABLE = "day of a photo"
_DRAFT_PX = 256


class KnownPhoto(NamedTuple):
    """What is known of a photo beforehand: the digest of its content, and maybe what its header says."""

    digest: str
    header: PhotoHeader | None


def read_photos(
    folder: Path, problems: Problems, known: Mapping[str, KnownPhoto] = MappingProxyType({})
) -> tuple[Photo, ...]:
    """The photos of a job folder, by name. `folder` is the job folder.

    known  by name: photos that need not be read for their digest, nor opened where their header is known
    """
    by_digest: dict[str, Photo] = {}
    others: list[str] = []
    for name, path in files_below(folder, FOLDER, problems):
        if len(by_digest) == limits.PHOTOS:
            last = next(reversed(by_digest.values())).name
            message = f"There are more than {limits.PHOTOS:,} photos; those after {last} are left out."
            problems.warn(FOLDER, message, "Keep those that show how the piece was made.")
            break
        if path.suffix.lower() not in SUFFIXES:
            if path.suffix.lower() not in VIDEO_SUFFIXES:
                others.append(name)
            continue
        photo = read_photo(name, path, folder, problems, known.get(name))
        if photo is None:
            continue
        if photo.digest in by_digest:
            first = by_digest[photo.digest]
            by_digest[photo.digest] = replace(first, also=(*first.also, name))
            problems.warn(name, f"This is the same picture as {first.name}.", "Delete one of them.")
        else:
            by_digest[photo.digest] = photo
    _tell_others(others, problems)
    return tuple(by_digest.values())


# -- finding -------------------------------------------------------------------------------------


def files_below(folder: Path, below: str, problems: Problems) -> Iterator[tuple[str, Path]]:
    """The files of a folder in the job, such as photos/, of any depth, by name; what is hidden is left out, what leads
    outside is told.
    """
    top = folder / below
    try:
        inside(top, folder)
    except NotRead as why:
        if why.fails or os.path.lexists(top):  # no photos at all is told elsewhere
            tell(below, why, problems)
        return
    found: list[tuple[str, Path]] = []
    walk = os.walk(top, onerror=lambda fault: _tell_folder(fault, folder, below, problems))
    for here, folders, files in walk:
        for name in list(folders):
            path = Path(here, name)
            if path.is_symlink() and not name.startswith("."):
                problems.warn(
                    as_text(_name(path, folder)),
                    "This folder is a link and is passed over.",
                    "Copy what is in it in its place.",
                )
        folders[:] = [name for name in folders if not name.startswith(".")]
        found += (
            (_name(Path(here, name), folder), Path(here, name)) for name in files if not _is_silent(name)
        )
    for name, path in sorted(found):
        if (plain := as_text(name)) != name:
            problems.warn(plain, "The name of this file cannot be read and it is passed over.", "Rename it.")
        else:
            yield name, path


def _is_silent(name: str) -> bool:
    return name.startswith(".") or name.casefold() in _PASSED_SILENTLY


def _name(path: Path, folder: Path) -> str:
    return path.relative_to(folder).as_posix()


def _tell_folder(fault: OSError, folder: Path, below: str, problems: Problems) -> None:
    name = _name(Path(fault.filename), folder) if fault.filename else below
    severity: Severity = "error" if disk_fails(fault) else "warning"
    said = f"This folder cannot be read: {fault.strerror}."
    problems.add(Problem(severity, as_text(name), said, "See that you may open it."))


def _tell_others(names: list[str], problems: Problems) -> None:
    """One warning for all that is no picture."""
    if not names:
        return
    first = [shown(Path(name).name) for name in names[:_NAMED]]
    more = len(names) - len(first)
    listing = listed([*first, f"{more} more"] if more else first)
    is_, it_is = ("are", "they are") if len(names) > 1 else ("is", "it is")
    problems.warn(
        FOLDER,
        f"{listing} {is_} not among the pictures that can be shown; {it_is} passed over.",
        "JPEG, PNG, WebP, TIFF and HEIC are shown.",
    )


# -- reading -------------------------------------------------------------------------------------


def read_photo(
    name: str, path: Path, folder: Path, problems: Problems, known: KnownPhoto | None
) -> Photo | None:
    """One picture; None with a problem where it is none that can be read."""
    try:
        path = inside(path, folder)
        digest = known.digest if known else _digest(path)
    except NotRead as why:
        tell(name, why, problems)
        return None
    except OSError as fault:
        tell(name, not_read(fault), problems)
        return None
    if not digest:
        problems.warn(name, "This file is empty.", "Copy it off the camera again.")
        return None
    try:
        header = (known and known.header) or _header(path)
    except Exception as fault:  # whatever a decoder makes of bytes that anyone may have written
        problems.add(what_is_wrong(name, fault))
        return None
    taken, timed, day_from = moment(name, header.taken)
    return Photo(
        name,
        path,
        header.width,
        header.height,
        taken,
        digest,
        timed=timed,
        day_from=day_from,
        content=digest,
        header=header,
    )


def moment(name: str, by_camera: datetime | None) -> tuple[datetime | None, bool, DayFrom]:
    """When it was taken, whether the time of day is known, and who says it: the camera before the file's name."""
    if by_camera:
        return by_camera, True, "camera"
    if said := day_in(Path(name).stem):
        return said.taken, said.time is not None, "name"
    return None, True, ""


def tell(name: str, why: NotRead, problems: Problems) -> None:
    """A photo, or all of them, that the page does without; an error where the disk fails: the last good pages stay."""
    problems.add(Problem("error" if why.fails else "warning", name, why.message, why.hint))


def _digest(path: Path) -> str:
    """SHA-256 of a file; of an empty one nothing. Raises `NotRead` and OSError."""
    with open_plain(path, limits.PICTURE_BYTES) as file:
        if not file.read(1):
            return ""
        file.seek(0)
        return hashlib.file_digest(file, "sha256").hexdigest()


def _header(path: Path) -> PhotoHeader:
    """Raises whatever the decoder raises."""
    with opened(path) as image:
        taken, orientation = _from_exif(image)
        width, height = image.size
        upright = image.format in _TURNED_BY_PILLOW
    if orientation in _ON_ITS_SIDE and not upright:
        width, height = height, width
    return PhotoHeader(width, height, taken)


def _from_exif(image: Image.Image) -> tuple[datetime | None, int]:
    """When it was taken and how it was held; a picture with broken metadata is still a picture."""
    try:
        exif = image.getexif()
        taken = _time(exif.get_ifd(_EXIF_FOLDER).get(_TAKEN)) or _time(exif.get(_CHANGED))
        orientation = exif.get(_ORIENTATION)
    except Exception:  # as above
        return None, 1
    return taken, orientation if isinstance(orientation, int) else 1


def _time(value: object) -> datetime | None:
    """A time as EXIF writes it (`2026:03:02 14:05:00`), None for one that no camera with a set clock would
    write.
    """
    try:
        taken = datetime.strptime(str(value).strip("\x00 ")[:19], "%Y:%m:%d %H:%M:%S")
    except ValueError:
        return None
    return taken if believable(_BELIEVABLE).holds(taken.date()) else None


def check(photo: Photo) -> Problem | None:
    """Decode a photo whole, and say what is wrong with it if that fails: a truncated file has a good
    header.
    """
    try:
        with opened(photo.path) as image:
            image.draft("RGB", (_DRAFT_PX, max(1, _DRAFT_PX * image.height // max(1, image.width))))
            image.load()
    except Exception as fault:  # as above
        return what_is_wrong(photo.name, fault)
    return None

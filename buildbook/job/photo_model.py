"""What lies in the folders photos and drawings: pictures, videos, drawings. Frozen records, no reading."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Literal, NamedTuple

DayFrom = Literal["", "camera", "name", "maker"]
"""Who says on which day a picture was taken: nobody, its own data, the name of its file, photos.toml."""


class PhotoHeader(NamedTuple):
    """What the header of a picture says: its upright size in pixels, and when it was taken."""

    width: int
    height: int
    taken: datetime | None


@dataclass(frozen=True)
class Photo:
    """A picture that can be read. `name` is its path in the job folder (*private*); `path` is where it is
    now, every link followed.

    width, height  upright and turned as the maker says, in pixels.
    taken          in the local time of the camera, None where nobody says; without a time of day (`timed`) it is the
                   first moment of the day. day_from: who says it.
    digest         of what is shown: the content of the file, and how it is turned.
    caption        the maker's words in photos.toml. turn: degrees clockwise, on top of what the camera said.
    also           the names of files with the same bytes.
    content        SHA-256 of the file. header: what the file itself says, None where it was not read.
    """

    name: str
    path: Path
    width: int
    height: int
    taken: datetime | None
    digest: str
    caption: str = ""
    also: tuple[str, ...] = ()
    timed: bool = True
    day_from: DayFrom = ""
    turn: int = 0
    content: str = ""
    header: PhotoHeader | None = None


@dataclass(frozen=True)
class Video:
    """A video; nothing of it ever leaves. `size` in bytes; `taken` by its name, as that of a photo."""

    name: str
    size: int
    taken: datetime | None = None
    timed: bool = True


DrawingKind = Literal["picture", "svg", "pdf", "other"]


@dataclass(frozen=True)
class DrawingFile:
    """A file of the folder drawings; nothing of it ever leaves. `name` is its path in the job folder.

    kind     `other`: what is only named. photo: of a picture, how it is read. content: SHA-256, of an SVG and a PDF.
    caption  what its name says of it, empty where that is only a number or the camera's.
    """

    name: str
    path: Path
    kind: DrawingKind
    caption: str = ""
    photo: Photo | None = None
    content: str = ""

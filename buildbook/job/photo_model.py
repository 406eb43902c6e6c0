"""What lies in the folders photos and drawings: pictures, videos, drawings. Frozen records, no reading."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Literal, NamedTuple

DayFrom = Literal["", "camera", "name", "maker", "utc"]
"""Who says on which day a picture was taken: nobody, its own data, the name of its file, photos.toml; `utc`: its own
data, by world time alone, so that it may have been the day before or after.
"""


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
    of_video       whether it is the picture that stands for a video, to be found in `path`.
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
    of_video: bool = False


class VideoFacts(NamedTuple):
    """What was read of a video; of its own data nothing else is kept, no place and no name.

    fault          why it cannot be read, a key of `films.SAID`; empty where it can.
    width, height  of the picture that stands for it, upright, in pixels. frame: the digest of that.
    seconds        how long it runs, None where it does not say. made: when, in its own words.
    """

    fault: str
    width: int = 0
    height: int = 0
    frame: str = ""
    seconds: float | None = None
    made: str = ""


@dataclass(frozen=True)
class Video:
    """A video; nothing of it ever leaves.

    size   in bytes. taken: by its name, as that of a photo, else by its own data; day_from: who says it.
    seconds  how long it runs, None where that is not known. frame: the picture that stands for it, if one was found.
    facts  what was read of it, None where nothing was.
    """

    name: str
    size: int
    taken: datetime | None = None
    timed: bool = True
    day_from: DayFrom = ""
    seconds: float | None = None
    frame: Photo | None = None
    facts: VideoFacts | None = None


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

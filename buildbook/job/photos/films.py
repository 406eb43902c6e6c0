"""photos/ -> `Video`s: when each was taken, how long it runs, and one picture of it. Nothing of one ever leaves.

The library that reads videos is large, and takes bytes that anyone may have written: it may be missing, and then only
names and sizes are known; and it runs in a process of its own for each video (`film_process`), bounded in time and
memory, which is given the open file and nothing else. Whatever becomes of that process is a problem in words.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

import msgspec
from PIL import Image

from buildbook import limits
from buildbook.job.believable import believable
from buildbook.job.photo_model import Photo, Video, VideoFacts
from buildbook.job.photos.film_day import day_made
from buildbook.job.photos.headers import FOLDER, VIDEO_SUFFIXES, files_below, moment, tell
from buildbook.job.plain_file import NotRead, inside, not_read, open_plain
from buildbook.problems import Problem, Problems

LIBRARY = "av"
_AGAIN = "Copy it off the camera again."
_SMALLER = "Save a smaller copy of it."
_MOST = limits.VIDEO_POINTS // 1_000_000
SAID = {
    "empty": NotRead("This file is empty.", _AGAIN),
    "no video": NotRead("This is not a video that can be read, or part of it is missing.", _AGAIN),
    "no picture": NotRead("There is no picture in this video.", _AGAIN),
    "broken": NotRead("No picture of this video can be shown.", _AGAIN),
    "too large": NotRead(f"This video has more than {_MOST} million points a picture.", _SMALLER),
    "too much": NotRead("Reading this video takes too long, or too much memory.", _SMALLER),
    "fell over": NotRead("This video is broken: the program that reads it fell over.", _AGAIN),
}
"""What keeps a video from being read, in words, and one thing to do. It is listed all the same."""

_CPU_KILLED = (-24, -9)  # SIGXCPU; SIGKILL, where the system has a harder limit
_QUARTERS = {
    90: Image.Transpose.ROTATE_270,
    180: Image.Transpose.ROTATE_180,
    270: Image.Transpose.ROTATE_90,
}  # degrees clockwise; Pillow counts the other way
_ON_ITS_SIDE = (90, 270)
_LONGEST_LINE = 2_000  # bytes that the process says before the picture
_COLOURS = 3
_DIGEST = re.compile(r"[0-9a-f]{64}")
_LENGTH = "length of a video"


class VideoFault(Exception):
    """A video that cannot be read: a key of `SAID`."""


@dataclass(frozen=True)
class _VideoTold:
    """What the process says of a video. `width`, `height`: before the picture is turned by `turn` degrees clockwise."""

    fault: str
    width: int = 0
    height: int = 0
    turn: int = 0
    frame: str = ""
    made: str = ""
    seconds: float | None = None


class _VideoFile(NamedTuple):
    name: str
    path: Path
    size: int


def read_videos(
    folder: Path,
    problems: Problems,
    known: Mapping[str, VideoFacts] = MappingProxyType({}),
    country: str = "",
) -> tuple[Video, ...]:
    """The videos of a job folder, by name.

    known    by name: videos that need not be opened. country: the ISO 3166 code of the shop's, by which world time
             becomes that of the bench
    """
    found = _found(folder, problems)
    facts = _all_read(found, known, problems) if can_read() else [None] * len(found)
    return tuple(_video(one, of, country, problems) for one, of in zip(found, facts, strict=True))


def _all_read(
    found: Sequence[_VideoFile], known: Mapping[str, VideoFacts], problems: Problems
) -> list[VideoFacts | Problem | None]:
    """What each is, on all cores, as far as there is patience for it: the same whichever is done first, since those
    before one that is slow were begun before it.
    """
    slow: list[str] = []

    def read(one: _VideoFile) -> VideoFacts | Problem | None:
        if len(slow) >= limits.VIDEOS_SLOW:
            return None
        facts = known.get(one.name) or _read(one)
        if _is_slow(facts):
            slow.append(one.name)
        return facts

    with ThreadPoolExecutor(max_workers=os.cpu_count() or 1) as pool:
        facts = list(pool.map(read, found[: limits.VIDEOS_OPENED]))
    if len(found) > limits.VIDEOS_OPENED:
        last = found[limits.VIDEOS_OPENED - 1].name
        message = f"There are more than {limits.VIDEOS_OPENED} videos; those after {last} are only listed."
        problems.warn(FOLDER, message, "Keep those that show how the piece was made.")
    last_slow = [number for number, one in enumerate(facts) if _is_slow(one)][limits.VIDEOS_SLOW - 1 :]
    if last_slow:
        facts = facts[: last_slow[0] + 1]
        message = f"{limits.VIDEOS_SLOW} videos take too long to read; those after them are only listed."
        problems.warn(FOLDER, message, "Take those out.")
    return facts + [None] * (len(found) - len(facts))


def _is_slow(facts: VideoFacts | Problem | None) -> bool:
    said = SAID["too much"]
    return facts.message == said.message if isinstance(facts, Problem) else facts == VideoFacts("too much")


def can_read() -> bool:
    """Whether the library is there."""
    return find_spec(LIBRARY) is not None


def first_picture(path: Path) -> Image.Image:
    """The picture that stands for a video, upright. Raises `VideoFault`, `NotRead`, OSError."""
    told, pixels = _process("frame", path)
    if told.fault:
        raise VideoFault(told.fault)
    picture = Image.frombytes("RGB", (told.width, told.height), pixels)
    return picture.transpose(_QUARTERS[told.turn]) if told.turn else picture


def what_is_wrong(name: str, fault: BaseException | None) -> Problem:
    """What keeps a video from being shown, as a problem; an error where it is the disk's."""
    if isinstance(fault, OSError):
        fault = not_read(fault)
    if isinstance(fault, NotRead):
        return _problem(name, fault)
    return _problem(name, SAID[str(fault) if isinstance(fault, VideoFault) else "broken"])


def _problem(name: str, why: NotRead) -> Problem:
    return Problem("error" if why.fails else "warning", name, why.message, why.hint)


def _found(folder: Path, problems: Problems) -> list[_VideoFile]:
    found: list[_VideoFile] = []
    for name, path in files_below(folder, FOLDER, problems):
        if path.suffix.lower() not in VIDEO_SUFFIXES:
            continue
        if len(found) == limits.VIDEOS:
            message = (
                f"There are more than {limits.VIDEOS:,} videos; those after {found[-1].name} are left out."
            )
            problems.warn(FOLDER, message, "Keep those that show how the piece was made.")
            break
        try:
            path = inside(path, folder)
            size = path.stat().st_size
        except NotRead as why:
            tell(name, why, problems)
        except OSError as fault:
            tell(name, not_read(fault), problems)
        else:
            found.append(_VideoFile(name, path, size))
    return found


def _video(found: _VideoFile, facts: VideoFacts | Problem | None, country: str, problems: Problems) -> Video:
    taken, timed, day_from = moment(found.name, None)
    video = Video(found.name, found.size, taken, timed, day_from)
    if isinstance(facts, Problem):
        problems.add(facts)
    if not isinstance(facts, VideoFacts):
        return video
    video = replace(video, facts=facts)
    if facts.fault:
        tell(found.name, SAID[facts.fault], problems)
        return video
    if not taken:
        taken, timed, day_from = day_made(facts.made, country)
    frame = Photo(
        found.name, found.path, facts.width, facts.height, taken, facts.frame, timed=timed, of_video=True
    )
    return replace(
        video,
        taken=taken,
        timed=timed,
        day_from=day_from,
        seconds=_length(found, facts, problems),
        frame=frame,
    )


def _length(found: _VideoFile, facts: VideoFacts, problems: Problems) -> float | None:
    """How long it runs, where that can be; a header may say anything."""
    if facts.seconds is None or believable(_LENGTH).holds(facts.seconds):
        return facts.seconds
    problems.warn(
        found.name, "It says of itself a length that no video has.", "Save it anew, or leave it as it is."
    )
    return None


# -- the process -----------------------------------------------------------------------------------


def _read(found: _VideoFile) -> VideoFacts | Problem:
    """What a video is; a problem where that may be otherwise the next time."""
    try:
        told, _ = _process("facts", found.path)
    except (VideoFault, NotRead, OSError) as why:
        return what_is_wrong(found.name, why)
    if told.fault:
        return VideoFacts(told.fault)
    sides = (told.width, told.height)
    width, height = sides[::-1] if told.turn in _ON_ITS_SIDE else sides
    return VideoFacts("", width, height, told.frame, told.seconds, told.made)


def _process(what: str, path: Path) -> tuple[_VideoTold, bytes]:
    """What is told of a video, and the points of its picture, in red, green and blue. Raises `VideoFault` where it took
    too long by the clock, `NotRead` and OSError.
    """
    with open_plain(path, limits.VIDEO_BYTES) as file:
        if not os.fstat(file.fileno()).st_size:
            return _VideoTold("empty"), b""
        try:
            done = subprocess.run(
                _command(what),
                stdin=file,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                timeout=limits.VIDEO_WALL_S,
                check=False,
            )
        except subprocess.TimeoutExpired as why:
            raise VideoFault("too much") from why
    line, _, pixels = done.stdout.partition(b"\n")
    if done.returncode:
        return _VideoTold("too much" if done.returncode in _CPU_KILLED else "fell over"), b""
    return _believed(what, line, pixels), pixels


@cache
def _command(what: str) -> list[str]:
    bounds = {
        "cpu_s": limits.VIDEO_CPU_S,
        "memory": limits.VIDEO_MEMORY,
        "points": limits.VIDEO_POINTS,
        "edge": limits.VIDEO_EDGE,
    }
    script = Path(__file__).with_name("film_process.py")
    return [sys.executable, "-P", "-B", str(script), what, msgspec.json.encode(bounds).decode()]


def _believed(what: str, line: bytes, pixels: bytes) -> _VideoTold:
    """What the process said, if it can be: it read what anyone may have written."""
    try:
        told = msgspec.json.decode(line[:_LONGEST_LINE], type=_VideoTold)
    except msgspec.DecodeError:
        return _VideoTold("fell over")
    if told.fault:
        return _VideoTold(told.fault if told.fault in SAID else "fell over")
    sound = (
        0 < told.width <= limits.VIDEO_EDGE
        and 0 < told.height <= limits.VIDEO_EDGE
        and (not told.turn or told.turn in _QUARTERS)
        and _DIGEST.fullmatch(told.frame)
        and (what != "frame" or len(pixels) == told.width * told.height * _COLOURS)
    )
    return told if sound else _VideoTold("fell over")

"""A video in words, and the picture that stands for it. For the maker's pages only: nothing of a video leaves."""

from __future__ import annotations

from buildbook.job.photo_model import Video
from buildbook.pages.phrases import Phrases
from buildbook.pages.shared import Picture

_MEGABYTE = 1_000_000
_MINUTE = 60
_HOUR = 60 * _MINUTE
_SAID_BY = {"name": "log.day_from_name", "utc": "log.day_from_utc"}


def video_words(video: Video, phrases: Phrases) -> str:
    """Its name, the time, how long it runs and how large it is; who says its day, where it is not the camera's."""
    name = video.name.rpartition("/")[2]
    time = f"{video.taken:%H:%M}" if video.taken and video.timed else ""
    size = phrases("log.megabytes", count=phrases.style.number(video.size / _MEGABYTE, 1))
    said = phrases(
        "log.video", said=", ".join(part for part in (name, time, _runs(video, phrases), size) if part)
    )
    mark = _SAID_BY.get(video.day_from)
    return f"{said} · {phrases(mark)}" if mark else said


def video_picture(video: Video, phrases: Phrases) -> Picture | None:
    """The picture of it with these words; None where there is none."""
    if video.frame is None:
        return None
    alt = phrases("log.video_frame", name=video.name.rpartition("/")[2])
    frame = video.frame
    return Picture(frame.digest, frame.width, frame.height, alt, video_words(video, phrases))


def _runs(video: Video, phrases: Phrases) -> str:
    """Minutes and seconds, and hours where there are some; less than a second is one."""
    if video.seconds is None:
        return ""
    whole = max(1, round(video.seconds))
    minutes, seconds = whole % _HOUR // _MINUTE, whole % _MINUTE
    if whole < _HOUR:
        return phrases("log.runs_minutes", length=f"{minutes}:{seconds:02}")
    return phrases("log.runs_hours", length=f"{whole // _HOUR}:{minutes:02}:{seconds:02}")

"""ContactSheet: every photo of a job, those put aside too, and every video, by the day of each. Private."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from buildbook.job.client_pictures import client_pictures
from buildbook.job.model import Job
from buildbook.job.photo_model import Photo, Video
from buildbook.pages.film import video_picture, video_words
from buildbook.pages.phrases import Phrases
from buildbook.pages.shared import Picture


@dataclass(frozen=True)
class Frame:
    """One photo of the sheet.

    file     its path in the job folder; name: what stands under it. content: by which its small picture is asked for.
    client   whether the client sees it as things are. day: as it counts, empty where nobody says it.
    """

    file: str
    name: str
    content: str
    width: int
    height: int
    caption: str
    lead: bool
    client: bool
    turn: int
    aside: bool
    day: str


@dataclass(frozen=True)
class SheetVideo:
    """A video, of which nothing can be chosen: it never leaves. picture: what stands for it, None where there is none.

    words  what is known of it.
    """

    words: str
    picture: Picture | None


@dataclass(frozen=True)
class SheetDay:
    """The photos and videos of a day; `iso` is empty for those without one."""

    iso: str
    words: str
    frames: tuple[Frame, ...]
    videos: tuple[SheetVideo, ...]


@dataclass(frozen=True)
class ContactSheet:
    """`seen`: the digest of photos.toml as it was read, empty where there is none."""

    language: str
    key: str
    title: str
    seen: str
    days: tuple[SheetDay, ...]
    wood_colours: tuple[str, str]


def contact_sheet(job: Job, phrases: Phrases, seen: str, wood_colours: tuple[str, str]) -> ContactSheet:
    """The sheet of a job as it was read."""
    chosen = client_pictures(job)
    told = {chosen.lead, *chosen.story, *chosen.gallery}
    captions = {p.name: p.caption for e in job.entries for p in e.pictures if p.caption}
    aside = {photo.name for photo in job.aside}
    by_day: dict[date | None, list[Frame]] = {}
    for photo in sorted((*job.photos, *job.aside), key=_order):
        frame = Frame(
            file=photo.name,
            name=_called(photo, phrases),
            content=photo.content,
            width=photo.header.width if photo.header else photo.width,
            height=photo.header.height if photo.header else photo.height,
            caption=photo.caption or captions.get(photo.name, ""),
            lead=photo.name == job.lead,
            client=photo.name in told,
            turn=photo.turn,
            aside=photo.name in aside,
            day=photo.taken.date().isoformat() if photo.taken else "",
        )
        by_day.setdefault(photo.taken.date() if photo.taken else None, []).append(frame)
    moving: dict[date | None, list[SheetVideo]] = {}
    for video in sorted(job.videos, key=_order):
        shown = SheetVideo(video_words(video, phrases), video_picture(video, phrases))
        moving.setdefault(video.taken.date() if video.taken else None, []).append(shown)
    days = tuple(
        SheetDay(
            day.isoformat() if day else "",
            phrases.date(day) if day else phrases("log.undated"),
            tuple(by_day.get(day, ())),
            tuple(moving.get(day, ())),
        )
        for day in sorted(by_day.keys() | moving.keys(), key=lambda one: (one is None, one or date.min))
    )
    return ContactSheet(phrases.words.language, job.key, job.name, seen, days, wood_colours)


def _order(photo: Photo | Video) -> tuple[bool, str, str]:
    """By the moment, those without one last."""
    return photo.taken is None, str(photo.taken or ""), photo.name


def _called(photo: Photo, phrases: Phrases) -> str:
    time = f"{photo.taken:%H:%M}" if photo.taken and photo.timed else ""
    name = " ".join(part for part in (photo.name.rpartition("/")[2], time) if part)
    return f"{name} · {phrases('log.day_from_name')}" if photo.day_from == "name" else name

"""ContactSheet: every photo of a job, those put aside too, by the day that it was taken. Private."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from buildbook.job.client_pictures import client_pictures
from buildbook.job.model import Job
from buildbook.job.photo_model import Photo
from buildbook.pages.phrases import Phrases


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
class SheetDay:
    """The photos of a day; `iso` is empty for those without one."""

    iso: str
    words: str
    frames: tuple[Frame, ...]


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
    days = tuple(
        SheetDay(
            day.isoformat() if day else "",
            phrases.date(day) if day else phrases("log.undated"),
            tuple(frames),
        )
        for day, frames in by_day.items()
    )
    return ContactSheet(phrases.words.language, job.key, job.name, seen, days, wood_colours)


def _order(photo: Photo) -> tuple[bool, str, str]:
    """By the moment, those without one last."""
    return photo.taken is None, str(photo.taken or ""), photo.name


def _called(photo: Photo, phrases: Phrases) -> str:
    time = f"{photo.taken:%H:%M}" if photo.taken and photo.timed else ""
    name = " ".join(part for part in (photo.name.rpartition("/")[2], time) if part)
    return f"{name} · {phrases('log.day_from_name')}" if photo.day_from == "name" else name

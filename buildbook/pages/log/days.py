"""The days of the build log: each note with its hours and pictures, the days of pictures alone, what has no date."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from buildbook.job.log_model import LogEntry
from buildbook.job.model import Job
from buildbook.job.notes.places import day_ids
from buildbook.job.photo_model import Photo, Video
from buildbook.pages.film import video_picture, video_words
from buildbook.pages.log.placed import Placed, PlacedProblem
from buildbook.pages.phrases import Phrases
from buildbook.pages.shared import Line, Picture


@dataclass(frozen=True)
class Day:
    """One day of the rail: its note, its hours, the photos taken on it, and the videos: `films`, those that have a
    picture; the others in words. `iso` and `id`, by which it can be linked to, and `short`, the day in figures, are
    empty for what has no date. `problems`: what is wrong with its note; `of_pictures`: with a picture, by its digest,
    where it is shown first.
    """

    id: str
    iso: str
    short: str
    words: str
    title: str
    hours: tuple[Line, ...]
    markdown: str
    pictures: tuple[tuple[str, Picture], ...]
    strip: tuple[Picture, ...]
    films: tuple[Picture, ...]
    videos: tuple[str, ...]
    told_client: bool
    source: str
    problems: tuple[PlacedProblem, ...] = ()
    of_pictures: Mapping[str, tuple[PlacedProblem, ...]] = field(default_factory=dict)

    def shows(self) -> tuple[str, ...]:
        """The digests of its pictures."""
        return tuple(one.digest for one in (*(of for _, of in self.pictures), *self.strip, *self.films))


@dataclass(frozen=True)
class Stretch:
    """A day's note, or a day of pictures alone, with what was taken on it and is shown beside. `id` and `day` are empty
    for what has no date.
    """

    id: str
    day: date | None
    entry: LogEntry | None
    photos: tuple[Photo, ...]
    videos: tuple[Video, ...]


def stretches_of(job: Job, phrases: Phrases) -> tuple[Stretch, ...]:
    """The entries in order of their day, days of photos or videos alone among them, then what has no day."""
    in_text = {picture.name for entry in job.entries for picture in entry.pictures}
    photos: dict[date | None, list[Photo]] = {}
    for photo in sorted(job.photos, key=lambda one: (str(one.taken or ""), one.name)):
        if photo.name not in in_text:
            photos.setdefault(photo.taken.date() if photo.taken else None, []).append(photo)
    videos: dict[date | None, list[Video]] = {}
    for video in sorted(job.videos, key=lambda one: (str(one.taken or ""), one.name)):
        videos.setdefault(video.taken.date() if video.taken else None, []).append(video)
    entries: dict[date | None, list[LogEntry]] = {}
    for entry in job.entries:
        entries.setdefault(entry.day, []).append(entry)
    all_days = entries.keys() | photos.keys() | videos.keys()
    days = [*sorted(day for day in all_days if day), *({None} & all_days)]
    noted = [(day, entry) for day in days for entry in entries.get(day, [None])]
    ids = day_ids(day for day, _ in noted)
    return tuple(
        Stretch(identity, day, entry, tuple(photos.pop(day, ())), tuple(videos.pop(day, ())))
        for identity, (day, entry) in zip(ids, noted, strict=True)
    )


def days_of(job: Job, stretches: Iterable[Stretch], problems: Placed, phrases: Phrases) -> tuple[Day, ...]:
    """The days as a page shows them, with what is wrong at each."""
    by_name = {photo.name: photo for photo in job.photos}
    captions = {p.name: p.caption for e in job.entries for p in e.pictures if p.caption}
    captions |= {photo.name: photo.caption for photo in job.photos if photo.caption}
    days, told = [], set[str]()
    for one in stretches:
        day = _day(one, by_name, captions, problems, phrases)
        here = {digest: problems.at[digest] for digest in day.shows() if digest in problems.at.keys() - told}
        told.update(here)
        days.append(replace(day, of_pictures=here) if here else day)
    return tuple(days)


def _day(
    of: Stretch, by_name: Mapping[str, Photo], captions: Mapping[str, str], problems: Placed, phrases: Phrases
) -> Day:
    entry = of.entry
    bare = Day(
        id=of.id,
        iso=of.day.isoformat() if of.day else "",
        short=phrases.short_date(of.day) if of.day else "",
        words=phrases.date(of.day) if of.day else phrases("log.undated"),
        title="",
        hours=(),
        markdown="",
        pictures=(),
        strip=tuple(
            _picture(photo, captions.get(photo.name, ""), phrases, of_day=True) for photo in of.photos
        ),
        films=tuple(film for one in of.videos if (film := video_picture(one, phrases))),
        videos=tuple(video_words(video, phrases) for video in of.videos if not video.frame),
        told_client=False,
        source="",
    )
    if entry is None:
        return bare
    return replace(
        bare,
        title=entry.title,
        hours=tuple(
            Line(phrases.stage(booked.stage), phrases.style.hours(booked.hours)) for booked in entry.hours
        ),
        markdown=entry.body,
        pictures=tuple(
            (picture.reference, _picture(by_name[picture.name], picture.caption, phrases))
            for picture in entry.pictures
            if picture.name in by_name
        ),
        told_client=bool(entry.for_client),
        source=f"{entry.file}:{entry.line}" if entry.line else entry.file,
        problems=problems.at.get(of.id, ()),
    )


def _picture(photo: Photo, caption: str, phrases: Phrases, *, of_day: bool = False) -> Picture:
    """`of_day`: it stands where it does by the day that it was taken."""
    time = f"{photo.taken:%H:%M}" if photo.taken and photo.timed else ""
    name = photo.name.rpartition("/")[2]
    beside = caption or " ".join(part for part in (name, time) if part)
    if of_day and photo.day_from == "name":
        beside = f"{beside} · {phrases('log.day_from_name')}"
    return Picture(photo.digest, photo.width, photo.height, phrases("log.photo", name=name), beside)

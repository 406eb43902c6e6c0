"""BuildLog: everything about one job, for the maker. Private: no template of the client's page ever gets it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date

from buildbook.care import CareItem
from buildbook.job.log_model import LogEntry
from buildbook.job.model import Job
from buildbook.job.notes.places import day_ids
from buildbook.job.photo_model import Photo, Video
from buildbook.pages import sets
from buildbook.pages.drawn.outlines import OutlineGroup, ScaleBar, outlines, scale_bar
from buildbook.pages.ledger import Ledger
from buildbook.pages.log.against import Against, against_of
from buildbook.pages.log.full_size import FullSize, full_size
from buildbook.pages.log.gathered import GatheredGroup, gathered
from buildbook.pages.log.onward import Bit, Onward, onward
from buildbook.pages.log.parts_again import parts_again
from buildbook.pages.log.shopping import shopping_list
from buildbook.pages.log.table_file import TableFile
from buildbook.pages.log.tables import tables_of
from buildbook.pages.log.wall import WallSheet, wall_sheet
from buildbook.pages.notice import Notice, problem_line
from buildbook.pages.phrases import Phrases
from buildbook.pages.shared import Line, Picture
from buildbook.summary.model import Summary
from buildbook.summary.sets import each_of

_Taken = tuple[tuple[Picture, ...], tuple[str, ...]]
"""What was taken on a day: pictures, and videos in words."""
_MEGABYTE = 1_000_000


@dataclass(frozen=True)
class Day:
    """One day of the rail: its note, its hours, the photos taken on it, and the videos in
    words. `iso` and `id`, by which it can be linked to, are empty for what has no date.
    """

    id: str
    iso: str
    words: str
    title: str
    hours: tuple[Line, ...]
    markdown: str
    pictures: tuple[tuple[str, Picture], ...]
    strip: tuple[Picture, ...]
    videos: tuple[str, ...]
    told_client: bool
    source: str


@dataclass(frozen=True)
class StageBar:
    """Hours of a stage; `share` of the longest stage, 0 to 1, for a bar."""

    stage: str
    hours: str
    share: float


@dataclass(frozen=True)
class BuildLog:
    """The record of how a piece was made. `leads`: where a cell of a table leads by its text, seen from the top of the
    book; `joints`: the joints that the job states, with where they lead.
    """

    language: str
    key: str
    title: str
    number: str
    lead: Picture | None
    facts: tuple[Line, ...]
    stages: tuple[StageBar, ...]
    total_hours: str
    days: tuple[Day, ...]
    tables: tuple[Ledger, ...]
    cautions: tuple[Notice, ...]
    problems: tuple[Notice, ...]
    wood_colours: tuple[str, str]
    outlines: tuple[OutlineGroup, ...] = ()
    outline_scale: ScaleBar | None = None
    quoted: Against | None = None
    gathered: tuple[GatheredGroup, ...] = ()
    lists: tuple[TableFile, ...] = ()
    joints: tuple[Bit, ...] = ()
    leads: Mapping[str, str] = field(default_factory=dict)
    wall: WallSheet | None = None
    full_size: FullSize | None = None

    def pictures(self) -> tuple[Picture, ...]:
        """Every picture of the log, each once."""
        shown = [self.lead] if self.lead else []
        for day in self.days:
            shown += [picture for _, picture in day.pictures]
            shown += list(day.strip)
        return tuple({picture.digest: picture for picture in shown}.values())

    def shown_on(self, picture: Picture) -> str:
        """The id of the day on which a picture is first shown; of all days for one that no dated day shows."""
        for day in self.days:
            if picture in day.strip or any(picture.digest == one.digest for _, one in day.pictures):
                return day.id or "days"
        return "days"


def build_log(
    job: Job,
    summary: Summary,
    care: tuple[CareItem, ...],
    phrases: Phrases,
    *,
    lead: Picture | None,
    wood_colours: tuple[str, str],
) -> BuildLog:
    """The whole log of one job."""
    leads = onward(job, summary, phrases)
    days, groups = _days(job, phrases, leads)
    longest = max((stage.hours_h for stage in summary.hours.by_stage), default=0.0)
    return BuildLog(
        language=phrases.words.language,
        key=job.key,
        title=job.title or job.key,
        number=job.number,
        lead=lead,
        facts=_facts(job, summary, phrases),
        stages=tuple(
            StageBar(
                phrases.stage(stage.stage),
                phrases.style.hours(stage.hours_h),
                stage.hours_h / longest if longest else 0.0,
            )
            for stage in summary.hours.by_stage
        ),
        total_hours=phrases.style.hours(summary.hours.total_h),
        days=days,
        gathered=groups,
        joints=tuple(Bit(name, leads.cells[name]) for name in job.joinery),
        leads=leads.cells,
        tables=tables_of(job, summary, phrases),
        cautions=tuple(
            Notice(
                item.text, item.severity, phrases(f"severity.{item.severity}"), why=item.why, title=item.title
            )
            for item in care
            if item.audience in ("maker", "both")
        ),
        problems=tuple(problem_line(problem, phrases) for problem in job.problems),
        wood_colours=wood_colours,
        outlines=outlines(job, phrases),
        outline_scale=scale_bar(job, phrases),
        quoted=against_of(summary, phrases),
        wall=wall_sheet(job, summary, phrases, wood_colours),
        full_size=full_size(job, phrases),
        lists=tuple(one for one in (parts_again(job, phrases), shopping_list(job, summary, phrases)) if one),
    )


def _facts(job: Job, summary: Summary, phrases: Phrases) -> tuple[Line, ...]:
    style = phrases.style
    rows = (
        ("log.client", job.client),
        ("log.piece", job.piece),
        ("log.begun", phrases.short_date(job.begun) if job.begun else ""),
        (
            "log.delivered",
            sets.delivered_said(job, phrases, phrases.short_date) or phrases("log.not_delivered"),
        ),
        ("set.label", _pieces(job, phrases)),
        ("log.size", sets.each(style.size_both(*job.overall.metres), job, phrases)),
        ("log.mass", _mass(job, summary, phrases)),
        ("log.tags", ", ".join(job.tags)),
        ("log.made_at", style.percent(summary.air.made_mc_pct, 1)),
        ("log.price", _price(job, summary, phrases)),
    )
    return tuple(Line(phrases(key), value) for key, value in rows if value)


def _pieces(job: Job, phrases: Phrases) -> str:
    return (
        phrases("set.count", count=job.quantity, numbers=sets.numbers_said(job)) if job.quantity > 1 else ""
    )


def _mass(job: Job, summary: Summary, phrases: Phrases) -> str:
    if not summary.mass.total_kg:
        return ""
    one, whole = (phrases.style.mass(kg, 1) for kg in (each_of(summary).mass_kg, summary.mass.total_kg))
    return sets.each_and_all(one, whole, job, phrases)


def _price(job: Job, summary: Summary, phrases: Phrases) -> str:
    each = each_of(summary).price
    if job.price is None or each is None:
        return ""
    money = phrases.style.money
    return sets.each_and_all(money(each.amount), money(job.price), job, phrases)


# -- days --------------------------------------------------------------------------------------------


def _video(video: Video, phrases: Phrases) -> str:
    """A video in a line: its name, the time, how large it is."""
    time = f"{video.taken:%H:%M}" if video.taken and video.timed else ""
    size = phrases("log.megabytes", count=phrases.style.number(video.size / _MEGABYTE, 1))
    return phrases(
        "log.video", said=", ".join(part for part in (video.name.rpartition("/")[2], time, size) if part)
    )


def _picture(photo: Photo, caption: str, phrases: Phrases, *, of_day: bool = False) -> Picture:
    """`of_day`: it stands where it does by the day that it was taken."""
    time = f"{photo.taken:%H:%M}" if photo.taken and photo.timed else ""
    name = photo.name.rpartition("/")[2]
    beside = caption or " ".join(part for part in (name, time) if part)
    if of_day and photo.day_from == "name":
        beside = f"{beside} · {phrases('log.day_from_name')}"
    return Picture(photo.digest, photo.width, photo.height, phrases("log.photo", name=name), beside)


def _days(job: Job, phrases: Phrases, leads: Onward) -> tuple[tuple[Day, ...], tuple[GatheredGroup, ...]]:
    """The entries in order of their day, then photos of days without a note, then photos without a day; and what their
    marked lines come to.
    """
    by_name = {photo.name: photo for photo in job.photos}
    captions = {p.name: p.caption for e in job.entries for p in e.pictures if p.caption}
    captions |= {photo.name: photo.caption for photo in job.photos if photo.caption}
    on_day: dict[date, list[Photo]] = {}
    undated = []
    for photo in sorted(job.photos, key=lambda p: (str(p.taken or ""), p.name)):
        if photo.taken:
            on_day.setdefault(photo.taken.date(), []).append(photo)
        else:
            undated.append(photo)
    in_text = {p.name for e in job.entries for p in e.pictures}

    def strip(photos: Iterable[Photo]) -> tuple[Picture, ...]:
        return tuple(
            _picture(p, captions.get(p.name, ""), phrases, of_day=True)
            for p in photos
            if p.name not in in_text
        )

    films: dict[date | None, list[Video]] = {}
    for film in sorted(job.videos, key=lambda v: (str(v.taken or ""), v.name)):
        films.setdefault(film.taken.date() if film.taken else None, []).append(film)

    def videos(day: date | None) -> tuple[str, ...]:
        return tuple(_video(film, phrases) for film in films.get(day, ()))

    entries: dict[date, list[LogEntry]] = {}
    for entry in job.entries:
        entries.setdefault(entry.day, []).append(entry)
    stretches: list[tuple[date, LogEntry | None, _Taken]] = []
    for day in sorted(entries.keys() | on_day.keys() | {day for day in films if day}):
        taken: _Taken = (strip(on_day.get(day, ())), videos(day))
        for entry in entries.get(day, ()):
            stretches.append((day, entry, taken))
            taken = ((), ())
        if any(taken):
            stretches.append((day, None, taken))
    ids = day_ids(day for day, _, _ in stretches)
    days = [
        _day(identity, entry, by_name, taken, phrases)
        if entry
        else Day(identity, day.isoformat(), phrases.date(day), "", (), "", (), *taken, False, "")
        for identity, (day, entry, taken) in zip(ids, stretches, strict=True)
    ]
    loose = (strip(undated), videos(None))
    if any(loose):
        days.append(Day("", "", phrases("log.undated"), "", (), "", (), *loose, False, ""))
    noted = [(identity, entry) for identity, (_, entry, _) in zip(ids, stretches, strict=True) if entry]
    return tuple(days), gathered(noted, phrases, leads)


def _day(
    identity: str,
    entry: LogEntry,
    by_name: Mapping[str, Photo],
    taken: _Taken,
    phrases: Phrases,
) -> Day:
    strip, videos = taken
    return Day(
        id=identity,
        iso=entry.day.isoformat(),
        words=phrases.date(entry.day),
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
        strip=strip,
        videos=videos,
        told_client=bool(entry.for_client),
        source=f"{entry.file}:{entry.line}" if entry.line else entry.file,
    )

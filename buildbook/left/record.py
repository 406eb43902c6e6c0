"""Makes what a bound job leaves for the pages across jobs."""

from __future__ import annotations

from collections.abc import Sequence

from buildbook.find.excerpt import Excerpt
from buildbook.find.record import find_record
from buildbook.job.model import Job, Part
from buildbook.left.model import Cover, Entry, JobRecord
from buildbook.left.uses import used_of
from buildbook.quantity import Style
from buildbook.summary.model import Summary
from buildbook.summary.sets import each_of
from buildbook.summary.style import style_of
from buildbook.trade import tables
from buildbook.words import Words


def job_record(
    job: Job, summary: Summary, words: Words, passages: Sequence[Excerpt], cover: Cover | None
) -> JobRecord:
    """The record of a job in the language of its shop. passages: its words (`find.passages_of`). cover: its picture."""
    return JobRecord(
        entry=_entry(job, summary, words, cover),
        find=find_record(job, summary, words, passages),
        used=used_of(job, summary),
    )


def _entry(job: Job, summary: Summary, words: Words, cover: Cover | None) -> Entry:
    style = style_of(job, words)
    woods = dict.fromkeys(_wood_name(part, words) for part in job.parts if part.kind == "wood")
    return Entry(
        key=job.key,
        title=job.title or job.key,
        number=job.number,
        piece=job.piece,
        year=str(job.last_day.year) if job.last_day else "",
        begun=job.begun.isoformat() if job.begun else "",
        delivered=job.delivered.isoformat() if job.delivered else "",
        pieces=_pieces(job, words),
        size=_of_each(style.size(*job.overall.metres), job, words),
        woods=tuple(woods),
        tags=job.tags,
        hours=_hours(job, summary, style, words),
        picture=cover,
    )


def _pieces(job: Job, words: Words) -> str:
    if job.quantity == 1:
        return ""
    return words.text("shelf.pieces", count=job.quantity)


def _of_each(value: str, job: Job, words: Words) -> str:
    return words.text("set.each", value=value) if value and job.quantity > 1 else value


def _hours(job: Job, summary: Summary, style: Style, words: Words) -> str:
    """The hours of a job; of a set, those of a piece too."""
    if not summary.hours.total_h:
        return ""
    whole = style.hours(summary.hours.total_h)
    if job.quantity == 1:
        return whole
    form = "two" if job.quantity == 2 else "more"
    each = style.hours(round(each_of(summary).hours_h, 1))
    return words.text(f"set.each_and_all.{form}", each=each, all=whole, count=job.quantity)


def _wood_name(part: Part, words: Words) -> str:
    if part.key:
        return words.name("species_name", part.key, tables.species()[part.key].name)
    return part.material[:1].upper() + part.material[1:]

"""A finish in time: its coats, when it may be used with care, when it is hard. Holds no geometry."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from buildbook.job.model import Job
from buildbook.pages.phrases import Phrases, capital
from buildbook.pages.sets import of_pieces, pieces_said
from buildbook.summary.model import BatchDates, FinishUse, Summary


@dataclass(frozen=True)
class FinishLine:
    """The days of one finish. `first_day` and `last_day` are those of all finishes of the piece, so that
    their lines stand to one scale; `place` is the finish's in the schedule. `*_word` says what a mark is,
    `*_when` its date. `pieces` names those of a set that it is for, where it is not for all.
    """

    place: int
    title: str
    sentence: str
    first_day: date
    last_day: date
    coats: tuple[date, ...]
    light_use_from: date | None
    hard_from: date
    hard_to: date
    coats_word: str
    coats_when: str
    light_word: str
    light_when: str
    hard_word: str
    hard_when: str
    pieces: str = ""


def finish_lines(job: Job, summary: Summary, phrases: Phrases) -> tuple[FinishLine, ...]:
    """A line for each finish whose coats are dated, in the order of the schedule; of a set whose pieces went apart with
    other coats, one for those of each delivery.
    """
    dated = [
        _Dated(place, use, coats, days, days.full_cure_to)
        for place, (use, finish) in enumerate(zip(summary.finish, job.finishes, strict=True))
        for days, coats in _apart(use, finish.coats)
        if coats and days.full_cure_to
    ]
    if not dated:
        return ()
    span = min(min(one.coats) for one in dated), max(one.hard_to for one in dated)
    return tuple(_line(one, span, phrases) for one in dated)


def _apart(use: FinishUse, coats: tuple[date, ...]) -> list[tuple[FinishUse | BatchDates, tuple[date, ...]]]:
    """The days and coats of a finish; those of each delivery where they differ."""
    return [(own, own.coats) for own in use.batches] if use.batches else [(use, coats)]


@dataclass(frozen=True)
class _Dated:
    """A finish by its own days, or by those of the pieces of one delivery."""

    place: int
    use: FinishUse
    coats: tuple[date, ...]
    days: FinishUse | BatchDates
    hard_to: date

    @property
    def pieces(self) -> tuple[int, ...]:
        return self.days.pieces if isinstance(self.days, BatchDates) else ()


def _day(day: date, phrases: Phrases, *, year: bool) -> str:
    if year:
        return phrases.date(day)
    return phrases("drawing.day", day=day.day, month=phrases(f"dates.months.m{day.month}"))


def _days(first: date, last: date, phrases: Phrases, *, year: bool) -> str:
    """`26 to 31 March`: month and year once where they are shared."""
    end = _day(last, phrases, year=year)
    if first == last:
        return end
    if (first.year, first.month) == (last.year, last.month):
        begin = phrases("dates.day_only", day=first.day)
    else:
        begin = _day(first, phrases, year=first.year != last.year)
    return phrases("drawing.to", first=begin, last=end)


def _line(dated: _Dated, span: tuple[date, date], phrases: Phrases) -> FinishLine:
    place, coats, hard_to, use = dated.place, dated.coats, dated.hard_to, dated.days
    title = of_pieces(phrases.finish(dated.use), dated.pieces, phrases)
    hard_from = use.full_cure_from or hard_to
    year = span[0].year != span[1].year  # told only where the drawing crosses into another
    coats_when = _days(min(coats), max(coats), phrases, year=year)
    hard_when = _days(hard_from, hard_to, phrases, year=year)
    light = _day(use.light_use_from, phrases, year=year) if use.light_use_from else ""
    key = "drawing.finish_sentence" if light else "drawing.finish_sentence_no_light"
    return FinishLine(
        place=place,
        title=phrases("drawing.finish", finish=title),
        sentence=phrases(key, finish=title, coats=coats_when, light=light, hard=hard_when),
        first_day=span[0],
        last_day=span[1],
        coats=coats,
        light_use_from=use.light_use_from,
        hard_from=hard_from,
        hard_to=hard_to,
        coats_word=phrases.count("drawing.coats", len(coats)),
        coats_when=coats_when,
        light_word=phrases("drawing.light_use"),
        light_when=phrases("drawing.from", day=light) if light else "",
        hard_word=phrases("drawing.hard"),
        hard_when=hard_when,
        pieces=capital(pieces_said(dated.pieces, phrases)) if dated.pieces else "",
    )

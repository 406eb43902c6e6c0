"""Each finish of a piece as its owner reads of it: what it is, where it is, how it is renewed, when it was put on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date

from buildbook.job.model import Job, Part
from buildbook.pages import sets
from buildbook.pages.client.piece import FinishStory, PutOn
from buildbook.pages.client.renewing import renewal
from buildbook.pages.phrases import Phrases, capital
from buildbook.pages.shared import Line
from buildbook.summary.model import BatchDates, FinishUse, Summary

_PARTS_SHOWN = 4  # more names than these are a list, and stand behind a line


def finish_stories(job: Job, summary: Summary, phrases: Phrases) -> tuple[FinishStory, ...]:
    """The finishes in the order of the schedule, those that lie beneath others too."""
    called = {use.key: phrases.finish(use) for use in summary.finish}
    return tuple(_finish_story(job, use, called, phrases) for use in summary.finish)


def _finish_story(job: Job, use: FinishUse, called: Mapping[str, str], phrases: Phrases) -> FinishStory:
    finish = next(f for f in job.finishes if f.key == use.key)
    lines = []
    if beneath := [called[layer.key] for layer in job.layers(use.key)[1:]]:
        lines.append(Line(phrases("finish.beneath"), phrases.listed(beneath)))
    if above := [called[other.key] for other in job.finishes if other.over == use.key]:
        lines.append(Line(phrases("finish.above"), phrases.listed(above)))
    if use.batches:
        lines += [
            replace(line, label=sets.of_pieces(line.label, own.pieces, phrases))
            for own in use.batches
            for line in _days(own, own.coats, len(own.coats), phrases)
        ]
    else:
        lines += _days(use, finish.coats, use.coats, phrases)
    named = _named(job.bearing(use.key))
    return FinishStory(
        title=phrases.finish(use),
        where=capital(phrases.names(named)),
        where_folded=phrases("renewing.parts", count=len(named)) if len(named) > _PARTS_SHOWN else "",
        said=renewal(job, finish, use, phrases),
        lines=tuple(lines),
        coats=tuple(finish.coats),
        light_use_from=use.light_use_from,
        full_cure_from=use.full_cure_from,
        full_cure_to=use.full_cure_to,
        batches=tuple(
            PutOn(own.pieces, sets.pieces_said(own.pieces, phrases), own.coats) for own in use.batches
        ),
    )


def _days(
    days: FinishUse | BatchDates, coats: Sequence[date], count: int, phrases: Phrases
) -> Iterator[Line]:
    """When a finish was put on, when it may be used, when it is hard: by its days, or by those of some pieces."""
    if coats:
        yield Line(phrases("finish.coats"), phrases.count("finish.coat_count", count), phrases.dates(coats))
    if days.light_use_from:
        yield Line(phrases("finish.light_use"), phrases("finish.from", day=phrases.date(days.light_use_from)))
    if days.full_cure_from and days.full_cure_to:
        first, last = phrases.date(days.full_cure_from), phrases.date(days.full_cure_to)
        key = "finish.from" if first == last else "finish.between"
        ready = phrases(key, day=last, first=first, last=last)
        yield Line(phrases("finish.full_cure"), ready, phrases("finish.sheet_decides"))


def _named(bearing: Iterable[Part]) -> tuple[str, ...]:
    """The parts that have a finish, those that the client may read of, each once."""
    names = (p.name.split(",")[0] for p in bearing if p.for_client and p.faces != "none")
    return tuple(dict.fromkeys(names))

"""A set in words: its pieces by their numbers, a figure for each and for all, when which of them went.

For a job that makes one piece each of these says what it says of one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date

from buildbook.job.model import Job
from buildbook.job.toml.pieces import told_pieces
from buildbook.pages.phrases import Phrases

_DASH = "–"
_NAMED = 24  # pieces that are listed one by one; of more, the first and the last


def pieces_said(pieces: Iterable[int], phrases: Phrases) -> str:
    """`pieces 1–4`, `piece 3`."""
    every = tuple(pieces)
    return phrases.count("set.pieces", len(every), pieces=told_pieces(every, _DASH))


def of_pieces(what: str, pieces: Iterable[int], phrases: Phrases) -> str:
    """`The oil is fully hard (pieces 1–4)`; without pieces, what is said of all."""
    every = tuple(pieces)
    return phrases("set.of_pieces", what=what, pieces=pieces_said(every, phrases)) if every else what


def numbers_said(job: Job) -> str:
    """The number of the job; of a set, those of its pieces: `2026-022/1–6`, without a number of the job `1/6–6/6`."""
    if job.quantity == 1:
        return job.number
    first, last = job.piece_number(1), job.piece_number(job.quantity)
    return f"{first}{_DASH}{job.quantity if job.number else last}"


def of_set(key: str, job: Job, phrases: Phrases, **values: object) -> str:
    """A phrase that speaks of all pieces, which are `both` of two: keys `<key>.two`, `<key>.more`."""
    form = "two" if job.quantity == 2 else "more"
    return phrases(f"{key}.{form}", count=job.quantity, **values)


def every_number(job: Job, phrases: Phrases) -> str:
    """Each piece with its number and its place: `2026-022/1 (1 of 6)`; of very many, the first and the last."""
    pieces = job.numbers if job.quantity <= _NAMED else (1, job.quantity)
    said = [
        phrases("set.number_of", number=job.piece_number(piece), place=piece, count=job.quantity)
        for piece in pieces
    ]
    return f" {_DASH} ".join(said) if job.quantity > _NAMED else ", ".join(said)


def each(value: str, job: Job, phrases: Phrases) -> str:
    """A figure that is for each piece."""
    return phrases("set.each", value=value) if value and job.quantity > 1 else value


def for_all(value: str, job: Job, phrases: Phrases) -> str:
    """A figure that is for all pieces together."""
    return of_set("set.for_all", job, phrases, value=value) if value and job.quantity > 1 else value


def each_and_all(one: str, whole: str, job: Job, phrases: Phrases) -> str:
    """A figure for each piece and for all of them."""
    if job.quantity == 1:
        return whole
    return of_set("set.each_and_all", job, phrases, each=one, all=whole)


def delivered_said(job: Job, phrases: Phrases, told: Callable[[date], str]) -> str:
    """The days on which pieces went, by `told`; of those that went apart, which, and which are still here. Empty where
    none has gone.
    """
    if not job.handed_over:
        return ""
    batches = job.batches
    if len(batches) == 1 and batches[0].day:
        return told(batches[0].day)
    return ", ".join(
        of_pieces(told(batch.day), batch.pieces, phrases)
        if batch.day
        else phrases("set.not_delivered", pieces=pieces_said(batch.pieces, phrases))
        for batch in batches
    )

"""What the maker says to those who live with the piece, as instructions among the others: how it comes apart, where a
hole may go, what is guaranteed.

In: a job. Out: items of care in the maker's own words, each where its reader looks for it.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.care import CareItem
from buildbook.care.rules import Season
from buildbook.job.model import Job
from buildbook.pages.phrases import Phrases, capital

_BEFORE_ALL = -1  # what the maker says of this piece stands before what holds for any


def told_by_maker(job: Job, phrases: Phrases) -> tuple[CareItem, ...]:
    """What a job says of itself; nothing where it does not."""
    return tuple(_told(job, phrases))


def _told(job: Job, phrases: Phrases) -> Iterator[CareItem]:
    if job.comes_apart:
        steps = "; ".join(
            phrases("told.step", place=place, step=step) for place, step in enumerate(job.comes_apart, 1)
        )
        yield _item("apart", "moving", phrases("told.apart.text", steps=steps), phrases)
    if job.may_drill:
        yield _item("drill", "changing", phrases("told.drill.text", where=_sentence(job.may_drill)), phrases)
    if job.guaranteed:
        text = phrases("told.guarantee.text", guarantee=_sentence(job.guaranteed))
        yield _item("guarantee", "another", text, phrases)


def _sentence(words: str) -> str:
    """The maker's words as a sentence of their own."""
    return capital(words) if words.endswith((".", "!", "?", "…")) else f"{capital(words)}."


def _item(key: str, season: Season, text: str, phrases: Phrases) -> CareItem:
    return CareItem(
        key=f"told-{key}",
        title=phrases(f"told.{key}.title"),
        text=text,
        why=phrases(f"told.{key}.why"),
        short="",
        audience="client",
        severity="note",
        season=season,
        day_one=False,
        source=phrases("told.source"),
        basis="read",
        order=_BEFORE_ALL,
    )

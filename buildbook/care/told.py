"""Facts that only a maker's own words tell: fittings with a danger of their own, and what a piece is beyond its kind.

In: the rows, the title, the tags and the features of a job. Out: findings, each true of a part by its name, or of the
piece.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.care.piece import Piece, piece_of
from buildbook.care.setting import can_tip
from buildbook.care.subject import Found, by_name, in_piece
from buildbook.job.model import Job
from buildbook.signs import says
from buildbook.words import Words

_FITTINGS = {
    "gas-strut": "part.gas-strut",
    "button-cell": "electric.button-cell",
    "motor": "electric.motor",
}
"""Signs of a row that stays in the piece, and the fact that each gives away."""


def found(job: Job, words: Words) -> Iterator[Found]:
    """Every fact that words tell."""
    piece = piece_of(job)
    for part in in_piece(job):
        said = (part.name, part.material)
        yield from ((fact, by_name(part, words)) for sign, fact in _FITTINGS.items() if says(sign, *said))
        if says("felt", *said) and (part.kind == "upholstery" or says("inside", part.name)):
            yield "upholstery.felt", by_name(part, words)
    yield from ((fact, None) for fact, holds in _of_piece(job, piece).items() if holds)


def _of_piece(job: Job, piece: Piece) -> dict[str, bool]:
    """What holds of the whole piece, by its kind together with what it is called."""
    called = (job.piece, job.title)
    told = (*called, *job.tags, *job.features)
    return {
        "part.opening": bool(piece.has & {"doors", "drawers"}),
        "piece.fixed": bool(piece.has & {"hangs", "leans"}) or piece.is_a("wall-bed") or can_tip(job, piece),
        "piece.rocker": piece.is_a("chair") and says("rocker", *told),
        "piece.toddler-bed": piece.is_a("cot") and says("toddler-bed", *called),
        "piece.marked": bool(job.marks),
        "piece.may-drill": bool(job.may_drill),
        "piece.fire-door": piece.is_a("room-door") and says("fire-door", *told),
        "use.television": piece.is_a("tv-stand") or says("television", *told, job.use),
        "use.humidor": piece.is_a("box") and says("humidor", *told),
    }

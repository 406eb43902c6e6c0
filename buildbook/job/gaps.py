"""What the record of a piece still lacks, for `proof`: nothing here keeps a job from being bound.

Asked for by the Object ID checklist (type, measurements, materials, marks, date, maker, title, features,
description, photographs), by Regulation (EU) 2023/988, article 9 (6, 7) (name, postal and electronic address,
number, instructions), and by EN 12520, EN 12521 and EN 14749 (information for use).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from buildbook.job.client_pictures import without_words
from buildbook.job.model import Finish, Job
from buildbook.problems import Problem, listed
from buildbook.trade.kinds import kind_of

OBJECT_ID = "Object ID"
SAFETY = "Regulation (EU) 2023/988, article 9"
FURNITURE = "EN 12520, EN 12521, EN 14749"
OWNERS = "owners ask for it"


_WITHOUT_SHEEN = frozenset({"unfinished", "soap", "mineral-oil", "board-wax", "reactive-stain"})
"""Families of which no tin tells a sheen, or of which there is no tin."""


@dataclass(frozen=True)
class Wanted:
    """A thing that the record should say: where it is written, what is missing, what the page gains, who asks
    for it.
    """

    file: str
    field: str
    missing: str
    gain: str
    asked_by: str
    there: Callable[[Job], bool]


WANTED: tuple[Wanted, ...] = (
    Wanted(
        "job.toml", "title", "a title", "the page names the piece", OBJECT_ID, lambda job: bool(job.title)
    ),
    Wanted(
        "job.toml",
        "number",
        "a number",
        "the piece can be told from any other",
        SAFETY,
        lambda job: bool(job.number),
    ),
    Wanted(
        "job.toml",
        "piece",
        "the type of piece",
        "the page and the search know what it is",
        OBJECT_ID,
        lambda job: bool(job.piece),
    ),
    Wanted(
        "job.toml",
        "overall",
        "all three outer sizes",
        "the page gives its measurements",
        OBJECT_ID,
        lambda job: None not in job.overall.metres,
    ),
    Wanted(
        "job.toml",
        "delivered",
        "the day of delivery",
        "the page dates the piece, and care is counted from it",
        OBJECT_ID,
        lambda job: job.handed_over,
    ),
    Wanted(
        "job.toml",
        "marks",
        "how it is marked (number, name, postal and electronic address)",
        "the piece can be known as this one, and who made it",
        f"{OBJECT_ID}; {SAFETY}",
        lambda job: bool(job.marks),
    ),
    Wanted(
        "job.toml",
        "features",
        "features of its own",
        "the piece can be known as this one",
        OBJECT_ID,
        lambda job: bool(job.features),
    ),
    Wanted(
        "job.toml",
        "description",
        "a description",
        "the page tells it in words",
        OBJECT_ID,
        lambda job: bool(job.description),
    ),
    Wanted(
        "job.toml",
        "joinery",
        "how it is joined",
        "the page names its techniques",
        OBJECT_ID,
        lambda job: bool(job.joinery),
    ),
    Wanted(
        "parts.csv",
        "",
        "a material",
        "the page says what the piece is made of",
        OBJECT_ID,
        lambda job: any(part.for_client for part in job.parts),
    ),
    Wanted(
        "photos",
        "",
        "a photo for the client",
        "the page shows the piece",
        OBJECT_ID,
        lambda job: _has_client_photo(job),
    ),
    Wanted(
        "job.toml",
        "use",
        "what it is meant for",
        "the page states the intended use",
        FURNITURE,
        lambda job: bool(job.use),
    ),
    Wanted(
        "job.toml",
        "fitting",
        "how it is set up",
        "the page says how to fit it",
        FURNITURE,
        lambda job: bool(job.fitting) or not _is_furniture(job),
    ),
    Wanted(
        "job.toml",
        "adjusting",
        "what can be adjusted",
        "the page says how to adjust it",
        FURNITURE,
        lambda job: bool(job.adjusting) or not (job.doors or job.drawers),
    ),
    Wanted(
        "job.toml",
        "limits",
        "its limits",
        "the page says what it must not carry or do",
        FURNITURE,
        lambda job: bool(job.limits or job.loads) or not _is_furniture(job),
    ),
    Wanted(
        "job.toml",
        "finish",
        "a finish",
        "the page says how to care for it",
        FURNITURE,
        lambda job: bool(job.finishes),
    ),
    Wanted(
        "job.toml",
        "loads",
        "what a drawer or a shelf carries",
        "the page says how many kilograms each may bear",
        OWNERS,
        lambda job: bool(job.loads) or not _holds_things(job),
    ),
    Wanted(
        "job.toml",
        "may_drill",
        "where a hole for a cable may go",
        "the page says where, and where never",
        OWNERS,
        lambda job: bool(job.may_drill) or not _holds_things(job),
    ),
    Wanted(
        "job.toml",
        "finish",
        "the product and the sheen of a finish, as they stand on the tin",
        "whoever renews it can buy the same",
        OWNERS,
        lambda job: all(_can_be_bought(one, job) for one in job.finishes),
    ),
    Wanted(
        "shop.toml",
        "guarantee",
        "what you guarantee",
        "the page says so in your words; a job may say it of its piece alone",
        OWNERS,
        lambda job: bool(job.guaranteed),
    ),
    Wanted(
        "shop.toml",
        "maker",
        "the maker",
        "the page says who made it",
        OBJECT_ID,
        lambda job: bool(job.shop.maker or job.shop.name),
    ),
    Wanted(
        "shop.toml",
        "name",
        "the name of the shop",
        "the page says who answers for the piece",
        SAFETY,
        lambda job: bool(job.shop.name),
    ),
    Wanted(
        "shop.toml",
        "address",
        "a postal address",
        "the client knows where to write",
        SAFETY,
        lambda job: bool(job.shop.address),
    ),
    Wanted(
        "shop.toml",
        "email",
        "an electronic address",
        "the client knows where to ask",
        SAFETY,
        lambda job: bool(job.shop.email or job.shop.web),
    ),
)


def _is_furniture(job: Job) -> bool:
    """Whether the standards of furniture speak of it; what is not known is taken for some."""
    kind = kind_of(job.piece, job.title)
    return kind is None or "furniture" in kind.has


def _holds_things(job: Job) -> bool:
    """Whether it has drawers or shelves, as far as the job or its kind tells."""
    kind = kind_of(job.piece, job.title)
    has = kind.has if kind else frozenset[str]()
    return bool(job.drawers) or "shelves" in has or ("drawers" in has and job.drawers is None)


def _can_be_bought(finish: Finish, job: Job) -> bool:
    """Whether a shop could sell the same again, or nobody will ask for it."""
    told = bool(finish.product and finish.sheen)
    return told or finish.family in _WITHOUT_SHEEN or job.is_beneath(finish.key)


def _has_client_photo(job: Job) -> bool:
    return bool(job.lead or job.client_photos) or any(
        picture.for_client for entry in job.entries for picture in entry.pictures
    )


def record_gaps(job: Job) -> list[Problem]:
    """A warning for each thing that the record of the piece lacks, in the order of the checklist."""
    gaps = [
        Problem(
            "warning",
            wanted.file,
            f"The record lacks {wanted.missing} ({wanted.asked_by}).",
            f"With it {wanted.gain}.",
            field=wanted.field,
        )
        for wanted in WANTED
        if not wanted.there(job)
    ]
    if bare := without_words(job):
        gaps.append(
            Problem(
                "warning",
                "photos.toml",
                f"The client sees pictures without words: {listed(bare)}.",
                "Write a caption for each; whoever does not see the picture hears it.",
                field="caption",
            )
        )
    return gaps

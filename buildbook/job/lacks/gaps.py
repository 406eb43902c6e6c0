"""What a handover of the piece still lacks, in order of worth, for `proof`: nothing here keeps a job from being bound.

In: a job. Out: how many things a handover of such a piece should say, how many are there, and which are not. What they
are, what they are worth and who asks for them is in data/wanted.csv and data/asked_by.csv, with sources; here is how to
tell whether a job has them.
"""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType

from buildbook.job.client_pictures import client_pictures, without_words
from buildbook.job.model import Finish, Job
from buildbook.problems import listed
from buildbook.trade.kinds import kind_of

_WITHOUT_SHEEN = frozenset({"unfinished", "soap", "mineral-oil", "board-wax", "reactive-stain"})
"""Families of which no tin tells a sheen, or of which there is no tin."""

_WOODS_TOLD = 12
"""Woods without an origin that have a line of their own."""

_PICTURES_NAMED = 5


@dataclass(frozen=True)
class Wanted:
    """A thing that a handover should say: where it is written; `missing` and `without` are what is told where it is not
    there, {1} is filled in; asked_by: a key of data/asked_by.csv.
    """

    key: str
    worth: int
    file: str
    field: str
    missing: str
    without: str
    asked_by: str


@dataclass(frozen=True)
class Gap:
    """A thing that is not there. `missing: without` is a sentence; `asked_by` says who asks for it."""

    key: str
    file: str
    field: str
    missing: str
    without: str
    asked_by: str

    @property
    def place(self) -> str:
        return ", ".join(filter(None, (self.file, self.field)))

    def __str__(self) -> str:
        return f"{self.missing}: {self.without} [{self.place}; {self.asked_by}]"


@dataclass(frozen=True)
class Readiness:
    """How far a job is: `there` of `of` things that a handover of such a piece should say, and the gaps, the weightiest
    first.
    """

    there: int
    of: int
    missing: tuple[Gap, ...]


@cache
def wanted() -> tuple[Wanted, ...]:
    """What a handover should say, the weightiest first."""
    rows = [
        Wanted(**(row | {"worth": int(row["worth"])}))  # type: ignore[arg-type]
        for row in _rows("wanted.csv")
    ]
    return tuple(sorted(rows, key=lambda one: (-one.worth, one.key)))


@cache
def asked_by() -> Mapping[str, str]:
    """Who asks, in words, by key."""
    return MappingProxyType({row["key"]: row["said"] for row in _rows("asked_by.csv")})


def _rows(name: str) -> Iterator[dict[str, str]]:
    text = resources.files("buildbook.job").joinpath("data", name).read_text("utf-8")
    return csv.DictReader(line for line in text.split("\n") if line and not line.startswith("# "))


# -- what is there -------------------------------------------------------------------------------

Lacking = tuple[int, list[str]]
"""How many things of a kind a job should say, and what fills the sentence for each that it does not."""


def _one(there: bool, *, asked: bool = True) -> Lacking:
    """Of a thing that is there once, or is not asked of such a piece."""
    return int(asked), [""] if asked and not there else []


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


def _origins(job: Job) -> Lacking:
    """Each wood that the client sees once, by the name in its first row; it is enough that one of its rows tells."""
    woods: dict[str, str] = {}
    told = set()
    for part in job.parts:
        if part.kind == "wood" and part.for_client and part.material:
            woods.setdefault(part.same, part.material)
            if part.origin or part.country:
                told.add(part.same)
    lacking = [name for same, name in woods.items() if same not in told]
    more = len(lacking) - _WOODS_TOLD
    if more > 1:
        lacking[_WOODS_TOLD:] = [f"{more} other woods"]
    return len(woods) - max(more - 1, 0), lacking


def _captions(job: Job) -> Lacking:
    """All pictures that the client sees as one thing."""
    if not any(client_pictures(job)):
        return 0, []
    bare = without_words(job)
    if len(bare) > _PICTURES_NAMED + 1:
        bare = (*bare[:_PICTURES_NAMED], f"{len(bare) - _PICTURES_NAMED} other pictures")
    return 1, [listed(bare)] if bare else []


_LACKING: Mapping[str, Callable[[Job], Lacking]] = {
    "title": lambda job: _one(bool(job.title)),
    "number": lambda job: _one(bool(job.number)),
    "piece": lambda job: _one(bool(job.piece)),
    "overall": lambda job: _one(None not in job.overall.metres),
    "delivered": lambda job: _one(job.handed_over),
    "marks": lambda job: _one(bool(job.marks)),
    "features": lambda job: _one(bool(job.features)),
    "description": lambda job: _one(bool(job.description)),
    "joinery": lambda job: _one(bool(job.joinery)),
    "material": lambda job: _one(any(part.for_client for part in job.parts)),
    "origin": _origins,
    "photo": lambda job: _one(_has_client_photo(job)),
    "caption": _captions,
    "use": lambda job: _one(bool(job.use)),
    "fitting": lambda job: _one(bool(job.fitting), asked=_is_furniture(job)),
    "adjusting": lambda job: _one(bool(job.adjusting), asked=bool(job.doors or job.drawers)),
    "limits": lambda job: _one(bool(job.limits or job.loads), asked=_is_furniture(job)),
    "finish": lambda job: _one(bool(job.finishes)),
    "loads": lambda job: _one(bool(job.loads), asked=_holds_things(job)),
    "may-drill": lambda job: _one(bool(job.may_drill), asked=_holds_things(job)),
    "tin": lambda job: _one(all(_can_be_bought(one, job) for one in job.finishes), asked=bool(job.finishes)),
    "guarantee": lambda job: _one(bool(job.guaranteed)),
    "maker": lambda job: _one(bool(job.shop.maker or job.shop.name)),
    "shop-name": lambda job: _one(bool(job.shop.name)),
    "address": lambda job: _one(bool(job.shop.address)),
    "email": lambda job: _one(bool(job.shop.email or job.shop.web)),
}


def record_gaps(job: Job) -> Readiness:
    """How far the record of a job is, and what it lacks."""
    of, gaps = 0, list[Gap]()
    for one in wanted():
        count, lacking = _LACKING[one.key](job)
        of += count
        said = _said_by(one.asked_by, job)
        gaps += [
            Gap(one.key, one.file, one.field, one.missing.replace("{1}", filled), one.without, said)
            for filled in lacking
        ]
    return Readiness(of - len(gaps), of, tuple(gaps))


def _said_by(key: str, job: Job) -> str:
    """Who asks, of such a piece; furniture for outdoors and for children has standards of its own."""
    kind = kind_of(job.piece, job.title)
    family = kind.family if kind and not kind.has & {"outdoors", "child"} else ""
    return asked_by().get(f"{key}.{family}") or asked_by()[key]

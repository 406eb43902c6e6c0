"""Facts about the piece as a whole: what it is, how it stands or hangs, its mass, where it is, who lives
with it, where it is sold.

In: the facts of the job, its mass. Out: findings.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.care.subject import Found, Subject, by_name, in_piece
from buildbook.job.model import Job
from buildbook.job.table.countries import find_country
from buildbook.signs import in_prose, keys, limit, says
from buildbook.summary.model import Summary
from buildbook.summary.place import is_outdoors, is_southern
from buildbook.trade.days import half_a_year_on
from buildbook.words import Words


def found(job: Job, summary: Summary, words: Words) -> Iterator[Found]:
    """Every fact about the setting; none of them but `near.…` and `use.blades` is true of one thing."""
    yield from ((fact, None) for fact in _standing(job, summary))
    yield from ((fact, None) for fact in _use(job))
    yield from ((fact, None) for fact in _trade_rules(job))
    yield from ((fact, None) for fact in _arrival(job))
    yield from _near(job, words)
    yield from _blades(job, words)
    for part in job.parts:
        if says("crate", part.name, part.material):
            yield "sold.crate", by_name(part, words)


def is_kind(job: Job, sign: str) -> bool:
    """Whether the piece is of a kind, by what the job calls it, or by its title where that is not said."""
    return says(sign, job.piece or job.title)


def hangs(job: Job) -> bool:
    return job.hanging is not None or job.stands in ("wall", "ceiling")


def _standing(job: Job, summary: Summary) -> Iterator[str]:
    mass_kg = summary.mass.total_kg
    if hangs(job):
        yield "hangs"
    elif job.stands == "floor" or (not job.stands and _is_floor_piece(job)):
        yield "stands.floor"
    if job.contents_kg is not None:
        yield "load.stated"
    if mass_kg > limit("heavy_kg"):
        yield "mass.heavy"
    if is_kind(job, "seat"):
        yield "piece.seat"
    if is_kind(job, "seat") or is_kind(job, "table") or is_kind(job, "bed"):
        yield "piece.jointed-frame"
    if _can_tip(job, summary):
        yield "piece.can-tip"
        if is_kind(job, "clothing") and _may_enclose(job, limit("storage_m3")):
            yield "piece.clothing-storage"
    if is_kind(job, "chest") and _has_lid(job) and _may_enclose(job, limit("child_room_m3")):
        yield "piece.lidded-chest"


def _is_floor_piece(job: Job) -> bool:
    return any(is_kind(job, sign) for sign in ("case", "seat", "table", "bed", "chest"))


def _can_tip(job: Job, summary: Summary) -> bool:
    """A free-standing case as tall and as heavy as the US rule for clothing storage looks at (27 in, 30 lb).

    A size or a mass that is not known, or not known whole, counts as enough: silence would be the worse
    mistake.
    """
    opens = bool(job.doors or job.drawers) and not any(
        is_kind(job, sign) for sign in ("seat", "table", "bed")
    )
    if hangs(job) or job.stands == "table" or not (is_kind(job, "case") or opens):
        return False
    height_m = job.overall.height.m if job.overall.height else None
    mass = summary.mass
    light = 0 < mass.total_kg < limit("tip_kg") and not mass.unknown
    return (height_m is None or height_m >= limit("tall_m")) and not light


def _may_enclose(job: Job, volume_m3: float) -> bool:
    """Whether the outer sizes leave room for a volume; unknown sizes may."""
    room_m3 = 1.0
    for side_m in job.overall.metres:
        if side_m is None:
            return True
        room_m3 *= side_m
    return room_m3 >= volume_m3


def _has_lid(job: Job) -> bool:
    return says("lid", job.title, *job.tags, *(part.name for part in in_piece(job)))


def _use(job: Job) -> Iterator[str]:
    yield "use.outdoors" if is_outdoors(job) else "use.indoors"
    if job.food:
        yield "use.food"
    if job.children:
        yield "use.children"
    if is_kind(job, "child-article") or says("child-article", job.title):
        yield "use.child-article"


def _trade_rules(job: Job) -> Iterator[str]:
    """Where the piece is sold: the shop's country, and whether it leaves it."""
    country = find_country(job.shop.country).country if job.shop.country else None
    if country is None:
        yield "sold.unsaid"
    elif country.code in keys("us"):
        yield "sold.us"
    elif country.code in keys("eu"):
        yield "sold.eu"
    us = country is not None and country.code in keys("us")
    if job.crosses_border:
        yield "sold.abroad"
    if (us and _imported(job)) or (job.crosses_border and not us):
        yield "sold.us-import"


def _imported(job: Job) -> bool:
    """Whether a wood or a sheet is said to have grown in another country than the shop's."""
    return any(
        part.country and find_country(part.country) != find_country(job.shop.country)
        for part in in_piece(job)
        if part.kind in ("wood", "panel")
    )


def _arrival(job: Job) -> Iterator[str]:
    """Whether it comes into a heated room from the cold; a day of delivery that is not known may be in
    winter.
    """
    if job.delivered is None:
        yield "arrives.unsaid"
        return
    month = half_a_year_on(job.delivered.month) if is_southern(job) else job.delivered.month
    if month >= limit("cold_first_month") or month <= limit("cold_last_month"):
        yield "arrives.cold"


def _near(job: Job, words: Words) -> Iterator[Found]:
    for place in job.near:
        for sign in ("heat", "sun", "damp"):
            if says(sign, place):
                yield f"near.{sign}", Subject(in_prose(words.name("near_name", place, place), words))


def _blades(job: Job, words: Words) -> Iterator[Found]:
    """A display of knives or tools, by the kind of piece, its title and its tags, and by its parts."""
    if says("blades", job.piece, job.title, job.use, *job.tags):
        yield "use.blades", None
    for part in in_piece(job):
        if says("blades", part.name, part.material):
            yield "use.blades", by_name(part, words)

"""Facts about the piece as a whole: what it is, how it stands or hangs, its mass, where it is, who lives
with it, where it is sold.

In: the facts of the job, its mass. Out: findings.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.care.piece import Piece, piece_of
from buildbook.care.subject import Found, Subject, by_name, in_piece
from buildbook.job.model import Job
from buildbook.job.table.countries import find_country
from buildbook.signs import in_prose, keys, limit, says
from buildbook.summary.model import Summary
from buildbook.summary.place import is_southern
from buildbook.summary.sets import each_of
from buildbook.trade.days import half_a_year_on
from buildbook.trade.kinds import REACHES
from buildbook.words import Words


def found(job: Job, summary: Summary, words: Words) -> Iterator[Found]:
    """Every fact about the setting; none of them but `near.…` and `use.blades` is true of one thing."""
    piece = piece_of(job)
    yield from ((fact, None) for fact in _kinds(piece))
    yield from ((fact, None) for fact in _standing(job, summary, piece))
    yield from ((fact, None) for fact in _use(job, piece))
    yield from ((fact, None) for fact in _trade_rules(job))
    yield from ((fact, None) for fact in _arrival(job))
    yield from _near(job, words)
    yield from _blades(job, piece, words)
    for part in job.parts:
        if says("crate", part.name, part.material):
            yield "sold.crate", by_name(part, words)


def _kinds(piece: Piece) -> Iterator[str]:
    """What it is, what it has, and what reaches it, as facts."""
    yield from (f"kind.{key}" for key in piece.keys)
    if piece.kind is None:
        yield "kind.unknown"
    yield from (fact for has, fact in _HAS.items() if has in piece.has)
    if "furniture" in piece.has and piece.has & _HOLDING:
        yield "piece.holds-things"
    yield from (f"reaches.{what}" for what in REACHES if what in piece.reaches)


_HAS = {
    "furniture": "piece.furniture",
    "top": "has.top",
    "seat": "piece.seat",
    "people": "piece.carries-people",
    "child": "piece.child",
    "leans": "piece.leans",
    "washed-up": "piece.washed-up",
    "built-in": "piece.built-in",
    "frame": "piece.jointed-frame",
    "hangs": "hangs",
    "floor": "stands.floor",
}
"""What a piece has, and the fact of it."""

_HOLDING = frozenset({"top", "doors", "drawers", "shelves", "lid"})
"""What things are put on or into."""

_LOW_CASES = ("sideboard",)
"""Kinds that are mostly lower than what tips by itself, and tip under a child that climbs."""


def _standing(job: Job, summary: Summary, piece: Piece) -> Iterator[str]:
    one_kg = each_of(summary).mass_kg
    if "hangs" in piece.has and _is_light(job, summary, piece):
        yield "hangs.light"
    if job.contents_kg is not None:
        yield "load.stated"
    if one_kg > limit("heavy_kg"):
        yield "mass.heavy"
    if can_tip(job, piece):
        yield "piece.can-tip"
        light = 0 < one_kg < limit("tip_kg") and not summary.mass.unknown
        if "clothes" in piece.has and not light and _may_enclose(job, limit("storage_m3")):
            yield "piece.clothing-storage"
    if is_lidded_chest(job, piece):
        yield "piece.lidded-chest"


def _is_light(job: Job, summary: Summary, piece: Piece) -> bool:
    """Whether a picture hook holds it: it weighs little, and nothing is put on or into it."""
    little = 0 < each_of(summary).mass_kg <= limit("hook_kg") and not summary.mass.unknown
    return little and not piece.has & {"shelves", "doors", "seat", "people"} and job.contents_kg is None


def can_tip(job: Job, piece: Piece) -> bool:
    """Whether it stands free and is as tall as the US rule for clothing storage looks at (27 in), whatever its mass.

    A height that is not known counts as enough: silence would be the worse mistake. Of an unknown kind only what
    opens, or is as tall as a small child can pull at, is taken for a piece that tips.
    """
    if piece.has & {"hangs", "on-table", "built-in"}:
        return False
    height_m = job.overall.height.m if job.overall.height else None
    if piece.kind is not None:
        tall = height_m is None or height_m >= limit("tall_m") or (job.children and piece.is_a(*_LOW_CASES))
        return "tips" in piece.has and tall
    if piece.has & {"doors", "drawers"}:
        return height_m is None or height_m >= limit("tall_m")
    return "floor" in piece.has and height_m is not None and height_m >= limit("tall_unknown_m")


def is_lidded_chest(job: Job, piece: Piece) -> bool:
    """Whether a child may fit under its lid: by its kind unless its sizes forbid it, else by its sizes."""
    if "lid" not in piece.has:
        return False
    whole = all(side is not None for side in job.overall.metres)
    may = "child-fits" in piece.has or piece.is_a("bench") or (whole and piece.is_a("box"))
    return may and _may_enclose(job, limit("child_room_m3"))


def _may_enclose(job: Job, volume_m3: float) -> bool:
    """Whether the outer sizes leave room for a volume; unknown sizes may."""
    room_m3 = 1.0
    for side_m in job.overall.metres:
        if side_m is None:
            return True
        room_m3 *= side_m
    return room_m3 >= volume_m3


def _use(job: Job, piece: Piece) -> Iterator[str]:
    if "outdoors" in piece.has:
        yield "use.outdoors"
    if "outdoors" not in piece.has or says("indoor", job.use):
        yield "use.indoors"
    if "food" in piece.has:
        yield "use.food"
    if job.children:
        yield "use.children"
    if "child" in piece.has:
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
    days = [batch.day for batch in job.batches]
    if None in days:
        yield "arrives.unsaid"
        return
    southern = is_southern(job)
    months = [half_a_year_on(day.month) if southern else day.month for day in days if day]
    if any(month >= limit("cold_first_month") or month <= limit("cold_last_month") for month in months):
        yield "arrives.cold"


def _near(job: Job, words: Words) -> Iterator[Found]:
    for place in job.near:
        for sign in ("heat", "warm-floor", "fire", "hob", "sun", "damp", "bath"):
            if says(sign, place):
                yield f"near.{sign}", Subject(in_prose(words.name("near_name", place, place), words))


def _blades(job: Job, piece: Piece, words: Words) -> Iterator[Found]:
    """A display of knives or tools, by the kind of piece, its title and its tags, and by its parts."""
    if "blades" in piece.has or says("blades", job.piece, job.title, job.use, *job.tags):
        yield "use.blades", None
    for part in in_piece(job):
        if says("blades", part.name, part.material):
            yield "use.blades", by_name(part, words)

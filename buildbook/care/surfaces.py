"""Facts about the finishes of a piece, each true of a finish by its name.

In: the finish schedule and its computed dates. Out: findings.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from buildbook.care.piece import piece_of
from buildbook.care.subject import Found, Subject
from buildbook.job.model import Finish, Job
from buildbook.signs import in_prose, limit, name_in_prose, says
from buildbook.summary.model import Summary
from buildbook.summary.wear import NEVER, is_only_inside, wear_of
from buildbook.trade import tables
from buildbook.trade.records import FinishFamily
from buildbook.words import Words

BARE = "unfinished"
MOST_PARTS_NAMED = 3  # more than this is no help to a reader


def family_of(finish: Finish) -> FinishFamily | None:
    """The row of the finish table, or None for a family that it does not know."""
    table = tables.finishes()
    if finish.family in table:
        return table[finish.family]
    hit = table.find(finish.family) if finish.family else None
    return hit.record if hit else None


def labels(job: Job, words: Words) -> dict[str, str]:
    """What each finish of the schedule is called in a sentence, by its key.

    Its product, else its family; where two are called the same, with the parts that bear it, if they are few
    and the client may read of them. Two that would still be called the same are numbered: keys stay in.
    """
    names = {finish.key: _plain_name(finish, words) for finish in job.finishes}
    times = Counter(names.values())
    names = {
        key: _with_parts(name, _parts_with(job, key, words)) if times[name] > 1 else name
        for key, name in names.items()
    }
    times = Counter(names.values())
    turns: Counter[str] = Counter()
    for key, name in names.items():
        if times[name] > 1:
            turns[name] += 1
            names[key] = words.text("facts.numbered", name=name, count=turns[name])
    return names


def _with_parts(name: str, parts: tuple[str, ...]) -> str:
    return f"{name} ({', '.join(parts)})" if 0 < len(parts) <= MOST_PARTS_NAMED else name


def _plain_name(finish: Finish, words: Words) -> str:
    return finish.product or name_in_prose(family_of(finish), "finish_name", words, finish.family)


def _parts_with(job: Job, key: str, words: Words) -> tuple[str, ...]:
    """The parts that bear a finish, none if one of them is not for the client to read about."""
    bearing = [part for part in job.bearing(key) if part.faces != "none"]
    if not all(part.for_client for part in bearing):
        return ()
    return tuple(dict.fromkeys(in_prose(part.name, words) for part in bearing))


def found(job: Job, summary: Summary, words: Words) -> Iterator[Found]:
    """Every fact about the finishes: what is dangerous in every layer, what a surface asks for in the top one."""
    called = labels(job, words)
    if not job.finishes:
        yield "finish.unsaid", None
    asks_the_maker = bool(piece_of(job).has & {"child", "washed-up"})  # no workshop oil on them
    for finish in job.finishes:
        family = family_of(finish)
        if family is None:
            continue
        subject = Subject(called[finish.key])
        beneath, only_inside = job.is_beneath(finish.key), is_only_inside(job, finish)
        wears = wear_of(job, finish) != NEVER
        rags_at_home = family.has("home") and wears and not (beneath or only_inside)
        at_home = rags_at_home and not asks_the_maker
        dangers = _dangers(finish, family, at_home=at_home, rags_at_home=rags_at_home)
        yield from ((fact, subject) for fact in dangers)
        if beneath:
            continue
        layers = [known for layer in job.layers(finish.key) if (known := family_of(layer))]
        if only_inside:
            yield "finish.inside", subject
        else:
            yield from ((fact, subject) for fact in _facts(finish, layers))
            if wears:
                yield "finish.wears", subject
        if finish.food_safe:
            yield "finish.food-declared", subject
        if _still_curing(finish.key, family, job, summary):
            yield "finish.curing", subject
        if _too_soon(finish.key, job, summary):
            yield "finish.too-soon", subject
    if any(says("isocyanate", part.name, part.material) for part in job.parts if part.kind == "supply"):
        yield "glue.isocyanate", None


def _heats_rags(finish: Finish, family: FinishFamily) -> bool:
    return family.key != BARE and (family.rags_heat or says("drying-oil", finish.product))


def _holds_solvent(finish: Finish, family: FinishFamily) -> bool:
    much = _solvent_kg_per_l(finish, family) > limit("solvent_kg_per_l")
    return much and family.key != BARE and not family.has("water-borne")


def _dangers(finish: Finish, family: FinishFamily, *, at_home: bool, rags_at_home: bool) -> Iterator[str]:
    """What a finish may do to whoever works with it: the shop, and its owner where he renews it himself.

    A bowl is oiled anew at home too, with an oil that its owner has asked about: its rags heat up all the same.
    """
    if family.key == BARE:
        return
    where = "at-home" if at_home else "in-shop"
    if _heats_rags(finish, family):
        yield from ("finish.self-heating", f"finish.rags-{'at-home' if rags_at_home else 'in-shop'}")
    if _holds_solvent(finish, family):
        yield f"finish.solvent-{where}"
    if family.has("caustic"):
        yield f"finish.caustic-{where}"
    elif says("lye", finish.product):
        yield "finish.caustic-in-shop"
    if _may_hold_isocyanate(finish, family):
        yield "finish.two-part"
    for trait in ("acid", "amine", "overspray"):
        if family.has(trait):
            yield f"finish.{trait}"


def _may_hold_isocyanate(finish: Finish, family: FinishFamily) -> bool:
    """By its family; else if it is mixed from two parts, unless its hardener is known to be another."""
    if family.has("isocyanate") or says("isocyanate", finish.product):
        return True
    return finish.two_part and not (family.has("acid") or family.has("amine"))


def _facts(finish: Finish, layers: Sequence[FinishFamily]) -> Iterator[str]:
    """What a finish asks of those who use the piece. `layers`: its family and those beneath it, the top one first."""
    top, *beneath = layers
    yield f"family.{top.key}"
    yield f"surface.{top.cared_as}"
    if top.exterior in ("no", "grade") and not finish.exterior:
        yield "finish.indoors-only"
    if top.food in ("sheet", "no") and not finish.food_safe:
        yield "finish.food-not-declared"
    if top.key == BARE:
        return
    yield "finish.any"
    if top.film == "film":
        yield "finish.film"
    yield from _by_ratings(top)
    for trait, fact in (("rubber", "finish.rubber-marked"), ("nut", "finish.nut")):
        if top.has(trait):
            yield fact
    yield from _by_layers(top, beneath)


def _by_ratings(top: FinishFamily) -> Iterator[str]:
    weak = limit("weak_rating")
    if top.heat is not None and top.heat <= weak and top.has("softens"):
        yield "finish.heat-weak"
    if top.water is not None:
        yield "finish.water-weak" if top.water <= weak else "finish.water-fair"


def _by_layers(top: FinishFamily, beneath: Sequence[FinishFamily]) -> Iterator[str]:
    """What matters of the layers beneath: spirit goes through wax and oil, and who mends must know what is there."""
    reached = (top, *beneath) if top.film != "film" else (top,)
    for trait, fact in (
        ("alcohol-dissolves", "finish.alcohol-dissolved"),
        ("alcohol-softens", "finish.alcohol-softened"),
    ):
        if any(family.has(trait) for family in reached):
            yield fact
    under = {family.cared_as for family in beneath} - {top.cared_as}
    if top.cared_as == "waxed" and top.has("alcohol-dissolves"):
        under.add("polish")
    for classes, fact in _BENEATH:
        if under & classes:
            yield fact


_BENEATH = (
    (frozenset({"colour", "paint", "open-paint"}), "under.colour"),
    (frozenset({"polish"}), "under.polish"),
    (frozenset({"film", "exterior-film"}), "under.film"),
)
"""What lies beneath the top one, by how it would be cared for."""


def _solvent_kg_per_l(finish: Finish, family: FinishFamily) -> float:
    """Solvent off the tin if the job says, else the most that the family holds; none where nobody knows."""
    if finish.voc_g_per_l is not None:
        return finish.voc_g_per_l / 1000
    return family.voc_kg_per_l.high if family.voc_kg_per_l else 0.0


def _too_soon(key: str, job: Job, summary: Summary) -> bool:
    """Whether a piece was handed over before a finish may be used with care."""
    use = next((use for use in summary.finish if use.key == key), None)
    if use is None:
        return False
    days = [(own.delivered, own.light_use_from) for own in use.batches]
    days = days or [(batch.day, use.light_use_from) for batch in job.batches]
    return any(gone and light and light > gone for gone, light in days)


def _still_curing(key: str, family: FinishFamily, job: Job, summary: Summary) -> bool:
    """Whether a finish is not surely hard on the day that a piece goes (or on a day that is not known yet)."""
    use = next((use for use in summary.finish if use.key == key), None)
    if use is None or family.has("soft"):
        return False
    hard = {own.pieces: own.full_cure_to for own in use.batches}
    days = ((batch.day, hard.get(batch.pieces, use.full_cure_to)) for batch in job.batches)
    return any(went is None or cured is None or cured > went for went, cured in days)

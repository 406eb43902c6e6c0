"""Facts about the finishes of a piece, each true of a finish by its name.

In: the finish schedule and its computed dates. Out: findings.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from buildbook.care.piece import piece_of
from buildbook.care.subject import Found, Subject
from buildbook.job.model import Finish, Job
from buildbook.signs import in_prose, keys, limit, name_in_prose, says
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
    bearing = [part for part in job.parts if part.finish == key and part.faces != "none"]
    if not all(part.for_client for part in bearing):
        return ()
    return tuple(dict.fromkeys(in_prose(part.name, words) for part in bearing))


def found(job: Job, summary: Summary, words: Words) -> Iterator[Found]:
    """Every fact about the finishes."""
    called = labels(job, words)
    asks_the_maker = bool(piece_of(job).has & {"child", "washed-up"})  # no workshop oil on them
    for finish in job.finishes:
        family = family_of(finish)
        if family is None:
            continue
        subject = Subject(called[finish.key])
        only_inside = is_only_inside(job, finish)
        by_maker = family.key in keys("renewed-by-maker") or only_inside
        at_home = not by_maker and not asks_the_maker
        yield from ((fact, subject) for fact in _dangers(finish, family, at_home=at_home))
        if only_inside:
            yield "finish.inside", subject
        else:
            yield from ((fact, subject) for fact in _facts(finish, family))
            if wear_of(job, finish) != NEVER:
                yield "finish.wears", subject
        if finish.food_safe:
            yield "finish.food-declared", subject
        if _still_curing(finish.key, job, summary):
            yield "finish.curing", subject
        if _too_soon(finish.key, job, summary):
            yield "finish.too-soon", subject
    if any(says("isocyanate", part.name, part.material) for part in job.parts if part.kind == "supply"):
        yield "glue.isocyanate", None


def _dangers(finish: Finish, family: FinishFamily, *, at_home: bool) -> Iterator[str]:
    """What a finish may do to whoever puts it on, or renews it: its owner, if that is done at home."""
    if family.key == BARE:
        return
    if family.rags_heat or says("drying-oil", finish.product):
        yield "finish.self-heating"
        yield "finish.rags-at-home" if at_home else "finish.rags-in-shop"
    solvent = _solvent_kg_per_l(finish, family) > limit("solvent_kg_per_l")
    if solvent and family.key not in keys("water-borne"):
        yield "finish.solvent-at-home" if at_home else "finish.solvent-in-shop"
    if finish.two_part or says("isocyanate", finish.product):
        yield "finish.two-part"
    if family.key in keys("overspray"):
        yield "finish.overspray"


def _facts(finish: Finish, family: FinishFamily) -> Iterator[str]:
    """What a finish asks of those who use the piece."""
    yield f"family.{family.key}"
    if family.key == BARE:
        return
    yield "finish.any"
    if family.film == "film":
        yield "finish.film"
    if family.heat <= limit("weak_rating"):
        yield "finish.heat-weak"
    yield "finish.water-weak" if family.water <= limit("weak_rating") else "finish.water-fair"
    if family.key in keys("alcohol-soft"):
        yield "finish.alcohol-soft"
    if family.key in keys("rubber-marked"):
        yield "finish.rubber-marked"


def _solvent_kg_per_l(finish: Finish, family: FinishFamily) -> float:
    """Solvent off the tin if the job says, else the most that the family holds."""
    if finish.voc_g_per_l is not None:
        return finish.voc_g_per_l / 1000
    return family.voc_kg_per_l.high


def _too_soon(key: str, job: Job, summary: Summary) -> bool:
    """Whether the piece was handed over before a finish may be used with care."""
    light = next((use.light_use_from for use in summary.finish if use.key == key), None)
    return job.delivered is not None and light is not None and light > job.delivered


def _still_curing(key: str, job: Job, summary: Summary) -> bool:
    """Whether a finish is not surely hard on the day that a piece goes (or on a day that is not known yet)."""
    use = next((use for use in summary.finish if use.key == key), None)
    if use is None or use.family == BARE:
        return False
    hard = {own.pieces: own.full_cure_to for own in use.batches}
    days = ((batch.day, hard.get(batch.pieces, use.full_cure_to)) for batch in job.batches)
    return any(went is None or cured is None or cured > went for went, cured in days)

"""How far the shelves of a job sag, under what the job says they carry, else under books.

In: a `Job`, its masses. Out: a row a shelf, with what was assumed. Ends are taken to rest freely, which is what pins,
cleats and housings come to; a lipping, a rail beneath and supports along the back are not counted.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from buildbook.job.holding_model import PlaceLoad
from buildbook.job.model import Job, Part
from buildbook.signs import says
from buildbook.summary.model import Mass
from buildbook.summary.sag_model import Sag
from buildbook.trade import deflection, tables

_KINDS = ("wood", "panel", "glass")
_WORD = re.compile(r"\w+")


def sag_of(job: Job, mass: Mass) -> tuple[Sag, ...]:
    """Every shelf whose sizes are known, in the order of the parts file."""
    boards = shelves(job)
    return tuple(_sag(part, job, boards, mass) for part in boards)


def shelves(job: Job) -> tuple[Part, ...]:
    """The parts that are shelves by their names."""
    return tuple(
        part
        for part in job.parts
        if part.kind in _KINDS
        and not part.round
        and part.length
        and part.width
        and part.thickness
        and says("shelf-board", part.name)
    )


def _sag(part: Part, job: Job, boards: Iterable[Part], mass: Mass) -> Sag:
    assert part.length
    assert part.width
    assert part.thickness
    span_m = part.between_shoulders_m or part.length.m
    carried_n, guessed = _carried_n(part, span_m, job, boards)
    assumed = [guessed] if guessed else []
    own_n = next((row.kg for row in mass.parts if row.row == part.row), 0.0) / part.qty * _gravity()
    load_n = carried_n + own_n
    first_m = sag_m = share = None
    stiff = _stiffness(part)
    if stiff is None:
        assumed.append(f"{part.name}: how stiff {part.material} is, is not known here")
    else:
        modulus_pa, creep, said = stiff
        moment_m4 = deflection.second_moment_m4(part.width.m, part.thickness.m)
        first_m = deflection.deflection_m(load_n, span_m, modulus_pa, moment_m4)
        sag_m = deflection.lasting_m(first_m, creep)
        share = sag_m / span_m
        assumed.append(f"{part.name}: {said}")
        if span_m < tables.constant("sag_slender") * part.thickness.m:
            assumed.append(f"{part.name}: it is short for its thickness, and sags somewhat more by shear")
    return Sag(
        part=part.name,
        row=part.row,
        material=part.material,
        span_m=span_m,
        load_n_per_m=load_n / span_m,
        load_told=not guessed,
        first_m=first_m,
        sag_m=sag_m,
        sag_per_span=share,
        ok=None if share is None else share <= tables.constant("sag_seen"),
        assumed=tuple(assumed),
    )


def _gravity() -> float:
    return tables.constant("gravity")


def _stiffness(part: Part) -> tuple[float, float, str] | None:
    """Modulus, creep, and where they are from; None where no table has them."""
    if part.kind == "glass":
        known = tables.constants()["glass_modulus"]
        return (
            known.value,
            0.0,
            f"stiffness by {known.source}; whether it is strong enough is not said by its sag",
        )
    if part.kind == "panel":
        sheet = tables.sheet_stiffness().get(part.key)
        return (sheet.modulus_pa, sheet.creep, f"stiffness by {sheet.source}") if sheet else None
    wood = tables.species()[part.key] if part.key else None
    if wood is None or wood.modulus is None:
        return None
    return (
        wood.modulus.value,
        tables.constant("creep_wood"),
        f"stiffness by {wood.modulus.source}, an average",
    )


# -- what it carries -----------------------------------------------------------------------------


def _carried_n(part: Part, span_m: float, job: Job, boards: Iterable[Part]) -> tuple[float, str]:
    """What one shelf carries, and what was assumed, if anything: by `loads`, by its own name or for every shelf; else
    books, but no more than the whole piece is said to carry.
    """
    told = [load for load in job.loads if _is_for(load, part, boards)]
    if not told:
        told = [
            load
            for load in job.loads
            if says("shelf-board", load.place) and not any(_names(load, other) for other in boards)
        ]
    if told:
        return max(load.kg for load in told) * _gravity(), ""
    books = tables.constants()["books_load"]
    carried_n = books.value * span_m
    assumed = f"{part.name}: its load is not told, and books were assumed ({books.source})"
    if job.contents_kg is not None and job.contents_kg * _gravity() < carried_n:
        carried_n = job.contents_kg * _gravity()
        assumed = f"{part.name}: its load is not told, and all that the piece carries was assumed on it"
    return carried_n, assumed


def _is_for(load: PlaceLoad, part: Part, boards: Iterable[Part]) -> bool:
    """Whether a load names this shelf, and none with more words: `the glass shelf` is not any shelf."""
    named = [other for other in boards if _names(load, other)]
    longest = max((len(_WORD.findall(other.name)) for other in named), default=0)
    return part in named and len(_WORD.findall(part.name)) == longest


def _names(load: PlaceLoad, part: Part) -> bool:
    """Whether a load is for a part of this name: its place has all of its words."""
    place, name = (frozenset(_WORD.findall(text.casefold())) for text in (load.place, part.name))
    return bool(name) and name <= place

"""What an enquiry without parts takes, line by line, from what the likest past jobs took, piece for piece.

Woods and finishes keep the names that the enquiry gives them (else the likest job's) and share amounts by rank; what
differs from job to job (sheets, panes, hardware, supplies) is one line a kind, at what such things cost those jobs at
the prices of the day. In: priced enquiry, its summary, past jobs. Out: `MaterialLine`s, problems. Pure.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from buildbook.estimate.materials.lines import BY_AREA
from buildbook.estimate.materials.scaled import ScaledFrom, scaled_range
from buildbook.estimate.model import MaterialLine, Range, Said
from buildbook.estimate.money.prices import PriceSought, converted
from buildbook.estimate.money.pricing import Pricing
from buildbook.estimate.rules import price_rules, scaling_rules
from buildbook.job.model import Job, Part
from buildbook.problems import Problem
from buildbook.quantity import Style
from buildbook.summary import finishes_of, purse_of
from buildbook.summary.model import FinishUse, Summary
from buildbook.summary.timber import RoughPart, rough_parts
from buildbook.trade import cost, tables, timber
from buildbook.trade.finish import volume_of_coats_l
from buildbook.trade.rounding import half_up

Amounts = Mapping[float, float]
"""So much by the exponent that it goes with."""


@dataclass(frozen=True)
class Took:
    """What a past job took. woods: rough m3, the most first; wood_keys: which they are. pooled: by kind and unit; paid:
    what such things cost on the day, and how much of them has a price.
    """

    woods: tuple[Amounts, ...]
    wood_keys: tuple[str, ...]
    finishes: tuple[FinishUse, ...]
    pooled: Mapping[tuple[str, str], Amounts]
    paid: Mapping[tuple[str, str], tuple[Decimal, float]]


def took(job: Job, pricing: Pricing) -> Took:
    """What a past job took, and what that would cost on the day: its own prices are carried like any other."""
    priced, _ = pricing.of_job(job, own=False)
    purse = purse_of(priced)
    pooled: dict[tuple[str, str], dict[float, float]] = {}
    known: dict[tuple[str, str], tuple[Decimal, float]] = {}
    for part, repriced in zip(job.parts, priced.parts, strict=True):
        if part.kind == "wood":
            continue
        name, exponent, amount = _measure(part, part.per or repriced.per)
        kind = pooled.setdefault(name, {})
        kind[exponent] = kind.get(exponent, 0.0) + amount
        if part.row in purse.by_row:
            paid, of = known.get(name, (Decimal(0), 0.0))
            known[name] = (paid + purse.by_row[part.row][1], of + amount)
    rough = rough_parts(job)
    return Took(
        woods=_woods(rough),
        wood_keys=_woods_by_rank(rough),
        finishes=tuple(sorted(finishes_of(job), key=lambda use: -use.area_m2)),
        pooled=pooled,
        paid=known,
    )


def for_pieces(of_job: Took, times: float) -> Took:
    """What so many times as many pieces take: amounts go with the count. What such things cost each stays."""
    if times == 1:
        return of_job

    def scaled(amounts: Amounts) -> Amounts:
        return {exponent: amount * times for exponent, amount in amounts.items()}

    return replace(
        of_job,
        woods=tuple(map(scaled, of_job.woods)),
        finishes=tuple(replace(use, area_m2=use.area_m2 * times) for use in of_job.finishes),
        pooled={name: scaled(amounts) for name, amounts in of_job.pooled.items()},
    )


def scaled_lines(
    enquiry: Job, summary: Summary, found: Sequence[ScaledFrom[Took]], waste_pct: float, pricing: Pricing
) -> tuple[MaterialLine, ...]:
    """The lines of an enquiry without parts. A thing that more than half the like jobs (by weight) did without is left
    out.
    """
    lines = [
        *_wood_lines(enquiry, found, waste_pct, pricing),
        *_pooled_lines(found, pricing),
        *_finish_lines(summary, found, pricing),
    ]
    return tuple(line for line in lines if line.amount.median > 0)


def nothing_to_scale(enquiry: Job) -> Problem:
    """Why no amounts can be told, and what to add."""
    if not any(enquiry.overall.metres):
        what = "There are no parts and no sizes, so no materials are reckoned."
        hint = "Write overall = { width = 900, depth = 400, height = 1200 }, or a parts.csv."
        return Problem("warning", "job.toml", what, hint, field="overall")
    what = "There are no parts, and no past job that is like it has parts and sizes to scale from."
    return Problem("warning", "job.toml", what, "Write a parts.csv, or add overall to past jobs.")


# -- what a past job took --------------------------------------------------------------------------


def _woods(rough: Sequence[RoughPart]) -> tuple[Amounts, ...]:
    rules = scaling_rules()
    woods: dict[str, dict[float, float]] = {}
    for item in rough:
        sides = [side.m for side in (item.part.length, item.part.width, item.part.thickness) if side]
        block = min(sides) >= rules.block_least * max(sides)
        kind = "block" if block else "length" if item.part.per == "m" else "wood"
        amounts = woods.setdefault(item.part.key, {})
        exponent = rules.exponent[kind]
        amounts[exponent] = amounts.get(exponent, 0.0) + item.rough_m3
    return tuple(sorted(woods.values(), key=lambda amounts: -math.fsum(amounts.values())))


def _woods_by_rank(rough: Sequence[RoughPart]) -> tuple[str, ...]:
    woods: dict[str, float] = {}
    for item in rough:
        woods[item.part.key] = woods.get(item.part.key, 0.0) + item.rough_m3
    return tuple(sorted(woods, key=lambda key: -woods[key]))


def _measure(part: Part, per: str) -> tuple[tuple[str, str], float, float]:
    """Kind and unit, exponent and amount of a row that is not wood."""
    exponents = scaling_rules().exponent
    if per == "m" and (part.length or part.kind == "supply"):
        metres = part.length.m if part.length and part.kind != "supply" else 1.0
        return (part.kind, "m"), exponents["length"], part.qty * metres
    if part.kind in ("panel", *BY_AREA) and part.length and part.width:
        return (part.kind, "m2"), exponents[part.kind], part.qty * part.length.m * part.width.m
    counted = "supply" if part.kind == "supply" else "hardware"  # a cushion without sizes is one cushion
    return (part.kind, "each"), exponents[counted], float(part.qty)


# -- what the enquiry takes ------------------------------------------------------------------------


def _ranked(ranks: Sequence[Amounts], rank: int, of: int) -> Amounts:
    """What is of a rank; the last takes up all that is beyond it."""
    out: dict[float, float] = {}
    for amounts in ranks[rank : None if rank == of - 1 else rank + 1]:
        for exponent, amount in amounts.items():
            out[exponent] = out.get(exponent, 0.0) + amount
    return out


def _scale(
    found: Sequence[ScaledFrom[Took]], amounts: Sequence[Amounts], times: float = 1.0
) -> tuple[Range, float]:
    """The range of an amount, and the exponent that most of it goes with."""
    weights = [source.weight for source in found]
    scaled = scaled_range(amounts, weights, [source.ratio for source in found])
    share: dict[float, float] = {}
    for of_job, weight in zip(amounts, weights, strict=True):
        for exponent, amount in of_job.items():
            share[exponent] = share.get(exponent, 0.0) + weight * amount
    exponent = max(share, key=lambda exponent: share[exponent], default=0.0)
    return Range(scaled.low * times, scaled.median * times, scaled.high * times), exponent


def _marked(
    line: MaterialLine, found: Sequence[ScaledFrom[Took]], exponent: float, pricing: Pricing
) -> MaterialLine:
    style = Style(decimal=pricing.words.text("figures.decimal"))
    values = (("jobs", str(len(found))), ("exponent", style.trimmed(exponent, 1)))
    said = (Said("scaled" if exponent else "as_many", values[: 2 if exponent else 1]), *line.said)
    return replace(line, scaled=True, exponent=exponent, from_jobs=len(found), said=said)


def _wood_lines(
    enquiry: Job, found: Sequence[ScaledFrom[Took]], waste_pct: float, pricing: Pricing
) -> Iterator[MaterialLine]:
    named = [
        (tables.species().key_of(wood, enquiry.shop.place), wood) for wood in enquiry.woods if wood.strip()
    ]
    assumed: tuple[Said, ...] = ()
    if not named and found[0].known.woods:
        assumed = (Said("woods_as", (("job", found[0].job.name),)),)
        named = [(key, "") for key in found[0].known.wood_keys]
    for rank, (key, written) in enumerate(named):
        amounts = [_ranked(source.known.woods, rank, len(named)) for source in found]
        m3, exponent = _scale(found, amounts, timber.with_waste(1.0, waste_pct))
        price = pricing.of(PriceSought(written or key, key, "wood", units=price_rules().per["wood"][0]))
        known = tables.species()
        name = pricing.words.name("species_name", key, known[key].name) if key in known else written
        line = MaterialLine("wood", name, key, "m3", m3, said=assumed)
        if price:
            paid = cost.rounded(
                converted(price.price, price.per, "m3") * cost.exact(m3.median), pricing.places
            )
            line = replace(
                line,
                price=price.price,
                per=price.per,
                price_day=price.day,
                cost=pricing.money(paid),
                said=(*assumed, *price.said),
            )
        yield _marked(line, found, exponent, pricing)


def _pooled_lines(found: Sequence[ScaledFrom[Took]], pricing: Pricing) -> Iterator[MaterialLine]:
    """One line a kind and unit, at what such things cost the like jobs on the day over how much they took: whole sheets
    and all, a job that took more telling more.
    """
    for kind, unit in dict.fromkeys(name for source in found for name in source.known.pooled):
        name = (kind, unit)
        amount, exponent = _scale(found, [source.known.pooled.get(name, {}) for source in found])
        if unit == "each":
            amount = Range(*(float(half_up(count)) for count in (amount.low, amount.median, amount.high)))
        line = MaterialLine(kind, pricing.words.text(f"kinds.{kind}"), "", unit, amount)
        known = [(*source.known.paid[name], source.weight) for source in found if name in source.known.paid]
        if of := math.fsum(much * weight for _, much, weight in known):
            spent = math.fsum(float(paid) * weight for paid, _, weight in known)
            price = pricing.money(cost.exact(spent / of)).amount
            line = replace(
                line,
                price=price,
                per=unit,
                cost=pricing.times(price, amount.median),
                said=(Said("price_pooled"),),
            )
        yield _marked(line, found, exponent, pricing)


def _finish_lines(
    summary: Summary, found: Sequence[ScaledFrom[Took]], pricing: Pricing
) -> Iterator[MaterialLine]:
    uses, assumed = summary.finish, False
    if not uses and found:
        uses, assumed = found[0].known.finishes, True
    exponent = scaling_rules().exponent["finish"]
    for rank, use in enumerate(uses):
        if use.spread_m2_per_l:
            areas = [
                _ranked([{exponent: other.area_m2} for other in source.known.finishes], rank, len(uses))
                for source in found
            ]
            later = use.later_m2_per_l or use.spread_m2_per_l
            per_m2 = volume_of_coats_l(1, use.coats, use.spread_m2_per_l, later)
            litres, _ = _scale(found, areas, per_m2)
            line = pricing.finish_line(use, litres)
            said = (Said("finish_as", (("job", found[0].job.name),)),) if assumed else ()
            yield _marked(replace(line, said=(*said, *line.said)), found, exponent, pricing)

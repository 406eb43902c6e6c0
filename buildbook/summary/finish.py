"""The finish schedule of a job: area, volume, solvent, when it may be used, when to renew it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from buildbook.job.model import Delivery, Finish, Job, Part
from buildbook.job.parts.finished import sheets_without
from buildbook.problems import listed
from buildbook.summary.model import FinishUse
from buildbook.summary.money import finish_cost
from buildbook.summary.place import region_of
from buildbook.summary.set_model import BatchDates
from buildbook.summary.wear import renewed_after, wear_of
from buildbook.trade import finish as trade
from buildbook.trade import rounds, tables
from buildbook.trade.records import Ends, FinishFamily
from buildbook.trade.regional import rule_said

REFRESHES = 3  # dates written out; the calendar repeats them without end


def area_m2(parts: Iterable[Part]) -> float:
    """What of some parts is finished, by their faces."""
    return math.fsum(map(_area_m2, parts))


def _area_m2(part: Part) -> float:
    if not (part.length and part.width):
        return 0.0
    thickness_m = part.thickness.m if part.thickness else 0.0
    inside_m2 = 0.0
    if part.wall:
        sides = part.length.m, part.width.m, thickness_m
        inside_m2 = part.qty * rounds.inside_m2(*sides, part.wall.m, part.round, part.faces)
    if part.round:
        along_m = thickness_m if part.round == "disc" else part.length.m
        return rounds.area_m2(part.qty, part.width.m, along_m, part.round, part.faces) + inside_m2
    return trade.part_area_m2(part.qty, part.length.m, part.width.m, thickness_m, part.faces) + inside_m2


@dataclass(frozen=True)
class _Spread:
    """What a litre covers in the first coat and in one after it, in m2."""

    first: float
    later: float


def _spread(finish: Finish, family: FinishFamily, assumed: list[str]) -> _Spread | None:
    """As the job states it: for all coats, unless it tells the later ones apart; else the middles of the family."""
    if (stated := finish.spread_m2_per_l) is not None:
        return _Spread(stated, finish.later_m2_per_l or stated)
    first, later = family.spread_m2_per_l, family.later_m2_per_l
    if first is None or later is None:
        return None
    by_family = f"{family.name} ({family.basis}); the data sheet says better"
    assumed.append(f"spread: middle of {first.low:g} to {first.high:g} m²/l of {by_family}")
    if later != first and finish.later_m2_per_l is None:
        assumed.append(
            f"spread of later coats: middle of {later.low:g} to {later.high:g} m²/l of {by_family}"
        )
    return _Spread(first.middle, finish.later_m2_per_l or later.middle)


def _solvent(
    finish: Finish, family: FinishFamily, volume_l: float | None, assumed: list[str], region: str
) -> Ends | None:
    if volume_l is None:
        return None
    if finish.voc_g_per_l is not None:
        stated = finish.voc_g_per_l / 1000
        return trade.voc_range_kg(volume_l, Ends(stated, stated))
    if (voc := family.voc_kg_per_l) is None:
        return None
    if voc.high:
        assumed.append(
            f"solvent: {voc.low * 1000:g} to {voc.high * 1000:g} g/l of {family.name} ({family.basis})"
        )
        if rule := rule_said("voc", "water-borne" if family.has("water-borne") else "solvent", region):
            assumed.append(rule)
    return trade.voc_range_kg(volume_l, voc)


def _due(job: Job, finish: Finish, stated: FinishFamily, assumed: list[str]) -> trade.Schedule | None:
    """When it may be used; None where no coat is dated, or another finish lies over it."""
    last = max(finish.coats, default=None)
    if last is None or job.is_beneath(finish.key):
        return None
    if finish.light_use_days is None or finish.full_cure_days is None:
        assumed.append(f"days to use and cure of {stated.name} ({stated.basis}); the data sheet says better")
    return trade.schedule(stated, last)


def coats_of_batches(
    batches: Sequence[Delivery], coats: Sequence[date]
) -> tuple[tuple[Delivery, tuple[date, ...]], ...]:
    """Pieces that went together with the coats that they had: those since the delivery before theirs, up to their own.
    Pieces without any of their own had those before them; where there are none either, all coats count for them.
    """
    out, since, before = [], date.min, tuple(coats)
    for number, batch in enumerate(batches, 1):
        until = batch.day if batch.day and number < len(batches) else date.max
        before = tuple(coat for coat in coats if since < coat <= until) or before
        out.append((batch, before))
        since = until
    return tuple(out)


def _batch_dates(
    batch: Delivery, coats: tuple[date, ...], family: FinishFamily, months: int | None
) -> BatchDates:
    due = trade.schedule(family, max(coats))
    return BatchDates(
        pieces=batch.pieces,
        delivered=batch.day,
        coats=coats,
        light_use_from=due.light_use_from,
        full_cure_from=due.full_cure_from,
        full_cure_to=due.full_cure_to,
        refresh=_refresh(max(coats), months, batch.day),
    )


def _refresh(counted_from: date | None, months: int | None, gone: date | None) -> tuple[date, ...]:
    """The first days of renewing: none before the pieces went."""
    return trade.refresh_dates(counted_from, months, REFRESHES, gone) if months and counted_from else ()


def finish_use(job: Job, finish: Finish) -> FinishUse:
    """Figures of one finish of the schedule."""
    family = tables.finishes()[finish.family]
    assumed: list[str] = []
    bearing = job.bearing(finish.key)
    area = area_m2(bearing)
    if unsaid := list(dict.fromkeys(part.name for part in bearing if part.finish_assumed)):
        assumed.append(f"no finish is written for {listed(unsaid)}: this one was taken")
    only_top = not any(other.key != finish.key and not job.is_beneath(other.key) for other in job.finishes)
    if only_top and (sheets := sheets_without(job)):
        assumed.append(f"no finish is written for sheets ({listed(sheets)}): none was taken")
    by_batch = coats_of_batches(job.batches, finish.coats)
    apart = len({had for _, had in by_batch}) > 1
    coats = max(len(had) for _, had in by_batch)
    if not coats and family.coats:
        coats = family.coats
        assumed.append(f"no coat is dated: {coats}, usual for {family.name}, were assumed")
    spread = _spread(finish, family, assumed)
    volume = trade.volume_of_coats_l(area, coats, spread.first, spread.later) if spread else None
    if spread and apart:
        shares = ((len(batch.pieces) / job.quantity, len(had)) for batch, had in by_batch)
        volume = math.fsum(
            trade.volume_of_coats_l(area * share, times, spread.first, spread.later)
            for share, times in shares
        )
    solvent = _solvent(finish, family, volume, assumed, region_of(job))
    stated = trade.stated(
        family,
        light_use_days=finish.light_use_days,
        full_cure_days=finish.full_cure_days,
        refresh_months=finish.refresh_months,
    )
    due = _due(job, finish, stated, assumed)
    wear = wear_of(job, finish)
    months = None if job.is_beneath(finish.key) else renewed_after(stated, wear)
    recoat = family.recoat_h
    return FinishUse(
        key=finish.key,
        family=family.key,
        family_name=family.name,
        product=finish.product,
        area_m2=area,
        coats=coats,
        spread_m2_per_l=spread.first if spread else None,
        per_coat_l=trade.per_coat_l(area, spread.first) if spread else None,
        volume_l=volume,
        voc_low_kg=solvent.low if solvent else None,
        voc_kg=solvent.high if solvent else None,
        first_coat=min(finish.coats, default=None),
        last_coat=max(finish.coats, default=None),
        light_use_from=due.light_use_from if due else None,
        full_cure_from=due.full_cure_from if due else None,
        full_cure_to=due.full_cure_to if due else None,
        wear=wear,
        refresh_months=months,
        refresh=_refresh(max(finish.coats, default=job.last_day), months, job.delivered),
        over=finish.over,
        later_m2_per_l=spread.later if spread else None,
        later_coat_l=trade.per_coat_l(area, spread.later) if spread else None,
        recoat_low_h=recoat.low if recoat else None,
        recoat_high_h=recoat.high if recoat else None,
        mending=family.repair,
        cost=finish_cost(job, finish.product, finish.family, volume) if finish.coats else None,
        assumed=tuple(assumed),
        batches=tuple(_batch_dates(batch, had, stated, months) for batch, had in by_batch)
        if apart and due
        else (),
    )

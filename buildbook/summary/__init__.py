"""Figures of a job: `summarise(job)` joins what the job says with the trade's sums.

In: a `Job`. Out: a `Summary` of frozen records in SI, each with what it assumes. Pure; reads nothing.
"""

from __future__ import annotations

import math

from buildbook.job.model import Job
from buildbook.summary.finish import finish_use
from buildbook.summary.fittings import glass_of, hanging_of, hardware_of
from buildbook.summary.mass import carbon_of, mass_of, part_kg
from buildbook.summary.model import HoursBooked, StageHours, Summary
from buildbook.summary.money import Purse, cost_of
from buildbook.summary.quoted import quoted_against
from buildbook.summary.seasons import air_of, movement_of
from buildbook.summary.sets import each_of
from buildbook.summary.timber import (
    RoughPart,
    allowances_of,
    panels_of,
    rough_parts,
    sheet_count,
    sheet_groups,
    timber_of,
)
from buildbook.summary.worked import worked_of
from buildbook.trade import timber

__all__ = ["Summary", "each_of", "purse_of", "summarise"]


def summarise(job: Job) -> Summary:
    """Every figure of a job."""
    air = air_of(job)
    rough = rough_parts(job)
    purse = _pay_everything(job, rough, air.made_mc_pct)
    finishes = tuple(finish_use(job, finish) for finish in job.finishes)
    mass = mass_of(job, air)
    hours = hours_of(job)
    cost = cost_of(job, purse, finishes, hours)
    return Summary(
        timber=timber_of(job, rough, purse),
        panels=panels_of(job, purse),
        mass=mass,
        air=air,
        movement=movement_of(job, air),
        finish=finishes,
        glass=glass_of(job),
        hardware=hardware_of(job, purse),
        hanging=hanging_of(job, mass),
        carbon=carbon_of(job, air),
        hours=hours,
        cost=cost,
        worked=worked_of(job),
        quoted=quoted_against(job, hours, cost),
        quantity=job.quantity,
    )


def purse_of(job: Job) -> Purse:
    """What each row of the parts file costs, and what has no price."""
    return _pay_everything(job, rough_parts(job), air_of(job).made_mc_pct)


def hours_of(job: Job) -> HoursBooked:
    """Hours by stage in the shop's order of stages, others after them."""
    booked: dict[str, float] = dict.fromkeys(job.shop.stages, 0.0)
    for entry in job.entries:
        for line in entry.hours:
            booked[line.stage] = booked.get(line.stage, 0.0) + line.hours
    stages = tuple(StageHours(stage, hours) for stage, hours in booked.items() if hours)
    return HoursBooked(stages, math.fsum(stage.hours_h for stage in stages))


def _pay_everything(job: Job, rough: tuple[RoughPart, ...], made_mc_pct: float) -> Purse:
    """Book every row that has a price, in the quantity that its unit of price asks for."""
    purse = Purse(job.shop.currency)
    allowed = allowances_of(job)
    for item in rough:
        area_m2 = timber.with_waste(item.rough_m3 / item.stock_m, allowed.waste_pct)
        run_m = timber.with_waste(
            item.part.qty * (item.part.length.m if item.part.length else 0.0), allowed.waste_pct
        )
        quantities = {
            "board_foot": item.buy_bf, "m3": item.buy_m3, "m2": area_m2, "m": run_m, "each": item.part.qty,
        }  # fmt: skip
        purse.pay(job, item.part, quantities)
    for parts in sheet_groups(job).values():
        _pay_sheets(job, parts, purse)
    for part in job.parts:
        if part.kind in ("wood", "panel"):
            continue
        quantities = {"each": float(part.qty)}
        if part.length and part.width:
            quantities["m2"] = part.qty * part.length.m * part.width.m
        if part.length:
            quantities["m"] = part.qty * part.length.m
        kg = part_kg(part, made_mc_pct)
        if kg is not None:
            quantities["kg"] = kg
        if part.kind == "supply":  # its count is the amount, in the unit of its price
            quantities |= {per: float(part.qty) for per in ("l", "kg", "m", "m2", "sheet")}
        purse.pay(job, part, quantities)
    return purse


def _pay_sheets(job: Job, parts: list, purse: Purse) -> None:
    """Whole sheets are bought: their cost is shared among the parts by area, rounding left with the last."""
    count, _, _ = sheet_count(job, parts)
    areas = [p.qty * p.length.m * p.width.m for p in parts]
    allowed = allowances_of(job)
    for part, area_m2 in zip(parts, areas, strict=True):
        share = area_m2 / math.fsum(areas) if math.fsum(areas) else 0.0
        quantities = {
            "sheet": count.sheets * share,
            "m2": timber.with_waste(area_m2, allowed.sheet_waste_pct),
            "each": float(part.qty),
        }
        purse.pay(job, part, quantities)

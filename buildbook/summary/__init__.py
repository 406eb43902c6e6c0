"""Figures of a job: `summarise(job)` joins what the job says with the trade's sums.

In: a `Job`. Out: a `Summary` of frozen records in SI, each with what it assumes. Pure; reads nothing.
"""

from __future__ import annotations

import math

from buildbook.job.model import Job
from buildbook.summary.finish import finish_use
from buildbook.summary.fittings import glass_of, hanging_of, hardware_of
from buildbook.summary.mass import carbon_of, mass_of
from buildbook.summary.model import FinishUse, HoursBooked, StageHours, Summary
from buildbook.summary.money import Purse, cost_of
from buildbook.summary.paying import pay_everything
from buildbook.summary.quoted import quoted_against
from buildbook.summary.sag import sag_of
from buildbook.summary.seasons import air_of, movement_of
from buildbook.summary.sets import each_of
from buildbook.summary.sums import sums_of
from buildbook.summary.timber import panels_of, rough_parts, timber_of
from buildbook.summary.worked import worked_of

__all__ = ["Summary", "each_of", "finishes_of", "purse_of", "summarise"]


def summarise(job: Job) -> Summary:
    """Every figure of a job."""
    air = air_of(job)
    rough = rough_parts(job)
    purse = pay_everything(job, rough, air.made_mc_pct)
    finishes = finishes_of(job)
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
        sums=sums_of(job),
        sag=sag_of(job, mass),
    )


def finishes_of(job: Job) -> tuple[FinishUse, ...]:
    """How much of each finish of the schedule, and its days."""
    return tuple(finish_use(job, finish) for finish in job.finishes)


def purse_of(job: Job) -> Purse:
    """What each row of the parts file costs, and what has no price."""
    return pay_everything(job, rough_parts(job), air_of(job).made_mc_pct)


def hours_of(job: Job) -> HoursBooked:
    """Hours by stage in the shop's order of stages, others after them."""
    booked: dict[str, float] = dict.fromkeys(job.shop.stages, 0.0)
    for entry in job.entries:
        for line in entry.hours:
            booked[line.stage] = booked.get(line.stage, 0.0) + line.hours
    stages = tuple(StageHours(stage, hours) for stage, hours in booked.items() if hours)
    return HoursBooked(stages, math.fsum(stage.hours_h for stage in stages))

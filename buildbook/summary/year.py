"""The air of a usual year in the client's rooms, and the moisture content that wood comes to in it, month by
month.

A sketch: the humidity of the rooms is known at its lowest and highest only, so the months between are taken
from a sine. In: `Air` and the half of the world. Out: twelve `MonthAir`s, January first.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from buildbook.summary.model import Air
from buildbook.summary.seasons import equilibrium_mc_pct
from buildbook.trade import tables

MONTHS = 12


@dataclass(frozen=True)
class MonthAir:
    """The middle of a month (1 is January): relative humidity and the moisture content it leads to."""

    month: int
    rh_pct: float
    mc_pct: float


def dampest_month(southern: bool) -> int:
    """The month in which rooms are dampest: late summer. Source: common practice."""
    northern = round(tables.constant("year_dampest_month"))
    return (northern - 1 + MONTHS // 2) % MONTHS + 1 if southern else northern


def year_of(air: Air, southern: bool) -> tuple[MonthAir, ...]:
    """The twelve months between the driest and the dampest air of the rooms, as a sine over the year.

    Wood lags weeks behind its air; a month is a coarse enough step to leave that out.
    """
    middle, swing = (air.rh_high_pct + air.rh_low_pct) / 2, (air.rh_high_pct - air.rh_low_pct) / 2
    peak = dampest_month(southern)
    months = []
    for month in range(1, MONTHS + 1):
        rh_pct = middle + swing * math.cos(2 * math.pi * (month - peak) / MONTHS)
        months.append(MonthAir(month, rh_pct, equilibrium_mc_pct(air.temperature_c, rh_pct, [])))
    return tuple(months)

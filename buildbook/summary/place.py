"""Where a piece stands: inside or out, and in which half of the world, so that seasons are its own.

In: a `Job`. Out: yes or no, months. Pure.
"""

from __future__ import annotations

from typing import Literal

from buildbook.job.model import Job
from buildbook.job.table.countries import find_country
from buildbook.signs import keys, says
from buildbook.trade import tables
from buildbook.trade.days import half_a_year_on
from buildbook.trade.kinds import kind_of
from buildbook.trade.regional import ELSEWHERE

Season = Literal["spring", "autumn"]


def is_outdoors(job: Job) -> bool:
    """Whether it stands outside, if only for a part of the year: by its use, else by its kind."""
    if says("outdoor", job.use):
        return True
    kind = kind_of(job.piece, job.title)
    return kind is not None and "outdoors" in kind.has and not says("indoor", job.use)


def is_southern(job: Job) -> bool:
    """Whether its seasons are those of the southern half of the world; a country that is not known has the northern
    ones.
    """
    code = job.country_code
    if not code and job.shop.country and (found := find_country(job.shop.country).country):
        code = found.code
    return code in tables.southern_countries()


def region_of(job: Job) -> str:
    """The part of the world whose rules hold for the shop: `eu`, `us`, `elsewhere`; empty where its country is not
    known.
    """
    code = job.shop.country_code
    return next((region for region in ("eu", "us") if code in keys(region)), ELSEWHERE if code else "")


def month_of(season: Season, southern: bool) -> int:
    """The month in which work of a season is done; 1 is January."""
    northern = round(tables.constant(f"{season}_work_month"))
    return half_a_year_on(northern) if southern else northern

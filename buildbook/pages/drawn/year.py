"""Two pictures of the air: how wide the widest moving part is over a year, and the hygrometer's face."""

from __future__ import annotations

from dataclasses import dataclass

from buildbook.job.model import Job
from buildbook.pages.phrases import Phrases
from buildbook.summary.model import Movement, Summary
from buildbook.summary.place import is_outdoors, is_southern
from buildbook.summary.year import year_of
from buildbook.trade import movement, tables
from buildbook.trade.records import NotKnown

WORTH_DRAWING_M = 0.0002  # a fifth of a millimetre over a year: less is nothing to an owner


@dataclass(frozen=True)
class MonthWidth:
    """One month: its letter and name, and how wide the part is in its middle, with the width in the shop's
    units.
    """

    initial: str
    name: str
    width_m: float
    mc_pct: float
    width: str


@dataclass(frozen=True)
class YearOfSeasons:
    """The widest moving part over twelve months, January first, and the width on the day it was made.

    `made` is that width in words; `sentence` says the picture in words, `by_month` each figure of it.
    """

    part: str
    title: str
    months: tuple[MonthWidth, ...]
    made_m: float
    made: str
    sentence: str
    by_month: str

    @property
    def widest(self) -> int:
        """The place of the widest month."""
        return max(range(len(self.months)), key=lambda place: self.months[place].width_m)

    @property
    def narrowest(self) -> int:
        return min(range(len(self.months)), key=lambda place: self.months[place].width_m)


@dataclass(frozen=True)
class Dial:
    """A hygrometer's face: the band that suits the piece and the client's own driest and dampest air, in per
    cent.
    """

    title: str
    sentence: str
    good_low_pct: float
    good_high_pct: float
    low_pct: float
    high_pct: float
    good: str
    dry: str
    low: str
    damp: str
    high: str


def year_of_seasons(job: Job, summary: Summary, row: Movement, phrases: Phrases) -> YearOfSeasons | None:
    """The year of one moving part; None where it hardly moves, and outdoors, where no rule tells which months are wet.
    The months turn round for a southern country.
    """
    if is_outdoors(job):
        return None
    part = next(part for part in job.parts if part.row == row.row)
    rates = movement.rates(tables.species()[part.key], part.cut or "")
    if isinstance(rates, NotKnown):
        return None
    air = year_of(summary.air, is_southern(job))
    widths_m = movement.widths_m(row.width_m, rates, summary.air.made_mc_pct, (month.mc_pct for month in air))
    if max(widths_m) - min(widths_m) < WORTH_DRAWING_M:
        return None
    length = phrases.style.length
    months = tuple(
        MonthWidth(
            initial=phrases(f"drawing.initials.m{month.month}"),
            name=phrases(f"dates.months.m{month.month}"),
            width_m=width_m,
            mc_pct=month.mc_pct,
            width=length(width_m),
        )
        for month, width_m in zip(air, widths_m, strict=True)
    )
    widest, narrowest = max(months, key=lambda m: m.width_m), min(months, key=lambda m: m.width_m)
    return YearOfSeasons(
        part=row.part,
        title=phrases("drawing.year", part=row.part),
        months=months,
        made_m=row.width_m,
        made=phrases("drawing.year_made", width=length(row.width_m)),
        sentence=phrases(
            "drawing.year_sentence",
            part=row.part,
            widest=widest.width,
            damp=widest.name,
            narrowest=narrowest.width,
            dry=narrowest.name,
        ),
        by_month="; ".join(f"{month.name} {month.width}" for month in months) + ".",
    )


def dial(job: Job, summary: Summary, phrases: Phrases) -> Dial | None:
    """The hygrometer of a piece indoors that has solid wood in it: the air that it was reckoned for, which is the air
    that is told of its rooms, else the household band.
    """
    if is_outdoors(job) or not any(part.kind == "wood" for part in job.parts):
        return None
    air, style = summary.air, phrases.style
    words = {"low": style.percent(air.rh_low_pct), "high": style.percent(air.rh_high_pct)}
    return Dial(
        title=phrases("drawing.dial"),
        sentence=phrases("drawing.dial_sentence", **words),
        good_low_pct=air.rh_low_pct,
        good_high_pct=air.rh_high_pct,
        low_pct=air.rh_low_pct,
        high_pct=air.rh_high_pct,
        good=phrases("drawing.dial_good"),
        dry=phrases("drawing.dial_dry"),
        low=words["low"],
        damp=phrases("drawing.dial_damp"),
        high=words["high"],
    )

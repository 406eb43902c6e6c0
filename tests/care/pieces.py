"""Small factories: a piece is a job and its figures, made from as little as a test needs to say."""

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from buildbook.care import CareItem, Facts, choose, facts_of
from buildbook.job.model import Finish, Job, Part, Size
from buildbook.quantity import Length
from buildbook.summary.model import (
    Air,
    Carbon,
    Cost,
    FinishUse,
    Glass,
    HoursBooked,
    Mass,
    Money,
    Movement,
    Pane,
    Panels,
    Summary,
    Timber,
)
from buildbook.trade import tables
from buildbook.words import Words

EVEN_AIR = Air(made_mc_pct=8, low_mc_pct=7, high_mc_pct=10, rh_low_pct=35, rh_high_pct=55, temperature_c=20)
SUMMER = date(2026, 6, 20)
LAST_COAT = date(2026, 4, 1)
LONG_CURED = date(2026, 5, 2)
WORDS = Words("en")


@dataclass(frozen=True)
class Piece:
    """A job with its figures."""

    job: Job
    summary: Summary

    @property
    def care(self) -> tuple[CareItem, ...]:
        return choose(self.job, self.summary, WORDS)

    @property
    def keys(self) -> set[str]:
        return {item.key for item in self.care}

    @property
    def facts(self) -> Facts:
        return facts_of(self.job, self.summary, WORDS)

    def item(self, key: str) -> CareItem:
        return next(item for item in self.care if item.key == key)

    def but(self, **job) -> "Piece":
        """The same piece with other facts of the job."""
        return Piece(replace(self.job, **job), self.summary)

    def figured(self, **summary) -> "Piece":
        """The same piece with other figures."""
        return Piece(self.job, replace(self.summary, **summary))


def mm(value: float) -> Length:
    return Length(value / 1000, f"{value} mm")


def size(width: float, depth: float, height: float) -> Size:
    return Size(mm(width), mm(depth), mm(height))


def part(name, kind, material="", **more) -> Part:
    """A row of the parts file; `piece` numbers the rows."""
    return Part(row=0, name=name, qty=1, kind=kind, material=material, **more)


def wood(species="white-oak", name="board", **more) -> Part:
    return part(name, "wood", more.pop("material", species), key=species, **more)


def panel(name="back", **more) -> Part:
    return part(name, "panel", "birch plywood", key="birch-plywood", **more)


def pane(name="pane", kind="float", **more) -> Part:
    return part(name, "glass", kind, key=kind, **more)


def stone(kind="marble", name="slab", **more) -> Part:
    return part(name, "stone", kind, key=kind, **more)


def hardware(material, name="knob", **more) -> Part:
    return part(name, "hardware", material, **more)


def upholstery(material, name="seat", **more) -> Part:
    return part(name, "upholstery", material, **more)


def supply(material, name="glue", **more) -> Part:
    return part(name, "supply", material, for_client=False, **more)


def coated(family, key="body", **more) -> Finish:
    return Finish(key=key, family=family, **more)


def piece(*parts: Part, finishes=(), mass_kg=5.0, at_risk=(), **job) -> Piece:
    """A piece of some parts, handed over in summer to even air, long after its finish has cured.

    at_risk: names of panes that the figures find low or large.
    """
    rows = tuple(replace(one, row=row) for row, one in enumerate(parts, 2))
    facts = {"folder": "a-piece", "delivered": SUMMER, **job}
    made = Job(parts=rows, finishes=tuple(finishes), **facts)
    return Piece(made, _figures(made, mass_kg, at_risk))


def finished(family, *parts: Part, **job) -> Piece:
    """An oak piece under one finish."""
    return piece(wood(finish="body"), *parts, finishes=[coated(family)], **job)


def _figures(job: Job, mass_kg: float, at_risk) -> Summary:
    panes = tuple(
        Pane(p.name, p.row, 1, p.key, 0.5, 0.004, 5.0, ("it is low",) if p.name in at_risk else ())
        for p in job.parts
        if p.kind == "glass"
    )
    return Summary(
        timber=Timber(),
        panels=Panels(),
        mass=Mass(total_kg=mass_kg),
        air=EVEN_AIR,
        movement=(),
        finish=tuple(use_of(finish) for finish in job.finishes),
        glass=Glass(panes),
        hardware=(),
        hanging=None,
        carbon=Carbon(),
        hours=HoursBooked(),
        cost=Cost((), Money(Decimal(0), "EUR"), None, None, None, None, None),
        worked=(),
    )


def use_of(finish: Finish, full_cure_to=LONG_CURED, **more) -> FinishUse:
    """The figures of a finish: cured, and to be renewed by the table's interval from its last coat."""
    family = tables.finishes()[finish.family]
    months = family.refresh_months
    figures = {
        "area_m2": 1.0,
        "coats": 2,
        "spread_m2_per_l": None,
        "per_coat_l": None,
        "volume_l": None,
        "voc_low_kg": None,
        "voc_kg": None,
        "first_coat": LAST_COAT,
        "last_coat": LAST_COAT,
        "light_use_from": None,
        "full_cure_from": None,
        "full_cure_to": full_cure_to,
        "refresh": (date(2028, 4, 1),) if months else (),
        "refresh_months": int(months.low) if months else None,
    }
    named = {"key": finish.key, "family": family.key, "family_name": family.name, "product": finish.product}
    return FinishUse(**{**named, **figures, **more})


def moving(row: int, name: str, *, ok=None, grows_m=0.002, shrinks_m=0.001) -> Movement:
    """What a solid part does over a year."""
    return Movement(name, row, "White oak", "flat", 0.4, 8, 7, 10, grows_m, shrinks_m, ok=ok)


BARE = piece(wood(), finishes=[coated("unfinished")])
"""Nothing but a board of bare oak."""

NO_WOOD = piece(hardware("stainless steel"))
"""Nothing but a knob."""

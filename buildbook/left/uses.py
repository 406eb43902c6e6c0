"""What a job used, from the job and its figures."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from buildbook.estimate.hours.forecast import own_driver
from buildbook.job.model import Finish, Job, Part
from buildbook.left.jigs import jig_uses, labels_of
from buildbook.left.joints import joints_of
from buildbook.left.mentions import Called, Spoken, called, head_of, shortened
from buildbook.left.model import FinishUsed, HardwareUse, Remark, Seller, UnitPrice, Used, WoodUse
from buildbook.left.suppliers import Costed, suppliers_of
from buildbook.summary import purse_of, rough_parts
from buildbook.summary.model import FinishUse, SpeciesTimber, Summary
from buildbook.summary.things import finish_key, hardware_key
from buildbook.trade import tables
from buildbook.words import Words

_JOINTS = "joints"  # what the hours of the stage of joints go with (estimate/data/drivers.toml)
_TENTHS = 10_000  # of a millimetre in a metre
_MOST_NOTES = 5  # notes of parts that are kept of a thing in a job


def used_of(job: Job, summary: Summary) -> Used:
    """What a job used, its log read in the language of its shop."""
    return _Reader(job, summary).record()


@dataclass(frozen=True)
class _Reader:
    job: Job
    summary: Summary

    @cached_property
    def words(self) -> Words:
        return Words(self.job.shop.language)

    @cached_property
    def spoken(self) -> Spoken:
        return Spoken.of(self.job)

    @cached_property
    def costed(self) -> Costed:
        return Costed(self.job, self.summary, purse_of(self.job), rough_parts(self.job))

    def record(self) -> Used:
        job, summary = self.job, self.summary
        cost = summary.cost
        return Used(
            key=job.key,
            title=job.title or job.key,
            number=job.number,
            day=job.last_day,
            delivered=job.delivered is not None,
            pieces=job.quantity,
            currency=job.shop.currency,
            joinery_h=math.fsum(
                booked.hours_h for booked in summary.hours.by_stage if own_driver(booked.stage) == _JOINTS
            ),
            joints=job.joints * job.quantity if job.joints is not None else None,
            hours=tuple((booked.stage, booked.hours_h) for booked in summary.hours.by_stage),
            materials=cost.materials.amount if cost.by_kind else None,
            unpriced=len(cost.unpriced),
            woods=tuple(self._woods()),
            finishes=tuple(self._finishes()),
            joinery=tuple(joints_of(job)),
            hardware=tuple(self._hardware()),
            suppliers=tuple(suppliers_of(self.costed, self.spoken)),
            jigs=tuple(jig_uses(job)),
            labels=labels_of(self.spoken),
        )

    # -- woods -----------------------------------------------------------------------------------

    def _woods(self) -> Iterable[WoodUse]:
        figures = {wood.key: wood for wood in self.summary.timber.species}
        groups = _groups((part.same, part) for part in self.job.parts if part.kind == "wood")
        told = self.spoken.about([_wood_called(parts, self.words) for parts in groups.values()])
        for (key, parts), said in zip(groups.items(), told, strict=True):
            yield self._wood(key, parts, figures.get(key), said)

    def _wood(
        self, key: str, parts: list[Part], figure: SpeciesTimber | None, told: tuple[Remark, ...]
    ) -> WoodUse:
        known = tables.species()
        tallied = figure is not None and figure.bought_m3 is not None
        return WoodUse(
            key=key,
            name=known[key].name if key in known else parts[0].material,
            **self._of_parts(parts),
            said=(*_notes(parts), *told),
            net_m3=figure.net_m3 if figure else 0.0,
            stock_m3=((figure.bought_m3 if tallied else figure.buy_m3) or 0.0) if figure else 0.0,
            stock_bf=((figure.bought_bf if tallied else figure.buy_bf) or 0.0) if figure else 0.0,
            tallied=tallied,
        )

    # -- finishes --------------------------------------------------------------------------------

    def _finishes(self) -> Iterable[FinishUsed]:
        pairs = list(zip(self.job.finishes, self.summary.finish, strict=True))
        told = self.spoken.about([_finish_called(use, self.words) for _, use in pairs])
        for (finish, use), said in zip(pairs, told, strict=True):
            yield self._finish(finish, use, said)

    def _finish(self, finish: Finish, use: FinishUse, told: tuple[Remark, ...]) -> FinishUsed:
        on = self.job.bearing(finish.key)
        listed = self.costed.finish_price(finish, use)
        note = (Remark("", finish.key, shortened(finish.note)),) if finish.note else ()
        return FinishUsed(
            key=finish_key(use),
            name=use.product,
            family=use.family,
            family_name=use.family_name,
            parts=tuple(dict.fromkeys(part.name for part in on)),
            count=sum(part.qty for part in on),
            coats=finish.coats,
            area_m2=use.area_m2,
            litres=use.volume_l if finish.coats else None,
            paid=(UnitPrice(listed.price, listed.per),) if listed else (),
            cost=use.cost.amount if use.cost else None,
            sources=(Seller(listed.supplier, True),) if listed and listed.supplier else (),
            said=(*note, *told),
        )

    # -- hardware --------------------------------------------------------------------------------

    def _hardware(self) -> Iterable[HardwareUse]:
        groups = _groups((_size_key(part), part) for part in self.job.parts if part.kind == "hardware")
        told = self.spoken.about([_hardware_called(parts) for parts in groups.values()])
        for parts, said in zip(groups.values(), told, strict=True):
            yield HardwareUse(
                key=hardware_key(parts[0]),
                name=parts[0].material or parts[0].name,
                **self._of_parts(parts),
                said=(*_notes(parts), *said),
                sides_m=_sides(parts[0]),
            )

    def _of_parts(self, parts: list[Part]) -> dict[str, Any]:
        """What wood and hardware tell alike."""
        return {
            "parts": tuple(dict.fromkeys(part.name for part in parts)),
            "count": sum(part.qty for part in parts),
            "paid": self.costed.paid(parts),
            "cost": self.costed.cost(parts),
            "cost_whole": self.costed.has_all(parts),
            "sources": self.costed.sources(parts),
        }


def _groups(keyed: Iterable[tuple[str, Part]]) -> dict[str, list[Part]]:
    groups: dict[str, list[Part]] = {}
    for key, part in keyed:
        groups.setdefault(key, []).append(part)
    return groups


def _notes(parts: list[Part]) -> tuple[Remark, ...]:
    """The first notes of parts, each text once."""
    once: dict[str, str] = {}
    for part in parts:
        if part.note:
            once.setdefault(shortened(part.note), part.name)
    return tuple(Remark("", name, text) for text, name in once.items())[:_MOST_NOTES]


def _wood_called(parts: list[Part], words: Words) -> Called:
    """By any name of its table, and by the heads of those that the maker and the page have for it."""
    written = [part.material for part in parts]
    key = parts[0].key
    if key not in tables.species():
        return called(written, map(head_of, written))
    species = tables.species()[key]
    here = words.name("species_name", key, species.name)
    return called([*written, here, species.name, *species.aliases], map(head_of, [*written, here]))


def _finish_called(use: FinishUse, words: Words) -> Called:
    family = tables.finishes()[use.family]
    here = words.name("finish_name", use.family, family.name)
    names = [use.product, use.product.split(",")[0], here, family.name, *family.aliases]
    return called(names, [head_of(use.product or here)])


def _hardware_called(parts: list[Part]) -> Called:
    names = [parts[0].material, parts[0].material.split(",")[0], *(part.name for part in parts)]
    return called(names, map(head_of, names))


def _sides(part: Part) -> tuple[float, ...]:
    return tuple(side.m for side in (part.length, part.width, part.thickness) if side)


def _size_key(part: Part) -> str:
    """What is the same thing of the same size in one job."""
    sides = "×".join(str(round(side * _TENTHS)) for side in _sides(part))
    return f"{hardware_key(part)}/{sides}"

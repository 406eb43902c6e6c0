"""What each row of a job cost, and what came from which supplier."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

from buildbook.folding import folded
from buildbook.job.model import Finish, Job, Part
from buildbook.job.shop_model import Price
from buildbook.left.mentions import Spoken, called, first_of
from buildbook.left.model import BoughtLine, Seller, SupplierUse, UnitPrice
from buildbook.summary.model import FinishUse, SpeciesTimber, Summary
from buildbook.summary.money import Purse, price_from_list
from buildbook.summary.things import supplier_key
from buildbook.summary.timber import RoughPart
from buildbook.trade import tables

_FINISH = "finish"


def total(costs: Iterable[Decimal | None]) -> Decimal | None:
    """The sum of what is known; None where nothing is."""
    known = [cost for cost in costs if cost is not None]
    return sum(known, Decimal(0)) if known else None


@dataclass(frozen=True)
class Costed:
    """A job with what its rows cost and the stock that each wooden one comes out of."""

    job: Job
    summary: Summary
    purse: Purse
    rough: tuple[RoughPart, ...]

    @cached_property
    def stock(self) -> dict[int, RoughPart]:
        return {item.part.row: item for item in self.rough}

    @cached_property
    def _listed(self) -> dict[tuple[str, str], Price | None]:
        """The row of prices.csv for each material of the job, looked up once."""
        wanted = {(part.material, part.key) for part in self.job.parts}
        return {(material, key): price_from_list(self.job, material, key) for material, key in sorted(wanted)}

    def price(self, part: Part) -> tuple[UnitPrice | None, Seller | None]:
        """What a row was paid, and to whom: its own figures, else those of prices.csv."""
        own = Seller(part.supplier, False) if part.supplier else None
        if part.price is not None:
            return UnitPrice(part.price, part.per), own
        listed = self._listed[part.material, part.key]
        if listed is None:
            return None, own
        return UnitPrice(listed.price, listed.per), own or (
            Seller(listed.supplier, True) if listed.supplier else None
        )

    def paid(self, parts: Iterable[Part]) -> tuple[UnitPrice, ...]:
        return _each_once(self.price(part)[0] for part in parts)

    def sources(self, parts: Iterable[Part]) -> tuple[Seller, ...]:
        return _each_once(self.price(part)[1] for part in parts)

    def cost(self, parts: Iterable[Part]) -> Decimal | None:
        booked = (self.purse.by_row.get(part.row) for part in parts)
        return total(row[1] for row in booked if row)

    def has_all(self, parts: Iterable[Part]) -> bool:
        """Whether each of them has a price."""
        return self.purse.has_all(part.row for part in parts)

    def finish_price(self, finish: Finish, use: FinishUse) -> Price | None:
        """The row of prices.csv that a finish is paid by; one that was never put on is not paid."""
        if not finish.coats:
            return None
        by_name = price_from_list(self.job, use.product) if use.product else None
        return by_name or price_from_list(self.job, use.family, use.family)


def _each_once(items: Iterable) -> tuple:
    return tuple(dict.fromkeys(item for item in items if item))


# -- suppliers -----------------------------------------------------------------------------------


def suppliers_of(costed: Costed, spoken: Spoken) -> Iterable[SupplierUse]:
    """What each supplier sold for the job, in the order of the parts file, finishes last."""
    bought: dict[str, list[tuple[Seller, BoughtLine]]] = {}
    for source, line in (*_lines_of_parts(costed), *_lines_of_finishes(costed)):
        bought.setdefault(supplier_key(source.name), []).append((source, line))
    names = {key: rows[0][0].name for key, rows in bought.items()}
    heads = {key: first_of(name) for key, name in names.items()}
    told = spoken.about(  # by its first word only where that is a name, and no word of every day
        [called([names[key]], [heads[key]] if heads[key] not in spoken.small else []) for key in bought]
    )
    for (key, rows), said in zip(bought.items(), told, strict=True):
        yield SupplierUse(
            key=key,
            name=names[key],
            cost=total(line.cost for _, line in rows),
            cost_whole=all(line.cost is not None and line.cost_whole for _, line in rows),
            said=said,
            lines=tuple(line for _, line in rows),
        )


def _lines_of_parts(costed: Costed) -> Iterable[tuple[Seller, BoughtLine]]:
    """A line a material and supplier."""
    groups: dict[tuple[str, str, str], list[Part]] = {}
    sources: dict[str, Seller] = {}
    sellers: dict[str, set[str]] = {}
    for part in costed.job.parts:
        _, source = costed.price(part)
        seller = folded(source.name) if source else ""
        sellers.setdefault(part.key, set()).add(seller)
        if source:
            sources.setdefault(seller, source)
            key = part.key if part.kind == "wood" and part.key else folded(part.material or part.name)
            groups.setdefault((seller, part.kind, key), []).append(part)
    figures = {wood.key: wood for wood in costed.summary.timber.species}
    for (seller, kind, key), parts in groups.items():
        wood = figures.get(key) if kind == "wood" else None
        whole = wood if wood and len(sellers[key]) == 1 else None
        listed = all(not part.supplier for part in parts)
        yield Seller(sources[seller].name, listed), _line(costed, parts, whole, listed)


def _line(costed: Costed, parts: list[Part], whole: SpeciesTimber | None, listed: bool) -> BoughtLine:
    """`whole`: the figures of the wood, where all of it came from one supplier."""
    first = parts[0]
    known = tables.species()
    is_wood = first.kind == "wood"
    rough = [costed.stock[part.row] for part in parts if part.row in costed.stock] if is_wood else []
    stock_m3, stock_bf = math.fsum(item.buy_m3 for item in rough), math.fsum(item.buy_bf for item in rough)
    tallied = whole is not None and whole.bought_m3 is not None
    if whole is not None and whole.bought_m3 is not None and whole.bought_bf is not None:
        stock_m3, stock_bf = whole.bought_m3, whole.bought_bf
    return BoughtLine(
        kind=first.kind,
        name=known[first.key].name if is_wood and first.key in known else first.material or first.name,
        wood=first.key if is_wood else "",
        parts=tuple(dict.fromkeys(part.name for part in parts)),
        count=sum(part.qty for part in parts),
        stock_m3=stock_m3,
        stock_bf=stock_bf,
        tallied=tallied,
        area_m2=math.fsum(_area_m2(part) for part in parts)
        if first.kind in ("panel", "glass", "stone")
        else 0.0,
        paid=costed.paid(parts),
        cost=costed.cost(parts),
        cost_whole=costed.has_all(parts),
        listed=listed,
    )


def _area_m2(part: Part) -> float:
    return part.qty * part.length.m * part.width.m if part.length and part.width else 0.0


def _lines_of_finishes(costed: Costed) -> Iterable[tuple[Seller, BoughtLine]]:
    for finish, use in zip(costed.job.finishes, costed.summary.finish, strict=True):
        listed = costed.finish_price(finish, use)
        if listed and listed.supplier:
            yield (
                Seller(listed.supplier, True),
                BoughtLine(
                    kind=_FINISH,
                    name=use.product or use.family_name,
                    family="" if use.product else use.family,
                    parts=tuple(dict.fromkeys(p.name for p in costed.job.bearing(finish.key))),
                    litres=use.volume_l,
                    paid=(UnitPrice(listed.price, listed.per),),
                    cost=use.cost.amount if use.cost else None,
                    listed=True,
                ),
            )

"""What a material cost, by the shop's own past, and what it costs on a day.

In: rows of prices.csv, prices that past jobs paid; a material and a day. Out: `DayPrice`, with what it leans on. Money
is Decimal; a price is rounded once, to the coin, after it is carried. No price later than the day is ever used. Pure.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from buildbook.estimate.hours.fit import median_slope
from buildbook.estimate.model import Said
from buildbook.estimate.rules import price_rules
from buildbook.folding import folded
from buildbook.job.model import Job, Part
from buildbook.job.shop_model import Price
from buildbook.quantity import Style
from buildbook.summary.money import key_of
from buildbook.trade import cost, tables
from buildbook.words import Words

TABLED = ("wood", "panel", "glass", "stone", "finish")
"""Kinds whose key names the material itself; the key of hardware is only its metal."""

Sides = tuple[float | None, float | None, float | None]


class KnownPrice(NamedTuple):
    """A price that was asked or paid. `day` None: not dated. kind: empty for a row of prices.csv, which has no
    sides.
    """

    material: str
    key: str
    kind: str
    price: Decimal
    per: str
    day: date | None
    sides: Sides = (None, None, None)

    @property
    def listed(self) -> bool:
        return not self.kind


@dataclass(frozen=True)
class PriceSought:
    """What a price is looked for. `sides`: length, width and thickness in m, where they matter. `units` that the price
    may be for; empty: all that the kind can be reckoned by.
    """

    material: str
    key: str
    kind: str
    sides: Sides = (None, None, None)
    units: tuple[str, ...] = ()


@dataclass(frozen=True)
class DayPrice:
    """A price to reckon with. `day`: of the price that it rests on; None for one without a date, and for a row's
    own.
    """

    price: Decimal
    per: str
    day: date | None = None
    own: bool = False
    said: tuple[Said, ...] = ()


@dataclass(frozen=True)
class Growth:
    """How a price grew: per cent a year, from the first to the last day; `limited` where the past said more."""

    pct: float
    first: date
    last: date
    limited: bool = False


History = Mapping[tuple[str, str], tuple[KnownPrice, ...]]
"""Every price by ("key", key of the trade's table) and by ("name", material), each in the order read."""


def paid_by(job: Job) -> tuple[KnownPrice, ...]:
    """The prices in the parts file of a past job, dated by its last day."""
    return tuple(
        KnownPrice(*_names(part), part.kind, part.price, part.per, job.last_day, sides_of(part))
        for part in job.parts
        if part.price is not None
    )


def history_of(listed: Iterable[Price], paid: Iterable[KnownPrice]) -> History:
    """The shop's prices: rows of prices.csv, and what past jobs paid, in their order."""
    rows = [
        KnownPrice(folded(row.material), key_of(row.material), "", row.price, row.per, row.day)
        for row in listed
    ]
    rows += paid
    found: dict[tuple[str, str], dict[KnownPrice, None]] = {}
    for one in rows:
        for name in (("key", one.key), ("name", one.material)):
            if name[1]:
                found.setdefault(name, {})[one] = None
    return {name: tuple(prices) for name, prices in found.items()}


def wanted_of(part: Part) -> PriceSought:
    return PriceSought(*_names(part), part.kind, sides_of(part))


def sides_of(part: Part) -> Sides:
    length, width, thickness = part.length, part.width, part.thickness
    return length.m if length else None, width.m if width else None, thickness.m if thickness else None


def price_on(
    history: History, wanted: PriceSought, day: date, words: Words, places: int = 2
) -> DayPrice | None:
    """What a material costs on a day; None where no price of it is known by then.

    The newest price on or before the day; an undated one only where no other is. One of the same sides, or a row of
    prices.csv, goes before one of other sides. An old one is carried to the day by `growth` where the material's own
    past tells it, else left as it is; both are said. places: decimals of the coin.
    """
    found = [paid for paid in _of(history, wanted) if paid.day is None or paid.day <= day]
    fitting = [paid for paid in found if _same_sides(paid, wanted.sides)]
    said: list[Said] = []
    if not fitting:
        fitting = [paid for paid in found if _another_size_will_do(paid)]
        said += [Said("price_other_size")] if fitting else []
    if not fitting:
        return None
    newest = max(fitting, key=lambda paid: (paid.day is not None, paid.day or day, paid.listed))
    newest = [paid for paid in fitting if (paid.day, paid.listed) == (newest.day, newest.listed)][-1]
    if newest.day is None:
        return DayPrice(newest.price, newest.per, said=(*said, Said("price_undated")))
    age = (day - newest.day).days
    if age <= price_rules().fresh_days:
        return DayPrice(newest.price, newest.per, newest.day, said=tuple(said))
    said.append(
        Said("price_old", (("days", Style().number(age)), ("day", words.date(newest.day))))
    )  # how old it is, before what was made of it
    grown = growth(_series(fitting, newest))
    if grown is None:
        return DayPrice(newest.price, newest.per, newest.day, said=(*said, Said("price_left")))
    carried = newest.price * Decimal(repr((1 + grown.pct / 100) ** (age / price_rules().year_days)))
    said.append(_carried(grown, words))
    return DayPrice(cost.rounded(carried, places), newest.per, newest.day, said=tuple(said))


def growth(points: Mapping[date, Decimal]) -> Growth | None:
    """How fast a price grew a year: the median of the slopes of its logarithm between all pairs of days.

    None with fewer than two days, or where they span less than a year (data/prices.toml, which also says how much a
    year is believed). Source: H. Theil (1950); P. K. Sen (1968), J. Am. Stat. Assoc. 63, 1379.
    """
    rules = price_rules()
    dated = sorted((day, float(price)) for day, price in points.items() if price > 0)
    if len(dated) < 2 or (dated[-1][0] - dated[0][0]).days < math.floor(rules.least_years * rules.year_days):
        return None
    first = dated[0][0]
    slope = median_slope([((day - first).days / rules.year_days, math.log(price)) for day, price in dated])
    pct = 100 * math.expm1(slope or 0.0)
    most = rules.most_pct
    least = 100 * (1 / (1 + most / 100) - 1)  # as far down as up, in logarithms
    return Growth(min(max(pct, least), most), dated[0][0], dated[-1][0], not least <= pct <= most)


def converted(price: Decimal, per: str, to: str) -> Decimal:
    """A price per m3 as one per board foot, or the other way round; any other unit only into itself.

    A board foot is 144 in3 = 0.002 359 737 216 m3, exactly (NIST SP 811, B.8, rounds it to 2.359 737 E-03). Raises
    ValueError for units that do not turn into one another.
    """
    board_foot_m3 = cost.exact(tables.constant("board_foot"))
    if per == to:
        return price
    if (per, to) == ("board_foot", "m3"):
        return price / board_foot_m3
    if (per, to) == ("m3", "board_foot"):
        return price * board_foot_m3
    raise ValueError(f"a price per {per} is none per {to}")


def _names(part: Part) -> tuple[str, str]:
    return folded(part.material), part.key if part.kind in TABLED else ""


def _of(history: History, wanted: PriceSought) -> list[KnownPrice]:
    """Every price of a material in a unit that its kind can be reckoned by."""
    units = wanted.units or {unit for group in price_rules().per[wanted.kind] for unit in group}
    both = (
        *(history.get(("key", wanted.key), ()) if wanted.key else ()),
        *history.get(("name", folded(wanted.material)), ()),
    )
    return [paid for paid in dict.fromkeys(both) if paid.per in units and paid.kind in ("", wanted.kind)]


def _that_matter(sides: Sides, per: str) -> tuple[float | None, ...]:
    named = dict(zip(("length", "width", "thickness"), sides, strict=True))
    found = (named[side] for side in price_rules().sides.get(per, ()))
    return tuple(None if side is None else round(side, 4) for side in found)  # to a tenth of a millimetre


def _same_sides(paid: KnownPrice, sides: Sides) -> bool:
    """Whether the sides that such a price depends on are the same, or one of the two does not say."""
    theirs, ours = _that_matter(paid.sides, paid.per), _that_matter(sides, paid.per)
    return theirs == ours or not any(theirs) or not any(ours)


def _another_size_will_do(paid: KnownPrice) -> bool:
    rules = price_rules()
    return paid.kind in rules.other_size_kinds or paid.per in rules.other_size_units


def _series(fitting: Sequence[KnownPrice], newest: KnownPrice) -> dict[date, Decimal]:
    """The prices that tell how the newest grew: of its sides, in its unit; one a day, the last row read."""
    group = next(g for groups in price_rules().per.values() for g in groups if newest.per in g)
    sides = _that_matter(newest.sides, newest.per)
    alike = [paid for paid in fitting if paid.per in group and _that_matter(paid.sides, newest.per) == sides]
    alike.sort(key=lambda paid: paid.listed)  # on one day the shop's list goes before what a job paid
    return {paid.day: converted(paid.price, paid.per, newest.per) for paid in alike if paid.day}


def _carried(grown: Growth, words: Words) -> Said:
    style = Style(decimal=words.text("figures.decimal"))
    rate = style.percent(grown.pct, 1)
    values = (("rate", rate), ("first", words.date(grown.first)), ("last", words.date(grown.last)))
    return Said("price_carried_limited" if grown.limited else "price_carried", values)

"""The rows of the pages across jobs: what a thing was for in a job, how much, what it cost, in the shop's own figures.

Volumes are cubic metres or board feet by the shop's units; money is in the currency of its job, never added to another.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from itertools import pairwise

from buildbook.left.model import (
    BoughtLine,
    FinishUsed,
    HardwareUse,
    JigUse,
    Seller,
    SupplierUse,
    UnitPrice,
    Use,
    Used,
    WoodUse,
)
from buildbook.pages.phrases import Phrases, capital
from buildbook.quantity.show import NARROW
from buildbook.quantity.units import convert
from buildbook.trade import tables

COLUMNS = {
    "woods": ("parts", "net", "stock", "price", "cost", "supplier"),
    "finishes": ("parts", "coats", "between", "area", "litres", "price", "cost", "supplier"),
    "joinery": ("joinery_h", "hours", "joints"),
    "jigs": ("marked", "first", "pitch", "hangs"),
    "hardware": ("parts", "size", "qty", "price", "cost", "supplier"),
    "suppliers": ("what", "parts", "amount", "price", "cost"),
}
"""The columns of each page after job and day, by the names of `[across.columns]`."""

NUMERIC = frozenset(
    {"net", "stock", "cost", "coats", "area", "litres", "joinery_h", "hours", "joints", "qty", "amount"}
)
_SIGNS = {"m3": "m³", "m2": "m²", "l": "l", "kg": "kg", "m": "m"}
_ABOUT = f"≈{NARROW}"
_BETWEEN_FACTS = " · "
_FEW = 3  # things named in the short list
_BY_AREA = ("panel", "glass", "stone")

Cells = tuple[str, ...]


def board_feet_of(m3: float) -> float:
    """A net volume in board feet: 144 in³ each."""
    return convert(m3, "meter ** 3", "board_foot")


@dataclass(frozen=True)
class Figures:
    """Writes figures in the language and units of the shop."""

    phrases: Phrases

    # -- rows ------------------------------------------------------------------------------------

    def rows(self, used: Used, use: Use) -> list[Cells]:
        """The rows of a thing in one job: one, but for a supplier, who has one a material."""
        match use:
            case WoodUse():
                net = self.volume(use.net_m3, board_feet_of(use.net_m3))
                return [(self._parts(use.parts), net, self._stock(use), *self._paid_for(used, use))]
            case FinishUsed():
                return [self._finish(used, use)]
            case SupplierUse():
                return [self._line(used, line) for line in use.lines]
            case HardwareUse():
                size = self.phrases.style.size(*use.sides_m)
                return [(self._parts(use.parts), size, str(use.count), *self._paid_for(used, use))]
            case JigUse():
                return [(use.label, use.first, use.pitch, use.hangs)]
        style = self.phrases.style
        joints = str(used.joints) if used.joints is not None else ""
        booked = style.hours(used.joinery_h) if used.joinery_h else ""
        return [(booked, style.hours(used.hours_h) if used.hours else "", joints)]

    def _finish(self, used: Used, use: FinishUsed) -> Cells:
        style = self.phrases.style
        return (
            self._parts(use.parts),
            self._coats(use),
            self.between(use.coats),
            style.area(use.area_m2) if use.area_m2 else "",
            style.litres(use.litres) if use.litres is not None else "",
            *self._paid_for(used, use),
        )

    def _line(self, used: Used, line: BoughtLine) -> Cells:
        name = self._what(line)
        return (
            f"({name})" if line.listed else name,
            self._parts(line.parts) if [name] != list(map(capital, line.parts)) else "",
            self._amount(line),
            self.prices(line.paid, used.currency),
            self._cost(used, line),
        )

    def _paid_for(self, used: Used, use: Use) -> Cells:
        return (
            self.prices(use.paid, used.currency),
            self._cost(used, use),
            self._sources(use.sources),
        )

    # -- short lines, totals, asides -------------------------------------------------------------

    def short(self, used: Used, use: Use) -> str:
        """How much and what it cost, for the list of older jobs."""
        style = self.phrases.style
        match use:
            case WoodUse():
                much = [self._stock(use)]
            case FinishUsed():
                litres = style.litres(use.litres) if use.litres is not None else ""
                much = [self.phrases.count("across.coats", len(use.coats)) if use.coats else "", litres]
            case SupplierUse():
                names = list(dict.fromkeys(map(self._what, use.lines)))
                much = [", ".join(names[:_FEW]) + (" …" if len(names) > _FEW else "")]
            case HardwareUse():
                much = [self.phrases.count("across.pieces", use.count)]
            case JigUse():
                much = [use.hangs]
            case _:
                much = [style.hours(used.joinery_h)] if used.joinery_h else []
        return _BETWEEN_FACTS.join(fact for fact in (*much, self._cost(used, use)) if fact)

    def totals(self, kind: str, uses: Sequence[tuple[Used, Use]]) -> Cells:
        """The sums below the columns of a thing, of all its jobs."""
        found: dict[str, str] = {"cost": self._costs(uses)}
        of = [use for _, use in uses]
        woods = [use for use in of if isinstance(use, WoodUse)]
        if woods:
            net_m3 = math.fsum(use.net_m3 for use in woods)
            found["net"] = self.volume(net_m3, board_feet_of(net_m3))
            found["stock"] = self._stock(
                replace(
                    woods[0],
                    stock_m3=math.fsum(use.stock_m3 for use in woods),
                    stock_bf=math.fsum(use.stock_bf for use in woods),
                    tallied=all(use.tallied or not use.stock_m3 for use in woods),
                )
            )
        finishes = [use for use in of if isinstance(use, FinishUsed)]
        if finishes:
            area_m2 = math.fsum(use.area_m2 for use in finishes)
            litres = math.fsum(use.litres or 0.0 for use in finishes)
            found["area"] = self.phrases.style.area(area_m2) if area_m2 else ""
            found["litres"] = self.phrases.style.litres(litres) if litres else ""
        if isinstance(of[0], HardwareUse):
            found["qty"] = str(sum(use.count for use in of))
        return tuple(found.get(name, "") for name in COLUMNS[kind])

    def _cost(self, used: Used, of: Use | BoughtLine) -> str:
        """What it cost, or at least that where some of it has no price."""
        return self.phrases.at_least(self.money(of.cost, used.currency), of.cost_whole)

    def _costs(self, uses: Iterable[tuple[Used, Use]]) -> str:
        """What is known to have been paid, a sum a currency; at least that where something has no price."""
        sums: dict[str, Decimal] = {}
        in_part: set[str] = set()
        for used, use in uses:
            if use.cost is not None:
                sums[used.currency] = sums.get(used.currency, Decimal(0)) + use.cost
            if use.cost is None or not use.cost_whole:
                in_part.add(used.currency)
        return "; ".join(
            self.phrases.at_least(self.money(amount, currency), currency not in in_part)
            for currency, amount in sorted(sums.items())
        )

    def aside(self, use: Use) -> str:
        """What stands beside the name: the botanical one of a wood."""
        known = tables.species()
        return known[use.key].botanical if isinstance(use, WoodUse) and use.key in known else ""

    # -- words and figures -----------------------------------------------------------------------

    def volume(self, m3: float, bf: float) -> str:
        """Cubic metres or board feet, by the shop's units; empty for nothing."""
        if not m3:
            return ""
        return (
            self.phrases.style.volume(m3) if self.phrases.style.metric else self.phrases.style.board_feet(bf)
        )

    def _stock(self, use: WoodUse | BoughtLine) -> str:
        shown = self.volume(use.stock_m3, use.stock_bf)
        return f"{_ABOUT}{shown}" if shown and not use.tallied else shown

    def money(self, amount: Decimal | None, currency: str) -> str:
        """In the currency that it was paid in."""
        if amount is None:
            return ""
        return replace(self.phrases.style, currency=currency).money(amount, tables.currency_places(currency))

    def prices(self, paid: Iterable[UnitPrice], currency: str) -> str:
        return "; ".join(
            f"{self.money(price, currency)}{NARROW}/{NARROW}{self._per(per)}"
            if per
            else self.money(price, currency)
            for price, per in paid
        )

    def _per(self, per: str) -> str:
        return _SIGNS.get(per) or self.phrases.words.name("across.per", per, per)

    def _parts(self, parts: Sequence[str]) -> str:
        return capital(self.phrases.names(parts)) if parts else ""

    def _sources(self, sources: Iterable[Seller]) -> str:
        return "; ".join(f"({source.name})" if source.listed else source.name for source in sources)

    def _coats(self, use: FinishUsed) -> str:
        return str(len(use.coats)) if use.coats else ""

    def between(self, coats: Sequence[date]) -> str:
        """The days from one coat to the next: `1 day`, `1–5 days`."""
        days = sorted(coats)
        gaps = [(after - before).days for before, after in pairwise(days)]
        if not gaps:
            return ""
        low, high = min(gaps), max(gaps)
        if low == high:
            return self.phrases.count("across.days", low) if low else self.phrases("across.same_day")
        return self.phrases("across.days.range", low=low, high=high)

    def _what(self, line: BoughtLine) -> str:
        """What was bought, by its name in the page's language where a table has one."""
        words = self.phrases.words
        if line.wood:
            return capital(words.name("species_name", line.wood, line.name))
        return capital(words.name("finish_name", line.family, line.name) if line.family else line.name)

    def _amount(self, line: BoughtLine) -> str:
        style = self.phrases.style
        if line.kind == "wood":
            return self._stock(line)
        by_piece = bool(line.paid) and all(per == "each" for _, per in line.paid)
        if line.kind in _BY_AREA and line.area_m2 and not by_piece:
            return style.area(line.area_m2)
        if line.litres is not None:
            return style.litres(line.litres)
        return self.phrases.count("across.pieces", line.count) if line.count else ""

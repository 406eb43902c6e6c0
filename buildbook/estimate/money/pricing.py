"""The prices of one day, in one currency and language: what a thing costs, and a job whose rows have those prices.

In: the shop's history, a day. Out: `DayPrice`, `Money`, a priced `Job`. Pure.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from buildbook.estimate.model import MaterialLine, Range, Said
from buildbook.estimate.money.prices import DayPrice, History, PriceSought, price_on, wanted_of
from buildbook.job.model import Job, Part
from buildbook.job.shop_model import Price
from buildbook.summary.model import FinishUse, Money
from buildbook.trade import cost, tables
from buildbook.words import Words


@dataclass(frozen=True)
class Pricing:
    """All that a price of the day hangs on."""

    history: History
    day: date
    currency: str
    words: Words

    @property
    def places(self) -> int:
        """Decimals of the coin (ISO 4217)."""
        return tables.currency_places(self.currency)

    def money(self, amount: Decimal) -> Money:
        return Money(cost.rounded(amount, self.places), self.currency)

    def times(self, price: Decimal, quantity: float) -> Money:
        """Price times quantity, to the coin."""
        return Money(cost.line_cost(price, quantity, self.places), self.currency)

    def of(self, wanted: PriceSought) -> DayPrice | None:
        return price_on(self.history, wanted, self.day, self.words, self.places)

    def of_finish(self, product: str, family: str) -> DayPrice | None:
        """A litre of a finish: by the name of the product, else of its family, as `summary.money` looks."""
        by_name = self.of(PriceSought(product, "", "finish")) if product else None
        return by_name or self.of(PriceSought(family, family, "finish"))

    def of_job(self, job: Job, *, own: bool = True) -> tuple[Job, Mapping[int, DayPrice]]:
        """A job whose rows and finishes have the prices of the day, and the price of each row that has one.

        own: the price that stands in a row stays.
        """
        by_row: dict[int, DayPrice] = {}
        parts = []
        for part in job.parts:
            found = self._of_part(part, own)
            if found:
                by_row[part.row] = found
            price, per = (found.price, found.per) if found else (None, "")
            parts.append(replace(part, price=price, per=per))
        finishes = tuple(
            Price(use.product or use.family, found.price, found.per, self.day)
            for use in job.finishes
            if (found := self.of_finish(use.product, use.family))
        )
        return replace(job, parts=tuple(parts), shop=replace(job.shop, prices=finishes)), by_row

    def _of_part(self, part: Part, own: bool) -> DayPrice | None:
        if own and part.price is not None:
            return DayPrice(part.price, part.per, own=True, said=(Said("price_own"),))
        return self.of(wanted_of(part))

    def finish_line(self, use: FinishUse, litres: Range) -> MaterialLine:
        """What a finish costs, coats dated or not: an enquiry has none yet, so the summary gives it no cost."""
        found = self.of_finish(use.product, use.family)
        coats = (Said("coats_usual", (("coats", str(use.coats)),)),) if use.last_coat is None else ()
        return MaterialLine(
            kind="finish",
            name=use.product or self.words.name("finish_name", use.family, use.family_name),
            key=use.family,
            unit="l",
            amount=litres,
            price=found.price if found else None,
            per=found.per if found else "",
            price_day=found.day if found else None,
            cost=self.times(found.price, litres.median) if found else None,
            said=(*coats, *(found.said if found else ())),
        )

"""What the letter asks for a piece: the likeliest price and the range around it, tax, payments, in words.

In: an `Estimate`, which is private. Out: `PriceAsked`, which may leave. Without a price (no rate, or no past hours) it
is what the materials come to, and says that the work is not in it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal
from typing import Literal

from buildbook.estimate.model import Estimate, PriceEstimate
from buildbook.job.taxes import usual_tax_name
from buildbook.pages.phrases import Phrases
from buildbook.pages.sets import of_set
from buildbook.pages.shared import Line
from buildbook.summary.model import Money
from buildbook.summary.sets import share_of

_COIN_PLACES = 2
_CALIBRATED = "past"  # `HoursEstimate.lean`: the range was tried on the shop's own quotes


@dataclass(frozen=True)
class PriceAsked:
    """The price as the client reads it.

    of        what the figures are for: the whole piece, its materials only, or nothing that can be told yet.
    likely    the likeliest amount; `low` and `high` stand around it, empty where they are the same.
    at        where the likeliest stands between low and high, from 0 to 1: for drawing to scale.
    sentences what the figures mean, tax first; every one is to be shown.
    payments  when, how much, and its share.
    """

    of: Literal["price", "materials", "nothing"]
    label: str
    likely: str = ""
    low: str = ""
    high: str = ""
    at: float = 0.0
    sentences: tuple[str, ...] = ()
    payments: tuple[Line, ...] = ()
    payments_note: str = ""


def asked(estimate: Estimate, phrases: Phrases) -> PriceAsked:
    """The price of an estimate in words. Pure."""
    if estimate.price is not None:
        return _price(estimate, estimate.price, phrases)
    return _materials(estimate, phrases)


def _price(estimate: Estimate, price: PriceEstimate, phrases: Phrases) -> PriceAsked:
    shares = tuple(_payments(price, phrases))
    return PriceAsked(
        of="price",
        label=phrases("letter.likely"),
        **_figures(price.low, price.median, price.high, phrases),
        sentences=tuple(_price_sentences(estimate, price, phrases)),
        payments=shares,
        payments_note=phrases("letter.payments_note") if shares else "",
    )


def _price_sentences(estimate: Estimate, price: PriceEstimate, phrases: Phrases) -> Iterator[str]:
    quoting = estimate.enquiry.shop.quoting
    if quoting.tax_pct:
        tax = Money(price.median.amount - price.net_median.amount, price.median.currency)
        yield phrases(
            "letter.with_tax",
            tax=_tax(estimate, phrases),
            share=phrases.style.percent(quoting.tax_pct, _places(quoting.tax_pct)),
            amount=_money(tax, phrases),
        )
    if note := quoting.tax_note.strip():
        yield note
    yield from _of_a_set("letter.price_for", price.median, estimate, phrases)
    if price.low.amount < price.high.amount:
        learnt = estimate.hours.lean == _CALIBRATED
        yield phrases("letter.range_means" if learnt else "letter.range_means_few")
    if estimate.materials.unpriced:
        yield phrases("letter.unpriced")


def _materials(estimate: Estimate, phrases: Phrases) -> PriceAsked:
    found = estimate.materials
    follows = phrases("letter.labour_follows")
    if not found.amount.amount:
        return PriceAsked(
            "nothing", phrases("letter.materials_only"), sentences=(phrases("letter.no_figure"), follows)
        )
    sentences = [phrases("letter.not_in_it"), follows]
    if estimate.enquiry.shop.quoting.tax_pct:
        without = phrases("letter.without_tax", tax=_tax(estimate, phrases))
        sentences.insert(0, f"{without.rstrip('.')}.")  # MwSt. brings its own
    if note := estimate.enquiry.shop.quoting.tax_note.strip():
        sentences.insert(0, note)
    sentences[:0] = _of_a_set("letter.amount_for", found.amount, estimate, phrases)
    if found.unpriced:
        sentences.append(phrases("letter.unpriced"))
    return PriceAsked(
        of="materials",
        label=phrases("letter.materials_only"),
        **_figures(_whole(found.low), _whole(found.amount), _whole(found.high), phrases),
        sentences=tuple(sentences),
    )


def _of_a_set(key: str, likely: Money, estimate: Estimate, phrases: Phrases) -> Iterator[str]:
    """How many pieces an amount is for, and what that is for each."""
    job = estimate.enquiry
    if job.quantity > 1:
        each = _whole(share_of(likely, job.quantity))
        yield of_set(key, job, phrases, each=_money(each, phrases))


def _figures(low: Money, likely: Money, high: Money, phrases: Phrases) -> dict:
    shown = {"likely": _money(likely, phrases)}
    if low.amount >= high.amount:
        return shown
    at = float((likely.amount - low.amount) / (high.amount - low.amount))
    return {
        **shown,
        "low": _money(low, phrases),
        "high": _money(high, phrases),
        "at": round(min(max(at, 0.0), 1.0), 3),
    }


def _payments(price: PriceEstimate, phrases: Phrases) -> Iterator[Line]:
    coins = any(_has_coins(share.amount) for share in price.shares)
    for share in price.shares:
        yield Line(
            share.when.strip() or phrases("letter.deposit"),
            _money(share.amount, phrases, coins=coins),
            phrases.style.percent(share.share_pct, _places(share.share_pct)),
        )


def _tax(estimate: Estimate, phrases: Phrases) -> str:
    shop = estimate.enquiry.shop
    return shop.quoting.tax_name.strip() or usual_tax_name(shop) or phrases("letter.tax")


def _places(pct: float) -> int:
    return 0 if pct == int(pct) else 1


def _whole(money: Money) -> Money:
    """To the whole unit: a sum of wood that is not yet bought is not known to the coin."""
    return Money(money.amount.quantize(Decimal(1), ROUND_HALF_UP), money.currency)


def _has_coins(money: Money) -> bool:
    return money.amount != money.amount.to_integral_value()


def _money(money: Money, phrases: Phrases, *, coins: bool | None = None) -> str:
    """With coins, or without; where it is not said, only if there are any."""
    style = replace(phrases.style, currency=money.currency)
    shown = _has_coins(money) if coins is None else coins
    return style.money(money.amount, _COIN_PLACES if shown else 0)

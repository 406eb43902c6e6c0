"""Money on a worksheet: materials with their prices and how old those are, the steps to the price, the payments."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from buildbook.estimate.model import Estimate, MaterialLine, PriceEstimate, PriceLine, Range
from buildbook.job.taxes import usual_tax_name
from buildbook.pages.ledger import Ledger, ledger, money
from buildbook.pages.phrases import Phrases, capital
from buildbook.pages.worksheet.figures import sentences, volume
from buildbook.quantity.show import NARROW
from buildbook.summary.model import Money

_SIGNS = {"m3": "m³", "m2": "m²", "l": "l", "kg": "kg", "m": "m"}
_MONTHS_FROM, _YEARS_FROM = 60, 730  # days from which an age is told in months, in years
_MONTH, _YEAR = 30.4375, 365.25  # days


# -- materials ---------------------------------------------------------------------------------------


def materials_table(estimate: Estimate, phrases: Phrases) -> Ledger | None:
    """A row a thing to buy, its sum below; what has no price is named."""
    found = estimate.materials
    rows = [_material(line, estimate.day, phrases) for line in found.lines]
    amount = phrases.at_least(money(found.amount, phrases), not found.unpriced)
    totals = (phrases("worksheet.sum"), "", amount, "", "", "", "", "")
    return ledger(
        phrases,
        "materials",
        ("thing", "#amount", "#cost", "#price", "per", "day", "#age", "note"),
        rows,
        totals=totals,
        notes=_material_notes(estimate, phrases),
    )


def _material(line: MaterialLine, today: date, phrases: Phrases) -> tuple[str, ...]:
    priced = line.price is not None
    return (
        capital(line.name),
        _amount(line.amount, line.unit, phrases),
        money(line.cost, phrases) if line.cost else "–",
        money(Money(line.price, _currency(line, phrases)), phrases) if line.price is not None else "",
        _per(line.per, phrases) if priced else "",
        (phrases.short_date(line.price_day) if line.price_day else phrases("worksheet.undated"))
        if priced
        else "",
        age((today - line.price_day).days, phrases) if priced and line.price_day else "",
        " ".join(part for part in (_scaled(line, phrases), sentences(line.said, phrases)) if part),
    )


def _currency(line: MaterialLine, phrases: Phrases) -> str:
    return line.cost.currency if line.cost else phrases.style.currency


def _scaled(line: MaterialLine, phrases: Phrases) -> str:
    if not line.scaled:
        return ""
    jobs = phrases.count("worksheet.jobs", line.from_jobs)
    return phrases("worksheet.scaled", jobs=jobs, exponent=phrases.style.number(line.exponent, 2))


def _amount(amount: Range, unit: str, phrases: Phrases) -> str:
    """`0.0520 m³`, and with what it may be: `0.0520 m³ (0.0410–0.0660)`."""
    middle = _quantity(amount.median, unit, phrases)
    low, high = (_quantity(end, unit, phrases) for end in (amount.low, amount.high))
    if low == high:
        return middle
    sign = NARROW + middle.rpartition(NARROW)[2]
    if all(text.count(NARROW) == 1 and text.endswith(sign) for text in (low, middle, high)):
        low, high = low.removesuffix(sign), high.removesuffix(sign)
    return f"{middle} ({low}–{high})"


def _quantity(amount: float, unit: str, phrases: Phrases) -> str:
    style = phrases.style
    match unit:
        case "m3":
            return volume(amount, style)
        case "m2":
            return style.area(amount)
        case "l":
            return style.litres(amount)
        case "sheet" if amount == round(amount):
            return phrases.count("worksheet.sheets", round(amount))
        case "each" | "sheet" | "":
            return style.trimmed(amount, 1)
    return f"{style.trimmed(amount, 2)}\u202f{_per(unit, phrases)}"


def _per(per: str, phrases: Phrases) -> str:
    return _SIGNS.get(per) or phrases.words.name("worksheet.per", per, per)


def age(days: int, phrases: Phrases) -> str:
    """How old a price is: days, from two months on months, from two years on years."""
    if days <= 0:
        return phrases("worksheet.age.today")
    if days < _MONTHS_FROM:
        return phrases.count("worksheet.age.days", days)
    if days < _YEARS_FROM:
        return phrases.count("worksheet.age.months", round(days / _MONTH))
    return phrases.count("worksheet.age.years", round(days / _YEAR))


def _material_notes(estimate: Estimate, phrases: Phrases) -> Iterator[str]:
    found = estimate.materials
    if found.low != found.high:
        yield phrases("worksheet.sum_range", low=money(found.low, phrases), high=money(found.high, phrases))
    if found.unpriced:
        yield phrases("worksheet.unpriced", what=phrases.listed(found.unpriced))
    if found.said:  # how the waste was found
        yield sentences(found.said, phrases)
    elif found.waste_pct:
        yield phrases("worksheet.waste", pct=phrases.style.percent(found.waste_pct))


# -- price -------------------------------------------------------------------------------------------


def price_table(estimate: Estimate, phrases: Phrases) -> Ledger | None:
    """The steps from cost to price, with what stands before tax where there is one."""
    price = estimate.price
    if price is None:
        return None
    rows = []
    for line in price.lines:
        if line.key == "tax":
            rows.append(_net(price, phrases))
        rows.append(_step(line, estimate, phrases))
    figures = _three((price.low, price.median, price.high), phrases)
    whole = not estimate.materials.unpriced
    totals = (phrases("worksheet.step.price"), "", *(phrases.at_least(figure, whole) for figure in figures))
    columns = ("step", "#share", "#low", "#middle", "#high")
    spread = [phrases("worksheet.note_price")] if price.low.amount < price.high.amount else []
    return ledger(phrases, "to_price", columns, rows, totals=totals, notes=spread)


def _step(line: PriceLine, estimate: Estimate, phrases: Phrases) -> tuple[str, ...]:
    name = phrases.words.name("worksheet.step", line.key, line.key)
    if line.key == "tax":
        shop = estimate.enquiry.shop
        name = shop.quoting.tax_name.strip() or capital(usual_tax_name(shop)) or name
    share = f"{phrases.style.trimmed(line.pct, 2)}\u202f%" if line.pct is not None else ""
    return name, share, *_three((line.low, line.median, line.high), phrases)


def _net(price: PriceEstimate, phrases: Phrases) -> tuple[str, ...]:
    figures = _three((price.net_low, price.net_median, price.net_high), phrases)
    return phrases("worksheet.step.net"), "", *figures


def _three(amounts: tuple[Money, Money, Money], phrases: Phrases) -> tuple[str, ...]:
    return tuple(money(amount, phrases) for amount in amounts)


def payments_table(estimate: Estimate, phrases: Phrases) -> Ledger | None:
    """What is paid when, of the middle."""
    rows = [
        (
            share.when or phrases("worksheet.with_order"),
            f"{phrases.style.trimmed(share.share_pct, 2)}\u202f%",
            money(share.amount, phrases),
        )
        for share in (estimate.price.shares if estimate.price else ())
    ]
    return ledger(phrases, "payments", ("when", "#share", "#price"), rows)

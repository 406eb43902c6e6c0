"""What a row costs: its cells price and per, however the price is written, as an amount for one of a unit.

In: a row. Out: amount and unit; empty where there is no price. What the price does not say is asked, or taken and told.
"""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from buildbook.job.believable import check, plain_amount
from buildbook.job.model import PER
from buildbook.job.table.bought import BoughtAs, singular
from buildbook.job.table.sheet import Row
from buildbook.job.text import shown
from buildbook.problems import did_you_mean, listed
from buildbook.quantity import QuantityError
from buildbook.quantity.beside import bare_word, numbered, words_of
from buildbook.quantity.price import Unit, WrittenPrice, read_price, read_unit, unit_names

EACH = Unit("each", Decimal(1))
_BY_THE_PIECE = ("hardware", "glass", "supply")
"""Kinds of parts of which a bare price is that of one."""

Costs = tuple[Decimal | None, str]


def read_costs(row: Row, kind: str = "", currency: str = "", bought: BoughtAs | None = None) -> Costs:
    """Amount and unit of a row. `kind`: of a part, which says what a bare price is for. `currency`: of the shop.
    `bought`: where it was not counted, how much of it there is.
    """
    if bare_word(row.text("price")) in words_of("left_over.words"):
        return None, ""
    if bought:
        row = _without_pack(row, bought)
    price = row.read("price", lambda text: read_price(text, decimal_comma=row.decimal_comma).amount)
    whole = read_price(row.text("price"), decimal_comma=row.decimal_comma) if price is not None else None
    unit = _unit(row)
    if whole is None:
        return None, unit.per if unit else ""
    if unit and whole.unit and unit != whole.unit:
        said, other = shown(row.text("price")), shown(row.text("per"))
        row.error("price", f"{said} and {other} are prices for two things.", "Keep one of the two.")
    found = whole.unit or unit
    if bought and (of_all := bought.price(whole, found)):
        whole, found = replace(whole, amount=of_all[0]), of_all[1]
    if found is None and (kind in _BY_THE_PIECE or _is_cut_piece(row, kind)) and not row.text("per"):
        found = EACH
        _tell_pairs(row)
    _tell_currency(row, whole, currency)
    if whole.with_tax:
        message = f"{shown(row.text('price'))} says that tax is in it; it is taken as it stands."
        row.warn("price", message, "Write it without the tax where you get that back.", "tax")
    if found is None:
        return plain_amount(whole.amount), ""
    amount = plain_amount(whole.amount / found.of)
    try:
        check(amount, row.known["price"].within, shown(row.text("price")))
    except QuantityError as wrong:
        row.error("price", wrong.message, wrong.hint)
        return None, found.per
    return amount, found.per


def _without_pack(row: Row, bought: BoughtAs) -> Row:
    """A row whose price is for one of the packs that it counts: `4 bags`, at `7.25 a bag`."""
    beside = re.fullmatch(r"(.*?\d)\s*(?:/|per|a|each|je|pro)?\s*([^\W\d_]+\.?)", row.text("price"))
    if beside is None or bought.unit or singular(beside[2]) != singular(bought.word):
        return row
    return replace(row, cells={**row.cells, "price": beside[1]})


def _is_cut_piece(row: Row, kind: str) -> bool:
    """Whether a row is padding that was bought cut to its size."""
    return kind == "upholstery" and bool(row.text("length"))


def _unit(row: Row) -> Unit | None:
    """What the column per says."""
    if not (text := row.text("per")):
        return None
    try:
        return read_unit(text)
    except QuantityError as wrong:
        if "how much" in wrong.message:
            row.error("per", wrong.message, wrong.hint)
        else:
            hint = did_you_mean(text, unit_names()) or f"Write {listed(PER, 'or')}."
            row.error("per", f"{shown(text)} is not a word that this column takes.", hint)
        return None


def _tell_pairs(row: Row) -> None:
    """A bare price beside a count of pairs: makers buy hinges by the pair."""
    words = re.findall(r"[^\W\d_]+", row.text("qty").casefold())
    if any(numbered("counted").get(word, 1) > 1 for word in words):
        message = (
            f"{shown(row.text('price'))} beside {shown(row.text('qty'))} is taken for the price of one piece."
        )
        row.warn("price", message, "Write such as 14.50 each or 29.00 pair.")


def _tell_currency(row: Row, price: WrittenPrice, currency: str) -> None:
    if not currency or not price.currencies or currency in price.currencies:
        return
    named = listed(sorted(price.currencies), "or")
    said = shown(row.text("price"))
    message = f"{said} is in {named}, and the shop reckons in {currency}: it is taken as {currency}."
    row.warn(
        "price", message, f"Write it in {currency}, or put right currency in shop.toml.", f"currency {named}"
    )

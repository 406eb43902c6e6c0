"""prices.csv -> `Price`s: what materials cost today. In: its bytes. Out: the rows that are whole."""

from __future__ import annotations

import re
from datetime import date

from buildbook import limits
from buildbook.job.model import PER
from buildbook.job.shop_model import Price
from buildbook.job.table.headings import PRICES_HEADINGS
from buildbook.job.table.parts import PER_NAMES
from buildbook.job.table.sheet import Row, read_sheet, until_too_wrong
from buildbook.job.text import shown
from buildbook.problems import Problems, listed
from buildbook.quantity import QuantityError

FILE = "prices.csv"
NEEDED = ("material", "price", "per")

_YEAR_FIRST = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_DAY_FIRST = re.compile(r"(\d{1,2})\.\s*(\d{1,2})\.\s*(\d{4})")


def read_prices(
    data: bytes, problems: Problems, *, file: str = FILE, decimal_comma: bool = False
) -> tuple[Price, ...]:
    """The prices of a prices.csv, or of the spreadsheet that `file` names, in the order written; a row that is not
    whole is told and left out. `decimal_comma`: see `read_sheet`.
    """
    most = limits.PRICE_ROWS
    sheet = read_sheet(data, file, PRICES_HEADINGS, NEEDED, problems, most, decimal_comma=decimal_comma)
    if sheet is None or not set(NEEDED) <= sheet.columns:
        return ()
    return tuple(price for row in until_too_wrong(sheet.rows, problems) if (price := _price(row)))


def _price(row: Row) -> Price | None:
    material = row.text("material")
    if not material:
        row.error("material", "This row has no material.", "Name it as in parts.csv, or delete the row.")
    if not row.text("price"):
        row.error("price", "There is no price.", "Write an amount such as 12.50.")
    if not row.text("per"):
        row.error("per", "It does not say what the price is for.", f"Write {listed(PER, 'or')}.")
    amount, per, day = row.amount("price"), row.choice("per", PER_NAMES), row.read("date", _day)
    if not material or amount is None or per is None:
        return None
    return Price(material, amount, per, day, row.text("supplier"), row.number)


def _day(text: str) -> date:
    """A day as 2026-03-02 or 2.3.2026; the others could be either way round."""
    try:
        if match := _YEAR_FIRST.fullmatch(text):
            return date(int(match[1]), int(match[2]), int(match[3]))
        if match := _DAY_FIRST.fullmatch(text):
            return date(int(match[3]), int(match[2]), int(match[1]))
    except ValueError:
        raise QuantityError(
            f"{shown(text)} is a day that does not exist.", "Write such as 2026-03-02."
        ) from None
    raise QuantityError(
        f"{shown(text)} is not a day that can be read.", "Write year-month-day, such as 2026-03-02."
    )

"""prices.csv -> `Price`s: what materials cost today. In: its bytes. Out: the rows that are whole."""

from __future__ import annotations

from buildbook import limits
from buildbook.job.days import read_day
from buildbook.job.model import PER
from buildbook.job.shop_model import Price
from buildbook.job.table.headings import PRICES_HEADINGS
from buildbook.job.table.money import read_costs
from buildbook.job.table.sheet import Row, read_sheet, until_too_wrong
from buildbook.problems import Problems, listed

FILE = "prices.csv"
NEEDED = ("material", "price", "per")


def read_prices(
    data: bytes, problems: Problems, currency: str = "", *, file: str = FILE, decimal_comma: bool = False
) -> tuple[Price, ...]:
    """The prices of a prices.csv, or of the spreadsheet that `file` names, in the order written; a row that is not
    whole is told and left out. `currency`: of the shop; `decimal_comma`: see `read_sheet`.
    """
    most = limits.PRICE_ROWS
    sheet = read_sheet(data, file, PRICES_HEADINGS, NEEDED, problems, most, decimal_comma=decimal_comma)
    if sheet is None or not set(NEEDED) <= sheet.columns:
        return ()
    return tuple(price for row in until_too_wrong(sheet.rows, problems) if (price := _price(row, currency)))


def _price(row: Row, currency: str) -> Price | None:
    material = row.text("material")
    if not material:
        row.error("material", "This row has no material.", "Name it as in parts.csv, or delete the row.")
    if not row.text("price"):
        row.error("price", "There is no price.", "Write an amount such as 12.50.")
    (amount, per), day = read_costs(row, currency=currency), row.read("date", read_day)
    if not per and not row.text("per") and (amount is not None or not row.text("price")):
        row.error("per", "It does not say what the price is for.", f"Write {listed(PER, 'or')}.")
    if not material or amount is None or not per:
        return None
    return Price(material, amount, per, day, row.text("supplier"), row.number)

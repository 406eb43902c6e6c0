"""What the tables of a worksheet share: their own column names, money to the coin, sentences of the reckoning."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from buildbook.estimate.model import Said
from buildbook.estimate.wording import sentence
from buildbook.pages.log.tables import Table
from buildbook.pages.phrases import Phrases
from buildbook.quantity import Style
from buildbook.quantity.units import convert
from buildbook.summary.model import Money
from buildbook.trade import tables


def ledger(
    phrases: Phrases,
    key: str,
    columns: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    heading: str = "",
    totals: Sequence[str] = (),
    notes: Iterable[str] = (),
) -> Table | None:
    """A table; None without rows. Columns that begin with `#` hold figures; one without any text is left out."""
    body = [tuple(row) for row in rows]
    if not body:
        return None
    used = [place for place in range(len(columns)) if place == 0 or any(row[place] for row in body)]
    return Table(
        key=key,
        heading=phrases(heading or f"worksheet.{key}"),
        columns=tuple(phrases(f"worksheet.columns.{columns[place].lstrip('#')}") for place in used),
        numeric=tuple(columns[place].startswith("#") for place in used),
        rows=tuple(tuple(row[place] for place in used) for row in body),
        totals=tuple(totals[place] for place in used) if totals else (),
        notes=tuple(dict.fromkeys(note for note in notes if note)),
    )


def money(amount: Money, phrases: Phrases) -> str:
    """To the coin of its currency."""
    style = replace(phrases.style, currency=amount.currency)
    return style.money(amount.amount, tables.currency_places(amount.currency))


def sum_of_money(amounts: Sequence[Money], phrases: Phrases, beside: Sequence[Money] = ()) -> tuple[str, ...]:
    """Amounts that are read together; without coins where all of them are whole, or those that they stand beside."""
    if any(one.amount != one.amount.to_integral_value() for one in beside or amounts):
        return tuple(money(one, phrases) for one in amounts)
    return tuple(replace(phrases.style, currency=one.currency).money(one.amount, 0) for one in amounts)


def sentences(said: Iterable[Said], phrases: Phrases) -> str:
    """What the reckoning says, in the language of the shop."""
    return " ".join(sentence(one, phrases.words) for one in said)


def volume(m3: float, style: Style) -> str:
    """Rough stock as the shop buys it: cubic metres, or board feet."""
    return style.volume(m3) if style.metric else style.board_feet(convert(m3, "meter ** 3", "board_foot"))

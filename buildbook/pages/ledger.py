"""A table of the maker's pages: columns and rows of ready-made text, and money as it stands in them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from buildbook.pages.phrases import Phrases
from buildbook.summary.model import Money
from buildbook.trade import tables


@dataclass(frozen=True)
class Ledger:
    """Columns and rows of text. `numeric` says which columns align on the right; `notes` stand below. `of`: what each
    row tells of, where problems may be of it; `below`: what a page has to say below each row.
    """

    key: str
    heading: str
    columns: tuple[str, ...]
    numeric: tuple[bool, ...]
    rows: tuple[tuple[str, ...], ...]
    totals: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    of: tuple[str, ...] = ()
    below: tuple[tuple[object, ...], ...] = ()


def ledger(
    phrases: Phrases,
    key: str,
    columns: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    heading: str = "",
    names: str = "worksheet.columns",
    totals: Sequence[str] = (),
    notes: Iterable[str] = (),
    of: Iterable[str] = (),
) -> Ledger | None:
    """A table; None without rows. Columns that begin with `#` hold figures; one without any text is left out, but for
    the first. heading, names: where its words stand; a worksheet's where nothing is said.
    """
    body = list(rows)
    if not body:
        return None
    kept = filled(body, first=True)
    return Ledger(
        key=key,
        heading=phrases(heading or f"worksheet.{key}"),
        columns=tuple(phrases(f"{names}.{columns[place].lstrip('#')}") for place in kept),
        numeric=tuple(columns[place].startswith("#") for place in kept),
        rows=tuple(only(row, kept) for row in body),
        totals=only(totals, kept) if totals else (),
        notes=tuple(dict.fromkeys(phrases.told(note) for note in notes if note)),
        of=tuple(of),
    )


def filled(rows: Iterable[Sequence[str]], *, first: bool = False) -> tuple[int, ...]:
    """The places of the columns in which some row has text; with `first` the first one whatever it holds."""
    columns = zip(*rows, strict=True)
    return tuple(place for place, cells in enumerate(columns) if any(cells) or (first and place == 0))


def only(cells: Sequence[str], places: Iterable[int]) -> tuple[str, ...]:
    """The cells at some places."""
    return tuple(cells[place] for place in places)


def money(amount: Money, phrases: Phrases) -> str:
    """To the coin of its currency."""
    style = replace(phrases.style, currency=amount.currency)
    return style.money(amount.amount, tables.currency_places(amount.currency))


def sum_of_money(amounts: Sequence[Money], phrases: Phrases, beside: Sequence[Money] = ()) -> tuple[str, ...]:
    """Amounts that are read together; without coins where all of them are whole, or those that they stand beside."""
    if any(one.amount != one.amount.to_integral_value() for one in beside or amounts):
        return tuple(money(one, phrases) for one in amounts)
    return tuple(replace(phrases.style, currency=one.currency).money(one.amount, 0) for one in amounts)

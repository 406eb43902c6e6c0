"""How long a part with tenons is: over all, and between its shoulders.

In: a row, its cell of the length, its tenons. Out: the length over all and the tenons. The length is over all unless
its cell, or the words of the fit or the note, say that it is taken between shoulders; a figure beside those words in
the fit or the note is the length between shoulders, and makes the tenons where there are none.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from buildbook.job.table.sheet import Row
from buildbook.job.text import shown
from buildbook.quantity import Length, QuantityError, read_length

_WORDS = (
    r"(?:(?:measured\s+|gemessen\s+)?(?:between|btw\.?)\s+(?:the\s+)?shoulders|shoulder\s+to\s+shoulder"
    r"|zwischen\s+(?:den\s+)?(?:brüstungen|bruestungen|schultern)|von\s+brüstung\s+zu\s+brüstung)"
)
_MARKED = re.compile(
    rf"^\s*(?:{_WORDS}\s*[:=]?\s*(?P<after>.*?)|(?P<before>.*?)\s*,?\s*{_WORDS})\s*$", re.I | re.S
)
_FIGURE = r"\d[\d\s.,/]*(?:mm|cm|m|in|ft|[\"'″′])?"
_BESIDE = re.compile(
    rf"(?P<before>{_FIGURE})\s*{_WORDS}|{_WORDS}\s*[:=]?\s*(?P<after>{_FIGURE})|(?P<bare>{_WORDS})", re.I
)
_SAME_M = 1e-6  # lengths this near are the same
_HINT = "Write the tenons of both ends together in the column tenons."


@dataclass(frozen=True)
class Tenoned:
    """The length over all, and the tenons of both ends together; None where there are none."""

    length: Length | None
    tenons: Length | None


def bare_length(text: str) -> str:
    """The cell of a length without the words that say how it was taken."""
    match = _MARKED.match(text)
    return (match["after"] or match["before"] or "").strip() if match else text


def says_between(text: str) -> bool:
    """Whether the words of a fit or a note say that the length is taken between shoulders."""
    return bool(_BESIDE.search(text))


def read_tenoned(row: Row, length: Length | None, units: str, note: str) -> Tenoned:
    """The length over all of a part whose cell of the length holds `length`, and its tenons.

    note  all that is kept as one, by whatever heading.
    """
    tenons = row.length("tenons", units)
    if length is None:
        return Tenoned(None, tenons)
    if _MARKED.match(row.text("length")):
        return _over_all(row, length, tenons)
    for column, said in (("fit", row.text("fit")), ("note", note)):
        if found := _BESIDE.search(said):
            figure = found["before"] or found["after"]
            if figure is None:
                return _over_all(row, length, tenons)
            between = _length(row, figure, units)
            return _beside(row, column, length, tenons, between) if between else Tenoned(length, tenons)
    return _checked(row, length, tenons)


def _length(row: Row, text: str, units: str) -> Length | None:
    """The figure beside the words; None for what is no length, since a note may say anything."""
    try:
        return read_length(
            text.strip(" ,."), row.units.get("length") or units, decimal_comma=row.decimal_comma
        )
    except QuantityError:
        return None


def _over_all(row: Row, between: Length, tenons: Length | None) -> Tenoned:
    if tenons is None:
        if not row.text("tenons"):
            row.warn(
                "length",
                f"The length, {shown(between.written)}, is between shoulders, and it is not said how long the"
                " tenons are: it is taken as over all.",
                _HINT,
            )
        return Tenoned(between, None)
    return Tenoned(Length(between.m + tenons.m, f"{between.written} + {tenons.written}"), tenons)


def _beside(row: Row, column: str, length: Length, tenons: Length | None, said: Length) -> Tenoned:
    """A length whose figure between shoulders stands in the fit or the note."""
    if tenons is None:
        if said.m < length.m - _SAME_M:
            rest = length.m - said.m
            return Tenoned(length, Length(rest, f"{length.written} - {said.written}"))
        return _over_all(row, length, tenons) if abs(said.m - length.m) <= _SAME_M else Tenoned(length, None)
    if abs(said.m - length.m) <= _SAME_M:
        return _over_all(row, length, tenons)
    if abs(said.m + tenons.m - length.m) > _SAME_M:
        row.warn(
            column,
            f"{shown(said.written)} between shoulders and tenons of {shown(tenons.written)} do not make the"
            f" length, {shown(length.written)}.",
            "Put right the length, the tenons or the note; the length is taken as over all.",
        )
    return _checked(row, length, tenons)


def _checked(row: Row, length: Length, tenons: Length | None) -> Tenoned:
    if tenons is not None and tenons.m >= length.m - _SAME_M:
        row.error(
            "tenons",
            f"The tenons, {shown(tenons.written)}, are as long as the part, {shown(length.written)}.",
            "Write the tenons of both ends together; if the length is between shoulders, say so beside it.",
        )
        return Tenoned(length, None)
    return Tenoned(length, tenons)

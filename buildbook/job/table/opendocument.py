"""The cells of an .ods (OpenDocument, ISO/IEC 26300): the elements of one table, parsed by defusedxml."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from datetime import datetime, timedelta
from typing import Any

from defusedxml.ElementTree import fromstring

from buildbook import limits
from buildbook.job.table.cells import Cell, Rows, day_text, number_text, plain_text, time_text

Choose = Callable[[Sequence[tuple[str, bool]]], int]

_NAMES = "{urn:oasis:names:tc:opendocument:xmlns:%s:1.0}%s"
_ROW, _CELL, _COVERED, _STYLE, _TABLE_STYLE = (
    _NAMES % (space, name)
    for space, name in (
        ("table", "table-row"), ("table", "table-cell"), ("table", "covered-table-cell"),
        ("style", "style"), ("style", "table-properties"),
    )
)  # fmt: skip
_P, _S, _TAB, _BREAK, _READING = (
    _NAMES % ("text", name) for name in ("p", "s", "tab", "line-break", "ruby-text")
)
_NOTE = _NAMES % ("office", "annotation")
_SHEETS = "/".join(_NAMES % at for at in (("office", "body"), ("office", "spreadsheet"), ("table", "table")))
_MONTH_YEAR = re.compile(r"[^\W\d_]{3,}\.?[-\s/]\d{2}")
_DURATION = re.compile(r"(-?)P(?:(\d+)D)?T?(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)(?:[.,]\d+)?S)?")


def rows(content: bytes, choose: Choose, decimal_comma: bool) -> Rows:
    """The rows of the sheet that is chosen by titles and whether they are hidden. Raises for a damaged document."""
    root = fromstring(content, forbid_dtd=True)
    hidden = {
        style.get(_NAMES % ("style", "name"))
        for style in root.iter(_STYLE)
        for facts in style.iter(_TABLE_STYLE)
        if facts.get(_NAMES % ("table", "display")) == "false"
    }
    sheets = root.findall(_SHEETS)
    titles = [one.get(_NAMES % ("table", "name"), "") for one in sheets]
    styles = [one.get(_NAMES % ("table", "style-name")) for one in sheets]
    chosen = choose([(title, style in hidden) for title, style in zip(titles, styles, strict=True)])
    number = 0
    for row in sheets[chosen].iter(_ROW):
        times = _times(row, "rows")
        if cells := _cells(row, decimal_comma):
            yield from ((number + place, cells) for place in range(1, times + 1))
        number += times


def _times(element: Any, what: str) -> int:
    return max(1, int(element.get(_NAMES % ("table", f"number-{what}-repeated"), "1")))


def _cells(row: Any, decimal_comma: bool) -> list[Cell]:
    cells: list[Cell] = []
    for element in row:
        if element.tag not in (_CELL, _COVERED):
            continue
        room = limits.CELLS_IN_ROW + 1 - len(cells)
        cell = _cell(element, decimal_comma) if element.tag == _CELL else Cell("")
        cells += [cell] * min(_times(element, "columns"), room)
    while cells and not cells[-1].text and not cells[-1].unsaved:
        cells.pop()
    return cells


def _cell(element: Any, decimal_comma: bool) -> Cell:
    kind = element.get(_NAMES % ("office", "value-type"), "")
    paragraphs = ["".join(_said(one)) for one in element if one.tag == _P]
    shown = plain_text("\n".join(paragraphs))
    if not kind and not shown and element.get(_NAMES % ("table", "formula")) is not None:
        return Cell("", unsaved=True)
    if kind in ("float", "percentage", "currency"):
        value = float(element.get(_NAMES % ("office", "value")))
        sign = "%" if kind == "percentage" else shown
        return Cell(number_text(value, sign, decimal_comma=decimal_comma))
    if kind == "date":
        day = datetime.fromisoformat(element.get(_NAMES % ("office", "date-value")).split(".")[0])
        if day.day == 1 and _MONTH_YEAR.fullmatch(shown):  # what 3/32 is turned into
            return Cell(shown)
        return Cell(day_text(day))
    if kind == "time":
        return Cell(time_text(_duration(element.get(_NAMES % ("office", "time-value")))))
    if kind == "boolean":
        return Cell(element.get(_NAMES % ("office", "boolean-value")).upper())
    if kind == "string" and not paragraphs:
        return Cell(plain_text(element.get(_NAMES % ("office", "string-value"), "")))
    return Cell(shown)


def _said(element: Any) -> Iterator[str]:
    """The text of a paragraph, with the blanks that its marks stand for, without notes and readings of its signs."""
    yield element.text or ""
    for inside in element:
        if inside.tag == _S:
            yield " " * min(int(inside.get(_NAMES % ("text", "c"), "1")), limits.CELL_SIGNS)
        elif inside.tag == _TAB:
            yield "\t"
        elif inside.tag == _BREAK:
            yield "\n"
        elif inside.tag not in (_READING, _NOTE):
            yield from _said(inside)
        yield inside.tail or ""


def _duration(text: str) -> timedelta:
    match = _DURATION.fullmatch(text)
    if match is None:
        raise ValueError(text)
    days, hours, minutes, seconds = (int(part or 0) for part in match.groups()[1:])
    length = timedelta(days=days, hours=hours, minutes=minutes, seconds=seconds)
    return -length if match[1] else length

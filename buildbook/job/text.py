"""Bytes of a text file -> text, whatever program wrote them.

UTF-8 with or without a mark, UTF-16 with one, else Windows-1252. Never raises.
"""

from __future__ import annotations

import codecs
import re

from buildbook import limits
from buildbook.job.signs import NO_SIGN
from buildbook.problems import Problems

LONGEST_SHOWN = 60
"""Characters of a maker's text that a message shows."""

_MARKS = ((codecs.BOM_UTF8, "utf-8"), (codecs.BOM_UTF16_LE, "utf-16-le"), (codecs.BOM_UTF16_BE, "utf-16-be"))
_SPREADSHEETS = ((b"PK\x03\x04", "a spreadsheet or an archive"), (b"\xd0\xcf\x11\xe0", "an old spreadsheet"))


def decode(data: bytes, name: str, problems: Problems) -> str | None:
    """The text, or None with a problem when it is none. What is not a character of the encoding is told and
    replaced.
    """
    for start, what in _SPREADSHEETS:
        if data.startswith(start):
            problems.error(name, f"This is {what}, not a text file.", f"Save it from its program as {name}.")
            return None
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return _lenient(data[len(mark) :], encoding, name, problems)
    if data.count(0) > len(data) // 4:
        problems.error(name, "This is not a text file in UTF-8.", "Save it again as text in UTF-8.")
        return None
    try:
        return _without_controls(data.decode("utf-8"), name, problems)
    except UnicodeDecodeError:
        return _lenient(data, "cp1252", name, problems)


def _lenient(data: bytes, encoding: str, name: str, problems: Problems) -> str:
    text = data.decode(encoding, errors="replace")
    if (place := text.find("\ufffd")) >= 0:
        line = text.count("\n", 0, place) + 1
        problems.warn(
            name, "A character here cannot be read.", "Save the file again as text in UTF-8.", line=line
        )
    return _without_controls(text, name, problems)


def _without_controls(text: str, name: str, problems: Problems) -> str:
    if found := NO_SIGN.search(text):
        line = text.count("\n", 0, found.start()) + 1
        problems.warn(
            name, f"There is a control character here (number {ord(found[0])}).", "Delete it.", line=line
        )
        return NO_SIGN.sub("", text)
    return text


def as_text(name: str) -> str:
    """The name of a file, with a ? for each byte that is no character."""
    return name.encode("utf-8", "replace").decode("utf-8")


def shown(text: str) -> str:
    """A maker's text in quotes, on one line, shortened if it is long."""
    plain = re.sub(r"\s+", " ", text).strip()
    plain = "".join(sign if sign.isprintable() else "�" for sign in plain)
    return f"“{plain[: LONGEST_SHOWN - 1]}…”" if len(plain) > LONGEST_SHOWN else f"“{plain}”"


def long_word(text: str) -> str:
    """The first word of a text that is too long to be printed; empty when there is none."""
    found = _LONG_WORD.search(text)
    return found[0] if found else ""


_LONG_WORD = re.compile(rf"\S{{{limits.WORD_SIGNS + 1},}}")

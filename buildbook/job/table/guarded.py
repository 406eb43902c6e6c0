"""Text that a spreadsheet would take for a formula, as it stands in a CSV file, and back.

A cell of a text file that begins with `=`, `+`, `-` or `@` is run by spreadsheets when they open it, quotes or none. An
apostrophe before it keeps it from that; reading takes the apostrophe off again. A text that has apostrophes before such
a sign of its own gets one more, so that each text comes back as it was.
"""

from __future__ import annotations

import re

_RUNS = re.compile(r"'*[=+\-@＝＋－＠]")
_GUARDED = re.compile(r"'+[=+\-@＝＋－＠]")


def guarded(text: str) -> str:
    """A cell that no spreadsheet runs."""
    return f"'{text}" if _RUNS.match(text) else text


def unguarded(cell: str) -> str:
    """The text that a cell was written for."""
    return cell[1:] if _GUARDED.match(cell) else cell

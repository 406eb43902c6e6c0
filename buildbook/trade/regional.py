"""What a rule of a part of the world says of a sheet or a coating, for a shop there.

In: data/regional.csv; a subject, what it is of, the region. Out: a sentence for the maker, or nothing.
"""

from __future__ import annotations

from functools import cache

from buildbook.trade import rows
from buildbook.trade.rows import HALLMARK

ELSEWHERE = "elsewhere"
REGIONS = ("eu", "us", ELSEWHERE)
SUBJECTS = ("formaldehyde", "voc")


@cache
def _said() -> dict[tuple[str, str, str], str]:
    found: dict[tuple[str, str, str], str] = {}
    for row in rows.read("regional.csv", ("subject", "region", "of", "said", *HALLMARK)):
        for of in row.listed("of"):
            place = (row.one_of("subject", SUBJECTS), row.one_of("region", REGIONS), of)
            if place in found:
                raise row.error(f"{of} stands twice")
            found[place] = row.text("said")
    return found


def rule_said(subject: str, of: str, region: str) -> str:
    """What the region's rule on a subject says of something; empty where none does."""
    return _said().get((subject, region, of), "")

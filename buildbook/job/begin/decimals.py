"""Decimal marks of a job.toml that goes to a shop of another language: `12,5` is read in some, `12.5` in all.

A table of parts needs none of it: its separator says which mark it has.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import cache

from tomlkit import items, string

from buildbook.job.toml.as_typed import QUANTITIES
from buildbook.job.toml.keys import JOB_TABLES
from buildbook.job.toml.shop_toml import decimal_comma
from buildbook.job.toml.working_keys import WORKED

_COMMA = re.compile(r"(?<=\d),(?=\d)")
_POINT = re.compile(r"(?<=\d)\.(?=\d)")

Remark = Callable[[str, str, items.Item], items.Item]
"""A value with the marks of the new shop, by its table and its key."""


def marks(past: str, new: str) -> Remark | None:
    """How the values of a job of one language are written in another; None where both have the same mark."""
    old_comma, new_comma = decimal_comma(past), decimal_comma(new)
    if old_comma == new_comma:
        return None
    sign, mark = (_COMMA, ".") if old_comma else (_POINT, ",")

    def remark(heading: str, key: str, value: items.Item) -> items.Item:
        if _reads().get((heading, key)) not in QUANTITIES:
            return value
        if isinstance(value, items.Array):
            for at, one in enumerate(value):
                if isinstance(one, items.String):
                    value[at] = sign.sub(mark, one)
            return value
        return string(sign.sub(mark, value)) if isinstance(value, items.String) else value

    return remark


@cache
def _reads() -> Mapping[tuple[str, str], str]:
    """How each key is read, by its table, as `like.csv` names both."""
    tables = [(table.heading.strip("[]"), table) for table in JOB_TABLES]
    tables += [("worked", table) for table in WORKED.values()]
    return {(heading, key.name): key.reads for heading, table in tables for key in table.keys}

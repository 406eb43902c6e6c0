"""Forms of a plural by the rule of a language, as the Unicode CLDR writes it: `n % 10 = 2..4 and n % 100 != 12`.

In: the rules of a language by form, a count of things. Out: the name of the form. Counts are whole numbers, so the
operands n and i are the count, and v, w, f, t, c and e (decimals, powers) are nought.
Source: Unicode Technical Standard 35, Part 3, "Language Plural Rules".
"""

from __future__ import annotations

import re
from collections.abc import Mapping

ALL = "more"
"""The form of all numbers that no rule takes; CLDR calls it `other`."""

Condition = tuple[str, int, bool, tuple[range, ...]]
"""Operand, modulus (0: none), whether it must lie in the ranges, the ranges."""

Rules = tuple[tuple[str, tuple[tuple[Condition, ...], ...]], ...]
"""The forms in their order, each with conditions of which all of one group must hold."""

_RELATION = re.compile(r"(?P<operand>[nivwftce])(?: % (?P<modulus>\d+))? (?P<sign>!?=) (?P<ranges>[\d.,]+)")


def read_rules(rules: Mapping[str, str]) -> Rules:
    """The rules of a language. ValueError for one that is not written as CLDR writes it."""
    return tuple(
        (form, tuple(tuple(map(_condition, group.split(" and "))) for group in rule.split(" or ")))
        for form, rule in rules.items()
    )


def form_of(count: int, rules: Rules) -> str:
    """The form for a count of things, 0 or more."""
    for form, groups in rules:
        if any(all(_holds(count, condition) for condition in group) for group in groups):
            return form
    return ALL


def _condition(text: str) -> Condition:
    match = _RELATION.fullmatch(text.strip())
    if not match:
        raise ValueError(f"{text!r} is no condition of a plural")
    ranges = (part.partition("..") for part in match["ranges"].split(","))
    return (
        match["operand"],
        int(match["modulus"] or 0),
        match["sign"] == "=",
        tuple(range(int(low), int(high or low) + 1) for low, _, high in ranges),
    )


def _holds(count: int, condition: Condition) -> bool:
    operand, modulus, inside, ranges = condition
    value = count if operand in "ni" else 0
    value = value % modulus if modulus else value
    return any(value in span for span in ranges) == inside

"""Figures, days and money as makers write them where TOML asks for quotes: `begun = 7.9.2026`, `price = £1150`.

In: a text that is no TOML, and the line at which it stops being so. Out: the same text with that value in quotes, which
the keys then read; None where the line is another mistake. Words without quotes are one: they are told.
"""

from __future__ import annotations

import re
import tomllib

_MONEY_SIGN = r"(?:[£$€¥]|CHF|EUR|USD|GBP|Fr\.)"
_FIGURE = rf"""
    \d{{1,2}}\.\s?\d{{1,2}}\.\s?\d{{2,4}}                        # 7.9.2026
  | \d{{1,2}}/\d{{1,2}}/\d{{2,4}}                                # 13/10/2026
  | \d{{1,2}}(?:st|nd|rd|th)?[ ][A-Z][a-zä]{{2,8}}\.?[ ]\d{{4}}  # 13 Oct 2026
  | {_MONEY_SIGN}\s?\d[\d.,]*(?:,-)?                             # £1,150
  | \d[\d.,]*\s?(?:{_MONEY_SIGN}|%)                              # 58,50 €, 9 %
  | \d[\d.]*\s?[-–]\s?\d[\d.]*\s?%                               # 7-8 %
  | \d+(?:\.\d{{3}})*,\d+                                        # 58,50
"""
_VALUE = re.compile(rf"(?P<before>[=\[{{,]\s*)(?P<value>{_FIGURE})(?=\s*(?:[,\]}}#]|$))", re.VERBOSE)
_STRING = re.compile(r"\"(?:\\.|[^\"\\])*\"|'[^']*'|#.*")
_GROUPED = re.compile(r"^(\s*(?:price|hour_rate)\s*=\s*)(\d{1,3}(?:\.\d{3})+)(?=\s*(?:#|$))", re.MULTILINE)
_PAIR = re.compile(r"\s*[\w-]+\s*=")


def as_toml(text: str) -> str:
    """A text with such values in quotes, whatever else is wrong with it; its lines end as ours do."""
    lines = grouped_money(text.replace("\r\n", "\n")).split("\n")
    return "\n".join(quoted(line) or line if _needs_quotes(line) else line for line in lines)


def _needs_quotes(line: str) -> bool:
    try:
        tomllib.loads(line + "\n")
    except ValueError:
        return stands_alone(line)
    return False


def quoted(line: str) -> str | None:
    """A line with what makers write without quotes in quotes; None where there is nothing of that kind."""
    parts: list[str] = []
    at = 0
    for string in _STRING.finditer(line):
        parts += [_VALUE.sub(_in_quotes, line[at : string.start()]), string[0]]
        at = string.end()
    parts.append(_VALUE.sub(_in_quotes, line[at:]))
    said = "".join(parts)
    return said if said != line else None


def grouped_money(text: str) -> str:
    """A text in which a price with a point before its last three digits is words: a shop may mean thousands by it."""
    return _GROUPED.sub(r'\1"\2"', text)


def stands_alone(line: str) -> bool:
    """Whether a line is a key with its value, so that what follows can be read without it."""
    return bool(_PAIR.match(line)) and line.count('"') % 2 == 0 and '"""' not in line and "'''" not in line


def _in_quotes(match: re.Match[str]) -> str:
    return f'{match["before"]}"{match["value"]}"'

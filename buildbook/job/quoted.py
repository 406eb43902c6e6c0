"""estimate.json in a job's folder -> `Quoted`: what was reckoned before the piece was ordered. Private.

Reads the keys that the comparison with the actual hours needs; others are passed over. In: its bytes. Out: the record,
or None with a warning: a broken estimate costs its section, never the job.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, NoReturn

from buildbook.job.believable import Believable, believable, plain_amount
from buildbook.job.signs import line, shown_signs
from buildbook.job.text import decode, shown
from buildbook.problems import Problems

FILE = "estimate.json"
SCHEMA = 1
_AGAIN = "Copy it again from the folder of the estimate, or take it out."
_IN_HOURS = ("low_h", "median_h", "high_h")
_HOURS, _MONEY = believable("estimated hours"), believable("price")


@dataclass(frozen=True)
class QuotedRange:
    """What an amount was to be, in hours or money: four times in five between `low` and `high`."""

    low: Decimal
    median: Decimal
    high: Decimal


@dataclass(frozen=True)
class QuotedStage:
    """The hours of one stage; `hours` is None where no past job could tell. `from_jobs`: how many past jobs told."""

    stage: str
    driver: str = ""
    hours: QuotedRange | None = None
    from_jobs: int = 0


@dataclass(frozen=True)
class QuotedSum:
    """Money of one currency (ISO 4217)."""

    amount: QuotedRange
    currency: str


@dataclass(frozen=True)
class Quoted:
    """The estimate that a job was ordered on. `hours` in h; None for what it does not tell."""

    hours: QuotedRange | None = None
    by_stage: tuple[QuotedStage, ...] = ()
    materials: QuotedSum | None = None
    price: QuotedSum | None = None


class _NotOneError(Exception):
    """Why a file is no estimate: a sentence, and the key that it is about."""

    def __init__(self, message: str, field: str = "") -> None:
        super().__init__(message)
        self.field = field


def read_quoted(data: bytes, problems: Problems) -> Quoted | None:
    """The estimate; None, with a warning, where it is none that can be read."""
    found = Problems()
    text = decode(data, FILE, found)
    if text is None:
        problems.warn(FILE, "This is not an estimate that can be read.", _AGAIN)
        return None
    try:
        return _quoted(_facts(text))
    except _NotOneError as fault:
        problems.warn(FILE, str(fault), _AGAIN, field=fault.field)
        return None


def _facts(text: str) -> Mapping[str, Any]:
    def refuse(name: str) -> NoReturn:
        raise ValueError(name)

    try:
        facts = json.loads(text, parse_float=Decimal, parse_constant=refuse)
    except (ValueError, RecursionError, ArithmeticError):  # a number may be too large even for a Decimal
        raise _NotOneError("This is not an estimate that can be read.") from None
    if not isinstance(facts, dict):
        raise _NotOneError("This is not an estimate that can be read.")
    if facts.get("schema") != SCHEMA:
        what = shown(str(facts["schema"])) if "schema" in facts else "nothing"
        raise _NotOneError(f"An estimate says {SCHEMA} here; this says {what}.", "schema")
    return facts


def _quoted(facts: Mapping[str, Any]) -> Quoted:
    hours = _section(facts, "hours")
    stages = [] if hours.get("by_stage") is None else hours["by_stage"]
    if not isinstance(stages, list):
        raise _NotOneError("There is no list of stages here.", "hours.by_stage")
    return Quoted(
        hours=_range(hours, "hours", _IN_HOURS),
        by_stage=tuple(_stage(stage, f"hours.by_stage[{n}]") for n, stage in enumerate(stages, 1)),
        materials=_materials(_section(facts, "materials")),
        price=_sum(_section(facts, "price"), "price", ("low", "median", "high")),
    )


def _section(facts: Mapping[str, Any], key: str) -> Mapping[str, Any]:
    """A section, empty where there is none."""
    section = facts.get(key)
    if section is None:
        return {}
    if not isinstance(section, dict):
        raise _NotOneError(f"{shown(str(section))} is no section of an estimate.", key)
    return section


def _stage(facts: object, place: str) -> QuotedStage:
    name = facts.get("stage") if isinstance(facts, dict) else None
    if not isinstance(facts, dict) or not isinstance(name, str) or not name.strip():
        raise _NotOneError("This stage has no name.", place)
    driver, jobs = facts.get("driver"), facts.get("from_jobs")
    return QuotedStage(
        stage=" ".join(shown_signs(name).split()),
        driver=line(shown_signs(driver)) if isinstance(driver, str) else "",
        hours=_range(facts, place, _IN_HOURS),
        from_jobs=jobs if isinstance(jobs, int) and not isinstance(jobs, bool) else 0,
    )


def _materials(facts: Mapping[str, Any]) -> QuotedSum | None:
    """Materials have one amount; where low and high stand beside it they are taken."""
    if facts.get("amount") is None:
        return None
    amount = facts["amount"]
    whole = {"low": amount, "high": amount} | {k: v for k, v in facts.items() if v is not None}
    return _sum(whole, "materials", ("low", "amount", "high"))


def _sum(facts: Mapping[str, Any], place: str, keys: tuple[str, str, str]) -> QuotedSum | None:
    amounts = _range(facts, place, keys)
    currency = facts.get("currency")
    if amounts is None:
        return None
    if not isinstance(currency, str) or not currency.strip():
        raise _NotOneError("It does not say in which currency.", f"{place}.currency")
    return QuotedSum(amounts, line(shown_signs(currency)))


def _range(facts: Mapping[str, Any], place: str, keys: tuple[str, str, str]) -> QuotedRange | None:
    """Low, median and high; None where all of them are left out."""
    if all(facts.get(key) is None for key in keys):
        return None
    known = _HOURS if keys == _IN_HOURS else _MONEY
    low, median, high = (_number(facts.get(key), f"{place}.{key}", known) for key in keys)
    if not low <= median <= high:
        raise _NotOneError("This range does not run from low over the middle to high.", place)
    return QuotedRange(low, median, high)


def _number(value: object, place: str, known: Believable) -> Decimal:
    """A figure: a number that is believable."""
    if isinstance(value, int | Decimal) and not isinstance(value, bool) and known.holds(value):
        return plain_amount(Decimal(value))
    raise _NotOneError(f"{shown(_text(value))} is no figure of an estimate.", place)


def _text(value: object) -> str:
    """What stands there, as far as it can be told: a number may have more figures than can be written out."""
    try:
        return str(value)
    except ValueError:
        return "A number"

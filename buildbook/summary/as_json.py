"""`summary.json`: the contract for figures. Numbers are SI with the unit in the key; money is amount and currency."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from buildbook.problems import Problem
from buildbook.quantity.figures import figure, settled
from buildbook.summary.model import Money, Summary, Worked
from buildbook.summary.sets import each_of

SCHEMA = 1


def plain(value: Any) -> Any:
    """A record as JSON values: dates as ISO 8601, money as amount and currency, floats as figures."""
    if isinstance(value, Money):
        return {"amount": settled(float(value.amount)), "currency": value.currency}
    if isinstance(value, Worked):
        return _worked(value)
    if is_dataclass(value):
        return {field.name: plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, tuple | list):
        return [plain(item) for item in value]
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Decimal):
        return settled(float(value))
    if isinstance(value, float):
        return figure(value)
    return value


def _worked(worked: Worked) -> dict[str, Any]:
    """Inputs and results by name, the unit in the key."""

    def named(figures: Iterable[Any]) -> dict[str, Any]:
        endings = {"m": "_m", "m2": "_m2", "degree": "_deg", "bd ft": "_bf", "l": "_l", "": ""}
        return {f"{f.name}{endings[f.unit]}": plain(f.value) for f in figures}

    return {
        "kind": worked.kind,
        "title": worked.title,
        "inputs": named(worked.inputs),
        "results": named(worked.results),
        "note": worked.note,
    }


def summary_facts(
    job_key: str, summary: Summary, care: Iterable[Any], problems: Iterable[Problem]
) -> dict[str, Any]:
    """The contents of summary.json."""
    facts: dict[str, Any] = {"schema": SCHEMA, "job": job_key}
    facts |= plain(summary)
    facts["timber"]["allowances"] = {
        key: facts["timber"].pop(key) for key in ("over_length_m", "over_width_m", "waste_pct")
    }
    facts["panels"] = {**facts["panels"]}
    facts["set"] = {"quantity": facts.pop("quantity"), "each": plain(each_of(summary))}
    facts["care"] = [
        {key: getattr(item, key) for key in ("key", "text", "why", "audience", "severity", "source")}
        for item in care
    ]
    facts["problems"] = [plain(problem) | {"text": str(problem)} for problem in problems]
    return facts


def as_text(facts: dict[str, Any]) -> str:
    """JSON a person can read, keys in the order of the contract."""
    return json.dumps(facts, ensure_ascii=False, indent=1) + "\n"

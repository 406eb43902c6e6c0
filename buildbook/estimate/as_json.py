"""`estimate.json`: an estimate written out, and what `bind` later holds against what the job took.

Hours end in `_h`; money is an amount with its currency; what is not known is null.
"""

from __future__ import annotations

from typing import Any

from buildbook.estimate.model import Estimate, Range, StageEstimate
from buildbook.estimate.wording import differences, reasons, sentence
from buildbook.summary.as_json import plain
from buildbook.summary.sets import share_of
from buildbook.words import Words

SCHEMA = 1


def estimate_facts(estimate: Estimate) -> dict[str, Any]:
    """The contents of estimate.json."""
    words, hours = Words(estimate.enquiry.shop.language), estimate.hours
    return {
        "schema": SCHEMA,
        "job": estimate.enquiry.key,
        "day": plain(estimate.day),
        "hours": {
            **_hours(hours.total),
            "by_stage": [_stage(stage, words) for stage in hours.by_stage],
            "from_jobs": hours.jobs,
            "past_quotes": hours.scores,
            "drift_pct_a_year": plain(hours.drift_pct),
        },
        "set": _set(estimate),
        "materials": _materials(estimate, words),
        "price": _price(estimate),
        "like": [
            {
                "job": like.job,
                "likeness": plain(like.likeness),
                "pieces": like.quantity,
                "reasons": list(reasons(like, words)),
                "differs": list(differences(like, words)),
            }
            for like in estimate.like
        ],
        "backtest": _backtest(estimate),
        "ready": {
            "begin": plain(estimate.lead.begin),
            "median": plain(estimate.lead.ready_median),
            "high": plain(estimate.lead.ready_high),
        },
        "holds_until": plain(estimate.holds_until),
        "problems": [plain(problem) | {"text": str(problem)} for problem in estimate.problems],
    }


def _hours(hours: Range | None) -> dict[str, Any]:
    if hours is None:
        return {"low_h": None, "median_h": None, "high_h": None}
    return {"low_h": plain(hours.low), "median_h": plain(hours.median), "high_h": plain(hours.high)}


def _set(estimate: Estimate) -> dict[str, Any]:
    """How many pieces; of several, the hours of the first and of all that follow, and what a piece comes to."""
    count, hours, price = estimate.enquiry.quantity, estimate.hours, estimate.price
    each = None
    if hours.total:
        each = Range(*(h / count for h in (hours.total.low, hours.total.median, hours.total.high)))
    facts: dict[str, Any] = {
        "quantity": count,
        "each": {
            **_hours(each),
            "price": plain(share_of(price.median, count)) if price else None,
            "materials": plain(share_of(estimate.materials.amount, count)),
        },
    }
    if of_set := hours.of_set:
        facts |= {
            "first": _hours(of_set.first),
            "following": _hours(of_set.following),
            "learning_rate_pct": plain(of_set.rate_pct),
            "learnt_from_sets": of_set.from_sets,
        }
    return facts


def _stage(stage: StageEstimate, words: Words) -> dict[str, Any]:
    return {
        "stage": stage.stage,
        "driver": stage.driver,
        "amount": plain(stage.amount),
        **_hours(stage.hours),
        "exponent": plain(stage.exponent),
        "booked": plain(stage.booked),
        "from_jobs": stage.from_jobs,
        "said": [sentence(said, words) for said in stage.said],
    }


def _materials(estimate: Estimate, words: Words) -> dict[str, Any]:
    found = estimate.materials
    return {
        **plain(found.amount),
        "low": plain(found.low)["amount"],
        "high": plain(found.high)["amount"],
        "waste_pct": plain(found.waste_pct),
        "unpriced": list(found.unpriced),
        "said": [sentence(said, words) for said in found.said],
        "lines": [
            {
                "kind": line.kind,
                "name": line.name,
                "unit": line.unit,
                "low": plain(line.amount.low),
                "median": plain(line.amount.median),
                "high": plain(line.amount.high),
                "scaled": line.scaled,
                "exponent": plain(line.exponent),
                "from_jobs": line.from_jobs,
                "price": plain(line.price),
                "per": line.per,
                "price_day": plain(line.price_day),
                "cost": plain(line.cost),
                "said": [sentence(said, words) for said in line.said],
            }
            for line in found.lines
        ],
    }


def _price(estimate: Estimate) -> dict[str, Any] | None:
    price = estimate.price
    if price is None:
        return None
    return {
        "low": plain(price.low.amount),
        "median": plain(price.median.amount),
        "high": plain(price.high.amount),
        "currency": price.median.currency,
        "net": {
            "low": plain(price.net_low.amount),
            "median": plain(price.net_median.amount),
            "high": plain(price.net_high.amount),
        },
        "steps": [plain(line) for line in price.lines],
        "payments": [plain(share) for share in price.shares],
    }


def _backtest(estimate: Estimate) -> dict[str, Any]:
    test = estimate.backtest
    return {
        "jobs": len(test.tried),
        "of_jobs": test.could,
        "median_abs_error_pct": plain(test.median_abs_error_pct),
        "in_range_pct": plain(test.in_range_pct),
        "mean_hours_error_pct": plain(test.mean_hours_error_pct),
        "per_board_foot_error_pct": plain(test.per_board_foot_error_pct),
        "by_job": [
            {
                "job": tried.job,
                "day": plain(tried.day),
                "from_jobs": tried.from_jobs,
                **_hours(tried.hours),
                "actual_h": plain(tried.actual_h),
                "error_pct": plain(tried.error_pct),
                "in_range": tried.in_range,
            }
            for tried in test.tried
        ],
    }

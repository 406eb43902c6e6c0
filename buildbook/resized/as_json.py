"""What became of the piece for other programs: lengths in metres, masses in kilograms, as summary.json has them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from buildbook.resized.figures import BothFigures
from buildbook.resized.model import Change, Resized, Unfit
from buildbook.resized.telling import Telling
from buildbook.summary import Summary


def as_json(
    resized: Resized, found: Sequence[Unfit], figures: BothFigures, telling: Telling
) -> dict[str, object]:
    """All of it; `said` is each thing that no longer fits, and each that is open, in words."""
    return {
        "overall": [asdict(one) for one in resized.overall],
        "parts": [_change(one, telling) for one in (*resized.changes, *resized.openings)],
        "untold": [telling.question(one) for one in resized.untold],
        "unfit": [
            {
                "kind": one.kind,
                "part": one.part,
                "said": telling.one_unfit(one),
                "source": one.source,
                "before": one.before,
            }
            | {"values": dict(one.values)}
            for one in found
        ],
        "figures": {
            "each_kg": list(figures.each_kg),
            "old": _figures(figures.old),
            "new": _figures(figures.new),
            "at_then": list(figures.then),
        },
        "hours_guess": [asdict(one) for one in figures.hours],
    }


def _change(one: Change, telling: Telling) -> dict[str, object]:
    return {
        "part": one.size.part,
        "side": one.size.side,
        "rows": list(one.rows),
        "old_m": one.old_m,
        "new_m": one.new_m,
        "why": one.why.kind,
        "said": telling.why(one),
    }


def _figures(summary: Summary) -> dict[str, object]:
    cost = summary.cost
    return {
        "buy_m3": summary.timber.buy_m3,
        "buy_bf": summary.timber.buy_bf,
        "sheets": [
            {"name": use.name, "thickness_m": use.thickness_m, "sheets": use.sheets}
            for use in summary.panels.sheets
        ],
        "materials": {"amount": str(cost.materials.amount), "currency": cost.materials.currency},
        "unpriced": list(cost.unpriced),
    }

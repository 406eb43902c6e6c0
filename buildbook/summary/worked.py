"""The workings of a job: each kind's inputs through its sum in `trade.workings`, ready for the record."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from buildbook.job.model import Job, Working
from buildbook.summary.bought import tally_bf
from buildbook.summary.model import Figure, Worked
from buildbook.trade import tables, workings

Inputs = dict[str, Any]
_UNITS = {"_m": "m", "_m2": "m2", "_l": "l", "_deg": "degree", "_bf": "bd ft"}


def _figure(name: str, value: float) -> Figure:
    """A figure by the name of its field, whose ending tells the unit."""
    for ending, unit in _UNITS.items():
        if name.endswith(ending):
            return Figure(name.removesuffix(ending), value, unit)
    return Figure(name, value)


def _resaw(given: Inputs, job: Job) -> dict[str, float]:
    return vars(workings.resaw(**given))


def _laminate(given: Inputs, job: Job) -> dict[str, float]:
    return vars(workings.laminate(**given))


def _strips(given: Inputs, job: Job) -> dict[str, float]:
    return vars(workings.strips(**given))


def _lengths(given: Inputs, job: Job) -> dict[str, float]:
    return vars(workings.lengths(**given))


def _holes(given: Inputs, job: Job) -> dict[str, float]:
    both = given.pop("spacing_m", 0.0)
    given = {"row_spacing_m": both, "column_spacing_m": both, **given}
    return vars(workings.holes(**given))


def _fall(given: Inputs, job: Job) -> dict[str, float]:
    return {"fall_m": workings.fall_m(**given)}


def _taper(given: Inputs, job: Job) -> dict[str, float]:
    return {"off_each_side_m": workings.taper_each_m(**given)}


def _coat_count(given: Inputs, job: Job) -> dict[str, float]:
    key = given.pop("finish", "")
    if "coats" not in given:
        finish = next((f for f in job.finishes if f.key == key), job.finishes[0] if job.finishes else None)
        given["coats"] = len(finish.coats) if finish else 1
    return {"coatings": workings.coat_count(**given)}


def _dowels(given: Inputs, job: Job) -> dict[str, float]:
    thickness, diameter = given.pop("thickness_m", None), given.pop("diameter_m", None)
    out = vars(workings.dowels(**given)).copy()
    if thickness:
        usual = workings.dowel_diameter_m(thickness)
        out |= {"usual_diameter_low_m": usual.low, "usual_diameter_high_m": usual.high}
    if diameter:
        depth = workings.dowel_depth_m(diameter)
        out |= {"usual_depth_low_m": depth.low, "usual_depth_high_m": depth.high}
    return out


def _tally(given: Inputs, job: Job) -> dict[str, float]:
    boards = given["boards"]
    return {"boards": len(boards), "tally_bf": int(tally_bf(boards))}


_SUMS: dict[str, Callable[[Inputs, Job], dict[str, float]]] = {
    "resaw": _resaw,
    "laminate": _laminate,
    "strips": _strips,
    "lengths": _lengths,
    "holes": _holes,
    "fall": _fall,
    "taper": _taper,
    "coat count": _coat_count,
    "dowels": _dowels,
    "tally": _tally,
}
_NEED_A_KERF = ("resaw", "laminate", "strips", "lengths")


def _worked(working: Working, job: Job) -> Worked:
    given: Inputs = dict(working.inputs)
    if working.kind in _NEED_A_KERF:
        given.setdefault("kerf_m", tables.allowances(job.units).kerf_m)
    shown = tuple(_figure(name, value) for name, value in given.items() if isinstance(value, int | float))
    results = _SUMS[working.kind](given, job)
    return Worked(
        kind=working.kind,
        title=working.title,
        inputs=shown,
        results=tuple(_figure(name, value) for name, value in results.items()),
        note=working.note,
    )


def worked_of(job: Job) -> tuple[Worked, ...]:
    """Every working in the order of the job."""
    return tuple(_worked(working, job) for working in job.workings)

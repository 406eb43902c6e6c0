"""Parts that come out of a board by a working: leaves of it, or layers of it that are glued up. The working that a row
names, how many leaves it gives, and what does not go together.

In: a `Job`. Out: its workings by part; problems. Pure.
"""

from __future__ import annotations

from buildbook.folding import folded
from buildbook.job.model import Job, Part, Working
from buildbook.job.table import parts
from buildbook.job.text import shown
from buildbook.problems import Problems, did_you_mean
from buildbook.trade import tables, workings
from buildbook.trade.rounding import GUARD

RESAW = "resaw"
LAMINATE = "laminate"
_SAWN = (RESAW, LAMINATE)


def working_of(title: str, job: Job) -> Working | None:
    """The resawing or lamination of a title; None where there is none."""
    wanted = folded(title)
    return next((one for one in job.workings if one.kind in _SAWN and folded(one.title) == wanted), None)


def leaves_of(working: Working, job: Job) -> int:
    """How many leaves one board gives; the usual kerf where none is told."""
    lost_m = float(working.inputs.get("kerf_m", tables.allowances(job.units).kerf_m))  # type: ignore[arg-type]
    lost_m += float(working.inputs.get("clean_up_m", 0.0))  # type: ignore[arg-type]
    return workings.slices(metres_of(working, "thickness_m"), metres_of(working, "leaf_m"), lost_m)


def layers_of(working: Working) -> int:
    """How many leaves lie one on another in a part: 1 of a resawing."""
    return int(working.inputs.get("layers", 1))  # type: ignore[arg-type]


def check(job: Job, problems: Problems) -> None:
    """Tell of parts that cannot come out of the board that they name."""
    for part in job.parts:
        if part.working and (told := _wrong(part, working_of(part.working, job), job)):
            problems.error(parts.FILE, *told, row=part.row, field="working")


def _wrong(part: Part, working: Working | None, job: Job) -> tuple[str, str] | None:
    """What does not go together, and what to do."""
    if working is None:
        titles = [one.title for one in job.workings if one.kind in _SAWN]
        hint = 'Write the title of a [[worked]] with kind = "resaw" or "laminate".'
        return (
            f"{shown(part.working)} is no resaw or laminate of this job.",
            did_you_mean(part.working, titles) or hint,
        )
    laminated = working.kind == LAMINATE
    if not leaves_of(working, job):
        if laminated:
            what = f"{shown(working.title)} gives no layer."
            return what, "Put right its thickness or its layer in job.toml."
        return f"{shown(working.title)} gives no leaf.", "Put right its thickness or its leaf in job.toml."
    thick_m = layers_of(working) * metres_of(working, "leaf_m")
    if part.thickness and part.thickness.m > thick_m + GUARD:
        thick = shown(part.thickness.written)
        if laminated:
            return (
                f"{thick} is thicker than the layers of {shown(working.title)} together.",
                "Put right the thickness, or the layers in job.toml.",
            )
        leaf = shown(working.written.get("leaf", ""))
        return (
            f"{thick} is thicker than a leaf of {shown(working.title)}, {leaf}.",
            "Put right the thickness, or the leaf in job.toml.",
        )
    if part.stock and abs(part.stock.thickness_m - metres_of(working, "thickness_m")) > GUARD:
        return (
            f"The stock, {shown(part.stock.told)}, is not the board of {shown(working.title)},"
            f" {shown(working.written.get('thickness', ''))}.",
            "Leave the stock empty: it is taken from the working.",
        )
    return None


def metres_of(working: Working, name: str) -> float:
    """A length of a working, such as `leaf_m`."""
    return float(working.inputs[name])  # type: ignore[arg-type]

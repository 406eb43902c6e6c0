"""Parts that are leaves of a board: the working that a row names, how many leaves it gives, and what does not go
together.

In: a `Job`. Out: its workings by part; problems. Pure.
"""

from __future__ import annotations

from buildbook.folding import folded
from buildbook.job.model import Job, Working
from buildbook.job.table import parts
from buildbook.job.text import shown
from buildbook.problems import Problems, did_you_mean
from buildbook.trade import tables, workings
from buildbook.trade.rounding import GUARD

RESAW = "resaw"


def working_of(title: str, job: Job) -> Working | None:
    """The resawing of a title; None where there is none."""
    wanted = folded(title)
    return next((one for one in job.workings if one.kind == RESAW and folded(one.title) == wanted), None)


def leaves_of(working: Working, job: Job) -> int:
    """How many leaves one board gives; the usual kerf where none is told."""
    given = {"kerf_m": tables.allowances(job.units).kerf_m, **working.inputs}
    return workings.resaw(**given).leaves  # type: ignore[arg-type]


def check(job: Job, problems: Problems) -> None:
    """Tell of parts that cannot be leaves of the board that they name."""
    titles = [working.title for working in job.workings if working.kind == RESAW]
    for part in job.parts:
        if not part.working:
            continue
        working = working_of(part.working, job)
        if working is None:
            hint = (
                did_you_mean(part.working, titles) or 'Write the title of a [[worked]] with kind = "resaw".'
            )
            what, todo = f"{shown(part.working)} is no resaw of this job.", hint
        elif not leaves_of(working, job):
            what, todo = (
                f"{shown(working.title)} gives no leaf.",
                "Put right its thickness or its leaf in job.toml.",
            )
        elif part.thickness and part.thickness.m > metres_of(working, "leaf_m") + GUARD:
            leaf = shown(working.written.get("leaf", ""))
            what = (
                f"{shown(part.thickness.written)} is thicker than a leaf of {shown(working.title)}, {leaf}."
            )
            todo = "Put right the thickness, or the leaf in job.toml."
        elif part.stock and abs(part.stock.thickness_m - metres_of(working, "thickness_m")) > GUARD:
            what = (
                f"The stock, {shown(part.stock.written)}, is not the board of {shown(working.title)},"
                f" {shown(working.written.get('thickness', ''))}."
            )
            todo = "Leave the stock empty: it is taken from the working."
        else:
            continue
        problems.error(parts.FILE, what, todo, row=part.row, field="working")


def metres_of(working: Working, name: str) -> float:
    """A length of a working, such as `leaf_m`."""
    return float(working.inputs[name])  # type: ignore[arg-type]

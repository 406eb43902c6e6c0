"""Which finish each part of a job bears: what its row says, else what can be told, and that it was not said.

In: a job as its files say. Out: its parts with the keys of their finishes, and problems.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from buildbook.folding import folded
from buildbook.job.model import Finish, Job, Part
from buildbook.job.table import parts
from buildbook.job.text import shown
from buildbook.problems import Problem, Problems, listed
from buildbook.trade import tables

_FINISHED = ("wood", "panel")
_NAMED = 4  # more names than this are no help


def finished(job: Job, problems: Problems) -> Job:
    """The job, each part with the key of its finish: the one that its row names; else, for a wooden part, the only
    one that is on top of any part. A sheet is given none that its row does not name: the seat under a cushion and the
    bottom of a drawer are as often left bare. Finishes that only lie beneath another stand last in its schedule.
    """
    keys = {finish.key.casefold(): finish.key for finish in job.finishes}
    tops = _tops(job)
    rows = tuple(_finished(part, keys, tops, job.finishes, problems) for part in job.parts)
    job = replace(job, parts=rows)
    return replace(job, finishes=tuple(sorted(job.finishes, key=lambda finish: job.is_beneath(finish.key))))


def _tops(job: Job) -> list[str]:
    """The finishes that lie beneath no other."""
    beneath = {finish.over for finish in job.finishes}
    return [finish.key for finish in job.finishes if finish.key not in beneath]


def _finished(
    part: Part, keys: Mapping[str, str], tops: list[str], finishes: Sequence[Finish], problems: Problems
) -> Part:
    if part.finish:
        if key := keys.get(folded(part.finish)) or _by_name(part.finish, finishes):
            return replace(part, finish=key)
        if parts.says_no_finish(part.finish):
            return replace(part, finish="", faces="none")
        hint = problems.near(part.finish, keys.values())
        problems.error(
            parts.FILE,
            f"{shown(part.finish)} is not a finish of job.toml.",
            hint or "Write a [[finish]] with this key in job.toml.",
            row=part.row,
            field="finish",
        )
        return part
    if not _lacks(part) or not keys:
        return part
    if len(tops) == 1:
        return replace(part, finish=tops[0], finish_assumed=True) if part.kind == "wood" else part
    problems.warn(
        parts.FILE,
        "This part has no finish, and the job has several.",
        f"Write its finish ({' or '.join(keys.values())}), or faces none.",
        row=part.row,
        field="finish",
    )
    return part


def _by_name(name: str, finishes: Sequence[Finish]) -> str:
    """The key of the only finish that is of the family, or the product, that a row names instead; empty for none."""
    known = tables.finishes().find(name)
    family = known.record.key if known else ""
    named = [one.key for one in finishes if folded(one.product) == folded(name) or one.family == family]
    return named[0] if len(named) == 1 else ""


def _lacks(part: Part) -> bool:
    return part.kind in _FINISHED and part.faces != "none" and not part.finish


def sheets_without(job: Job) -> tuple[str, ...]:
    """The sheets whose rows name no finish where the job has one that they may bear."""
    if not job.finishes:
        return ()
    return tuple(dict.fromkeys(part.name for part in job.parts if part.kind == "panel" and _lacks(part)))


def finishes_taken(job: Job) -> list[Problem]:
    """What empty cells of the column finish were taken for, for `proof`: once for all wooden parts, once for all
    sheets; none where the job has several finishes, since each row is then told.
    """
    taken = [part for part in job.parts if part.finish_assumed]
    found = []
    if taken:
        woods = _few([part.name for part in taken])
        told = f"No finish is written for {woods}: {shown(taken[0].finish)}, the only one on top, was taken."
        found.append((told, "Write it in the column finish, or faces none."))
    if (sheets := sheets_without(job)) and (taken or len(_tops(job)) == 1):
        hint = "Write it in the column finish where they bear one, else faces none."
        found.append((f"No finish is written for sheets ({_few(sheets)}): none was taken.", hint))
    return [Problem("warning", parts.FILE, told, hint, field="finish") for told, hint in found]


def _few(names: Sequence[str]) -> str:
    """Names of parts, the first few and how many more."""
    each = list(dict.fromkeys(names))
    told = each[:_NAMED]
    more = len(each) - len(told)
    return listed([*told, f"{more} more"] if more else told, "and")

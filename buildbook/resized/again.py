"""The job at its new sizes: `resize(job, wanted)`.

In: a past `Job`, the sizes that are asked for (`wanted.py`). Out: `Resized`. `QuantityError` for a size that cannot be
asked for. Pure.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

from buildbook.folding import folded
from buildbook.job.adds_model import PartSize
from buildbook.job.model import Job, Part, Size
from buildbook.job.parts.adding import size_m
from buildbook.job.text import shown
from buildbook.problems import did_you_mean
from buildbook.quantity import Length, QuantityError
from buildbook.resized.dims import Dim, dims_of, side_of
from buildbook.resized.follow import follow
from buildbook.resized.model import AXES, Axis, Change, Move, OverallChange, Resized, SizeOf
from buildbook.resized.runs import is_made
from buildbook.summary.sums import sums_of

_STEPS: Mapping[str, tuple[float, ...]] = {"mm": (0.0001, 0.00001), "in": (0.0254 / 64, 0.0254 / 1000)}
"""What new sizes are rounded to, by the system of units; the second where a sum would not come out with the first."""
_HAIR_M = 1e-9
_NONE: Mapping[SizeOf, float] = MappingProxyType({})


def resize(job: Job, wanted: Mapping[PartSize, float], answers: Mapping[SizeOf, float] = _NONE) -> Resized:
    """The piece at the sizes that are asked for. answers: sizes of parts that were said when it was asked."""
    dims = dims_of(job)
    overall = _overall(job, wanted)
    said = {**dict(_said(job, size, m, dims) for size, m in wanted.items() if size.part), **answers}
    found = follow(job, {one.axis: one.new_m - one.old_m for one in overall}, said)
    came_out = {one.words for one in sums_of(job) if one.ok}
    steps = _STEPS[job.units]
    for step in steps:
        changes = tuple(_changes(dims, found.moves, step))
        openings = tuple(_openings(job, changes))
        new, restate = _at_new_sizes(job, overall, (*changes, *openings))
        if step == steps[-1] or all(one.ok for one in sums_of(new) if one.words in came_out):
            break
    return Resized(job, new, overall, changes, openings, found.questions, restate)


def _overall(job: Job, wanted: Mapping[PartSize, float]) -> tuple[OverallChange, ...]:
    """The sizes of the piece that are asked for, those that are as they were left out."""
    changes = []
    for size, m in wanted.items():
        if size.part:
            continue
        axis = next(axis for axis in AXES if axis == size.dimension)
        old: Length | None = getattr(job.overall, axis)
        if old is None:
            message = f"The {axis} of the past job is not known, so nothing can follow it."
            raise QuantityError(message, f"Write {axis} in overall of its job.toml first.")
        if m <= 0:
            raise QuantityError(f"The {axis} cannot be nothing.", "Write the new size.")
        if abs(m - old.m) > _HAIR_M:
            changes.append(OverallChange(axis, old.m, m))
    return tuple(sorted(changes, key=lambda one: AXES.index(one.axis)))


def _said(job: Job, size: PartSize, m: float, dims: Mapping[SizeOf, Dim]) -> tuple[SizeOf, float]:
    """A size of a part that the maker says; between shoulders it makes the length."""
    names = {folded(part.name): part for part in reversed(job.parts)}
    part = names.get(folded(size.part))
    if part is None:
        hint = did_you_mean(size.part, [one.name for one in job.parts]) or "Name it as in parts.csv."
        raise QuantityError(f"{shown(size.part)} is no part of the past job.", hint)
    key = SizeOf(part.name, side_of(size))
    if key not in dims or size_m(job, replace(size, part=part.name)) is None:
        message = f"{shown(part.name)} has no one {size.dimension} in the past job."
        raise QuantityError(message, "Give its size in parts.csv when the new job is laid out.")
    if m <= 0:
        raise QuantityError(f"{shown(part.name)} cannot have no {size.dimension}.", "Write the new size.")
    if part.round or not is_made(part):
        message = f"{shown(part.name)} is round, or bought as it is: its size is not changed here."
        raise QuantityError(message, "Give its size in parts.csv when the new job is laid out.")
    tenons = part.tenons.m if size.dimension == "between shoulders" and part.tenons else 0.0
    return key, m + tenons


def _changes(dims: Mapping[SizeOf, Dim], moves: Mapping[SizeOf, Move], step: float) -> Iterable[Change]:
    for size, dim in dims.items():
        move = moves.get(size)
        if move and abs(move.by_m) > _HAIR_M:
            new = rounded(dim.m + move.by_m, step)
            if new <= 0:
                raise QuantityError(
                    f"The {size.side} of {shown(size.part)} would be nothing or less.",
                    f"Ask for a larger size, or say what it is: {shown(f'{size.part} {size.side} 300')}.",
                )
            yield Change(size, dim.rows, dim.m, new, move.axis, move.why)


def rounded(m: float, step: float) -> float:
    """To the nearest step, exactly as it will be read from a file that says so."""
    steps = round(Fraction(m).limit_denominator(10**9) / Fraction(step).limit_denominator(10**9))
    return float(steps * Fraction(step).limit_denominator(10**9))


def _openings(job: Job, changes: Iterable[Change]) -> Iterable[Change]:
    """The rooms across the grain go with the widths of the parts in them."""
    for change in changes:
        if change.size.side != "width":
            continue
        for part in job.parts:
            if part.row in change.rows and part.opening:
                new = part.opening.m + change.new_m - change.old_m
                size = SizeOf(part.name, "opening", part.row)
                yield Change(size, (part.row,), part.opening.m, new, change.axis, change.why)


def _at_new_sizes(
    job: Job, overall: Iterable[OverallChange], changes: tuple[Change, ...]
) -> tuple[Job, tuple[str, ...]]:
    """The job with these sizes, and the parts whose written mass was of the old size: it is worked out anew."""
    sizes: dict[int, dict[str, Length]] = {}
    for one in changes:
        for row in one.rows:
            sizes.setdefault(row, {})[one.size.side] = Length(one.new_m, "")
    restate: list[str] = []
    parts = [_resized(part, sizes.get(part.row, {}), restate) for part in job.parts]
    outer: dict[Axis, Length] = {one.axis: Length(one.new_m, "") for one in overall}
    size = Size(**{axis: outer.get(axis, getattr(job.overall, axis)) for axis in AXES})
    return replace(job, parts=tuple(parts), overall=size), tuple(dict.fromkeys(restate))


def _resized(part: Part, sizes: Mapping[str, Length], restate: list[str]) -> Part:
    if not sizes:
        return part
    new: Part = replace(part, **sizes)  # type: ignore[arg-type]
    if part.mass_kg is not None:
        restate.append(part.name)
        new = replace(new, mass_kg=None)
    return new

"""The sums of `adds` held against the parts of the job: names set right, what no part bears left out, and told.

In: a `Job` of what each file says. Out: its sums, each of whose names is that of a part and whose sizes are known.
Pure but for the problems.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from buildbook.folding import folded
from buildbook.job.adds_model import Add, PartSize
from buildbook.job.model import Job, Part
from buildbook.job.text import shown
from buildbook.job.toml.adds import table
from buildbook.problems import did_you_mean
from buildbook.quantity import Length, read_length

Tell = Callable[[str, str, str], None]
"""Says a problem at a key of job.toml: the key, what is wrong, what to do."""

SIDES = ("length", "width", "thickness")
_KEY = "adds"
_SAME_M = 1e-6  # sizes this near are the same


def checked(job: Job, tell: Tell) -> tuple[Add, ...]:
    """The sums that can be reckoned. Of the others it is told why they cannot."""
    found = (_checked(add, job, tell) for add in job.adds)
    return tuple(add for add in found if add is not None)


def size_m(job: Job, size: PartSize) -> float | None:
    """A size of the piece or of a part of the job, in metres; None where it is not known."""
    if not size.part:
        length = getattr(job.overall, size.dimension)
        return length.m if length else None
    part = next((one for one in job.parts if one.name == size.part), None)
    return _of_part(part, size) if part else None


def within(units: str) -> Length:
    """The difference within which a sum comes out, by the system of units."""
    row = next(row for row in table()["tolerance"] if row["units"] == units)
    return read_length(row["value"], units)


def _of_part(part: Part, size: PartSize) -> float | None:
    if size.dimension == "between shoulders":
        return part.between_shoulders_m
    length = getattr(part, size.dimension)
    return length.m if length else None


def _checked(add: Add, job: Job, tell: Tell) -> Add | None:
    sizes = [_named(size, job, add, tell) for size in (add.size, *(term.size for term in add.terms)) if size]
    if None in sizes:
        return None
    size, *others = sizes
    assert size is not None
    left = iter(others)
    terms = tuple(replace(term, size=next(left)) if term.size else term for term in add.terms)
    return replace(add, size=size, terms=terms)


def _named(size: PartSize, job: Job, add: Add, tell: Tell) -> PartSize | None:
    """The size by the name of the part as it stands in parts.csv; None, and told, where it cannot be had."""
    words = shown(add.words)
    if not size.part:
        if getattr(job.overall, size.dimension) is None:
            message = f"The {size.dimension} of the piece is not known, in {words}: the sum is left out."
            tell(_KEY, message, f"Write {size.dimension} in overall.")
            return None
        return size
    bear = [part for part in job.parts if folded(part.name) == folded(size.part)]
    if not bear:
        hint = did_you_mean(size.part, list(_names(job.parts))) or "Name it as in parts.csv."
        tell(_KEY, f"{shown(size.part)} is no part of this job, in {words}: the sum is left out.", hint)
        return None
    named = replace(size, part=bear[0].name)
    sizes = [_of_part(part, named) for part in bear]
    if sizes[0] is None:
        lacks = "tenons" if size.dimension == "between shoulders" else size.dimension
        message = f"{shown(size.part)} has no {lacks}, in {words}: the sum is left out."
        tell(_KEY, message, f"Write its {lacks} in parts.csv.")
        return None
    if any(one is None or abs(one - sizes[0]) > _SAME_M for one in sizes):
        tell(
            _KEY,
            f"{len(bear)} rows of parts.csv are named {shown(size.part)} and differ in {size.dimension},"
            f" in {words}: the sum is left out.",
            "Give each row a name of its own.",
        )
        return None
    return named


def _names(parts: Iterable[Part]) -> Iterable[str]:
    return dict.fromkeys(part.name for part in parts if any(getattr(part, side) for side in SIDES))

"""Which sizes of parts follow the sizes of the piece, each with its reason, and what has to be asked.

In: a `Job` whose sums were held against its parts, the sizes of the piece that change, the sizes of parts that the
maker says. Out: `Followed`. Pure.

First the sums of `adds`: thicknesses, gaps, tenons and the sections of sticks stay, so that a sum with one other size
tells what that becomes; with several it is asked which. Then what no sum speaks of: a size that was the old size of the
piece, that was as long as another that is known to follow, or that comes out with the thicknesses of the parts beside
it. What is only near is asked. Nothing is guessed: what is not decided stays.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Literal, cast

from buildbook.folding import folded
from buildbook.job.adds_model import Add, PartSize
from buildbook.job.model import Job, Part
from buildbook.job.parts.adding import within
from buildbook.resized.beside import between_parts, lying_across
from buildbook.resized.dims import Dim, dims_of, side_of
from buildbook.resized.model import AXES, Axis, Followed, Likely, Move, Option, Question, Shared, SizeOf, Why
from buildbook.resized.runs import choice, runs

_HAIR_M = 1e-9  # what floats add to a sum
_SAME_M = 1e-6  # sizes this near are the same
_SAME = 6  # decimals of a metre to which they are
_WORD = re.compile(r"[^\W\d_]{3,}")


@dataclass
class _Search:
    job: Job
    by_axis: Mapping[Axis, float]
    dims: Mapping[SizeOf, Dim]
    moves: dict[SizeOf, Move] = field(default_factory=dict)
    of_row: dict[int, list[tuple[str, str]]] = field(default_factory=dict)
    lying: dict[Axis, tuple[Part, ...]] = field(default_factory=dict)
    as_long: dict[float, dict[SizeOf, Move]] = field(default_factory=dict)

    def decide(self, size: SizeOf, move: Move) -> None:
        """Keep what a size does, by its rows and by its old length too."""
        self.moves[size] = move
        dim = self.dims[size]
        for row in dim.rows:
            self.of_row.setdefault(row, []).append((size.side, move.axis))
        self.as_long.setdefault(round(dim.m, _SAME), {})[size] = move

    # -- sums ------------------------------------------------------------------------------------

    def terms(self, add: Add) -> Iterator[tuple[float, PartSize]]:
        """The sizes of a sum with their factors: it holds where they add up to nothing, figures apart."""
        yield 1.0, add.size
        for term in add.terms:
            if term.size:
                yield -term.times, term.size

    def left(self, add: Add) -> tuple[float, Axis | str, dict[SizeOf, float], bool]:
        """What a sum is out by now, which size of the piece that comes from, the sizes that could meet it with their
        factors, and whether anything in it was decided.
        """
        out, axis, still, told = [], "", "", False
        open_ones: dict[SizeOf, float] = {}
        for factor, size in self.terms(add):
            if not size.part:
                by = self.by_axis.get(cast(Axis, size.dimension), 0.0)
                out.append(factor * by)
                axis, still, told = (size.dimension if by else axis), size.dimension, True
            elif move := self.moves.get(key := SizeOf(size.part, side_of(size))):
                out.append(factor * move.by_m)
                axis, still, told = (move.axis or axis if move.by_m else axis), move.axis or still, True
            elif key in self.dims and self.dims[key].axes:
                open_ones[key] = open_ones.get(key, 0.0) + factor
        out_by = math.fsum(out)
        return (0.0 if abs(out_by) < _HAIR_M else out_by), axis or still, open_ones, told

    def may_meet(self, open_ones: dict[SizeOf, float], axis: str) -> dict[SizeOf, float]:
        """The sizes of those that run the way of the size of the piece; all of them where none does."""
        with_it = {size: f for size, f in open_ones.items() if axis in self.dims[size].axes}
        return with_it or open_ones

    def by_sums(self) -> bool:
        """Decide what sums leave one way for."""
        before = len(self.moves)
        for add in self.job.adds:
            out_by, axis, open_ones, told = self.left(add)
            if out_by:
                open_ones = self.may_meet(open_ones, axis)
            if len(open_ones) != 1 or not told:
                continue
            (size, factor), *_ = open_ones.items()
            if factor:
                by = -out_by / factor if out_by else 0.0
                self.decide(size, Move(by, cast(Axis, axis), Why("sum", add.words)))
        return len(self.moves) > before

    def shared(self) -> Iterator[Shared]:
        """The sums that several sizes could meet."""
        for add in self.job.adds:
            out_by, axis, open_ones, _ = self.left(add)
            if not out_by:
                continue
            open_ones = self.may_meet(open_ones, axis)
            sizes = sorted(open_ones, key=lambda size: self.dims[size].rows)
            options = [Option((size,), -out_by / open_ones[size]) for size in sizes if open_ones[size]]
            if len(options) > 1:
                if total := math.fsum(open_ones.values()):
                    options.append(Option(tuple(sizes), -out_by / total))
                yield Shared(add.words, cast(Axis, axis), out_by, tuple(options))

    def held(self) -> set[SizeOf]:
        """The sizes that a sum which comes out holds: it would not, were one of them alone to change."""
        found = set()
        for add in self.job.adds:
            out_by, _, open_ones, _ = self.left(add)
            if not out_by and len(open_ones) == 1:
                found |= {size for size, factor in open_ones.items() if factor}
        return found

    @cached_property
    def in_sums(self) -> frozenset[SizeOf]:
        """The sizes that a sum speaks of."""
        every = (size for add in self.job.adds for _, size in self.terms(add) if size.part)
        return frozenset(SizeOf(size.part, side_of(size)) for size in every)

    # -- without sums ----------------------------------------------------------------------------

    def free(self) -> Iterator[Dim]:
        """What is open and could follow, but for what a sum holds or waits for."""
        tied = self.held() | {
            size for one in self.shared() for option in one.options for size in option.sizes
        }
        for size, dim in self.dims.items():
            if size not in self.moves and size not in tied and (axes := self.axes(dim)):
                yield replace(dim, axes=axes)

    def axes(self, dim: Dim) -> tuple[Axis, ...]:
        """The sizes of the piece that one of a part can still go with: not that of its other side. None where none of
        them changes.
        """
        taken = {axis for row in dim.rows for side, axis in self.of_row.get(row, ()) if side != dim.size.side}
        left = tuple(axis for axis in dim.axes if axis not in taken)
        return left if set(left) & self.by_axis.keys() else ()

    def old_m(self, axis: Axis) -> float:
        length = getattr(self.job.overall, axis)
        return length.m if length else 0.0

    def by_sameness(self) -> bool:
        """Decide what was a size of the piece, or of a part that is decided; until a sum has a say in it."""
        near = within(self.job.units).m
        for find in (self._was, self._same, self._less):
            before = len(self.moves)
            for dim in self.free():
                if move := find(dim, near):
                    self.decide(dim.size, move)
                    if dim.size in self.in_sums:
                        return True
            if len(self.moves) > before:
                return True
        return False

    def _was(self, dim: Dim, near: float) -> Move | None:
        alike = [axis for axis in dim.axes if self.old_m(axis) and abs(self.old_m(axis) - dim.m) <= near]
        if len(alike) == 1 and (by := self.by_axis.get(alike[0])):
            return Move(by, alike[0], Why("was"))
        return None

    def _same(self, dim: Dim, near: float) -> Move | None:
        """As a part that is decided and runs the same way; where those that were as long go apart, none."""
        alike = {
            size: move
            for size, move in self.as_long.get(round(dim.m, _SAME), {}).items()
            if (move.axis in dim.axes if move.axis else set(self.dims[size].axes) & set(dim.axes))
        }
        if not alike or len({round(move.by_m, 6) for move in alike.values()}) > 1:
            return None
        size, move = next(iter(alike.items()))
        return Move(move.by_m, move.axis, Why("same", size=size))

    def _less(self, dim: Dim, near: float) -> Move | None:
        """The old size of the piece, or a share of it, less the thicknesses of what stands beside and between. Not of
        what a sum speaks of, nor of what may run any way: that figures come out may be chance.
        """
        if len(dim.axes) == len(AXES) or dim.size in self.in_sums:
            return None
        for axis in dim.axes:
            if by := self.by_axis.get(axis):
                for shares in self.shares(dim):
                    rest = self.old_m(axis) - shares * dim.m
                    if rest > _SAME_M and (said := between_parts(self.across(axis), rest, shares, near)):
                        why = Why("less" if shares == 1 else "share", shares=shares, less=said)
                        return Move(by / shares, axis, why)
        return None

    def across(self, axis: Axis) -> tuple[Part, ...]:
        """The parts whose thickness lies in a size of the piece, one of each thickness."""
        if axis not in self.lying:
            self.lying[axis] = lying_across(self.job.parts, axis)
        return self.lying[axis]

    def shares(self, dim: Dim) -> Iterator[int]:
        """How many of a part may stand abreast: by how many there are of it."""
        for count in range(1, int(choice("shares")) + 1):
            if count == 1 or dim.part.qty % count == 0:
                yield count

    def likely(self) -> Iterator[Likely]:
        """What is near the old size of the piece, a share of it, or a part that follows; the nearest way of each. Where
        both sides of a part are near, that which runs so first.
        """
        near: dict[SizeOf, Likely] = {}
        sides: dict[tuple[str, int], list[SizeOf]] = {}
        for dim in self.free():
            if ways := sorted(self._near(dim), key=lambda one: (one.shares, one.beside_m)):
                near[dim.size] = ways[0]
                sides.setdefault((dim.size.part, dim.size.row), []).append(dim.size)
        for size, one in near.items():
            others = (other for other in sides[size.part, size.row] if other != size)
            first = self.dims[size].axes[0] == one.axis
            if first or not any(self.dims[other].axes[0] == near[other].axis == one.axis for other in others):
                yield one

    def _near(self, dim: Dim) -> Iterator[Likely]:
        for axis in dim.axes:
            by, old = self.by_axis.get(axis), self.old_m(axis)
            if not by:
                continue
            if beside := next((one for one in self.grown[axis] if self._beside(dim, self.dims[one])), None):
                other = self.dims[beside]
                yield Likely(dim.size, dim.m, dim.m + self.moves[beside].by_m, axis, beside, other.m)
            for shares in self.shares(dim):
                least = choice("likely" if shares == 1 else "share")
                if least * old <= shares * dim.m <= old + _SAME_M:
                    yield Likely(dim.size, dim.m, dim.m + by / shares, axis, None, old, shares)
            if all(dim.m > self.old_m(one) + _SAME_M for one in dim.axes) and not runs(dim.part, "width"):
                yield Likely(dim.size, dim.m, dim.m + by, axis, None, old)  # it goes round the piece
            if dim.axes == ("height",) and choice("stacked") * old <= dim.m < choice("likely") * old:
                yield Likely(dim.size, dim.m, dim.m, axis, None, old)

    @cached_property
    def grown(self) -> Mapping[Axis, list[SizeOf]]:
        """What follows each size of the piece, the shortest first: asked for when all is decided."""
        found: dict[Axis, list[SizeOf]] = {axis: [] for axis in AXES}
        for size, move in sorted(self.moves.items(), key=lambda item: self.dims[item[0]].m):
            if move.by_m and move.axis:
                found[move.axis].append(size)
        return found

    def _beside(self, dim: Dim, other: Dim) -> bool:
        """Whether a size is a little less than another: of a part with a word of its name, or nearer, of one that can
        run no other way.
        """
        if not other.m > dim.m >= choice("likely") * other.m:
            return False
        words, others = (set(_WORD.findall(folded(one.size.part))) for one in (dim, other))
        return bool(words & others) or (len(dim.axes) == 1 and dim.m >= choice("beside") * other.m)


def follow(job: Job, by_axis: Mapping[Axis, float], said: Mapping[SizeOf, float]) -> Followed:
    """What follows, and what is open. `by_axis`: how much each size of the piece grows. `said`: new sizes of parts."""
    search = _Search(job, {axis: by for axis, by in by_axis.items() if abs(by) > _HAIR_M}, dims_of(job))
    near = within(job.units).m
    for size, m in said.items():
        dim = search.dims[size]
        by = 0.0 if abs(m - dim.m) < _HAIR_M else m - dim.m
        search.decide(size, Move(by, _axis_said(dim, search.by_axis, by, near), Why("said")))
    while search.by_sums() or search.by_sameness():
        pass
    shared, likely = list(search.shared()), list(search.likely())
    if shared:  # what stands abreast is in it
        likely = [one for one in likely if one.shares == 1]
    questions: tuple[Question, ...] = (*shared, *likely)
    return Followed(search.moves, questions)


def _axis_said(dim: Dim, by_axis: Mapping[Axis, float], by: float, near: float) -> Axis | Literal[""]:
    """The size of the piece that what the maker said goes with: the one that it can, or that which grows as much."""
    running = [axis for axis in dim.axes if axis in by_axis]
    same = [axis for axis in running if abs(by_axis[axis] - by) <= near]
    found = dim.axes if not by and len(dim.axes) == 1 else (same or running) if by else ()
    return found[0] if found else ""

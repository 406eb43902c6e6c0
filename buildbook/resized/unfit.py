"""What no longer fits at the new size, each with its figure: `unfit_of(resized)`.

In: `Resized`, with both jobs as they would be read. Out: `Unfit`s, what was so before marked. Pure. What can hurt
someone is given as a figure and left to the data sheet of what carries it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from buildbook.folding import folded
from buildbook.job.model import Job, Part, Working
from buildbook.job.parts.resawn import RESAW, metres_of, working_of
from buildbook.resized.doors import Door, doors_of
from buildbook.resized.model import Change, Resized, Unfit
from buildbook.summary import Summary, summarise
from buildbook.summary.bought import tallied
from buildbook.summary.slots import slots_of
from buildbook.summary.timber import allowances_of, sheet_groups
from buildbook.trade import sheets, tables
from buildbook.trade.records import SheetSize

_HAIR_M = 1e-6
_LEAF_OVER_M = 0.004  # a leaf is planed to the part by no more


@dataclass(frozen=True)
class _Two:
    """The piece before and after, with the figures of both."""

    resized: Resized
    past: Job  # with what was bought for it

    @cached_property
    def old(self) -> Summary:
        return summarise(self.resized.old)

    @cached_property
    def new(self) -> Summary:
        return summarise(self.resized.new)

    @cached_property
    def by_row(self) -> tuple[dict[int, Part], dict[int, Part]]:
        """The parts of both by their row."""
        old, new = ({part.row: part for part in job.parts} for job in (self.resized.old, self.resized.new))
        return old, new

    def part(self, row: int, *, new: bool = True) -> Part:
        return self.by_row[new][row]

    def changed(self, *sides: str) -> Iterator[tuple[Change, Part, Part]]:
        """What changes of some sides: the change, the part before and after, a row each."""
        for change in self.resized.changes:
            if change.size.side in sides:
                for row in change.rows:
                    yield change, self.part(row, new=False), self.part(row)


def unfit_of(resized: Resized, past: Job) -> tuple[Unfit, ...]:
    """Everything that no longer fits. `past`: the job as it was read, whose tallies say what boards there were."""
    two = _Two(resized, past)
    return tuple(one for find in _FINDERS for one in find(two))


# -- sums, panels, sheets ----------------------------------------------------------------------------


def _sums(two: _Two) -> Iterator[Unfit]:
    before = {one.words: one.ok for one in two.old.sums}
    for one in two.new.sums:
        if not one.ok:
            values = {"sum_m": one.sum_m, "size_m": one.size_m, "off_m": abs(one.difference_m)}
            yield Unfit("sum", one.words, values, before=not before.get(one.words, True))


def _leaves(two: _Two) -> Iterator[Unfit]:
    """Panels of resawn leaves: so many leaves side by side as before no longer make the width."""
    for _, old, new in two.changed("width"):
        working = _resawn(new, two.resized.new)
        if working is None or "width_m" not in working.inputs or not (old.width and new.width):
            continue
        leaf_m = metres_of(working, "width_m")
        count = max(1, round(old.width.m / leaf_m))
        have_m = count * leaf_m
        if new.width.m > have_m + _HAIR_M and new.width.m > old.width.m:
            values: dict[str, float | str] = {
                "count": count,
                "leaf_m": leaf_m,
                "have_m": have_m,
                "width_m": new.width.m,
                "least_m": new.width.m / count,
                "title": working.title,
            }
            yield Unfit("leaves", new.name, values, before=old.width.m > have_m + _HAIR_M)


def _resawn(part: Part, job: Job) -> Working | None:
    """The resawing that a part names; else one whose leaf is as thick, and whose title has a word of its name."""
    if part.working:
        return working_of(part.working, job)
    if part.kind != "wood" or not part.thickness:
        return None
    words = {word.rstrip("sn") for word in folded(part.name).split()}
    for one in job.workings:
        if one.kind == RESAW and words & {word.rstrip("sn") for word in folded(one.title).split()}:
            over_m = metres_of(one, "leaf_m") - part.thickness.m
            if -_HAIR_M <= over_m <= _LEAF_OVER_M:
                return one
    return None


def _sheets(two: _Two) -> Iterator[Unfit]:
    """Parts that a sheet as sold does not give."""
    kerf_m = allowances_of(two.resized.new).kerf_m
    known_sheets = tables.sheets()
    for (key, _), parts in sheet_groups(two.resized.new).items():
        known = known_sheets[key] if key in known_sheets else None  # noqa: SIM401 - a table has no get
        sizes = known.sizes_for(two.resized.new.units) if known else tuple(tables.sheet_sizes().values())
        may_turn = known is None or not known.grain
        largest = max(sizes, key=lambda size: size.length_m * size.width_m)
        for part in parts:
            if not _gives(sizes, part, kerf_m, may_turn) and part.length and part.width:
                values: dict[str, float | str] = {
                    "length_m": part.length.m,
                    "width_m": part.width.m,
                    "sheet": largest.name,
                    "material": part.material,
                }
                was = not _gives(sizes, two.part(part.row, new=False), kerf_m, may_turn)
                yield Unfit("sheet", part.name, values, largest.source, before=was)


def _gives(sizes: Iterable[SheetSize], part: Part, kerf_m: float, may_turn: bool) -> bool:
    """Whether a sheet of one of the sizes gives the part."""
    length, width = part.length, part.width
    return bool(length and width) and any(
        sheets.per_sheet(length.m, width.m, size.length_m, size.width_m, kerf_m, may_turn)
        for size in sizes
        if length and width
    )


# -- wood --------------------------------------------------------------------------------------------


def _sag(two: _Two) -> Iterator[Unfit]:
    before = {shelf.row: shelf for shelf in two.old.sag}
    seen = tables.constants()["sag_seen"]
    for shelf in two.new.sag:
        if shelf.ok is not False or shelf.sag_m is None:
            continue
        old = before.get(shelf.row)
        values: dict[str, float | str] = {
            "span_m": shelf.span_m,
            "sag_m": shelf.sag_m,
            "seen_m": shelf.span_m * seen.value,
            "was_m": old.sag_m if old and old.sag_m is not None else 0.0,
            "load_kg": shelf.load_n_per_m * shelf.span_m / tables.constant("gravity"),
            "by": "told" if shelf.load_told else "books",
        }
        yield Unfit("sag", shelf.part, values, seen.source, before=bool(old and old.ok is False))


def _slots(two: _Two) -> Iterator[Unfit]:
    before = {slot.row: slot.ok for slot in slots_of(two.resized.old, two.old.movement)}
    for slot in slots_of(two.resized.new, two.new.movement):
        if not slot.ok:
            values = {"slot_m": slot.slot_m, "travel_m": slot.travel_m}
            yield Unfit("slot", slot.part, values, before=not before.get(slot.row, True))


def _openings(two: _Two) -> Iterator[Unfit]:
    before = {row.row: row.ok for row in two.old.movement}
    for row in two.new.movement:
        if row.ok is False and row.opening_m is not None and row.spare_m is not None:
            values = {
                "opening_m": row.opening_m,
                "width_m": row.width_m,
                "grows_m": row.grows_m,
                "short_m": -row.spare_m,
            }
            yield Unfit("opening", row.part, values, before=before.get(row.row) is False)


def _wide(two: _Two) -> Iterator[Unfit]:
    """Parts that take one board more than before."""
    usual = tables.constants()["board_widest"]
    for _, old, new in two.changed("width"):
        if new.kind != "wood" or not (old.width and new.width) or _resawn(new, two.resized.new):
            continue
        boards, were = (math.ceil((one.width.m - _HAIR_M) / usual.value) for one in (new, old) if one.width)
        if boards > were:
            values = {"width_m": new.width.m, "usual_m": usual.value, "boards": boards, "were": were}
            yield Unfit("wide", new.name, values, usual.source)


def _long(two: _Two) -> Iterator[Unfit]:
    """Parts longer than the boards that were bought for the past one, or than usual ones where no tally says."""
    usual, over_m = tables.constants()["board_longest"], allowances_of(two.resized.new).over_length_m
    boards = tallied(two.past)
    for _, old, new in two.changed("length"):
        if new.kind != "wood" or not (old.length and new.length):
            continue
        had = boards.get(new.key, ())
        most_m = max((board.length_m for board in had), default=usual.value)
        if new.length.m + over_m > most_m + _HAIR_M:
            values: dict[str, float | str] = {
                "length_m": new.length.m + over_m,
                "most_m": most_m,
                "by": "tally" if had else "usual",
            }
            source = "" if had else usual.source
            yield Unfit("long", new.name, values, source, before=old.length.m + over_m > most_m + _HAIR_M)


# -- doors, glass, the wall ------------------------------------------------------------------------------


def _doors(two: _Two) -> Iterator[tuple[Door, Door]]:
    """Doors that change, before and after."""
    old, new = (
        doors_of(job, {row.row: row.kg for row in summary.mass.parts})
        for job, summary in ((two.resized.old, two.old), (two.resized.new, two.new))
    )
    rows = {row for change in two.resized.changes for row in change.rows}
    before = {one.rows: one for one in old}
    for other in new:
        if other.rows & rows and other.rows in before:
            yield before[other.rows], other


def _proportions(two: _Two) -> Iterator[Unfit]:
    """Doors that are wider than high, or than doors of cabinets are."""
    wide, widest = tables.constants()["door_wide"], tables.constants()["door_widest"]
    for old, new in _doors(two):
        if new.width_m is None or new.height_m is None or old.width_m is None or old.height_m is None:
            continue
        values = {"width_m": new.width_m, "height_m": new.height_m, "was_m": old.width_m}
        if new.width_m > old.width_m and new.width_m > wide.value * new.height_m + _HAIR_M:
            was = old.width_m > wide.value * old.height_m + _HAIR_M
            yield Unfit("door", new.name, values | {"by": "high"}, wide.source, before=was)
        elif new.width_m > old.width_m and new.width_m > widest.value + _HAIR_M:
            was = old.width_m > widest.value + _HAIR_M
            yield Unfit("door", new.name, values | {"by": "wide"}, widest.source, before=was)


def _hinges(two: _Two) -> Iterator[Unfit]:
    """Doors that pull harder at their hinges; `by` says whether two still do by common practice."""
    high, heavy = tables.constants()["third_hinge_height"], tables.constants()["third_hinge_mass"]
    for old, new in _doors(two):
        if new.pull_n is None or old.pull_n is None or new.width_m is None or new.height_m is None:
            continue
        if new.kg <= old.kg and new.pull_n <= old.pull_n:
            continue
        third = high if new.height_m > high.value else heavy if new.kg > heavy.value else None
        few = third is not None and new.hinges is not None and new.hinges < 3
        values: dict[str, float | str] = {
            "width_m": new.width_m,
            "height_m": new.height_m,
            "now_kg": new.kg,
            "was_kg": old.kg,
            "pull_n": new.pull_n,
            "was_n": old.pull_n,
            "hinges": "" if new.hinges is None else f"{new.hinges:g}",
            "by": "third" if few else "look",
        }
        yield Unfit("hinges", new.name, values, third.source if third and few else "")


def _glass(two: _Two) -> Iterator[Unfit]:
    """Panes that grew: whether they are strong enough is not said by any table here."""
    grew: dict[int, tuple[Part, Part]] = {}
    for _, old, new in two.changed("length", "width"):
        if new.kind in ("glass", "stone"):
            grew[new.row] = old, new
    for old, new in grew.values():
        if not (old.length and old.width and new.length and new.width and new.thickness):
            continue
        if new.length.m > old.length.m or new.width.m > old.width.m:
            values = {
                "length_m": new.length.m,
                "width_m": new.width.m,
                "thickness_m": new.thickness.m,
                "old_length_m": old.length.m,
                "old_width_m": old.width.m,
            }
            yield Unfit("glass", new.name, values)


def _wall(two: _Two) -> Iterator[Unfit]:
    old, new = two.old.hanging, two.new.hanging
    if old is None or new is None:
        return
    if (new.shear_each_n, new.pull_each_n) != (old.shear_each_n, old.pull_each_n):
        values: dict[str, float | str] = {
            "fixings": new.fasteners,
            "now_kg": new.loaded_kg,
            "was_kg": old.loaded_kg,
            "down_n": new.shear_each_n,
            "out_n": new.pull_each_n,
            "was_down_n": old.shear_each_n,
            "was_out_n": old.pull_each_n,
            "use": "" if new.use_pct is None else f"{new.use_pct:.0f}",
        }
        yield Unfit("wall", new.method, values, before=bool(old.use_pct and old.use_pct > 100))


_FINDERS: tuple[Callable[[_Two], Iterator[Unfit]], ...] = (
    _sums, _leaves, _sheets, _sag, _proportions, _hinges, _slots, _openings, _wide, _long, _glass, _wall,
)  # fmt: skip
